"""Published figures as rules read them, so that no published number stands in rule code.

A volume comes in millilitres, a time in minutes, a length in millimetres; a share, a per cent and a count come as
printed. A figure that no publication gives is an error, never a guess.
"""

from fractions import Fraction

from brimline import figures
from brimline._remember import remembered
from brimline.batch.values import Item
from brimline.batch.words import number
from brimline.document import units
from brimline.figures.values import Interval, Number

CUP_ML = Fraction("236.5882365")
# These stand in the tables as counts of jars or in units that no conversion is wanted for.
AS_PRINTED = frozenset({"", "%", "pH", "aw", "F", "psi", "half-pint", "jar"})


@remembered
def printed(figure: str, name: str) -> Interval:
    """A published number by its figure and name: `printed("tomato_acid", "citric acid, per quart")`.

    Raises KeyError if there is no such figure, or none of that name in it.
    """
    found = _number(figure, name)
    if found is None:
        raise KeyError(f"{figure}: no number called {name!r}")
    unit = None if found.unit in AS_PRINTED else units.unit(found.unit)
    factor = unit.factor if unit is not None else Fraction(1)
    return Interval(found.low * factor, found.high * factor)


def prints(figure: str, name: str) -> bool:
    """Whether a published figure has a number of that name."""
    return _number(figure, name) is not None


def printed_words(figure: str, name: str) -> str:
    """A published number as it is printed: `2 tbsp`, `3 to 4 week`; empty if there is none."""
    found = _number(figure, name)
    if found is None:
        return ""
    ends = " to ".join(dict.fromkeys((number(found.low), number(found.high))))
    many = "s" if found.unit in ("week", "month", "cup", "year") and found.high > 1 else ""
    return f"{ends} {found.unit}{many}".rstrip()


@remembered
def cup_grams(entry: str, filled: str = "") -> Fraction:
    """Grams in one cup of an ingredient, filled in a way (`packed`), the middle of the table's figure.

    Raises KeyError for an entry the table lacks or has no cup of.
    """
    found = figures.weigh(figures.entries()[entry], (filled,) if filled else (), "cup")
    if found is None:
        raise KeyError(f"{entry}: no weight of a cup")
    return found.middle


def cup_weight(item: Item) -> Interval | None:
    """Grams in one cup of what a line names, cut and filled as it says; None where the table has none."""
    return None if item.entry is None else figures.weigh(item.entry, (item.state,) if item.state else (), "cup")


def _number(figure: str, name: str) -> Number | None:
    return figures.published(figure).number(name)
