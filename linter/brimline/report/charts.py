"""Charts of a weighing: what goes in, the batch before boiling and when done."""

from collections.abc import Iterator
from fractions import Fraction

from brimline.batch.models.values import Estimate, NoFigure
from brimline.report.amounts import NO_FIGURE, masses, percents
from brimline.report.drawing import (
    GREY,
    LETTERS,
    WIDTH,
    box,
    cut,
    figure,
    hatched,
    rule,
    spread_bar,
    words,
)
from brimline.report.look import cells
from brimline.report.markup import Element, Node, table
from brimline.report.weighing import fate_words
from brimline.review.weighed import WeighedLine, Weighing

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
        y += 40
    if len(lines) > _MOST_LINES:
        parts.append(words(2, y + 15, f"{len(lines) - _MOST_LINES} more in the table"))
        y += 20
    rows = [
        (
            line.item,
            line.role,
            line.amount,
            masses(line.grams) if line.grams else NO_FIGURE,
            fate_words(line) or "goes in",
        )
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
        yield words(2, y + 13, f"{line.item}: {NO_FIGURE}")
        yield rule(2, y + 26, 14, y + 26, "2 2", GREY)
        return
    weight = masses(line.grams) + (f" {line.fate}" if line.fate.startswith("per ") else "")
    yield words(2, y + 13, f"{cut(line.item, LETTERS - cells(weight) - 2)}: {weight}")
    scale = (WIDTH - 8) / most
    kind = _ROLE_HATCH.get(line.role, "plain")
    yield box(2, y + 19, float(line.grams.middle) * scale, 12, hatched("mass", kind))
    if float(line.grams.high - line.grams.low) * scale > 3:
        yield from spread_bar(2 + float(line.grams.low) * scale, 2 + float(line.grams.high) * scale, y + 25)


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
        parts.append(words(2, y + 13, f"{label}: {_kilo(sum(shares))}", weight="bold"))
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
