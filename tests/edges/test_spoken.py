"""Numbers, times, altitudes and jars as a step says them, and the stretches and limits that sentences name."""

import re
from fractions import Fraction

import pytest

from brimline.rules.spoken import ALTITUDE, TIME, feet, jars, minutes, value


@pytest.mark.parametrize(
    ("written", "number"),
    [
        ("1 1/2", "3/2"),
        ("1/4", "1/4"),
        ("1,000", "1000"),
        ("ten", "10"),
        ("half a", "1/2"),
        ("twenty-five", "25"),
        ("2.5", "5/2"),
        ("an", "1"),
    ],
)
def test_numbers(written: str, number: str) -> None:
    assert value(written) == Fraction(number)


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("10 minutes", 10, 10),
        ("10 to 15 min", 10, 15),
        ("twelve hours", 720, 720),
        ("1 1/2 h", 90, 90),
        ("12 to 24 hours", 720, 1440),
        ("half an hour", 30, 30),
        ("5-minute", 5, 5),
    ],
)
def test_times(text: str, low: int, high: int) -> None:
    found = re.search(TIME, text)
    assert found is not None
    assert minutes(found) == (low, high)


# A metre is 1/0.3048 ft.
@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("1,000 ft", 1000),
        ("6000 feet", 6000),
        ("305 m", Fraction(305) / Fraction("0.3048")),
        ("305 metres", Fraction(305) / Fraction("0.3048")),
    ],
)
def test_altitudes(text: str, wanted: Fraction) -> None:
    found = re.search(ALTITUDE, text)
    assert found is not None
    assert feet(found) == wanted


@pytest.mark.parametrize(
    ("sentence", "names"),
    [
        ("fill half-pint jars and pint jars.", ["half-pint", "pint"]),
        ("ladle into hot quarts.", ["quart"]),
        ("fill 8-ounce jars.", ["half-pint"]),
        ("fill 16 oz canning jars.", ["pint"]),
        ("fill 300 ml jars.", ["300 ml"]),
        ("add a pint of water.", []),
        ("wipe the jars.", []),
    ],
)
def test_jars(sentence: str, names: list[str]) -> None:
    assert [one.name for one in jars(sentence)] == names
