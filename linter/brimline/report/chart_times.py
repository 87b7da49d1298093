"""Charts of process minutes against altitude, and of the moves of an adaptation beside its tested formula."""

from collections.abc import Callable, Iterator
from fractions import Fraction

from brimline.batch.words import feet, number
from brimline.report.drawing import (
    INK,
    LEVEL_INK,
    WIDTH,
    figure,
    hatched,
    lines_of,
    marker,
    rule,
    spread_bar,
    ticks,
    words,
)
from brimline.report.drawing import box as drawn_box
from brimline.report.markup import Element, Node, table
from brimline.report.words import counted
from brimline.review.values import Comparison, MoveRow
from brimline.review.weighed import Minutes, Weighing

HIGHEST_FT = 10_000.0
Scale = Callable[[float], float]
_MOST_MOVES = 24
_DASHES = ("", "7 4", "2 3", "9 3 2 3", "4 2", "12 4")
_SHAPES = ("circle", "square", "triangle", "diamond", "cross", "circle")


def times(weighed: Weighing, tested: Weighing | None) -> Element | None:
    """Steps of minutes over altitude, one line for each row of the formula's own table; nothing between the steps."""
    word = f"{weighed.standing} {weighed.code}: " if tested is not None else ""
    rows = [*_rows(weighed, word), *(_rows(tested, f"tested {tested.code}: ") if tested is not None else ())]
    if not rows:
        return None
    most = max([float(band.minutes) for _, one in rows for band in one.bands], default=10.0)
    left, bottom, wide, high = 34.0, 190.0, WIDTH - 44, 160.0
    top = max(most * 1.2, 10.0)

    def across(altitude: float) -> float:
        return left + min(altitude, HIGHEST_FT) / HIGHEST_FT * wide

    parts: list[Node] = list(_time_axes(left, bottom, wide, high, top))
    if weighed.altitude_ft is not None and weighed.altitude_ft <= HIGHEST_FT:
        x = across(float(weighed.altitude_ft))
        parts.append(rule(x, bottom, x, bottom - high, "1 3", thick="2"))
        parts.append(
            words(
                min(max(x, 40), WIDTH - 50),
                bottom - high - 2,
                f"here, {feet(weighed.altitude_ft, 'ft')}",
                "middle",
                weight="bold",
            )
        )
    for index, (_, one) in enumerate(rows):
        # Lines of equal times lie a little apart, so that none hides another.
        shift = 2.5 * index
        place = (index + 1) / (len(rows) + 1)
        parts += _steps(one, index, place, across, _upwards(bottom - shift, high / top))
    y = bottom + 50
    for index, (label, one) in enumerate(rows):
        parts.append(rule(2, y - 4, 34, y - 4, _DASHES[index % 6], thick="2.5"))
        parts.append(marker(18, y - 4, _SHAPES[index % 6], size=4.5))
        for line in lines_of(f"{label}{one.jar}, {one.method}{_says(one)}", 36):
            parts.append(words(40, y, line))
            y += 18
        y += 4
    made = table(
        "Minutes by altitude, from the formulas' own tables",
        ("jar", "method", "altitude", "minutes"),
        list(_table_rows(rows)),
        "table of minutes",
    )
    description = (
        "Minutes upwards, altitude from left to right, in steps as the table has them: there is no time between two "
        "steps and none where no line is drawn. A line that ends in an arrow goes on for every higher altitude."
    )
    return figure("times", "Process minutes by altitude", description, y, parts, made)


def _upwards(nought: float, each: float) -> Scale:
    """A scale that rises from its nought."""
    return lambda minutes: nought - minutes * each


def _rows(weighed: Weighing, word: str) -> Iterator[tuple[str, Minutes]]:
    """The rows of a formula; jars that take the same times of one method are told together."""
    told: dict[tuple[object, ...], list[Minutes]] = {}
    for one in weighed.minutes:
        key = (one.method, one.takes if one.says else "", tuple((b.minutes, b.up_to_ft, b.psi) for b in one.bands))
        told.setdefault(key, []).append(one)
    for same in told.values():
        first = same[0]
        jars = ", ".join(dict.fromkeys(one.jar for one in same))
        yield word, Minutes(first.method, jars, first.takes, first.minutes, first.psi, first.bands, first.says)


def _says(one: Minutes) -> str:
    return "" if one.bands else f": {one.says or 'no tested time'}"


def _time_axes(left: float, bottom: float, wide: float, high: float, top: float) -> Iterator[Node]:
    yield rule(left, bottom, left + wide, bottom)
    yield rule(left, bottom, left, bottom - high)
    for altitude in (0, 2000, 4000, 6000, 8000, 10000):
        x = left + altitude / HIGHEST_FT * wide
        yield rule(x, bottom, x, bottom + 4)
        if altitude < 10000:
            yield words(x, bottom + 17, f"{altitude:,}", "middle")
    yield words(left + wide, bottom + 33, "altitude, ft", "end")
    for minutes in ticks(top):
        if minutes <= top:
            y = bottom - minutes / top * high
            yield rule(left - 4, y, left, y)
            yield words(left - 6, y + 4, f"{minutes:g}", "end")
    yield words(2, bottom - high - 16, "minutes")


def _steps(one: Minutes, index: int, place: float, across: Scale, up: Scale) -> Iterator[Node]:
    """One row as level stretches, a mark on each, those of other rows at another place along it."""
    low = 0.0
    before: float | None = None
    dash = _DASHES[index % 6]
    for band in one.bands:
        end = HIGHEST_FT if band.up_to_ft is None else float(band.up_to_ft)
        if low >= HIGHEST_FT:
            break
        y, x1, x2 = up(float(band.minutes)), across(low), across(end)
        if before is not None:
            yield rule(x1, before, x1, y, dash, thick="2.5")
        yield rule(x1, y, x2, y, dash, thick="2.5")
        yield marker(x1 + (x2 - x1) * place, y, _SHAPES[index % 6], size=4.5)
        if band.up_to_ft is None:
            yield rule(x2 - 7, y - 5, x2, y, thick="2")
            yield rule(x2 - 7, y + 5, x2, y, thick="2")
        low, before = end, y


def _table_rows(rows: list[tuple[str, Minutes]]) -> Iterator[tuple[str, ...]]:
    for label, one in rows:
        jar = f"{label}{one.jar}"
        if not one.bands:
            yield jar, one.method, "every altitude", one.says or "no tested time"
            continue
        low = Fraction(0)
        for band in one.bands:
            unit = band.unit
            upper = f"above {feet(low, unit)}" if band.up_to_ft is None else f"up to {feet(band.up_to_ft, unit)}"
            pressure = "" if band.psi is None else f" at {number(band.psi)} psi"
            yield jar, one.method, upper, f"{number(band.minutes)}{pressure}"
            low = band.up_to_ft if band.up_to_ft is not None else low
        if one.bands[-1].up_to_ft is not None:
            yield jar, one.method, f"above {feet(low, one.bands[-1].unit)}", "no tested time"


def changes(comparison: Comparison) -> Element | None:
    """Every move with what it means; a bar where it is an amount, as a share of the tested one."""
    if not comparison.moves:
        return None
    shown = comparison.moves[:_MOST_MOVES]
    amounts = any(move.ratio is not None for move in shown)
    parts: list[Node] = []
    y, scale = 18.0 if amounts else 2.0, (WIDTH - 8) / 200
    if amounts:
        parts.append(words(2 + 100 * scale, 12, "100 % is as tested", "middle"))
    for move in shown:
        parts += _change(move, y, scale)
        y += 17 * len(_label(move)) + (26 if move.ratio is not None else 10)
    if amounts:
        for percent in (0, 50, 100, 150, 200):
            anchor = "start" if percent == 0 else "end" if percent == 200 else "middle"
            parts.append(words(2 + percent * scale, y + 10, f"{percent} %", anchor))
        y += 16
    if len(comparison.moves) > len(shown):
        parts.append(words(2, y + 14, f"{len(comparison.moves) - len(shown)} more in the table"))
        y += 20
    rows = [(move.subject, move.tested, move.here, move.change, move.meaning) for move in comparison.moves]
    description = (
        f"{counted(len(comparison.moves), 'move')} from {comparison.against}, read at {comparison.scale or '1.00'} of its "
        "batch, each with what it means in words. A bar is the amount here as a share of the tested amount, per base or at "
        "the scale, a line with ends its least and most; a move without a bar is no amount."
    )
    heads = ("what", "tested", "here", "change", "what it means")
    made = table(f"Moves from {comparison.against} {comparison.against_title}", heads, rows, "table of moves")
    return figure("moves", "The adaptation beside its tested formula", description, y, parts, made)


def _label(move: MoveRow) -> list[str]:
    return lines_of(f"{move.subject}: {move.change or 'changed'}; {move.meaning}")


def _change(move: MoveRow, y: float, scale: float) -> Iterator[Node]:
    """The words, the bar to the middle, the spread; beyond 200 % an arrow."""
    level = next((word for word in LEVEL_INK if word in move.meaning.split(":")[0]), "")
    ink = LEVEL_INK.get(level, INK)
    at = y
    for number_, line in enumerate(_label(move)):
        at = y + 13 + 17 * number_
        yield words(2, at, line, ink=ink, weight="bold" if level in ("unsafe", "unreadable") else "normal")
    if move.ratio is None:
        return
    low, high = (min(float(end) * 100, 200.0) for end in (move.ratio.low, move.ratio.high))
    middle = (low + high) / 2
    kind = "cross" if level in ("unsafe", "unreadable") else "slant" if level == "untested" else "plain"
    yield rule(2 + 100 * scale, at + 3, 2 + 100 * scale, at + 18, "3 3")
    yield drawn_box(2, at + 5, middle * scale, 10, hatched("moves", kind))
    if low != high:
        yield from spread_bar(2 + low * scale, 2 + high * scale, at + 10)
    if float(move.ratio.high) > 2:
        yield rule(WIDTH - 14, at + 5, WIDTH - 6, at + 10, thick="2")
        yield rule(WIDTH - 14, at + 15, WIDTH - 6, at + 10, thick="2")
