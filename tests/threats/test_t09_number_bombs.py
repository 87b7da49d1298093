"""T9: numbers that keep a program busy or fill its memory; a number of a formula has five digits and four decimals."""

import pytest

from brimline.document import read
from brimline.findings import Level

FORMULA = "formula NB-1 Numbers\nproduct jam\nstanding draft\n{header}\ntake\n  fruit {amount} cup gooseberries\n\npack\n  jar half-pint\n"
BOMBS = (
    "1e100000000", "1E9", "9**9**9**9", "1" * 1000, "1." + "0" * 1000 + "1", "1_000", "-1", "+1", "0x10", "inf", "nan", "1/0",
    "1/999999999", "999999/1", "1e-100000000", "٣", "1^9",
)  # fmt: skip


@pytest.mark.parametrize("bomb", BOMBS, ids=lambda text: text[:12])
def test_an_amount_that_is_no_number_of_the_format_is_not_read(bomb: str) -> None:
    found = read("nb-1.formula", FORMULA.format(amount=bomb, header="").encode()).findings
    assert [(one.line, one.level) for one in found] == [(6, Level.UNREADABLE)]


@pytest.mark.parametrize("bomb", BOMBS, ids=lambda text: text[:12])
@pytest.mark.parametrize("header", ["yield {} half-pint", "finish {} Brix"])
def test_nor_is_one_in_a_header(bomb: str, header: str) -> None:
    text = FORMULA.format(amount="1", header=header.format(bomb) + "\n")
    assert Level.UNREADABLE in [one.level for one in read("nb-1.formula", text.encode()).findings if one.line == 4]
