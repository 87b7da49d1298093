"""What counts as new: by fingerprint, by what it weighs, by its figures; never by wording."""

from collections.abc import Iterable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from brimline.findings import Figure, Finding, Harm, Level, Place, Span, Variance
from brimline.gate.difference import Known, measure
from brimline.review.holding import held_levels, holds
from brimline.review.values import Reviewed
from brimline.shelf import Settings

LEVELS = held_levels(Settings())
ONE = Finding(
    at=Place("a.formula", Span(10, 20)),
    level=Level.UNSAFE,
    rule="acid/cut",
    harm=Harm.ILLNESS,
    says="It adds 1 cup.",
    why="",
    instead="",
    row="acid-cut",
    field="/take/vinegar",
    figures=(Figure("acid left", "0.50", ""),),
)
VARIANCE = Variance("acid/cut", "A-1", "m1-0", "a letter", "educator", "2027-01-31")


def formula(*findings: Finding, standing: str = "adapted", code: str = "A-1") -> Reviewed:
    return Reviewed("a.formula", code, "Salsa", standing, "T-1", "", "1.00", True, findings)


def new(before: Iterable[Reviewed], after: Reviewed, levels: frozenset[Level] = LEVELS) -> tuple[Finding, ...]:
    return Known((one, levels) for one in before).new(after, levels)


def test_the_same_is_not_new_whatever_its_place_and_words() -> None:
    moved = replace(ONE, at=Place("b.formula", Span(1, 2)), line=99, says="In other words.", why="For another reason.")
    assert new([formula(ONE)], formula(moved)) == ()


@pytest.mark.parametrize(
    "change",
    [
        {"rule": "acid/dropped"},
        {"row": "acid-dropped"},
        {"field": "/take/lemon-juice"},
        {"level": Level.UNTESTED},
        {"certain": False},
        {"ordinal": 2},
    ],
)
def test_another_fingerprint_is_new(change: dict[str, object]) -> None:
    other = replace(ONE, **change)
    assert new([formula(ONE)], formula(other)) == (other,)
    assert new([formula(ONE)], formula(ONE, other)) == (other,)


def test_another_formula_does_not_vouch_for_this_one() -> None:
    assert new([formula(ONE, code="A-2")], formula(ONE)) == (ONE,)


def test_other_figures_are_new_and_said() -> None:
    worse = replace(ONE, figures=(Figure("acid left", "0.10", ""),))
    (found,) = new([formula(ONE)], formula(worse))
    assert "with other figures" in found.says


def test_other_figures_of_what_does_not_hold_back_are_no_news() -> None:
    light, lighter = (
        replace(ONE, level=Level.FORM, figures=(Figure("share", value, ""),)) for value in ("0.50", "0.40")
    )
    assert new([formula(light)], formula(lighter)) == ()
    assert len(new([formula(light)], formula(lighter), LEVELS | {Level.FORM})) == 1


@pytest.mark.parametrize(
    "before",
    [formula(ONE, standing="draft"), formula(replace(ONE, varied=VARIANCE))],
    ids=["a draft", "a variance"],
)
def test_what_did_not_hold_back_before_is_new_when_it_does(before: Reviewed) -> None:
    (found,) = new([before], formula(ONE))
    assert "did not hold the formula back" in found.says
    assert new([formula(ONE)], before) == ()


def test_one_finding_of_before_vouches_for_one() -> None:
    twin = replace(ONE, ordinal=2)
    assert new([formula(ONE)], formula(ONE, twin)) == (twin,)
    known = Known([(formula(ONE, twin), LEVELS)])
    assert known.new(formula(ONE), LEVELS) == ()
    assert (known.met, known.left) == (1, 1)


def test_two_files_with_one_code_are_counted_each() -> None:
    known = Known([(formula(ONE), LEVELS)])
    assert known.new(formula(ONE), LEVELS) == ()
    assert known.new(formula(ONE), LEVELS) == (ONE,)


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("It adds 1 cup.", "This adds 1 cup of it.", True),
        ("It adds 1 cup.", "It has 1 cup.", True),
        ("It adds 1 cup.", "It adds 1 tbsp.", False),
        ("It adds 1/2 cup.", "It adds 1/4 cup.", False),
        ("It adds 1 cup.", "Beside KV-102 as it was before this change: It adds 1 cup.", True),
        ("It adds 10 %.", "It adds 1.0 %.", False),
    ],
)
def test_amounts_of_a_sentence_where_there_are_no_figures(one: str, other: str, same: bool) -> None:
    pair = [measure(replace(ONE, figures=(), says=says)) for says in (one, other)]
    assert (pair[0] == pair[1]) is same


FINDINGS = st.builds(
    lambda level, row, certain, ordinal, value: replace(
        ONE, level=level, row=row, certain=certain, ordinal=ordinal, figures=(Figure("x", value, ""),)
    ),
    st.sampled_from(list(Level)),
    st.sampled_from(["acid-cut", "acid-dropped"]),
    st.booleans(),
    st.integers(1, 3),
    st.sampled_from(["1", "2"]),
)


@given(st.lists(FINDINGS, max_size=6), st.lists(FINDINGS, max_size=6), st.sampled_from(["adapted", "draft", "tested"]))
def test_nothing_is_lost_and_nothing_counted_twice(before: list[Finding], after: list[Finding], standing: str) -> None:
    known = Known([(formula(*before, standing=standing), LEVELS)])
    found = known.new(formula(*after), LEVELS)
    assert known.met + known.left == len(before)
    assert len(found) <= len(after)
    # Whatever holds back now and is not new was there before, held back, and rested on the same figures.
    quiet = [one for one in after if not any(one == replace(new_, says=one.says) for new_ in found)]
    for one in quiet:
        if holds(one, "adapted", LEVELS):
            assert any(replace(old, says=one.says) == one and holds(old, standing, LEVELS) for old in before)


@given(st.lists(FINDINGS, max_size=6))
def test_nothing_is_new_against_itself(findings: list[Finding]) -> None:
    distinct = list({(one.level, one.row, one.certain, one.ordinal): one for one in findings}.values())
    assert new([formula(*distinct)], formula(*distinct)) == ()


def test_what_holds_back() -> None:
    assert {Level.UNREADABLE, Level.UNSAFE, Level.UNTESTED} == LEVELS
    assert held_levels(Settings(hold_back=("form",))) == LEVELS | {Level.FORM}
    assert holds(ONE, "adapted", LEVELS)
    assert not holds(ONE, "draft", LEVELS)
    assert not holds(replace(ONE, varied=VARIANCE), "adapted", LEVELS)
    assert not holds(replace(ONE, level=Level.FORM), "adapted", LEVELS)
    assert not holds(replace(ONE, level=Level.FORM, rule="identity/fruit"), "adapted", frozenset(Level))
