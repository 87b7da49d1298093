"""Exact quantities as amounts a kitchen can measure, never rounded to the wrong side.

Pure functions of exact numbers: grams and millilitres in, measures out. A measure that cannot be had within the limits
is not offered; the caller then keeps what was written.
"""

from collections.abc import Iterator
from fractions import Fraction
from math import ceil, floor

from msgspec import Struct

from brimline.document import units
from brimline.document.values import Measure

# Which way an amount may be rounded: never down, never up, or to the nearest.
UP, DOWN, NEAR = "up", "down", "near"
# An amount within 2 % of the exact one is the same amount (edits.yaml, `same`). Up, a metric spoon of 5 ml for a teaspoon
# has to be allowed (1.4 %); down and to the nearest an amount stays within 1 %, so that the US and the metric rounding
# of one exact value are within 2 % of each other too.
MOST_UP = Fraction(2, 100)
MOST_DOWN = NEAREST = Fraction(99, 10_000)
METRIC_UNITS = frozenset({"g", "kg", "mg", "ml", "l", "cl", "dl"})


class Rung(Struct, frozen=True):
    """A measure of a kitchen: its unit, the parts of it that are sold or marked, and how many are counted at most."""

    unit: str
    parts: tuple[Fraction, ...]
    most: int

    @property
    def size(self) -> Fraction:
        """Millilitres or grams in one."""
        return units.units()[self.unit].factor


def _parts(*texts: str) -> tuple[Fraction, ...]:
    return (Fraction(0), *(Fraction(text) for text in texts))


# Cups and spoons as they are sold in sets, a scale of quarter ounces (common practice, no source).
_CUP = Rung("cup", _parts("1/4", "1/3", "1/2", "2/3", "3/4"), 400)
_TBSP = Rung("tbsp", _parts(), 3)
_TSP = Rung("tsp", _parts("1/16", "1/8", "1/4", "1/3", "3/8", "1/2", "5/8", "2/3", "3/4", "7/8"), 2)
_LB = Rung("lb", _parts("1/4", "1/2", "3/4"), 400)
_OZ = Rung("oz", _parts("1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"), 15)
LADDERS = {"volume": (_CUP, _TBSP, _TSP), "mass": (_LB, _OZ)}
# Other measures an author may keep, where the number is one that they are marked for.
_KEPT = {
    "fl oz": Rung("fl oz", _parts("1/2"), 64),
    "pint": Rung("pint", _parts("1/2"), 16),
    "qt": Rung("qt", _parts("1/4", "1/2", "3/4"), 100),
    "gal": Rung("gal", _parts("1/4", "1/2", "3/4"), 100),
    **{one.unit: one for ladder in LADDERS.values() for one in ladder},
}
_STEPS = tuple(
    Fraction(text)
    for text in ("100", "50", "25", "10", "5", "1", "0.5", "0.25", "0.1", "0.05", "0.01", "0.001", "0.0001")
)
_LARGEST = 99_999


def fits(value: Fraction, exact: Fraction, way: str) -> bool:
    """Whether a rounded amount is on its side of the exact one and the same amount by the decision table."""
    if way == UP:
        return exact <= value <= exact * (1 + MOST_UP)
    if way == DOWN:
        return exact * (1 - MOST_DOWN) <= value <= exact
    return abs(value - exact) <= exact * NEAREST


def us(low: Fraction, high: Fraction, dimension: str, way: str, own: str = "") -> tuple[Measure, ...] | None:
    """US customary measures of an amount in g or ml: one, or a sum of up to three; None if there is no good one.

    `own` is the unit it was written in, kept where the number is one that a kitchen has. A range is one measure.
    """
    ladder = LADDERS[dimension]
    kept = _KEPT.get(own)
    if low != high:
        return _us_range(low, high, (*([kept] if kept else []), *ladder), way)
    if kept is not None and (count := low / kept.size) <= kept.most and count % 1 in kept.parts:
        return (Measure(count, count, own),)
    found = [
        (_rank(sum_, low), sum_)
        for terms in (1, 2, 3)
        for sum_ in _sums(low, ladder, terms)
        if fits(_worth(sum_), low, way)
    ]
    if not found:
        return None
    return tuple(Measure(count, count, rung.unit) for count, rung in min(found, key=lambda one: one[0])[1])


Sum = tuple[tuple[Fraction, Rung], ...]


def _worth(sum_: Sum) -> Fraction:
    return sum((count * rung.size for count, rung in sum_), Fraction(0))


def _rank(sum_: Sum, exact: Fraction) -> tuple[int, Fraction, int]:
    """What is easier to measure comes first: one exact measure, two, one nearly exact, two nearly, three."""
    off = abs(_worth(sum_) - exact)
    order = {(1, True): 0, (2, True): 1, (1, False): 2, (2, False): 3, (3, True): 4, (3, False): 5}
    return order[len(sum_), not off], off, sum(count.denominator for count, _ in sum_)


def _sums(target: Fraction, ladder: tuple[Rung, ...], terms: int) -> Iterator[Sum]:
    """Sums of exactly so many measures, the largest first, that come near a target from either side."""
    for place, rung in enumerate(ladder):
        if terms == 1:
            yield from (((count, rung),) for count in _around(target / rung.size, rung))
            continue
        for count in _below(target / rung.size, rung):
            rest = target - count * rung.size
            if rest > 0:
                yield from (((count, rung), *more) for more in _sums(rest, ladder[place + 1 :], terms - 1))


def _around(count: Fraction, rung: Rung) -> Iterator[Fraction]:
    for whole in range(max(floor(count) - 1, 0), floor(count) + 2):
        yield from (whole + part for part in rung.parts if 0 < whole + part <= rung.most + max(rung.parts))


def _below(count: Fraction, rung: Rung) -> list[Fraction]:
    """The two largest counts that do not exceed it; pounds before ounces are whole."""
    return sorted(one for one in _around(count, rung) if one <= count and (rung is not _LB or one % 1 == 0))[-2:]


def _us_range(low: Fraction, high: Fraction, ladder: tuple[Rung, ...], way: str) -> tuple[Measure, ...] | None:
    """A range in the first unit that measures both ends."""
    for rung in ladder:
        ends = []
        for exact in (low, high):
            fitting = [one for one in _around(exact / rung.size, rung) if fits(one * rung.size, exact, way)]
            if not exact:
                fitting = [Fraction(0)]
            if not fitting:
                break
            ends.append(min(fitting, key=lambda one: (abs(one * rung.size - exact), one.denominator)))
        if len(ends) == 2 and ends[0] <= ends[1]:
            return (Measure(ends[0], ends[1], rung.unit),)
    return None


def metric(low: Fraction, high: Fraction, dimension: str, way: str) -> tuple[Measure, ...] | None:
    """The metric measure of an amount in g or ml, as coarse as is the same amount; None for next to nothing."""
    ends = [stepped(low, way), stepped(high, way)]
    if ends[0] is None or ends[1] is None or ends[0] > ends[1]:
        return None
    large = ends[1] >= 1000
    unit = {"mass": ("g", "kg"), "volume": ("ml", "l")}[dimension][large]
    scale = 1000 if large else 1
    written = (ends[0] / scale, ends[1] / scale)
    if any(10_000 % one.denominator or one > _LARGEST for one in written):
        return None
    return (Measure(*written, unit),)


def stepped(exact: Fraction, way: str) -> Fraction | None:
    """A number rounded to its side in the coarsest step that keeps it the same amount; None if no step does."""
    if not exact:
        return exact
    for step in _STEPS:
        count = exact / step
        value = step * (ceil(count) if way == UP else floor(count) if way == DOWN else round(count))
        if value and fits(value, exact, way):
            return value
    return None


def number(exact: Fraction, way: str) -> Fraction | None:
    """A count of things or packages: as it is in halves, thirds, quarters, eighths; else with decimals."""
    if exact.denominator in (1, 2, 3, 4, 8) and exact <= _LARGEST:
        return exact
    return stepped(exact, way)
