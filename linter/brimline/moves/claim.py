"""What a formula says it is sold as, measured against the standard of that name: values only, none of them of safety."""

from fractions import Fraction

from msgspec import Struct

from brimline.figures.values import Interval
from brimline.findings import Source

MET, SHORT, MAY, UNTOLD = "met", "short", "may", "untold"


class Check(Struct, frozen=True):
    """One thing a standard asks.

    `about` is `name` (there is no such standard, or it has no place for something), `fruit`, `solids`, `mix`,
    `endocarp`, `fat`, `yolk` (solids of egg yolk) or `suet`. `state` is `met`, `short`, `may` (part of the interval falls short) or `untold` (it cannot be
    computed). `says` is the arithmetic in sentences; `found` and `asked` are in `unit`: `to 1`, `%`, `g/kg`.
    """

    about: str
    state: str
    says: str
    found: Interval | None = None
    asked: Interval | None = None
    unit: str = ""
    sources: tuple[Source, ...] = ()


class Claim(Struct, frozen=True):
    """`sold-as NAME, PLACE` beside its standard; `title` names the standard, empty if there is none."""

    name: str
    place: str
    title: str
    checks: tuple[Check, ...]


def least_of(fruit: Interval, asked: Interval) -> str:
    """How a measured interval stands to a floor: `met`, `short` or `may`."""
    if fruit.low >= asked.high:
        return MET
    return SHORT if fruit.high < asked.low else MAY


def single(value: Fraction) -> Interval:
    """A number without doubt."""
    return Interval(value, value)
