"""Other ways to state the same amount: other units, metric rounded by half a percent at most, ranges, equivalents."""

from collections.abc import Callable
from fractions import Fraction
from random import Random

from msgspec.structs import replace

from brimline.document.values import Amount, Line, Measure
from edit_bench.pantry import dimension, factor, grams, match

NEAR = Fraction(1, 200)
_STEPS = tuple(Fraction(n) for n in ("100", "50", "25", "10", "5", "1", "0.5", "0.1", "0.05", "0.01", "0.001"))
_VOLUMES = ("tsp", "tbsp", "fl oz", "cup", "pint", "qt")
_MASSES = ("oz", "lb")


def rounded(value: Fraction, dice: Random) -> Fraction | None:
    """A value rounded as a cook would, by at most half a percent; None if no step is fine enough."""
    fitting = [
        step for step in _STEPS if abs(round(value / step) * step - value) <= value * NEAR and round(value / step)
    ]
    if not fitting:
        return None
    step = fitting[0] if dice.random() < 0.6 else dice.choice(fitting[:3])
    return round(value / step) * step


def _mapped(line: Line, change: Callable[[Amount], Amount]) -> Line:
    """The line and those under it with each stated amount changed."""
    amount = line.amount
    if amount is not None and amount.parts and not amount.some:
        amount = change(amount)
    if match(replace(line, amount=amount)).entry is not match(line).entry:
        amount = line.amount  # `pepper` is a spice by the teaspoon and could be anything by the gram
    under = tuple(_mapped(one, change) for one in line.other), tuple(_mapped(one, change) for one in line.made_of)
    return replace(line, amount=amount, other=under[0], made_of=under[1])


def metric(line: Line, dice: Random) -> Line:
    """The line in ml, l, g or kg, each amount rounded once."""

    def one(amount: Amount) -> Amount:
        parts = amount.parts
        kind = dimension(parts[0].unit)
        if kind not in ("volume", "mass") or any(dimension(part.unit) != kind or part.pack for part in parts):
            return amount
        low = rounded(sum((part.low * factor(part.unit) for part in parts), Fraction(0)), dice)
        high = rounded(sum((part.high * factor(part.unit) for part in parts), Fraction(0)), dice)
        if low is None or high is None:
            return amount
        same = all(part.low == part.high for part in parts)
        unit, size = ("ml", Fraction(1)) if kind == "volume" else ("g", Fraction(1))
        if low >= 1000 and dice.random() < 0.6:
            unit, size = ("l", Fraction(1000)) if kind == "volume" else ("kg", Fraction(1000))
        new = Measure(low / size, (low if same else high) / size, unit)
        return replace(amount, parts=(new,), also=())

    return _mapped(line, one)


def other_units(line: Line, dice: Random) -> Line:
    """The line in other household units, exactly but for the fourth decimal."""

    def one(amount: Amount) -> Amount:
        part = amount.parts[0]
        kind = dimension(part.unit)
        if len(amount.parts) != 1 or part.pack or kind not in ("volume", "mass"):
            return amount
        units = [unit for unit in (_VOLUMES if kind == "volume" else _MASSES) if unit != part.unit]
        fitting = []
        for unit in units:
            by = factor(part.unit) / factor(unit)
            low, high = part.low * by, part.high * by
            if Fraction(1, 8) <= low <= 400 and all(
                (value * 10_000) % 1 == 0 or value.denominator in (3, 6) for value in (low, high)
            ):
                fitting.append(Measure(low, high, unit))
        return replace(amount, parts=(fitting[dice.randrange(len(fitting))],)) if fitting else amount

    return _mapped(line, one)


def ranged(line: Line, _: Random) -> Line:
    """The line as a narrow range about its amount, 0.4 % either way."""

    def one(amount: Amount) -> Amount:
        part = amount.parts[0]
        if len(amount.parts) != 1 or part.pack or part.low != part.high or part.low > 90_000:
            return amount
        if dimension(part.unit) not in ("volume", "mass"):
            return amount
        by = Fraction(4, 1000)
        low, high = (Fraction(round(value * 10_000), 10_000) for value in (part.low * (1 - by), part.low * (1 + by)))
        if high - low < Fraction(2, 10_000) or low.denominator == 1:
            return amount
        return replace(amount, parts=(replace(part, low=low, high=high),), also=())

    return _mapped(line, one)


def equal(line: Line, dice: Random) -> Line:
    """The line with the same amount in metric beside it."""

    def one(amount: Amount) -> Amount:
        if amount.also or amount.per is not None or any(part.low != part.high for part in amount.parts):
            return amount
        other = metric(replace(line, amount=amount, other=(), made_of=()), dice).amount
        if other is None or other.parts == amount.parts:
            return amount
        return replace(amount, also=(other.parts,)) if dice.random() < 0.5 else replace(other, also=(amount.parts,))

    return _mapped(line, one)


def restated(line: Line) -> Line:
    """A volume as the middle of what it may weigh; uncertain by design."""
    amount = line.amount
    if amount is None or not amount.parts or amount.also or amount.per or line.other or line.made_of:
        return line
    if any(part.pack or part.low != part.high or dimension(part.unit) != "volume" for part in amount.parts):
        return line
    known = grams(line)
    if known is None:
        return line
    size = Fraction(round((known.low + known.high) / 2))
    return replace(line, amount=replace(amount, parts=(Measure(size, size, "g"),))) if size else line


def split(line: Line, dice: Random) -> tuple[Line, ...]:
    """One line as two that add up to it."""
    amount = line.amount
    if amount is None or not amount.parts or line.made_of or line.other or amount.per or amount.also or line.flags:
        return (line,)
    part = amount.parts[0]
    if len(amount.parts) != 1 or part.pack or part.low != part.high or dimension(part.unit) not in ("volume", "mass"):
        return (line,)
    share = dice.choice([Fraction(1, 2), Fraction(1, 4), Fraction(1, 3), Fraction(3, 4)])
    first = Fraction(round(part.low * share * 10_000), 10_000)
    halves = [replace(part, low=size, high=size) for size in (first, part.low - first)]
    if any(one.low <= 0 for one in halves):
        return (line,)
    return tuple(
        replace(line, amount=replace(amount, parts=(one,)), note=line.note if not n else ())
        for n, one in enumerate(halves)
    )
