"""What the lines of a formula are and how much they come to, read from the published figures only."""

from fractions import Fraction
from functools import cache

from msgspec import Struct
from msgspec.structs import replace

from brimline.document.units import units
from brimline.document.values import Amount, Line, Measure
from brimline.figures import weigh
from brimline.figures.names import find
from brimline.figures.values import Entry, Match
from edit_bench.sheet import Sheet

ONE = Fraction(1)
# Grams to the cup where the figures know none; only ever used to tell whether something is more than a trifle.
_ANY_CUP = (Fraction(100), Fraction(300))
_FRUIT_JUICE = ("juice-other", "commercial-juice", "citrus")


class Grams(Struct, frozen=True):
    """A mass known to lie between two ends."""

    low: Fraction
    high: Fraction

    def __add__(self, other: "Grams") -> "Grams":
        return Grams(self.low + other.low, self.high + other.high)


NOTHING = Grams(Fraction(0), Fraction(0))


def match(line: Line) -> Match:
    """What the written name of a line comes to."""
    unit = line.amount.parts[0].unit if line.amount and line.amount.parts else ""
    return find(line.item, line.forms, unit)


def entry(line: Line) -> Entry | None:
    """The table's entry for a line; None for an unknown or ambiguous name."""
    return match(line).entry


def tags(line: Line) -> frozenset[str]:
    """The tags of a line's entry, none if it has no entry."""
    found = entry(line)
    return found.tags if found else frozenset()


def sort(line: Line) -> str:
    """What a line is in the words of the roles; the author's role if the table does not know it."""
    found = entry(line)
    return found.sort if found else line.role


def safety(line: Line) -> str:
    """The safety class of a line's entry; empty if it has none."""
    found = entry(line)
    return found.safety if found else ""


def dimension(unit: str) -> str:
    """The dimension of a canonical unit: mass, volume, count, package, or empty for none."""
    found = units().get(unit)
    return found.dimension if found else ""


def factor(unit: str) -> Fraction:
    """How many grams, millilitres or pieces a canonical unit is."""
    return units()[unit].factor


def cups(line: Line) -> Fraction | None:
    """The volume of a line in cups, low end; None if it is not stated by volume."""
    return _stated(line, "volume", factor("cup"))


def pounds(line: Line) -> Fraction | None:
    """The mass of a line in pounds, low end; None if it is not stated by mass."""
    return _stated(line, "mass", factor("lb"))


def _stated(line: Line, wanted: str, size: Fraction) -> Fraction | None:
    if line.amount is None or line.amount.per is not None:
        return None
    for parts in (line.amount.parts, *line.amount.also):
        if parts and all(dimension(one.unit) == wanted for one in parts):
            return sum((one.low * factor(one.unit) for one in parts), Fraction(0)) / size
    return None


@cache
def _one(found: Entry | None, state: tuple[str, ...], unit: str) -> Grams | None:
    if dimension(unit) == "mass":
        return Grams(factor(unit), factor(unit))
    known = weigh(found, state, unit) if found else None
    if known is not None:
        return Grams(known.low, known.high)
    if dimension(unit) == "volume":
        share = factor(unit) / factor("cup")
        return Grams(_ANY_CUP[0] * share, _ANY_CUP[1] * share)
    return None


def grams(line: Line) -> Grams | None:
    """The mass of a line as stated, from the least to the most it may be; None where nothing tells."""
    if line.amount is None or line.amount.per is not None or line.amount.some:
        return None
    for parts in (line.amount.parts, *line.amount.also):
        if parts and all(dimension(one.unit) == "mass" for one in parts):
            return Grams(
                sum((one.low * factor(one.unit) for one in parts), Fraction(0)),
                sum((one.high * factor(one.unit) for one in parts), Fraction(0)),
            )
    total = NOTHING
    for one in line.amount.parts:
        unit, size = (one.pack.unit, one.pack.number) if one.pack else (one.unit, ONE)
        each = _one(entry(line), tuple(line.forms), unit)
        if each is None:
            return None
        total = total + Grams(each.low * one.low * size, each.high * one.high * size)
    return total


def times(line: Line, by: Fraction) -> Line:
    """The line with its amount, its equivalents and all it is made of multiplied."""
    return replace(
        line,
        amount=_times(line.amount, by),
        other=tuple(times(one, by) for one in line.other),
        made_of=tuple(times(one, by) for one in line.made_of),
    )


def _times(amount: Amount | None, by: Fraction) -> Amount | None:
    if amount is None or amount.some:
        return amount

    def more(parts: tuple[Measure, ...]) -> tuple[Measure, ...]:
        return tuple(replace(one, low=one.low * by, high=one.high * by) for one in parts)

    return replace(amount, parts=more(amount.parts), also=tuple(map(more, amount.also)))


def scaled(sheet: Sheet, by: Fraction) -> Sheet:
    """The whole batch multiplied: what is stated for a jar, a cup of juice or a quart stays."""

    def one(line: Line) -> Line:
        kept = line.amount is None or line.amount.per is not None
        return replace(
            line,
            amount=line.amount if kept else _times(line.amount, by),
            other=tuple(map(one, line.other)),
            made_of=tuple(map(one, line.made_of)),
        )

    yields = sheet.yields
    if yields is not None:
        yields = replace(yields, low=yields.low * by, high=yields.high * by)
    return replace(sheet, take=tuple(map(one, sheet.take)), yields=yields)


def is_acid(line: Line) -> bool:
    """Whether a line is acid of the formula: lemon or lime juice, vinegar, citric acid."""
    found = entry(line)
    if found is None or found.sort != "acid" or "not-acid" in found.tags:
        return False
    return bool(found.tags & {"lemon", "lime", "vinegar", "citric"})


def is_sugar(line: Line) -> bool:
    """Whether a line is a sweetener that brings sugar solids."""
    return sort(line) == "sweetener" and "non-sugar" not in tags(line)


def is_low_acid_food(line: Line) -> bool:
    """Whether a line is food, more than seasoning, whose class is low-acid."""
    food = sort(line) in ("vegetable", "fruit", "juice", "dried-fruit", "herb", "meat")
    return food and safety(line) == "low-acid"


def is_sour(line: Line) -> bool:
    """Whether a line belongs to the sour part: high-acid fruit and juice, tomato, tomatillo."""
    if tags(line) & {"tomato", "tomatillo"} and "dehydrated" not in tags(line):
        return True
    return sort(line) in ("fruit", "juice") and safety(line) == "high-acid"
