"""Whether the measures stated for one amount agree with each other."""

from fractions import Fraction

from brimline import figures
from brimline.batch.resolve import quantity
from brimline.batch.values import Item
from brimline.batch.words import measure
from brimline.document.values import Amount

CUP_ML = Fraction("236.5882365")
# Kitchen weighings differ by a few percent beyond the table's own spread (judgement).
SPREAD = Fraction(108, 100)
LOW, HIGH = Fraction(98, 100), Fraction(102, 100)


def contradiction(one: Item) -> str:
    """How the stated measures of a line contradict each other, in words; empty if they do not.

    Volume and mass are compared through the table's weight of the food, two measures of one dimension directly.
    """
    amount = one.line.amount
    if amount is None or not amount.also:
        return ""
    mass = one.quantity.get("mass")
    other = next((row for row in one.quantity.dims if row[0] != "mass"), None)
    if mass is None or other is None:
        return _one_dimension(one, amount)
    if one.entry is None:
        return ""
    word, _, rest = other[0].partition(":")
    volume = word == "volume"
    weight = figures.weigh(one.entry, (rest,) if volume and rest else (), "cup" if volume else rest)
    if weight is None:
        return ""
    pieces = CUP_ML if volume else Fraction(1)
    low, high = other[1] / pieces * weight.low, other[2] / pieces * weight.high
    if low / SPREAD <= mass[1] and mass[0] <= high * SPREAD:
        return ""
    text = " = ".join(" + ".join(measure(part) for part in parts) for parts in (amount.parts, *amount.also))
    return f"{text}, but by the table that is {round(float(low))} to {round(float(high))} g"


def _one_dimension(one: Item, amount: Amount) -> str:
    """Two measures of one dimension, as `1 cup = 12 tbsp`."""
    first, *others = (quantity(Amount(parts), one.state) for parts in (amount.parts, *amount.also))
    for other in others:
        for dim, low, high in other.dims:
            mine = first.get(dim)
            if mine and (low > mine[1] * HIGH or high < mine[0] * LOW):
                return "the two measures of it are not the same amount"
    return ""
