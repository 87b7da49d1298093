"""Keeping: how long and where a sealed, opened or uncooked product lasts."""

from collections.abc import Iterator
from fractions import Fraction

from brimline.batch.classes import GELLED_KINDS
from brimline.batch.words import decimal
from brimline.document.values import Keep
from brimline.findings import Flag
from brimline.moves.values import Case
from brimline.rules.contract import rule

HOUR = Fraction(60)
ROUNDING = Fraction(102, 100)
ROOM_WORDS = ("room", "shelf", "pantry", "cupboard", "cellar")


@rule("keep/stand", decides=("stand-shorter",))
def jars_stand_twelve_hours(case: Case) -> Iterator[Flag]:
    """Jars stand for twelve hours before they are moved.

    A gel that is moved while it sets may stay broken.
    """
    usual = case.printed("jelly_do_not_move", "stand").low / HOUR
    for row in case.document.keep:
        if row.kind == "stand" and row.high_h is not None and row.high_h < usual:
            says = f"{decimal(row.high_h)} h of standing; {decimal(usual)} h are usual."
            yield Flag("stand-shorter", row.span, says)


@rule("keep/life", decides=("life-longer-sealed", "life-longer-cold"))
def life_is_within_guidance(case: Case) -> Iterator[Flag]:
    """A stated life is within what guidance gives: twelve months sealed, weeks in the cold.

    Beyond it sealed food loses colour and taste, and unprocessed food molds or ferments.
    """
    for row in case.document.keep:
        if row.high_h is None:
            continue
        if row.kind == "sealed" and row.high_h > _hours(case, "sealed_shelf", "best") * ROUNDING:
            words = case.printed_words("sealed_shelf", "best")
            yield Flag("life-longer-sealed", row.span, f"{row.text}: guidance gives {words}.", source="sealed_shelf")
        if any(word in row.text.lower() for word in ROOM_WORDS) or (row.kind == "sealed" and not _is_cold(row)):
            # Unprocessed and not kept cold: keep/shelf speaks of that.
            continue
        limit = _cold(case, row)
        if limit is None:
            continue
        figure, name, where = limit
        if not name:
            yield Flag("life-longer-cold", row.span, f"{row.text}: guidance gives {where}.", source=figure)
        elif row.high_h > _hours(case, figure, name) * ROUNDING:
            words = case.printed_words(figure, name)
            yield Flag("life-longer-cold", row.span, f"{row.text}: guidance gives {words} {where}.", source=figure)


def _hours(case: Case, figure: str, name: str) -> Fraction:
    return case.printed(figure, name).high / HOUR


def _is_cold(row: Keep) -> bool:
    where = " ".join((*row.where, row.text)).lower()
    return any(word in where for word in ("refriger", "chill", "cold", "freez", "frozen"))


def _cold(case: Case, row: Keep) -> tuple[str, str, str] | None:
    """The published life of a cold product: the figure, its number, and where; no number means not at all.

    Where sources disagree the shorter life is used: the figure that the tables mark as cautious.
    """
    gelatin = any("gelatin" in one.tags for one in case.batch.items)
    where = " ".join(row.where).lower()
    methods = {process.method for process in case.document.process}
    unsealed = bool(methods) and methods <= {"refrigerator", "freezer"}
    match row.kind:
        case "frozen" if gelatin:
            return "gelatin_spread", "", "no freezing for a gelatin spread"
        case "frozen":
            return "uncooked_jam_3_weeks", "frozen", "in the freezer"
        case "opened":
            return ("opened_reduced_sugar", "refrigerated", "once opened") if _low_sugar(case) else None
        case "sealed" if not unsealed:
            return None
        case "stand":
            return None
    if "freez" in where or "frozen" in where:
        return "uncooked_jam_3_weeks", "frozen", "in the freezer"
    figure, name = LIFE.get("gelatin" if gelatin else case.document.product, ("", ""))
    return (figure, name, "in the refrigerator") if figure else None


# What each product lasts in the refrigerator where it is not processed; of other kinds no figure was read.
LIFE = dict.fromkeys(GELLED_KINDS, ("uncooked_jam_3_weeks", "refrigerated")) | {
    "gelatin": ("gelatin_spread", "refrigerated"),
    "fruit curd": ("storage/lemon_curd", "fresh, refrigerated"),
    "relish": ("unprocessed_relish", "refrigerated"),
}


def _low_sugar(case: Case) -> bool:
    return any(one.tags & {"pectin-low-sugar", "pectin-calcium", "non-sugar"} for one in case.batch.items)


@rule("keep/shelf", decides=("shelf-uncooked",))
def uncooked_spreads_are_kept_cold(case: Case) -> Iterator[Flag]:
    """A spread that is not processed is kept in the refrigerator or freezer.

    At room temperature it molds or ferments in a short time, and nothing in it has been made to keep.
    """
    stated = case.document.process or (case.tested.process if case.tested else ())
    methods = {process.method for process in stated}
    if not methods or not methods <= {"refrigerator", "freezer"}:
        return
    for row in case.document.keep:
        where = " ".join((*row.where, row.text)).lower()
        cold = _is_cold(row)
        shelf = any(word in where for word in ROOM_WORDS) or (row.kind == "sealed" and not cold)
        if row.kind in ("sealed", "uncooked", "chilled") and shelf and not cold:
            yield Flag("shelf-uncooked", row.span, f"No process, and kept {row.text}.", ())
