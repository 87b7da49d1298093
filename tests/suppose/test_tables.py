"""A jar and a place are answered from the formula's own table, computed here by itself: nothing between, nothing beyond."""

from fractions import Fraction

import pytest
from suppose.desk import ROOT, answer, found, shelf

from brimline.document.values import Band, Document, Jar

CODES = [book.code for book in shelf("formulas/tested").formulas]
SIZES = ("60 ml", "4 oz", "200 ml", "300 ml", "12 oz", "16 oz", "700 ml", "24 oz", "32 oz", "1500 ml")
ML = {"ml": Fraction(1), "oz": Fraction("29.5735295625")}
# The metric names of quarter-pint, half-pint, pint and quart do not stand here; any other size is itself.
NEAR = Fraction(1005, 1000)
FEET = (0, 999, 1000, 1001, 2999, 3000, 3001, 5999, 6000, 6001, 9000)


def document(code: str) -> Document:
    read = found(code)[1].read.document
    assert read is not None
    return read


def timed(code: str) -> list[tuple[Jar, tuple[Band, ...]]]:
    return [(jar, row.bands) for process in document(code).process for row in process.rows for jar in row.jars]


@pytest.mark.parametrize("code", [code for code in CODES if timed(code)])
def test_a_jar_takes_a_listed_time_or_the_next_larger_one_or_none(code: str) -> None:
    for size in SIZES:
        number, unit = size.split()
        ml = Fraction(number) * ML[unit]
        fitting = [(jar, bands) for jar, bands in timed(code) if jar.volume_ml * NEAR >= ml]
        given = answer(code, f"{size} jars")
        assert (given.row == "jar-larger") is (not fitting), size
        if fitting:
            _, bands = min(fitting, key=lambda one: one[0].volume_ml)
            assert given.verdict in ("matches", "silent"), size
            for band in bands:
                assert f"{band.minutes} minutes" in given.says[0], size
            assert given.reviewed is not None
            assert not given.held_back


@pytest.mark.parametrize("code", CODES)
def test_a_place_takes_the_time_of_its_band(code: str) -> None:
    for feet in FEET:
        said = answer(code, f"{feet:,} ft").says[0]
        for jar, bands in timed(code):
            band = next(one for one in bands if one.up_to_ft is None or feet <= one.up_to_ft)
            assert f"{band.minutes} minutes" in said, (feet, jar.name)
        if not timed(code):
            assert "no time in a canner" in said


def test_above_the_last_band_there_is_no_time() -> None:
    """A table that ends at 6,000 ft says nothing about 7,000."""
    from datetime import date

    from brimline.review.suppose.answer import answered
    from brimline.shelf import shelf_of

    whole = (ROOT / "formulas" / "tested" / "kv-102.formula").read_text("utf-8")
    closed = whole.replace(", 15 min above", "")
    assert closed != whole
    here = shelf_of({"kv-102.formula": closed}, date(2026, 1, 15))
    given = answered(here, here.formulas[0], "7,000 ft").answers[0]
    assert given.verdict == "untested"
    assert given.held_back
    assert given.row == "band-missing"
    assert "minutes" not in " ".join(given.says)
