"""Adaptations of adaptations: measured to their root, and every way a chain can be broken."""

import itertools

import pytest

from .conftest import LESS, SALSA, Reviewing


def step(code: str, parent: str, vinegar: str = "1 cup") -> str:
    """An adaptation of a parent, whole, with so much vinegar."""
    return (
        LESS.replace("KV-201 Chile salsa, milder", f"{code} Chile salsa {code}")
        .replace("adapts    KV-101", f"adapts    {parent}")
        .replace("3/4 cup              vinegar", f"{vinegar}              vinegar")
    )


def says(done, code: str) -> list[str]:  # type: ignore[no-untyped-def]
    formula = next(one for one in done.formulas if one.code == code)
    return [one.says for one in formula.findings if one.row == "tested-missing"]


def test_small_cuts_add_up_to_the_root(reviewing: Reviewing) -> None:
    # 15 of 16 and 15 of 16 again: each within reach of nobody's eye, together 12 % of the acid.
    chain = [
        step("KV-301", "KV-101", "15 3/4 tbsp"),
        step("KV-302", "KV-301", "15 1/2 tbsp"),
        step("KV-303", "KV-302", "15 1/4 tbsp"),
    ]
    done = reviewing(SALSA, *chain)
    levels = {one.code: {found.row: found.level.word for found in one.findings} for one in done.formulas}
    assert "acid-cut" not in levels["KV-301"]
    assert levels["KV-303"]["acid-cut"] == "unsafe"
    last = next(one for one in done.formulas if one.code == "KV-303")
    assert (last.departs_from, last.root) == ("KV-302", "KV-101")


def test_a_ring_is_told(reviewing: Reviewing) -> None:
    done = reviewing(step("KV-301", "KV-302"), step("KV-302", "KV-301"), step("KV-303", "KV-303"))
    for code in ("KV-301", "KV-302", "KV-303"):
        assert "comes back to" in says(done, code)[0]


def test_a_ring_that_a_formula_only_leads_into_is_told(reviewing: Reviewing) -> None:
    done = reviewing(step("KV-301", "KV-302"), step("KV-302", "KV-301"), step("KV-303", "KV-301"))
    assert "comes back to" in says(done, "KV-303")[0]


def test_a_missing_root_is_told_through_the_chain_with_the_nearest_code(reviewing: Reviewing) -> None:
    done = reviewing(SALSA, step("KV-301", "KV-110"), step("KV-302", "KV-301"))
    assert "through KV-301" in says(done, "KV-302")[0]
    formula = next(one for one in done.formulas if one.code == "KV-301")
    assert "KV-101" in formula.findings[0].instead


def retired(text: str, successor: str = "") -> str:
    after = f"successor {successor}\n" if successor else ""
    return text.replace("standing  tested\n", f"standing  retired\nretired   2026-01-15, superseded\n{after}")


def test_a_retired_root_is_nothing_to_depart_from_and_its_successor_is_named(reviewing: Reviewing) -> None:
    newer = SALSA.replace("KV-101 Chile salsa", "KV-131 Chile salsa")
    done = reviewing(retired(SALSA, "KV-131"), newer, LESS)
    assert "is retired" in says(done, "KV-201")[0]
    adapted = next(one for one in done.formulas if one.code == "KV-201")
    assert "KV-131" in adapted.findings[0].instead


def test_a_retired_formula_may_be_a_stub_and_its_contents_are_not_judged(reviewing: Reviewing) -> None:
    stub = "formula KV-101 Chile salsa\nstanding  retired\nretired   2026-01-15, superseded\n"
    assert reviewing(stub).formulas[0].findings == ()
    unsafe = retired(SALSA).replace("15 min to 1000 ft, 20 min to 6000 ft, 25 min above", "1 min above")
    assert not reviewing(unsafe).formulas[0].held_back


@pytest.mark.parametrize("successor", ["KV-101", "KV-999", "KV-131", "KV-132"])
def test_a_successor_is_a_formula_that_can_be_used(reviewing: Reviewing, successor: str) -> None:
    gone = retired(SALSA.replace("KV-101 Chile", "KV-131 Second"))
    draft = SALSA.replace("KV-101 Chile", "KV-132 Third").replace("standing  tested", "standing  draft")
    found = reviewing(retired(SALSA, successor), gone, draft).formulas[0].findings
    assert [(one.row, one.line) for one in found] == [("successor-missing", 6)]


def test_a_chain_longer_than_any_is_not_followed_for_ever(reviewing: Reviewing) -> None:
    codes = ["KV-101", *(f"KV-{number}" for number in range(300, 320))]
    done = reviewing(SALSA, *(step(code, parent) for parent, code in itertools.pairwise(codes)))
    assert says(done, "KV-301") == []
    assert "more than 16" in says(done, "KV-319")[0]


def test_two_formulas_with_one_code_are_both_unreadable_and_so_is_what_departs_from_them(reviewing: Reviewing) -> None:
    done = reviewing(SALSA, SALSA.replace("Chile salsa", "Another"), LESS)
    assert [one.findings[0].rule for one in done.formulas] == ["writing/code", "writing/code", "evidence/tested"]
    assert all(one.held_back for one in done.formulas)


def test_two_formulas_with_one_title_are_told_apart(reviewing: Reviewing) -> None:
    done = reviewing(SALSA, SALSA.replace("KV-101 Chile", "KV-102  CHILE"))
    assert [[(one.rule, one.level.word) for one in formula.findings] for formula in done.formulas] == [
        [("writing/title", "form")],
        [("writing/title", "form")],
    ]
    assert reviewing(SALSA, retired(SALSA.replace("KV-101", "KV-102"))).formulas[0].findings == ()


@pytest.mark.parametrize(
    ("codes", "says"), [(["KV-102"], "KV-102 has the"), (["KV-102", "KV-103"], "KV-102 and KV-103 have the")]
)
def test_who_has_the_same_title_is_told_in_a_sentence(reviewing: Reviewing, codes: list[str], says: str) -> None:
    done = reviewing(SALSA, *(SALSA.replace("KV-101", code) for code in codes))
    assert done.formulas[0].findings[0].says == f"{says} same title."
