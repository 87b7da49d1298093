"""The chart of where a formula stands between sugar and acid, with the published window of the set."""

from collections.abc import Iterator
from fractions import Fraction

from brimline.batch.models.gel import Window
from brimline.figures.values import Interval
from brimline.report.amounts import NO_FIGURE, percents
from brimline.report.drawing import INK, WIDTH, box, figure, halo, hatched, lines_of, marker, rule, ticks, words
from brimline.report.markup import Element, Node, element, table
from brimline.review.weighed import Finished, Weighing

# The field of the plane in the chart's units.
LEFT, BOTTOM, WIDE, HIGH = 34.0, 216.0, WIDTH - 44, 190.0
# Nought stands above the axis, so that a mark without added acid is seen whole.
ZERO = BOTTOM - 16


class Frame:
    """The scales of the plane: per cent across, grams upwards to `top`."""

    __slots__ = ("top",)

    def __init__(self, top: float) -> None:
        self.top = top

    def across(self, percent: float) -> float:
        """Where a share in per cent stands."""
        return LEFT + percent / 100 * WIDE

    def up(self, grams: float) -> float:
        """Where an amount of acid stands."""
        return ZERO - grams / self.top * (HIGH - (BOTTOM - ZERO))


def acid_per_kg(weighed: Weighing) -> Interval | None:
    """Added acid in g (as citric acid) for each kg of base; None where a weight or strength is not known."""
    base = weighed.base
    if base is None or not base.low or any(one.citric is None or one.per for one in weighed.acids):
        return None
    spans = [one.citric for one in weighed.acids if one.citric is not None]
    low, high = sum((one.low for one in spans), Fraction(0)), sum((one.high for one in spans), Fraction(0))
    return Interval(low / base.high * 1000, high / base.low * 1000)


def solids_of(weighed: Weighing, done: bool) -> Interval | None:
    """Soluble solids in per cent, when done or before boiling."""
    finished = weighed.finished
    if done and isinstance(finished, Finished):
        share = finished.solids_share
        return Interval(Fraction(share.low) * 100, Fraction(share.high) * 100)
    share_before = weighed.solids_share
    return None if done or share_before is None else Interval(share_before.low * 100, share_before.high * 100)


def plane(weighed: Weighing, tested: Weighing | None) -> Element:
    """Soluble solids across, added acid upwards, before boiling and when done; the published window as a strip."""
    both = [(one, f"{word} {one.code}".strip(), shape) for one, word, shape in _formulas(weighed, tested)]
    window = next((found for one, _, _ in both if (found := _window(one)) is not None), None)
    acids = [acid for one, _, _ in both if (acid := acid_per_kg(one)) is not None]
    at = Frame(max([float(acid.high) for acid in acids], default=0.0) * 1.25 or 2.0)
    parts: list[Node] = []
    if window is not None:
        low, most = at.across(float(window.solids.low)), at.across(float(window.solids.high))
        parts.append(box(low, BOTTOM - HIGH, most - low, HIGH, hatched("plane", "slant")))
    parts += _axes(at)
    for part in (_spreads, _marks):
        for one, _, shape in both:
            parts += part(one, shape, at)
    y, said = BOTTOM + 54, ""
    for _, label, shape in both:
        legend = lines_of(f"{label}: before boiling, when done", 36)
        parts += _legend(y, shape, legend)
        y += 13 + 17 * len(legend)
    if window is not None:
        strip = f"{float(window.solids.low):g} to {float(window.solids.high):g} %"
        parts.append(box(2, y - 8, 26, 12, hatched("plane", "slant")))
        legend = lines_of(f"{window.kind} pectin is published to set: {strip}", 36)
        parts += _lines(36, y + 3, legend)
        y += 17 * len(legend)
        said = (
            f" The hatched strip is where {window.kind} pectin is published to set, {strip} of soluble solids with "
            f"{window.needs}; the acid it needs is published as a pH, which is not computed here."
        )
    rows = [
        (label, _percent(solids_of(one, False)), _percent(solids_of(one, True)), _acid_words(one))
        for one, label, _ in both
    ]
    description = (
        "Soluble solids from left to right, added acid upwards in g of citric acid for each kg of base; the acid of the "
        "fruit itself is not counted. A small mark is the batch before boiling, a large one when it is done, estimated; the "
        "broken line between them is the boiling down. Thin lines show the least and the most."
        f"{said} Where a mark stands says nothing about whether it was tested."
    )
    heads = ("formula", "soluble solids before boiling", "when done, estimated", "added acid for each kg of base")
    made = table("Sugar and acid", heads, rows, "table of sugar and acid")
    if not any(acid_per_kg(one) is not None and one.solids_share is not None for one, _, _ in both):
        return element("div", element("p", "There is no figure for a mark between sugar and acid."), made)
    return figure("plane", "Where it stands between sugar and acid", description, y, parts, made)


def _formulas(weighed: Weighing, tested: Weighing | None) -> Iterator[tuple[Weighing, str, str]]:
    """The formulas of a page with their word and shape, the tested one first so that its larger mark lies below."""
    if tested is not None:
        yield tested, "tested", "square"
    yield weighed, weighed.standing or "formula", "circle" if tested is not None else "square"


def _window(one: Weighing) -> Window | None:
    return one.finished.window if isinstance(one.finished, Finished) else None


def _percent(solids: Interval | None) -> str:
    return NO_FIGURE if solids is None else percents(Interval(solids.low / 100, solids.high / 100))


def _acid_words(one: Weighing) -> str:
    acid = acid_per_kg(one)
    return f"{_two(acid)} g" if acid is not None else _why_no_acid(one)


def _why_no_acid(one: Weighing) -> str:
    if any(acid.per for acid in one.acids):
        return "acid is put into each jar, not into the pot"
    return NO_FIGURE


def _two(span: Interval) -> str:
    low, high = f"{float(span.low):.1f}", f"{float(span.high):.1f}"
    return low if low == high else f"{low} to {high}"


def _axes(at: Frame) -> Iterator[Node]:
    right = LEFT + WIDE
    yield rule(LEFT, BOTTOM, right, BOTTOM)
    yield rule(LEFT, BOTTOM, LEFT, BOTTOM - HIGH)
    for percent in (0, 20, 40, 60, 80, 100):
        x = at.across(percent)
        yield rule(x, BOTTOM, x, BOTTOM + 4)
        yield words(x, BOTTOM + 17, str(percent), "middle" if percent < 100 else "end")
    yield words(right, BOTTOM + 33, "soluble solids, %", "end")
    for grams in ticks(at.top):
        if grams <= at.top:
            yield rule(LEFT - 4, at.up(grams), LEFT, at.up(grams))
            yield words(LEFT - 6, at.up(grams) + 4, f"{grams:g}", "end")
    yield words(2, BOTTOM - HIGH - 12, "added acid, g for each kg of base")


def _spreads(one: Weighing, shape: str, at: Frame) -> Iterator[Node]:
    """The boiling down of one formula as a broken line, the least and most when done as thin lines."""
    del shape
    acid, before, done = acid_per_kg(one), solids_of(one, False), solids_of(one, True)
    if acid is None or done is None:
        return
    x, y = at.across(float(done.middle)), at.up(float(acid.middle))
    if before is not None:
        yield rule(at.across(float(before.middle)), y, x, y, "4 3")
    if not done.exact:
        yield halo(at.across(float(done.low)), y, at.across(float(done.high)), y)
    if not acid.exact:
        yield halo(x, at.up(float(acid.low)), x, at.up(float(acid.high)))


def _marks(one: Weighing, shape: str, at: Frame) -> Iterator[Node]:
    """The two marks of one formula; nothing where a figure is missing."""
    acid = acid_per_kg(one)
    for solids, large in ((solids_of(one, False), False), (solids_of(one, True), True)):
        if solids is not None and acid is not None:
            yield marker(at.across(float(solids.middle)), at.up(float(acid.middle)), shape, INK, _size(shape, large))


def _size(shape: str, large: bool) -> float:
    """The tested formula's mark is the larger, so that it shows around one that covers it."""
    if shape == "square":
        return 8.5 if large else 5.0
    return 5.0 if large else 2.5


def _legend(y: float, shape: str, lines: list[str]) -> Iterator[Node]:
    """What the two marks of a formula are, in words beside them."""
    yield marker(8, y, shape, INK, _size(shape, False))
    yield rule(14, y, 24, y, "4 3")
    yield marker(34, y, shape, INK, _size(shape, True))
    yield from _lines(50, y + 4, lines)


def _lines(x: float, y: float, lines: list[str]) -> Iterator[Node]:
    for number, line in enumerate(lines):
        yield words(x, y + 17 * number, line)
