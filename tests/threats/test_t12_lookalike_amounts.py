"""T12: digits and signs that look like others, so that a reader and a program take one amount for two."""

import pytest

from brimline.document import read
from brimline.findings import Level

FORMULA = "formula LA-1 Look-alikes\nproduct jam\nstanding draft\n\ntake\n  acid {} cup lemon juice, bottled\n\npack\n  jar half-pint\n"


@pytest.mark.parametrize(
    "amount",
    ["１", "٣", "１/２", "1\u200b0", "1\u2044 2", "1⁄2", "l", "О", "1\u00a0½\u200d", "\u202e2/1", "²", "Ⅳ", "①"],
    ids=ascii,
)
def test_a_look_alike_is_never_an_amount(amount: str) -> None:
    found = read("la-1.formula", FORMULA.format(amount).encode()).findings
    assert [one.level for one in found if one.line == 6] == [Level.UNREADABLE]


def test_a_fraction_sign_of_its_own_is_read_as_what_it_shows() -> None:
    def acid(amount: str) -> object:
        document = read("la-1.formula", FORMULA.format(amount).encode()).document
        assert document is not None
        return document.take[0].amount

    # 1½ as two signs joined by compatibility would become 11/2.
    assert acid("1½") == acid("1 1/2")
