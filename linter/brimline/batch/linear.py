"""Sums of ingredients whose cup weights are not known exactly, and exact bounds of their ratios.

A form is a dictionary from the name of an unknown to its coefficient; the empty name is the constant part. All
coefficients are positive or zero, every unknown lies between two positive ends.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction

from brimline.figures.values import Interval

Linear = Mapping[str, Fraction]
Bounds = Mapping[str, Interval]

ONE = ""
ZERO = Fraction(0)


def total(forms: Iterable[Linear]) -> dict[str, Fraction]:
    """The sum of several forms."""
    out: dict[str, Fraction] = {}
    for form in forms:
        for name, coefficient in form.items():
            if coefficient:
                so_far = out.get(name)
                out[name] = coefficient if so_far is None else so_far + coefficient
    return out


def times(form: Linear, factor: Fraction) -> dict[str, Fraction]:
    """A form multiplied by a number."""
    return {name: coefficient * factor for name, coefficient in form.items()} if factor else {}


def is_zero(form: Linear) -> bool:
    """Whether the form is nothing at all."""
    return not any(form.values())


def value(form: Linear, bounds: Bounds) -> Interval:
    """The least and the most a form can come to."""
    low = high = form.get(ONE, ZERO)
    for name, coefficient in form.items():
        if name != ONE:
            low += coefficient * bounds[name].low
            high += coefficient * bounds[name].high
    return Interval(low, high)


def ratio(top: Linear, bottom: Linear, bounds: Bounds) -> Interval | None:
    """The least and the most of `top / bottom` over all values the unknowns can take; None if `bottom` is nothing.

    The quotient of two linear forms is monotone in each unknown, and its ends lie where the unknowns, sorted by the
    ratio of their coefficients, switch from one end to the other at one threshold: n + 1 corners are all there is to
    try. An unknown that stands on both sides cancels by itself.
    """
    if is_zero(bottom):
        return None
    same = _proportion(top, bottom)
    if same is not None:
        return Interval(same, same)
    names = [name for name in {**top, **bottom} if name != ONE]
    names.sort(key=lambda name: _slope(top.get(name, ZERO), bottom.get(name, ZERO)))
    terms = [(top.get(name, ZERO), bottom.get(name, ZERO), bounds[name]) for name in names]
    ends = [*_corners(top, bottom, terms), *_corners(top, bottom, terms[::-1])]
    return Interval(min(ends), max(ends))


def _corners(top: Linear, bottom: Linear, terms: Sequence[tuple[Fraction, Fraction, Interval]]) -> Iterator[Fraction]:
    """The quotients with every unknown at its low end, then with one more of them at its high end, in order."""
    above, below = top.get(ONE, ZERO), bottom.get(ONE, ZERO)
    for up, down, span in terms:
        above, below = above + up * span.low, below + down * span.low
    yield above / below
    for up, down, span in terms:
        width = span.high - span.low
        above, below = above + up * width, below + down * width
        yield above / below


def _proportion(top: Linear, bottom: Linear) -> Fraction | None:
    """The factor between two forms that are multiples of each other."""
    factor: Fraction | None = None
    for name in {**top, **bottom}:
        above, below = top.get(name, ZERO), bottom.get(name, ZERO)
        if not below:
            if above:
                return None
            continue
        here = above / below
        if factor is None:
            factor = here
        elif factor != here:
            return None
    return factor


def _slope(above: Fraction, below: Fraction) -> tuple[int, Fraction]:
    """Sorting key: the ratio of two coefficients, with a ratio over nothing last."""
    return (0, above / below) if below else (1, above)


def multiply(one: Interval, other: Interval) -> Interval:
    """The product of two intervals of positive numbers."""
    return Interval(one.low * other.low, one.high * other.high)
