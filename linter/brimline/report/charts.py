"""Charts of a weighing: what goes in, the batch before boiling and when done, where it stands between sugar and acid."""

from collections.abc import Iterator
from fractions import Fraction

from brimline.batch.models.values import Estimate, NoFigure
from brimline.figures.values import Interval
from brimline.report.drawing import (
    GREY,
    INK,
    WIDTH,
    box,
    figure,
    hatched,
    marker,
    rule,
    spread_bar,
    ticks,
    words,
)
from brimline.report.markup import Element, Node, table
from brimline.report.weighing import NO_FIGURE, masses, percents
from brimline.review.weighed import Finished, WeighedLine, Weighing

# Which hatching a role has; the word stands beside every bar.
_ROLE_HATCH = {"fruit": "slant", "juice": "slant", "vegetable": "slant", "peel": "slant", "dried-fruit": "slant",
               "sweetener": "dots", "acid": "cross", "pectin": "upright", "liquid": "flat"}  # fmt: skip
_MOST_LINES = 40


def ingredients(weighed: Weighing) -> Element:
    """A bar for each line by mass, to its middle, with the least and the most where it is not known exactly."""
    lines = weighed.lines
    most = float(max((line.grams.high for line in lines if line.grams), default=Fraction(1))) or 1.0
    parts: list[Node] = []
    y = 0.0
    for line in lines[:_MOST_LINES]:
        parts += _ingredient_bar(line, y, most)
        y += 36
    if len(lines) > _MOST_LINES:
        parts.append(words(2, y + 14, f"{len(lines) - _MOST_LINES} more in the table"))
        y += 20
    rows = [
        (line.item, line.role, line.amount, masses(line.grams) if line.grams else NO_FIGURE, line.fate or "goes in")
        for line in lines
    ]
    heads = ("ingredient", "role", "as written", "weight", "what becomes of it")
    heaviest = max(
        (line for line in lines if line.grams), key=lambda one: one.grams.middle if one.grams else 0, default=None
    )
    said = f" The heaviest is {heaviest.item}, {masses(heaviest.grams)}." if heaviest and heaviest.grams else ""
    description = (
        f"One bar for each of {len(lines)} lines, as long as its weight; a line with ends shows the least and the most "
        f"where a cup may weigh more or less.{said}"
    )
    made = table("What goes in, line by line", heads, rows, "table of ingredients")
    return figure("mass", "Ingredients by mass", description, max(y, 20), parts, made)


def _ingredient_bar(line: WeighedLine, y: float, most: float) -> Iterator[Node]:
    if line.grams is None:
        yield words(2, y + 12, f"{line.item}: {NO_FIGURE}")
        yield rule(2, y + 24, 14, y + 24, "2 2", GREY)
        return
    yield words(2, y + 12, f"{line.item}: {masses(line.grams)}")
    scale = (WIDTH - 8) / most
    kind = _ROLE_HATCH.get(line.role, "plain")
    yield box(2, y + 17, float(line.grams.middle) * scale, 12, hatched("mass", kind))
    if not line.grams.exact:
        yield from spread_bar(2 + float(line.grams.low) * scale, 2 + float(line.grams.high) * scale, y + 23)


def before_and_after(weighed: Weighing) -> Element | None:
    """The batch before boiling and when done as sugar, other soluble solids, and water with what does not dissolve."""
    done = weighed.finished
    if isinstance(done, NoFigure) or not weighed.total.high:
        return None
    before = _shares(float(weighed.total.middle), float(weighed.sugar.middle), float(weighed.solids.middle))
    sugar = min(done.sugar_share.middle * done.mass.middle, float(weighed.solids.middle))
    after = _shares(done.mass.middle, sugar, float(weighed.solids.middle))
    scale = (WIDTH - 8) / max(sum(before), sum(after))
    kinds = (
        ("dots", "sugar of the sweeteners"),
        ("slant", "other soluble solids"),
        ("plain", "water, seeds and fibre"),
    )
    parts: list[Node] = []
    for row, (label, shares) in enumerate((("before boiling", before), ("when done, estimated", after))):
        y = row * 52.0
        parts.append(words(2, y + 12, f"{label}: {_kilo(sum(shares))}", weight="bold"))
        x = 2.0
        for (kind, _), grams in zip(kinds, shares, strict=True):
            parts.append(box(x, y + 18, grams * scale, 22, hatched("done", kind)))
            x += grams * scale
    for number, (kind, label) in enumerate(kinds):
        y = 112 + number * 20.0
        parts.append(box(2, y, 16, 12, hatched("done", kind)))
        parts.append(words(24, y + 11, label))
    rows = [(label, _kilo(one), _kilo(two)) for (_, label), one, two in zip(kinds, before, after, strict=True)]
    rows.append(("all", _kilo(sum(before)), _kilo(sum(after))))
    rows.append(
        (
            "soluble solids, share of the liquid part",
            percents(weighed.solids_share) if weighed.solids_share else NO_FIGURE,
            estimate(done.solids_share),
        )
    )
    description = (
        f"Two bars as long as the batch is heavy. {done.assumes[:1].upper()}{done.assumes[1:]}. The parts are the middle of "
        f"what is known; the table has the share of soluble solids with its least and most."
    )
    made = table(
        "The batch before boiling and when done", ("part", "before boiling", "when done"), rows, "table of parts"
    )
    return figure("done", "Before boiling and when done", description, 112 + 60, parts, made)


def _shares(whole: float, sugar: float, solids: float) -> tuple[float, float, float]:
    sugar = min(sugar, solids, whole)
    rest = max(min(solids, whole) - sugar, 0.0)
    return sugar, rest, max(whole - sugar - rest, 0.0)


def _kilo(grams: float) -> str:
    return f"{grams / 1000:.2f} kg" if grams >= 1000 else f"{grams:.0f} g"


def estimate(share: Estimate) -> str:
    """A share in per cent: the middle, then both ends."""
    low, middle, high = (f"{one * 100:.0f}" for one in (share.low, share.middle, share.high))
    return f"{middle} %" if low == high else f"{middle} % ({low} to {high})"


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
    """Soluble solids across, added acid upwards; the published window of the set as a hatched strip."""
    both = [one for one in (tested, weighed) if one is not None]
    done = all(isinstance(one.finished, Finished) for one in both)
    points = [(one, solids_of(one, done), acid_per_kg(one)) for one in both]
    window = next(
        (one.finished.window for one in both if isinstance(one.finished, Finished) and one.finished.window), None
    )
    top = max([float(acid.high) for _, _, acid in points if acid], default=0.0) * 1.25 or 2.0
    left, bottom, wide, high = 34.0, 216.0, WIDTH - 44, 190.0

    def across(percent: float) -> float:
        return left + percent / 100 * wide

    def up(grams: float) -> float:
        return bottom - grams / top * high

    parts: list[Node] = []
    if window is not None:
        low, most = float(window.solids.low), float(window.solids.high)
        parts.append(box(across(low), bottom - high, across(most) - across(low), high, hatched("plane", "slant")))
    parts += _axes(left, bottom, wide, high, top)
    for one, solids, acid in points:
        if solids is not None and acid is not None:
            parts += _point(one, solids, acid, (across, up), len(both) > 1 and one is tested)
    when = "when done, estimated" if done else "before boiling"
    said = ""
    if window is not None:
        strip = f"{float(window.solids.low):g} to {float(window.solids.high):g} %"
        parts.append(box(2, 262, 16, 12, hatched("plane", "slant")))
        parts.append(words(24, 273, f"{strip}: {window.kind} pectin sets, as published"))
        said = (
            f" The hatched strip is where {window.kind} pectin is published to set, {strip} of soluble solids with "
            f"{window.needs}; the acid it needs is published as a pH, which is not computed here."
        )
    rows = [
        (
            f"{'adapted' if one is weighed and tested is not None else one.standing or 'formula'} {one.code}",
            percents(Interval(solids.low / 100, solids.high / 100)) if solids is not None else NO_FIGURE,
            f"{_two(acid)} g" if acid is not None else _why_no_acid(one),
        )
        for one, solids, acid in points
    ]
    description = (
        f"Soluble solids {when} from left to right, added acid upwards in g of citric acid for each kg of base. A cross "
        f"of lines shows from the least to the most. The acid of the fruit itself is not counted.{said}"
    )
    made = table(
        "Sugar and acid",
        ("formula", f"soluble solids {when}", "added acid for each kg of base"),
        rows,
        "table of sugar and acid",
    )
    return figure("plane", "Where it stands between sugar and acid", description, 282, parts, made)


def _why_no_acid(one: Weighing) -> str:
    if any(acid.per for acid in one.acids):
        return "acid is put into each jar, not into the pot"
    return NO_FIGURE


def _two(span: Interval) -> str:
    low, high = f"{float(span.low):.1f}", f"{float(span.high):.1f}"
    return low if low == high else f"{low} to {high}"


def _axes(left: float, bottom: float, wide: float, high: float, top: float) -> Iterator[Node]:
    yield rule(left, bottom, left + wide, bottom)
    yield rule(left, bottom, left, bottom - high)
    for percent in (0, 20, 40, 60, 80, 100):
        x = left + percent / 100 * wide
        yield rule(x, bottom, x, bottom + 4)
        yield words(x, bottom + 17, str(percent), "middle" if percent < 100 else "end")
    yield words(left + wide, bottom + 33, "soluble solids, %", "end")
    for grams in ticks(top):
        if grams <= top:
            y = bottom - grams / top * high
            yield rule(left - 4, y, left, y)
            yield words(left - 6, y + 4, f"{grams:g}", "end")
    yield words(2, bottom - high - 12, "added acid, g for each kg of base")


def _point(one: Weighing, solids: Interval, acid: Interval, scales: tuple, is_tested: bool) -> Iterator[Node]:  # type: ignore[type-arg]
    across, up = scales
    x, y = across(float(solids.middle)), up(float(acid.middle))
    yield rule(across(float(solids.low)), y, across(float(solids.high)), y)
    yield rule(x, up(float(acid.low)), x, up(float(acid.high)))
    yield marker(x, y, "square" if is_tested else "circle", INK)
    word = "tested" if is_tested else one.standing or "formula"
    label = f"{word} {one.code}".strip()
    # Below the tested point, above the other, so that two points at one place keep both their words.
    near = y + 20 if is_tested else y - 12
    near = y - 12 if near > 212 else near
    start = x < WIDTH / 2
    yield words(x + (9 if start else -9), near, label, "start" if start else "end", weight="bold")
