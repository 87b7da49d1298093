"""The stated yield beside what the ingredients can fill and what the finished batch comes to."""

from fractions import Fraction

import pytest
from msgspec.structs import replace
from rule_cases import CASES

from brimline.document import read
from brimline.figures.values import Interval
from brimline.findings import Flag
from brimline.moves.case import against, alone
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
        # 9.75 jars are 9.994 with it, 9.76 are 10.004.
        ("11", "9.75", ["yield-too-high"]),
        ("11", "9.76", []),
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


AS_TESTED = [
    # Eight to nine half-pints were tested; so are twice as many of a double batch.
    ("8 to 9 half-pint", "1", False),
    ("9 to 12 half-pint", "1", False),
    ("3 to 8 half-pint", "1", False),
    ("7 half-pint", "1", True),
    ("10 half-pint", "1", True),
    ("16 to 18 half-pint", "2", False),
    ("18 to 24 half-pint", "2", False),
    ("4 to 16 half-pint", "2", False),
    ("15 half-pint", "2", True),
    ("19 half-pint", "2", True),
    # The same number of other jars is not the tested yield.
    ("8 to 9 pint", "1", True),
    ("8 to 9 quarter-pint", "1", True),
]


@pytest.mark.parametrize(("stated", "scale", "asked"), AS_TESTED)
def test_the_tested_yield_at_its_scale_is_not_asked_about(stated: str, scale: str, asked: bool) -> None:
    tested = read("t.formula", TEXT.encode()).document
    adapted = read("a.formula", TEXT.replace("8 to 9 half-pint", stated).encode()).document
    assert tested is not None
    assert adapted is not None
    both = against(tested, adapted)[0][0]
    scaled = replace(both.compared, scale=Fraction(scale))
    case = replace(both, contrast=scaled, jars=lambda _: (Fraction(1), None))
    assert [one.row for one in the_jars_are_filled(case)] == ["yield-too-high"] * asked


def test_a_tested_formula_without_a_yield_has_none_to_keep_to() -> None:
    tested = read("t.formula", TEXT.replace("yield     8 to 9 half-pint\n", "").encode()).document
    adapted = read("a.formula", TEXT.encode()).document
    assert tested is not None
    assert adapted is not None
    case = replace(against(tested, adapted)[0][0], jars=lambda _: (Fraction(1), None))
    assert [one.row for one in the_jars_are_filled(case)] == ["yield-too-high"]


def test_no_yield_no_count_no_word() -> None:
    assert flags("8", None, None) == []
    silent = read("t.formula", TEXT.replace("yield     8 to 9 half-pint\n", "").encode()).document
    assert silent is not None
    assert list(the_jars_are_filled(replace(alone(silent), jars=lambda _: (Fraction(1), ESTIMATE)))) == []


def test_numbers_are_given_to_a_tenth() -> None:
    (one,) = flags("12", Fraction(1026, 100), None)
    assert "fill at most 10.3 half-pint jars" in one.says
    assert one.figures[0].value == "10.3"
    (one,) = flags("3", None, Interval(Fraction(626, 100), Fraction(974, 100)))
    assert "about 6.3 to 9.7 half-pint jars" in one.says
