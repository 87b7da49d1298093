"""Numbers as a step says them: minutes, altitudes and jars."""

import re
from fractions import Fraction

import pytest

from brimline.rules.spoken import ALTITUDE, TIME, feet, jars, minutes, timed, value


@pytest.mark.parametrize(
    ("written", "number"),
    [
        ("1 1/2", Fraction(3, 2)),
        ("1/2", Fraction(1, 2)),
        ("1,000", Fraction(1000)),
        ("2.5", Fraction(5, 2)),
        ("ten", Fraction(10)),
        ("half a", Fraction(1, 2)),
        ("three quarters of an", Fraction(3, 4)),
    ],
)
def test_a_number_is_read(written: str, number: Fraction) -> None:
    assert value(written) == number


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("10 minutes", 10, 10),
        ("10 to 15 minutes", 10, 15),
        ("1 1/2 hours", 90, 90),
        ("half an hour", 30, 30),
        ("1 or 2 hours", 60, 120),
        ("twenty-five min", 25, 25),
    ],
)
def test_a_time_is_read(text: str, low: int, high: int) -> None:
    """An hour has 60 minutes."""
    found = re.search(TIME, text)
    assert found is not None
    assert minutes(found) == (Fraction(low), Fraction(high))
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


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("1,000 feet", Fraction(1000)),
        ("2000 ft", Fraction(2000)),
        ("381 m", Fraction(1250)),
        ("762 metres", Fraction(2500)),
    ],
)
def test_an_altitude_is_read(text: str, number: Fraction) -> None:
    """A foot is 0.3048 m: 381 m / 0.3048 m = 1,250 feet, 762 m twice as many."""
    found = re.search(ALTITUDE, text)
    assert found is not None
    assert feet(found) == number


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("fill the pint jars.", ["pint"]),
        ("fill half-pint jars or quart jars.", ["half-pint", "quart"]),
        ("ladle into hot pints.", ["pint"]),
        ("fill the jars.", []),
        ("add two pints of water.", []),
        ("fill a pint-sized pan.", []),
    ],
)
def test_jars_are_named(text: str, names: list[str]) -> None:
    found = jars(text)
    assert [one.name for one in found] == names


def test_where_a_jar_is_named() -> None:
    """`pint` begins behind `fill the `, nine characters."""
    (one,) = jars("fill the pint jars.")
    assert one.span.start == 9
