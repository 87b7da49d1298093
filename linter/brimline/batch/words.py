"""Numbers and amounts in the words of a kitchen, for messages. Rounded for reading, never for judging."""

from fractions import Fraction

from brimline.document.values import Amount, Finish, Measure
from brimline.figures.values import Interval

KITCHEN_PARTS = (2, 3, 4, 8, 16)


def number(value: Fraction) -> str:
    """A number as a cook writes it: whole, with a kitchen fraction if it is one, else with up to two decimals."""
    whole, rest = divmod(value, 1)
    if not rest:
        return str(whole)
    if any(rest.denominator == part for part in KITCHEN_PARTS):
        text = f"{rest.numerator}/{rest.denominator}"
        return f"{whole} {text}" if whole else text
    return decimal(value)


def decimal(value: Fraction, places: int = 2) -> str:
    """A number with at most `places` decimals and no trailing zeros."""
    text = f"{float(value):.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def measure(one: Measure) -> str:
    """`5 1/2 cup`, `4 to 5 cup`, `1 box of 1 3/4 oz`."""
    count = number(one.low) if one.low == one.high else f"{number(one.low)} to {number(one.high)}"
    pack = f" of {number(one.pack.number)} {one.pack.unit}" if one.pack else ""
    return f"{count} {one.unit}{pack}"


def amount(one: Amount | None) -> str:
    """An amount as it would be written in a formula."""
    if one is None:
        return "no amount"
    if one.some:
        return "some"
    text = " + ".join(measure(part) for part in one.parts)
    if one.per is not None:
        times = "" if one.per.number == 1 else f"{number(one.per.number)} "
        text += f" per {times}{one.per.unit} {one.per.of}".rstrip()
    return text


def grams(value: Fraction) -> str:
    """Grams to three significant figures, kilograms from a thousand on."""
    if value >= 1000:
        return f"{significant(value / 1000)} kg"
    return f"{significant(value)} g"


def significant(value: Fraction) -> str:
    """Three significant figures, without exponent."""
    if not value:
        return "0"
    size = float(value)
    places = max(0, 2 - _magnitude(size))
    return decimal(value, places) if places else str(round(size))


def _magnitude(size: float) -> int:
    magnitude = 0
    while size >= 10:
        size, magnitude = size / 10, magnitude + 1
    while size < 1:
        size, magnitude = size * 10, magnitude - 1
    return magnitude


def percent(change: Interval) -> str:
    """A ratio as a change: `-44 %`, `+12 %`, `-44 to -31 %` where cup weights leave it open, `no change`."""
    low, high = (_signed(float(end - 1) * 100) for end in (change.low, change.high))
    if low == high:
        return "no change" if low == "0" else f"{low} %"
    return f"{low} to {high} %"


def _signed(value: float) -> str:
    text = f"{value:+.1f}" if abs(value) < 10 else f"{value:+.0f}"
    return text.removesuffix(".0") if text not in ("+0.0", "-0.0") else "0"


def feet(value: Fraction, unit: str) -> str:
    """An altitude in the author's unit."""
    if unit == "m":
        return f"{round(float(value) * 0.3048):,} m"
    return f"{round(float(value)):,} ft"


def listed(texts: list[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    if len(texts) < 2:
        return "".join(texts)
    return f"{', '.join(texts[:-1])} and {texts[-1]}"


def finish_words(finish: Finish | None) -> str:
    """A finish in words, `nothing stated` if there is none."""
    if finish is None:
        return "nothing stated"
    if finish.low is None:
        plain = {"gel": "the gel point, 8 F over boiling water", "thick": "thick", "none": "no cooking"}
        return finish.text or plain.get(finish.kind, finish.kind)
    if finish.kind == "other":
        return finish.text
    span = number(finish.low) if finish.high in (None, finish.low) else f"{number(finish.low)} to {number(finish.high)}"
    names = {
        "rolling": f"a full rolling boil of {span} min",
        "gel": f"the gel point, {span} F over boiling water",
        "brix": f"{span} Brix",
        "temperature": f"{span} F",
        "simmer": f"simmering {span} min",
        "boil": f"boiling {span} min",
        "reduce": f"reduced to {span}",
    }
    return names.get(finish.kind, finish.text or finish.kind)
