"""The stated yield beside what the ingredients can fill and what the finished batch comes to."""

from fractions import Fraction

import pytest
from msgspec.structs import replace
from rule_cases import CASES

from brimline.document import read
from brimline.figures.values import Interval
from brimline.findings import Flag
from brimline.moves.case import alone
from brimline.rules.jars_filled import the_jars_are_filled

TEXT = (CASES / "tested" / "tf-grape.formula").read_text(encoding="utf-8")
ESTIMATE = Interval(Fraction(6), Fraction(9))


def flags(stated: str, most: Fraction | None, estimate: Interval | None) -> list[Flag]:
    """What is said of a stated yield when so much can be filled and so much is estimated."""
    document = read("t.formula", TEXT.replace("8 to 9 half-pint", f"{stated} half-pint").encode()).document
    assert document is not None
    return list(the_jars_are_filled(replace(alone(document), jars=lambda _: (most, estimate))))


@pytest.mark.parametrize(
    ("stated", "most", "rows"),
    [
        # 10 jars at most, 10.25 with what the equation may be off, 11 with a last jar that is not full.
        ("11", "10", []),
        ("12", "10", ["yield-too-high"]),
        # 9.7 jars are 9.94 with it: a tenth jar, no eleventh.
        ("10", "9.7", []),
        ("11", "9.7", ["yield-too-high"]),
        # 9.77 jars are 10.01 with it.
        ("11", "9.77", []),
        # The lower end of a stated range counts.
        ("11 to 13", "10", []),
    ],
)
def test_no_more_jars_than_can_be_filled(stated: str, most: str, rows: list[str]) -> None:
    assert [one.row for one in flags(stated, Fraction(most), None)] == rows


def test_the_sentence_says_both_numbers() -> None:
    (one,) = flags("12 to 14", Fraction(10), ESTIMATE)
    assert "at most 10 half-pint jars" in one.says
    assert "12 to 14 are stated" in one.says
    assert [(figure.value, figure.unit) for figure in one.figures] == [("10", "half-pint"), ("12 to 14", "half-pint")]
    (one,) = flags("3", None, ESTIMATE)
    assert "6 to 9 half-pint jars" in one.says
    assert "3 are stated" in one.says
    assert [(figure.value, figure.unit) for figure in one.figures] == [("6 to 9", "half-pint"), ("3", "half-pint")]


# Two thirds of 6 are 4, four thirds of 9 are 12.
@pytest.mark.parametrize(
    ("stated", "far"), [("3", True), ("4", False), ("2 to 4", False), ("12", False), ("12 to 14", False), ("13", True)]
)
def test_a_third_beside_the_estimate_is_far(stated: str, far: bool) -> None:
    assert [one.row for one in flags(stated, None, ESTIMATE)] == ["yield-far"] * far
