"""The closed lists of units and jars, compiled from `schema/units.txt` and `schema/jars.yaml`; read on first use.

A unit converts within its dimension only. Nothing here knows what a cup of anything weighs.
"""

from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from pathlib import Path
from types import MappingProxyType

from msgspec import Struct
from msgspec.json import decode

from brimline.tree.near import nearest

# Spellings that readers disagree about, and so refused by name, each with what was most likely meant.
DOUBTFUL = {"T": "tbsp", "t": "tsp", "c": "cup", "C": "cup"}
# Spellings that are no units here, where the nearest spelling would be the wrong guess.
_MEANT = {
    "Tb": "tbsp",
    "Tbs": "tbsp",
    "tbs": "tbsp",
    "tblsp": "tbsp",
    "gm": "g",
    "gr": "g",
    "cc": "ml",
    "big": "large",
    "tiny": "small",
}


class Unit(Struct, frozen=True):
    """A unit of the closed list.

    `name` is what documents call it (`cup`, `fl oz`, `each`). `dimension` is mass, volume, length, time, temperature,
    pressure, solids, count or package. `factor` is how many of the dimension's base it is, exactly: g, ml, mm, min,
    kelvin, psi, Brix; counts and packages are 1. `offset` is the base's value at its nought, for temperatures.
    """

    name: str
    dimension: str
    factor: Fraction
    offset: Fraction
    source: str


class JarSize(Struct, frozen=True):
    """A jar of the table: its name, its nominal volume in exact millilitres, and the jar whose time it takes.

    `take` is the listed jar whose time this one takes where it has none of its own, and only if that one is listed;
    empty for the jars that published tables list themselves.
    """

    name: str
    ml: Fraction
    take: str
    source: str
    how: str


class _Lists(Struct, frozen=True):
    units: Mapping[str, Unit]
    spellings: Mapping[str, str]
    jars: tuple[JarSize, ...]
    containers: Mapping[str, str]
    written: Mapping[str, JarSize]
    sizes: Mapping[str, JarSize]


def unit(word: str) -> Unit | None:
    """The unit that a spelling means (`cups` is `cup`, `fl  oz` is `fl oz`); None if it is none."""
    lists = _lists()
    name = lists.spellings.get(word) or lists.spellings.get(" ".join(word.split()))
    return lists.units[name] if name is not None else None


def units() -> Mapping[str, Unit]:
    """All units by canonical name."""
    return _lists().units


def jars() -> tuple[JarSize, ...]:
    """The jars of the table, smallest first."""
    return _lists().jars


def jar_named(word: str) -> JarSize | None:
    """The jar that a name means (`half-pints` is `half-pint`); None if the table has none of that name."""
    return _lists().written.get(word)


def container_named(word: str) -> str:
    """The container not made for canning that a word means (`bottles` is `bottle`); empty if it means none.

    It may stand where a jar stands, with no volume, so that it can be judged; no tested time holds for it.
    """
    return _lists().containers.get(word, "")


def jar_sized(number: Fraction, measure: Unit) -> tuple[str, Fraction] | None:
    """Name and nominal millilitres of a jar stated by size (`500 ml`, `12 oz`); None unless the unit is a volume.

    125, 250, 500 ml and 1 l are the metric names of quarter-pint, half-pint, pint and quart, and take the volume of
    those. Any other size is itself, so `300 ml` stays 300 ml. On a jar `oz` is a fluid ounce.
    """
    lists = _lists()
    name = measure.name
    if name == "oz":
        measure = lists.units["fl oz"]
    if measure.dimension != "volume":
        return None
    known = lists.sizes.get(f"{number} {name}")
    if known is not None:
        return known.name, known.ml
    return f"{_decimal(number)} {name}", number * measure.factor


def metric_jar(name: str) -> tuple[str, Fraction] | None:
    """The metric name of a jar of the table and the millilitres it states (`pint` is `500 ml`); None if it has none."""
    lists = _lists()
    for size, jar in lists.sizes.items():
        number, _, unit = size.partition(" ")
        if jar.name == name and unit in ("ml", "l"):
            return size, Fraction(number) * lists.units[unit].factor
    return None


def nearest_unit(word: str, dimensions: frozenset[str] | None = None) -> str:
    """The canonical unit that a misspelt word was most likely meant to be, of some dimensions; empty if none is near."""
    lists = _lists()
    meant = DOUBTFUL.get(word) or _MEANT.get(word)
    if meant is not None:
        return meant
    fitting = [
        spelling
        for spelling, name in lists.spellings.items()
        if dimensions is None or lists.units[name].dimension in dimensions
    ]
    near = nearest(word, fitting)
    return lists.spellings[near] if near else ""


def nearest_jar(word: str) -> str:
    """The name of the jar that a misspelt word was most likely meant to be; empty if none is near."""
    lists = _lists()
    near = nearest(word, lists.written)
    return lists.written[near].name if near else ""


def fahrenheit(value: Fraction, measure: Unit) -> Fraction:
    """A temperature in degrees Fahrenheit, exactly."""
    to = _lists().units["F"]
    return (value * measure.factor + measure.offset - to.offset) / to.factor


@cache
def _lists() -> _Lists:
    made = Path(__file__).parent.parent / "made" / "units.json"
    data = decode(made.read_bytes())
    units = {
        name: Unit(name, row["dimension"], Fraction(row["factor"]), Fraction(row.get("offset", 0)), row["source"])
        for name, row in data["units"].items()
    }
    jars = tuple(
        JarSize(row["name"], Fraction(row["ml"]), row["take"], row["source"]["title"], row["source"]["how"])
        for row in data["jars"]
    )
    pairs = list(zip(jars, data["jars"], strict=True))
    written = {word: jar for jar, row in pairs for word in row["written"]}
    sizes = {size: jar for jar, row in pairs for size in row["sizes"]}
    return _Lists(
        MappingProxyType(units),
        MappingProxyType(data["spellings"]),
        jars,
        MappingProxyType(data["containers"]),
        MappingProxyType(written),
        MappingProxyType(sizes),
    )


def _decimal(number: Fraction) -> str:
    """A number with at most four decimals as text: `300`, `12.5`."""
    whole, rest = divmod(number, 1)
    return f"{whole}" if not rest else f"{whole}.{int(rest * 10_000):04d}".rstrip("0")
