"""The published formulas, restated as facts: they read, and nothing holds them back but what `expected.yaml` names.

Sources: USDA Complete Guide to Home Canning (AIB 539, rev. 2015), USDA Home and Garden Bulletin 56 (1982 reprint),
National Center for Home Food Preservation, state extension pages; each file names its own.
"""

from datetime import date
from functools import cache
from pathlib import Path

from ruamel.yaml import YAML

from brimline.findings import Level
from brimline.review.engine import review
from brimline.review.values import Reviewed
from brimline.shelf import load_shelf

FOLDER = Path(__file__).parent / "published"
EXPECTED = YAML(typ="safe", pure=True).load((FOLDER / "expected.yaml").read_text(encoding="utf-8"))["expected"]


@cache
def reviewed() -> dict[str, Reviewed]:
    shelf = load_shelf([str(FOLDER)], date(2026, 1, 15))
    return {Path(one.path).stem: one for one in review(shelf).formulas}


def test_all_57_are_read_whole() -> None:
    assert len(reviewed()) == 57
    assert [name for name, one in reviewed().items() if any(f.level is Level.UNREADABLE for f in one.findings)] == []


def test_only_the_named_one_is_held_back() -> None:
    held = {name for name, one in reviewed().items() if one.held_back}
    assert held == {name for name, row in EXPECTED.items() if row["holds"]}
    assert len(reviewed()) - len(held) >= 49


def test_the_list_has_not_grown() -> None:
    assert len(EXPECTED) <= 8


def test_each_named_formula_gives_its_finding() -> None:
    missing = []
    for name, row in EXPECTED.items():
        one = reviewed()[name]
        if row["level"] == "draft":
            given = one.standing == "draft" and not one.held_back
        else:
            given = (row["finding"], row["level"]) in {(f.row, f.level.word) for f in one.findings}
        if not given:
            missing.append(name)
    assert missing == []


def test_nothing_but_form_notes_elsewhere() -> None:
    others = {
        name: [(f.level.word, f.row) for f in one.findings if f.level is not Level.FORM]
        for name, one in reviewed().items()
        if name not in EXPECTED and any(f.level is not Level.FORM for f in one.findings)
    }
    # Canned apricots without added pectin (row fruit-canned-no-pectin, quality) stand in one printed conserve.
    assert {name: rows for name, rows in others.items() if rows != [("quality", "fruit-canned-no-pectin")]} == {}
