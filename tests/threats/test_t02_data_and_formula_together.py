"""T2: a request edits the tested formula, its evidence or the collection's own ingredients together with a formula."""

from pathlib import Path

import pytest
from repositories import SETTINGS, SMALL, room, said

ADAPTED, TESTED = "adapted/kv-201.formula", "tested/kv-102.formula"
LESS = SMALL[TESTED].replace("  sweetener  4 cup ", "  sweetener  3 cup ")
BOTH = SMALL[ADAPTED].replace("2 cup  ", "1 1/2 cup")


def test_tested_formula_and_adaptation_changed_alike(tmp_path: Path) -> None:
    made = room(tmp_path)
    made.branch("request")
    made.commit({TESTED: LESS, ADAPTED: BOTH})
    found = said(made.gate())
    assert (TESTED, "untested", "gate/tested") in found
    assert (ADAPTED, "untested", "gate/together") in found
    assert (ADAPTED, "untested", "sugar/cut/sugar-cut-gelled") in found


def test_the_adaptation_alone_is_not_accused(tmp_path: Path) -> None:
    made = room(tmp_path)
    made.branch("request")
    made.commit({ADAPTED: SMALL[ADAPTED].replace("Sort and wash", "Sort, rinse and wash")})
    assert said(made.gate()) == []


def test_a_grandchild_of_the_changed_formula(tmp_path: Path) -> None:
    child = SMALL[ADAPTED].replace("KV-201", "KV-202").replace("adapts    KV-102", "adapts    KV-201")
    made = room(tmp_path, {**SMALL, "adapted/kv-202.formula": child})
    made.branch("request")
    made.commit({TESTED: LESS, "adapted/kv-202.formula": child.replace("Sort and wash", "Wash")})
    found = said(made.gate())
    assert ("adapted/kv-202.formula", "untested", "gate/together") in found
    # The formula in between is not changed, but it departs from what was.
    assert (ADAPTED, "untested", "sugar/honey/honey-over-half") in found


OWN = f"""{SETTINGS}ingredients:
  - name: valleyberry
    role: fruit
    class: low-acid
    source: judgement ours
"""


@pytest.mark.parametrize("start", [SETTINGS, OWN])
def test_own_ingredients_and_a_formula(tmp_path: Path, start: str) -> None:
    made = room(tmp_path, {**SMALL, "collection.yaml": start})
    made.branch("request")
    after = OWN.replace("valleyberry", "hillberry")
    made.commit({"collection.yaml": after, ADAPTED: SMALL[ADAPTED].replace("loganberries", "hillberry")})
    found = said(made.gate())
    assert ("collection.yaml", "untested", "gate/settings") in found
    assert ("collection.yaml", "untested", "gate/together") in found
    assert ADAPTED in {path for path, _, _ in found}


@pytest.mark.parametrize(
    ("old", "new"),
    [("2025-05-18", "2026-05-18"), ("review-by  2028", "review-by  2035"), ("report KV-T-002", "report KV-T-900")],
)
def test_evidence_that_is_made_out_of_nothing(tmp_path: Path, old: str, new: str) -> None:
    made = room(tmp_path)
    made.branch("request")
    text = SMALL[TESTED].replace(old, new)
    assert text != SMALL[TESTED]
    made.commit({TESTED: text})
    assert (TESTED, "untested", "gate/tested") in said(made.gate())
