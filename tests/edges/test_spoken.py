"""Numbers, times, altitudes and jars as a step says them, and the stretches and limits that sentences name."""

import re
from fractions import Fraction

import pytest

from brimline.rules.spoken import ALTITUDE, TIME, feet, jars, minutes, timed, value


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
        ("1/2", "1/2"),
        ("three quarters of an", "3/4"),
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
        ("1 or 2 hours", 60, 120),
        ("twenty-five min", 25, 25),
    ],
)
def test_times(text: str, low: int, high: int) -> None:
    found = re.search(TIME, text)
    assert found is not None
    assert minutes(found) == (low, high)
    assert timed(f"boil for {text}.")


@pytest.mark.parametrize(
    "text", ["boil the jars.", "minutes pass.", "ten jars.", "boil 10 jars hard.", "one by one, minutes go."]
)
def test_what_names_no_time(text: str) -> None:
    """Those that may hold one are looked at again by the pattern; these hold none."""
    assert re.search(TIME, text) is None


@pytest.mark.parametrize("text", ["boil the jars.", "minutes pass.", "ten jars.", "wait many minutes."])
def test_no_number_before_a_word_for_time(text: str) -> None:
    assert not timed(text)


# A metre is 1/0.3048 ft.
@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("1,000 ft", 1000),
        ("6000 feet", 6000),
        ("305 m", Fraction(305) / Fraction("0.3048")),
        ("305 metres", Fraction(305) / Fraction("0.3048")),
        ("381 m", 1250),
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
        ("add two pints of water.", []),
        ("fill a pint-sized pan.", []),
    ],
)
def test_jars(sentence: str, names: list[str]) -> None:
    assert [one.name for one in jars(sentence)] == names


def test_where_a_jar_is_named() -> None:
    """`pint` begins behind `fill the `, nine characters."""
    (one,) = jars("fill the pint jars.")
    assert one.span.start == 9
