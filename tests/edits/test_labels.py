"""The labels of the benchmark, checked by hand against the definitions and against the decision table."""

from collections import Counter
from fractions import Fraction
from pathlib import Path

import pytest
from edit_bench import all_edits
from edit_bench.cases import cases, kinds, missing_rows, pool
from edit_bench.kinds import KINDS, counts_as_cut, counts_as_raised, root

from brimline.figures import rows

CHECKOUT = Path(__file__).resolve().parents[2]
POOL = pool(CHECKOUT)

# Worked out by hand from the definitions of the acid classes.
BY_HAND = {
    "KV-101": "sets",  # gooseberries, sugar, powdered pectin, no acid
    "KV-103": "doubtful",  # plums, lime juice written bottled
    "KV-112": "protects",  # a jelly of peppers in vinegar
    "KV-114": "protects",  # figs are low-acid
    "KV-121": "protects",  # a chutney
    "KV-124": "protects",  # a sealed spread that requires no sugar
    "KV-125": "doubtful",  # the same kept cold: bottled juice only
    "KV-127": "protects",  # a pie filling
    "KV-130": "protects",  # acid stated per jar
    "G7-APRICOT-JAM": "sets",  # lemon juice not called bottled
    "HGB56-MINT-JELLY": "protects",  # water and vinegar, no fruit
    "TF-BUTTER": "sets",  # a butter that requires sugar
    "G2-APPLESAUCE": "sets",  # a sauce without vegetables
}
GELLED = {"KV-101": True, "KV-121": False, "KV-124": False, "TF-SPREAD": False, "TF-MARM": True, "KV-122": False}


def test_every_row_has_a_kind_of_edit() -> None:
    assert all_edits.MODULES
    assert missing_rows() == []
    assert {one.row for one in KINDS} == set(rows())


def test_no_kind_stands_for_a_row_that_does_not_exist() -> None:
    assert {one.row for one in KINDS} <= set(rows())


@pytest.mark.parametrize(("code", "acid_class"), BY_HAND.items())
def test_the_acid_class_is_that_of_the_definitions(code: str, acid_class: str) -> None:
    tested = next(one for one in POOL if one.sheet.code == code)
    assert tested.terms.acid_class == acid_class


@pytest.mark.parametrize(("code", "gelled"), GELLED.items())
def test_gelled_is_that_of_the_definition(code: str, gelled: bool) -> None:
    tested = next(one for one in POOL if one.sheet.code == code)
    assert tested.terms.gelled is gelled


def test_the_limit_is_two_percent_exactly() -> None:
    assert not counts_as_cut(Fraction(98, 100))
    assert counts_as_cut(Fraction(979, 1000))
    assert not counts_as_raised(Fraction(102, 100))
    assert counts_as_raised(Fraction(1021, 1000))


def test_two_generations_come_to_the_whole_edit() -> None:
    for factor in (Fraction(97, 100), Fraction(1, 2), Fraction(1, 10)):
        assert abs(root(factor) ** 2 / factor - 1) < Fraction(1, 1000)


def test_the_same_seed_gives_the_same_cases() -> None:
    first, second = (list(cases(POOL, 150, 5)) for _ in range(2))
    assert [one.texts for one in first] == [one.texts for one in second]
    assert [one.texts for one in first] != [one.texts for one in cases(POOL, 150, 6)]


def test_a_sample_has_every_row_and_all_levels() -> None:
    found = list(cases(POOL, 400, 1))
    assert {one.row for one in found} == {one.row for one in kinds()}
    assert set(Counter(one.level for one in found)) == {"unsafe", "untested", "quality", "form", "silent"}


def test_an_edit_near_the_limit_is_never_disguised() -> None:
    near = [one for one in cases(POOL, 300, 3, ("acid-cut", "sugar-cut-gelled", "lowacid-raised")) if one.factor]
    about = [one for one in near if one.factor and Fraction(1, 100) < abs(one.factor - 1) < Fraction(3, 100)]
    assert len(about) > 20
    assert {one.disguises for one in about} == {()}


def test_levels_agree_with_the_decision_table() -> None:
    table = {name: {word for _, word in row.levels} for name, row in rows().items()}
    notes = {name: row.note for name, row in rows().items()}
    odd = {
        f"{one.kind}: {one.level}"
        for one in cases(POOL, 1500, 2)
        if one.level != "silent" and one.level not in table[one.row] and one.level not in notes[one.row]
    }
    # More fruit is what the acid and the sugar rows say; less juice than vinegar is an acid cut, as its note tells.
    assert odd <= {"fruit-mix-more: unsafe", "fruit-mix-more: untested", "fruit-mix-more: quality"} | {
        "lemon-for-vinegar, less: unsafe",
        "whole-scaled: quality",
    }
