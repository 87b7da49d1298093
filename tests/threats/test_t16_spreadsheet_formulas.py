"""T16: a cell of the table is taken for a formula by a spreadsheet and runs a program or sends the sheet away."""

import csv
import io

import pytest
from hostile_run import FORMS, PLACES, run

# The signs a spreadsheet takes for the start of a formula, plain, behind blanks and quotes, and in wide letters.
STARTS = ("=", "+", "-", "@", "\t=", "\r=", " =", '"=', "'=", "＝", "＋", "－", "＠", "|")


def cells(printed: str) -> list[str]:
    return [cell for row in csv.reader(io.StringIO(printed, newline=""), strict=True) for cell in row]


@pytest.mark.parametrize("place", PLACES)
def test_no_cell_starts_as_a_formula(place: str) -> None:
    for start in STARTS:
        printed = FORMS["csv"](run(f"{start}1+1", place))
        read = cells(printed)
        assert len(read) > 14
        assert not [cell for cell in read if cell.lstrip(" \"'").startswith(tuple("=+-@|＝＋－＠")) and cell[0] != "'"]


def test_a_cell_keeps_its_quotes_and_commas() -> None:
    assert '",=1+1,"' in "".join(cells(FORMS["csv"](run('",=1+1,"', "title"))))


def test_every_row_has_every_cell() -> None:
    rows = list(csv.reader(io.StringIO(FORMS["csv"](run('a","b\r\nc', "title")), newline=""), strict=True))
    assert {len(row) for row in rows} == {len(rows[0])}
