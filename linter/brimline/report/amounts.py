"""Masses, shares and estimates in words, rounded for reading: `1.2 to 1.4 kg`, `62 % (58 to 66)`."""

from fractions import Fraction
from math import floor, log10

from brimline.batch import words
from brimline.batch.models.values import Estimate
from brimline.figures.values import Interval

NO_FIGURE = "no figure"


def masses(span: Interval) -> str:
    """A mass that may lie between two ends, both in one unit: `1.2 to 1.4 kg`, `210 g`."""
    size, unit = (Fraction(1000), "kg") if span.high >= 1000 else (Fraction(1), "g")
    return f"{spread(Interval(span.low / size, span.high / size))} {unit}"


def spread(span: Interval) -> str:
    """Two ends with as many decimals as give the greater one three figures; `up to` where the lesser is nothing."""
    places = max(0, 2 - floor(log10(span.high))) if span.high else 0
    low, high = (words.decimal(end, places) if places else str(round(end)) for end in (span.low, span.high))
    return f"up to {high}" if low == "0" != high else ends(low, high)


def percents(span: Interval) -> str:
    """A share in per cent: `59 to 63 %`, `6.4 %`."""
    low, high = (float(end * 100) for end in (span.low, span.high))
    places = 0 if low >= 10 else 1
    return f"{ends(f'{low:.{places}f}', f'{high:.{places}f}')} %"


def ends(low: str, high: str) -> str:
    """Two ends already in words; one of them where they read the same."""
    return low if low == high else f"{low} to {high}"


def about(value: Estimate, factor: float, unit: str, places: int) -> str:
    """The middle, then both ends: `62 % (58 to 66)`."""
    low, middle, high = (f"{one * factor:.{places}f}" for one in (value.low, value.middle, value.high))
    return f"{middle} {unit}" if low == high else f"{middle} {unit} ({low} to {high})"
