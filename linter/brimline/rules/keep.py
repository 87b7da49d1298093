"""Keeping: how long and where a sealed, opened or uncooked product lasts."""

from collections.abc import Iterator
from fractions import Fraction

from brimline.batch.classes import GELLED_KINDS
from brimline.batch.words import decimal
from brimline.document.values import Keep, Process
from brimline.findings import Flag
from brimline.moves.values import Case
from brimline.rules.contract import rule
from brimline.rules.jar import COLD
from brimline.rules.say import before_span

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
        if row.kind == "sealed" and _longer(case, row, "sealed_shelf", "best"):
            words = case.printed_words("sealed_shelf", "best")
            yield Flag("life-longer-sealed", row.span, f"{row.text}: guidance gives {words}.", source="sealed_shelf")
        # Unprocessed and not kept cold: keep/shelf speaks of that.
        limit = None if _at_room(row) else _cold(case, row)
        if limit is None or row.high_h is None:
            continue
        figure, name, where = limit
        if not name:
            yield Flag("life-longer-cold", row.span, f"{row.text}: guidance gives {where}.", source=figure)
        elif _longer(case, row, figure, name):
            words = case.printed_words(figure, name)
            yield Flag("life-longer-cold", row.span, f"{row.text}: guidance gives {words} {where}.", source=figure)


def _longer(case: Case, row: Keep, figure: str, name: str) -> bool:
    """Whether a row of keeping says more time than a published life, beyond the rounding of months and weeks."""
    return row.high_h is not None and row.high_h * HOUR > case.printed(figure, name).high * ROUNDING


def _at_room(row: Keep) -> bool:
    """Whether a row says a place that is not cold, or is of a sealed jar and says no cold place."""
    return any(word in row.text.lower() for word in ROOM_WORDS) or (row.kind == "sealed" and not _is_cold(row))


def _is_cold(row: Keep) -> bool:
    return any(word in row.text.lower() for word in ("refriger", "chill", "cold", "freez", "frozen"))


def _cold(case: Case, row: Keep) -> tuple[str, str, str] | None:
    """The published life of a cold product: the figure, its number, and where; no number means not at all.

    Where sources disagree the shorter life is used: the figure that the tables mark as cautious.
    """
    gelatin = any("gelatin" in one.tags for one in case.batch.items)
    where = " ".join(row.where).lower()
    match row.kind:
        case "frozen" if gelatin:
            return "gelatin_spread", "", "no freezing for a gelatin spread"
        case "frozen":
            return "uncooked_jam_3_weeks", "frozen", "in the freezer"
        case "opened":
            return ("opened_reduced_sugar", "refrigerated", "once opened") if _low_sugar(case) else None
        case "sealed" if not _is_uncooked(case.document.process):
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


def _is_uncooked(processes: tuple[Process, ...]) -> bool:
    """Whether something is only kept cold."""
    return bool(processes) and all(process.method in COLD for process in processes)


def _low_sugar(case: Case) -> bool:
    return any(one.tags & {"pectin-low-sugar", "pectin-calcium", "non-sugar"} for one in case.batch.items)


@rule("keep/shelf", decides=("shelf-uncooked",))
def uncooked_spreads_are_kept_cold(case: Case) -> Iterator[Flag]:
    """A spread that is not processed is kept in the refrigerator or freezer; a canner time of one's own does not change that.

    At room temperature it molds or ferments in a short time, and nothing in it has been made to keep.
    """
    tested = case.tested.process if case.tested else ()
    if not _is_uncooked(case.document.process or tested):
        if _is_uncooked(tested) and not _only_cold(case.document.keep):
            says = (
                f"The tested formula is made for the {tested[0].method} and has no time in a canner to keep on a shelf."
            )
            place = before_span(case, tested[0].span)
            yield Flag("shelf-uncooked", case.document.process[0].span, says, (), place)
        return
    for row in case.document.keep:
        if row.kind in ("sealed", "uncooked", "chilled") and _at_room(row) and not _is_cold(row):
            yield Flag("shelf-uncooked", row.span, f"No process, and kept {row.text}.", ())


def _only_cold(rows: tuple[Keep, ...]) -> bool:
    """Whether every jar that is not opened is kept in a cold place."""
    closed = [row for row in rows if row.kind not in ("stand", "opened")]
    return bool(closed) and all(map(_is_cold, closed))
