"""Texts fitted to a width."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimline.report.look import cells, clipped, fitted, wrapped

WORDS = st.text(alphabet="abc ½é果\u0301\t", max_size=80)


@given(WORDS, st.integers(4, 40))
def test_no_line_is_wider_than_it_may_be_and_no_letter_is_lost(text: str, width: int) -> None:
    lines = wrapped(text, width)
    assert all(cells(line) <= width for line in lines)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "").replace("\t", "<U+0009>")


def test_the_first_line_can_have_less_room() -> None:
    assert wrapped("one two three", 9, first=4) == ["one", "two three"]
    assert wrapped("longer", 9, first=3) == ["", "longer"]


@given(WORDS, st.integers(1, 90), st.integers(12, 40))
def test_a_clipped_line_fits_and_the_mark_stays_under_its_letter(text: str, column: int, width: int) -> None:
    line, offset = clipped(text, column, width)
    assert cells(line) <= width
    assert 0 <= offset <= cells(line)
    if column <= len(text) and text[column - 1] in "abc":
        before = next(n for n in range(len(line) + 1) if cells(line[:n]) == offset)
        assert line[before:].lstrip("\u0301").startswith(text[column - 1])


def test_a_long_line_shows_that_it_goes_on() -> None:
    line, offset = clipped("x" * 50 + "Y" + "z" * 50, 51, 20)
    assert line.startswith("...")
    assert line.endswith("...")
    assert line[offset] == "Y"


@pytest.mark.parametrize(("columns", "width"), [(0, 40), (30, 40), (80, 80), (93, 93), (300, 100)])
def test_a_report_is_as_wide_as_reads_well(columns: int, width: int) -> None:
    assert fitted(columns) == width


def test_wide_letters_take_two_columns_and_accents_none() -> None:
    assert [cells(text) for text in ("abc", "果", "e\u0301")] == [3, 2, 1]
