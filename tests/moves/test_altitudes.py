"""Bands of altitude as step functions: an edge belongs to the band below it, edges within ten metres are one."""

from fractions import Fraction

import pytest

from brimline.document.values import Band, Jar, Times
from brimline.findings import Span
from brimline.moves.times import TEN_METRES_FT, Column, _short, at, edges, fits, listed_for, same_size, same_times

NOWHERE = Span(0, 0)


def bands(*rows: tuple[int, float | Fraction | None], psi: tuple[int | None, ...] = ()) -> tuple[Band, ...]:
    """Minutes up to feet, the last one open; psi beside them if given."""
    return tuple(
        Band(Fraction(minutes), None if feet is None else Fraction(feet), NOWHERE, psi=Fraction(p) if p else None)
        for (minutes, feet), p in zip(rows, psi or (None,) * len(rows), strict=True)
    )


USUAL = bands((5, 1000), (10, 6000), (15, None))


def jar(ml: str, name: str = "") -> Jar:
    """A jar of some millilitres."""
    return Jar(name or f"{ml} ml", Fraction(ml), NOWHERE)


@pytest.mark.parametrize(("feet", "minutes"), [(0, 5), (1000, 5), (1001, 10), (6000, 10), (6001, 15), (20000, 15)])
def test_an_edge_belongs_to_the_band_below_it(feet: int, minutes: int) -> None:
    found = at(USUAL, Fraction(feet))
    assert found is not None
    assert found.minutes == minutes


def test_above_the_last_closed_band_there_is_no_time() -> None:
    assert at(bands((5, 1000)), Fraction(1001)) is None


@pytest.mark.parametrize(
    ("first", "second", "wanted"),
    [
        (((5, 1000), (10, 6000), (15, None)), (), [0, 1000, 6000, 10000]),
        # Ten metres are 32.8 ft.
        (((5, 1000), (10, None)), ((5, 1030), (10, None)), [0, 1000, 10000]),
        (((5, 1000), (10, None)), ((5, 1035), (10, None)), [0, 1000, 1035, 10000]),
        (((5, 30), (10, None)), (), [0, 10000]),
        (((5, 35), (10, None)), (), [0, 35, 10000]),
        # Nothing is compared above ten thousand feet, and sea level is where it begins.
        (((5, 9990), (10, 10000), (15, 12000), (20, None)), (), [0, 9990, 10000]),
        (((5, 0), (10, None)), (), [0, 10000]),
        (((5, -100), (10, None)), (), [0, 10000]),
        # An edge at the top is the top; ten metres exactly are still one edge.
        (((5, 1000), (10, 10000), (15, None)), (), [0, 1000, 10000]),
        (((5, TEN_METRES_FT), (10, None)), (), [0, 10000]),
        (((5, 1000), (10, None)), ((5, 1000 + TEN_METRES_FT), (10, None)), [0, 1000, 10000]),
    ],
)
def test_edges(first, second, wanted: list[int]) -> None:
    assert edges(bands(*first), bands(*second)) == wanted


@pytest.mark.parametrize(
    ("other", "same"),
    [
        (USUAL, True),
        (bands((5, 1000.7), (10, 6000.6), (15, None)), True),
        (bands((5, 1000), (10, 3000), (10, 6000), (15, None)), True),
        (bands((5, 1000), (10, 6000), (20, None)), False),
        (bands((6, 1000), (10, 6000), (15, None)), False),
        (bands((5, 1000), (10, 5000), (15, None)), False),
        (bands((5, 1000), (12, 6000), (15, None)), False),
        (bands((5, 1000), (10, 6000)), False),
        (bands((5, 1000), (10, 6000), (15, None), psi=(10, 10, 10)), False),
    ],
)
def test_same_times(other: tuple[Band, ...], same: bool) -> None:
    assert same_times(USUAL, other) is same
    assert same_times(other, USUAL) is same


def test_half_a_foot_below_the_top_is_a_stretch_too() -> None:
    assert not same_times(bands((5, 9999.5), (10, None)), bands((5, 9999.5), (15, None)))


def test_a_pressure_is_part_of_a_time() -> None:
    ten = bands((15, 1000), (15, None), psi=(10, 15))
    assert same_times(ten, bands((15, 1000), (15, None), psi=(10, 15)))
    assert not same_times(ten, bands((15, 1000), (15, None), psi=(10, 10)))


# A pint holds 473.176 ml; half a percent of it is 2.366 ml.
@pytest.mark.parametrize(
    ("ml", "fit", "same"),
    [("475.5", True, True), ("475.6", False, False), ("471", True, True), ("470", True, False), ("237", True, False)],
)
def test_jars_within_half_a_percent_are_one_size(ml: str, fit: bool, same: bool) -> None:
    pint = jar("473.176", "pint")
    assert (fits(jar(ml), pint), same_size(jar(ml), pint)) == (fit, same)


def test_half_a_percent_exactly_is_within_it() -> None:
    assert same_size(jar("201"), jar("200"))
    assert not same_size(jar("201.0005"), jar("200"))


def test_a_jar_of_the_same_name_is_the_same_jar() -> None:
    assert same_size(jar("500", "pint"), jar("473.176", "pint"))


def column(one: Jar, fill: str = "", start: int = 0) -> Column:
    """A jar's column; `start` is where its row stands."""
    return Column(one, fill, Times((one,), fill, USUAL, Span(start, start + 1)))


def test_a_jar_takes_the_smallest_listed_jar_that_is_not_smaller() -> None:
    pint, quart = column(jar("473.176", "pint")), column(jar("946.353", "quart"))
    assert listed_for(jar("236.6"), "", [quart, pint]) is pint
    assert listed_for(jar("473"), "", [quart, pint]) is pint
    assert listed_for(jar("500"), "", [pint, quart]) is quart
    assert listed_for(jar("1000"), "", [pint, quart]) is None
    assert listed_for(jar("0", "bottle"), "", [pint, quart]) is None


def test_a_jar_takes_the_row_of_its_fill_where_fills_are_stated() -> None:
    raw, hot = column(jar("473.176", "pint"), "raw"), column(jar("473.176", "pint"), "hot", 40)
    plain = column(jar("946.353", "quart"))
    assert listed_for(jar("473.176", "pint"), "hot", [raw, hot, plain]) is hot
    assert listed_for(jar("473.176", "pint"), "", [hot, raw, plain]) is raw
    assert listed_for(jar("473.176", "pint"), "cold", [raw, hot, plain]) is plain
    assert listed_for(jar("473.176", "pint"), "raw", [hot, plain]) is plain
    assert listed_for(jar("473.176", "pint"), "hot", [raw, plain]) is plain


def band(minutes: int, psi: int | None = None) -> Band:
    """One time, for any altitude."""
    return bands((minutes, None), psi=(psi,))[0]


@pytest.mark.parametrize(
    ("was", "now", "short"),
    [
        (band(15), None, True),
        (band(15), band(14), True),
        (band(15), band(15), False),
        (band(15), band(16), False),
        # Less pressure is colder steam: as many minutes of it, and more of them, are less.
        (band(15, 10), band(15, 10), False),
        (band(15, 10), band(15, 9), True),
        (band(15, 10), band(16, 9), True),
        (band(15, 10), band(15, 11), False),
        (band(15, 10), band(14, 11), True),
        (band(15, 10), band(15), True),
        (band(15), band(15, 5), False),
        # Where no time is tested, one of the tested times carried there is short, a longer one is not.
        (None, band(20), True),
        (None, band(15), True),
        (None, band(21), False),
        (None, None, False),
    ],
)
def test_what_is_less_than_tested(was: Band | None, now: Band | None, short: bool) -> None:
    assert _short(was, now, bands((15, 1000), (20, 6000))) is short
