"""Exact numbers as this format writes them, and the unit in which a quantity can be written exactly."""

from collections.abc import Iterable
from fractions import Fraction

from brimline.document import units

# A kitchen has these parts of a measure; a number with any other is written with decimals, or cannot be written.
_KITCHEN = frozenset({2, 3, 4, 5, 6, 8, 16})
_METRIC = frozenset({"g", "kg", "mg", "ml", "l", "cl", "dl", "mm", "cm", "m"})
_LARGEST = 99_999
_DECIMALS = 10_000
_WORDS = {"day": "days", "week": "weeks", "month": "months", "year": "years"}


class UnprintableError(ValueError):
    """The format has no way of writing a value exactly; the message says which."""


def number(value: Fraction, unit: str = "") -> str:
    """A number: `5 1/2`, `1/4`, `0.75`, or for a metric unit `1.5` rather than `1 1/2`.

    Raises UnprintableError for what the format cannot write: under 0, over 99,999, or thirds of thirds.
    """
    ways = (_decimal, _mixed) if unit in _METRIC else (_mixed, _decimal)
    for way in ways:
        written = way(value)
        if written:
            return written
    raise UnprintableError(f"{value} cannot be written exactly")


def plain_number(value: Fraction) -> str:
    """A number with digits and a point only: `1000`, `12.5`. Raises UnprintableError."""
    written = _decimal(value)
    if not written:
        raise UnprintableError(f"{value} cannot be written exactly with four decimals")
    return written


def counted(low: Fraction, high: Fraction, unit: str = "") -> str:
    """A number or a range: `4`, `4 to 4 1/2`. Raises UnprintableError."""
    return number(low, unit) if low == high else f"{number(low, unit)} to {number(high, unit)}"


def timed(low: Fraction, high: Fraction, names: Iterable[str] = ("min", "h", "s", "day", "week")) -> str:
    """A time, or a range of times, in minutes, in the first unit that writes it exactly: `1 min`, `12 to 24 h`.

    Raises UnprintableError.
    """
    for name in names:
        factor = units.units()[name].factor
        try:
            written = counted(low / factor, high / factor)
        except UnprintableError:
            continue
        return f"{written} {name if written == '1' else _WORDS.get(name, name)}"
    raise UnprintableError(f"{low} to {high} minutes cannot be written exactly")


def kept_for(low: Fraction, high: Fraction) -> str:
    """A keeping time, in hours, in the unit people keep things by: `12 h`, `3 days`, `4 weeks`, `12 months`."""
    for name, least in (("month", 3), ("week", 1), ("day", 3), ("month", 1)):
        hours = units.units()[name].factor / 60
        if low and (low / hours).denominator == (high / hours).denominator == 1 and low / hours >= least:
            return timed(low * 60, high * 60, (name, "h"))
    return timed(low * 60, high * 60, ("h", "min", "day", "week", "month", "year", "s"))


def warm(fahrenheit: Fraction) -> str:
    """A temperature, in degrees Fahrenheit if it can be written so, else in Celsius or kelvin: `220 F`."""
    degrees_f = units.units()["F"]
    kelvin = fahrenheit * degrees_f.factor + degrees_f.offset
    for name in ("F", "C", "K"):
        scale = units.units()[name]
        written = _decimal((kelvin - scale.offset) / scale.factor)
        if written:
            return f"{written} {name}"
    raise UnprintableError(f"{fahrenheit} degrees Fahrenheit cannot be written exactly")


def warmer(degrees_f: Fraction) -> str:
    """A difference of temperature: `9 F`. Raises UnprintableError."""
    for name in ("F", "C"):
        written = _decimal(degrees_f * units.units()["F"].factor / units.units()[name].factor)
        if written:
            return f"{written} {name}"
    raise UnprintableError(f"{degrees_f} degrees Fahrenheit cannot be written exactly")


def long(inches: Fraction) -> str:
    """A length in inches, or in millimetres where those are exact and inches are not: `1/4 in`, `15 mm`."""
    millimetres = inches * units.units()["in"].factor
    for name in ("in", "mm", "cm", "m", "ft"):
        try:
            return f"{number(millimetres / units.units()[name].factor, name)} {name}"
        except UnprintableError:
            continue
    raise UnprintableError(f"{inches} inches cannot be written exactly")


def _mixed(value: Fraction) -> str:
    """Whole number and kitchen fraction; empty if it is none."""
    if not 0 <= value <= _LARGEST:
        return ""
    whole, rest = divmod(value, 1)
    if not rest:
        return str(whole)
    if rest.denominator not in _KITCHEN:
        return ""
    return f"{whole} {rest}" if whole else str(rest)


def _decimal(value: Fraction) -> str:
    """Digits and at most four decimals; empty if that is not exact."""
    if not 0 <= value <= _LARGEST or _DECIMALS % value.denominator:
        return ""
    whole, rest = divmod(value, 1)
    return f"{whole}.{int(rest * _DECIMALS):04d}".rstrip("0") if rest else str(whole)
