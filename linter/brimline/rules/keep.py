"""Keeping: how long and where a sealed, opened or uncooked product lasts."""

from collections.abc import Iterator
from fractions import Fraction

from brimline.batch.classes import GELLED_KINDS
from brimline.batch.words import decimal
from brimline.document.values import Keep
from brimline.findings import Flag
from brimline.moves.values import Case
from brimline.rules.contract import rule

DAY = Fraction(24)
WEEK = 7 * DAY
MONTH = Fraction(36525, 100) * DAY / 12
TWELVE_HOURS = Fraction(12)
ROUNDING = Fraction(102, 100)
# Weeks in the refrigerator or months in the freezer; where sources disagree the shorter is used (USDA Guide 7
# pp. 7-11 to 7-12; state bulletin "Canning Foods" p. 42, 3 weeks against Michigan State 01600553, 4 weeks; Utah State
# lemon curd page; all read. Opened reduced-sugar spread: National Center text, memory).
GELATIN_WEEKS = 4
UNCOOKED_WEEKS = 3
CURD_WEEKS = 1
OPENED_LOW_SUGAR_WEEKS = 4
FROZEN_MONTHS = 12
ROOM_WORDS = ("room", "shelf", "pantry", "cupboard", "cellar")


@rule("keep/stand", decides=("stand-shorter",))
def jars_stand_twelve_hours(case: Case) -> Iterator[Flag]:
    """Jars stand for twelve hours before they are moved.

    A gel that is moved while it sets may stay broken.
    """
    for row in case.document.keep:
        if row.kind == "stand" and row.high_h is not None and row.high_h < TWELVE_HOURS:
            yield Flag("stand-shorter", row.span, f"{decimal(row.high_h)} h of standing; twelve are usual.", ())


@rule("keep/life", decides=("life-longer-sealed", "life-longer-cold"))
def life_is_within_guidance(case: Case) -> Iterator[Flag]:
    """A stated life is within what guidance gives: twelve months sealed, weeks in the cold.

    Beyond it sealed food loses colour and taste, and unprocessed food molds or ferments.
    """
    for row in case.document.keep:
        if row.high_h is None:
            continue
        if row.kind == "sealed" and row.high_h > 12 * MONTH * ROUNDING:
            yield Flag("life-longer-sealed", row.span, f"{row.text}: guidance gives 12 months.", ())
        if any(word in row.text.lower() for word in ROOM_WORDS) or (row.kind == "sealed" and not _is_cold(row)):
            # Unprocessed and not kept cold: keep/shelf speaks of that.
            continue
        limit, words = _cold(case, row)
        if limit is not None and row.high_h > limit * ROUNDING:
            yield Flag("life-longer-cold", row.span, f"{row.text}: guidance gives {words}.", ())


def _is_cold(row: Keep) -> bool:
    where = " ".join((*row.where, row.text)).lower()
    return any(word in where for word in ("refriger", "chill", "cold", "freez", "frozen"))


def _cold(case: Case, row: Keep) -> tuple[Fraction | None, str]:
    """The published life of a cold product."""
    gelatin = any("gelatin" in one.tags for one in case.batch.items)
    where = " ".join(row.where).lower()
    methods = {process.method for process in case.document.process}
    unsealed = bool(methods) and methods <= {"refrigerator", "freezer"}
    if row.kind == "frozen":
        if gelatin:
            return Fraction(0), "no freezing for a gelatin spread"
        return FROZEN_MONTHS * MONTH, f"{FROZEN_MONTHS} months in the freezer"
    if row.kind in ("chilled", "uncooked") or (row.kind == "sealed" and unsealed):
        if "freez" in where or "frozen" in where:
            return FROZEN_MONTHS * MONTH, f"{FROZEN_MONTHS} months in the freezer"
        if case.document.product == "fruit curd":
            return CURD_WEEKS * WEEK, f"{CURD_WEEKS} week in the refrigerator"
        if gelatin:
            return GELATIN_WEEKS * WEEK, f"{GELATIN_WEEKS} weeks in the refrigerator"
        if case.document.product in GELLED_KINDS:
            return UNCOOKED_WEEKS * WEEK, f"{UNCOOKED_WEEKS} weeks in the refrigerator"
        # Unprocessed relish: one month (USDA Guide 6 p. 6-30, read); no figure was read for other kinds.
        return (MONTH, "1 month in the refrigerator") if case.document.product == "relish" else (None, "")
    if row.kind == "opened" and _low_sugar(case):
        return OPENED_LOW_SUGAR_WEEKS * WEEK + 3 * DAY, f"{OPENED_LOW_SUGAR_WEEKS} weeks once opened"
    return None, ""


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
