"""Amounts and names as they are spoken on the telephone: `4 1/4 cups of granulated sugar`."""

from collections.abc import Iterable
from fractions import Fraction

from brimline.batch.words import decimal, listed
from brimline.document.values import Amount, Band, Jar, Line, Measure

_WORDS = {
    "tbsp": "tablespoon",
    "tsp": "teaspoon",
    "oz": "ounce",
    "fl oz": "fluid ounce",
    "lb": "pound",
    "qt": "quart",
    "gal": "gallon",
    "g": "gram",
    "kg": "kilogram",
    "ml": "milliliter",
    "l": "liter",
    "in": "inch",
}
_BARE = {"each", "small", "medium", "large"}
_PLURAL = {
    "inch": "inches",
    "box": "boxes",
    "pouch": "pouches",
    "bunch": "bunches",
    "pinch": "pinches",
    "leaf": "leaves",
}
_PARTS = (2, 3, 4, 5, 6, 8, 16)
_BEHIND = ("for ", "to ", "in ", "from ", "if ", "or ")


def number(value: Fraction) -> str:
    """A number as a cook says it: whole, with a kitchen fraction if it is one, else with up to two decimals."""
    whole, rest = divmod(value, 1)
    if not rest:
        return f"{whole:,}"
    if rest.denominator in _PARTS:
        return f"{whole} {rest}" if whole else str(rest)
    return decimal(value, 2 if value >= Fraction(1, 10) else 3)


def unit(name: str, count: Fraction) -> str:
    """A unit in full, in the number that goes with a count; empty for things counted by themselves."""
    if name == "each":
        return ""
    word = _WORDS.get(name, name)
    if name in _BARE or count <= 1:
        return word
    return _PLURAL.get(word, f"{word}s")


def measure(one: Measure) -> str:
    """`4 1/4 cups`, `4 to 5 cups`, `1 box of 1 3/4 ounces`, `2`."""
    count = number(one.low) if one.low == one.high else f"{number(one.low)} to {number(one.high)}"
    if one.pack is None:
        return f"{count} {unit(one.unit, one.high)}".rstrip()
    if one.low == one.high == 1:
        return f"one {number(one.pack.number)}-{unit(one.pack.unit, Fraction(1)).replace(' ', '-')} {one.unit}"
    return f"{count} {unit(one.unit, one.high)} ({number(one.pack.number)} {unit(one.pack.unit, one.pack.number)} each)"


def amount(one: Amount | None) -> str:
    """An amount as it is spoken, with what it is for if it is stated so: `2 tablespoons for each quart jar`."""
    return f"{_much(one)}{_per(one)}"


def _much(one: Amount | None) -> str:
    if one is None or one.some:
        return "some"
    return " and ".join(measure(part) for part in one.parts)


def _per(one: Amount | None) -> str:
    per = None if one is None else one.per
    if per is None:
        return ""
    if per.of == "jar":
        return f" for each {'' if per.number == 1 else number(per.number) + ' '}{per.unit} jar"
    if per.of == "finished":
        return f" for each finished {unit(per.unit, Fraction(1))}"
    return f" for each {unit(per.unit, Fraction(1))} of {per.of or 'it'}"


def name(line: Line) -> str:
    """What a line is called: `bottled lemon juice`, `white vinegar, 5 %`."""
    before = [form for form in line.forms if not any(letter.isdigit() for letter in form) and len(form.split()) < 3]
    before = [form for form in before if not form.startswith(_BEHIND)]
    behind = [form for form in line.forms if any(letter.isdigit() for letter in form)]
    return ", ".join([" ".join([*reversed(before), line.item]), *behind])


def stuff(line: Line) -> str:
    """A line as it is spoken: `2 tablespoons of bottled lemon juice`, `2 jalapeno peppers`."""
    counted = line.amount is not None and line.amount.parts and line.amount.parts[-1].unit in _BARE
    joint = " " if counted or line.amount is None or line.amount.some else " of "
    return f"{_much(line.amount)}{joint}{name(line)}{_per(line.amount)}"


def stuffs(lines: Iterable[Line]) -> str:
    """Several lines in one list."""
    return listed([stuff(line) for line in lines])


def altitude(feet: Fraction, in_unit: str) -> str:
    """An altitude in the caller's unit: `5,200 feet`, `1,600 meters`."""
    if in_unit == "m":
        return f"{round(feet * Fraction('0.3048')):,} meters"
    return f"{round(feet):,} feet"


def jar(one: Jar) -> str:
    """A jar: `half-pint`, `12-ounce`, `300-milliliter`."""
    count, _, rest = one.name.partition(" ")
    return f"{count}-{unit(rest, Fraction(1))}" if rest and count[:1].isdigit() else one.name


def minutes(band: Band) -> str:
    """`10 minutes`, with the pressure if there is one: `25 minutes at 11 pounds on a dial gauge`."""
    text = f"{number(band.minutes)} {unit('minute', band.minutes)}"
    return text if band.psi is None else f"{text} at {number(band.psi)} pounds ({band.gauge} gauge)"


def times(bands: tuple[Band, ...]) -> str:
    """A row of times: `5 minutes up to 1,000 feet, 10 minutes up to 6,000 feet and 15 minutes above that`."""
    said = [
        f"{minutes(band)} above that"
        if band.up_to_ft is None and len(bands) > 1
        else minutes(band)
        + (" at any altitude" if band.up_to_ft is None else f" up to {altitude(band.up_to_ft, band.unit)}")
        for band in bands
    ]
    return listed(said)


_SHARES = {
    Fraction(1): "all",
    Fraction(1, 2): "half",
    Fraction(1, 3): "a third of",
    Fraction(2, 3): "two thirds of",
    Fraction(1, 4): "a quarter of",
    Fraction(1, 5): "a fifth of",
    Fraction(3, 4): "three quarters of",
}


def share(value: Fraction) -> str:
    """A share before its noun: `half`, `a third of`, `3/8 of`, `45 % of`."""
    if value in _SHARES:
        return _SHARES[value]
    return f"{number(value)} of" if value.denominator in _PARTS else f"{decimal(value * 100, 0)} % of"
