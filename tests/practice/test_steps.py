"""Steps that change the batch beside the list, steps in the same words that change nothing, and steps in other words.

The two sets of steps and the reworded formulas were written without sight of the rules, by one author each. The rules
before asides.py missed 70 of 70 harmful steps of the first set and 49 of 50 of the second. On first sight of the second
set asides.py missed 18 of 50 and took 12 of 50 others for a change, and 7 of 25 reworded formulas were held back; they
have been corrected on both since, by what words mean. Of the third set, by a third author without sight of the rules or
of the other sets, 22 of 50 harmful steps were missed on first sight and 5 of 50 others taken for a change; it has been
corrected on since too. The fourth set is held out: nothing was corrected on it, and of its 50 harmful steps 20 are missed,
of its 50 others 8 taken for a change.
"""

import re
from datetime import date
from functools import cache
from pathlib import Path

import pytest
from ruamel.yaml import YAML

from brimline.findings import Finding, Level
from brimline.review.engine import review_one
from brimline.shelf import Settings, shelf_of

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
REWORDED = sorted((HERE / "reworded").glob("*.formula"))
# Which part of each set may be read wrongly.
SETS = {"steps.yaml": 0.15, "steps_more.yaml": 0.15, "steps_third.yaml": 0.15, "steps_fourth.yaml": 0.3}


@cache
def parents() -> dict[str, str]:
    """The tested formulas of the cases and of the collection, by code."""
    folders = (ROOT / "tests" / "cases" / "tested", ROOT / "formulas" / "tested")
    texts = [path.read_text(encoding="utf-8") for folder in folders for path in sorted(folder.glob("*.formula"))]
    return {code(text, "formula"): text for text in texts}


def code(text: str, header: str) -> str:
    """The code behind a header word."""
    found = re.search(rf"^{header}\s+(\S+)", text, re.MULTILINE)
    assert found is not None
    return found[1]


def with_step(parent: str, step: str) -> str:
    """An adaptation that changes nothing but for a step before the jars are filled."""
    lines, section = [], ""
    for line in parents()[parent].splitlines():
        section = line.split()[0] if line and not line[0].isspace() else section
        if line.startswith("#") or section == "evidence":
            continue
        new = {"formula": "formula AD-1 An adaptation", "standing": f"standing adapted\nadapts {parent}"}
        lines.append(new.get(line.split(" ")[0], line))
    fills = max(at for at, line in enumerate(lines) if line.startswith("  - ") and "fill" in line.lower())
    lines.insert(fills, f"  - {step}")
    return "\n".join(lines) + "\n"


def grave(text: str) -> list[Finding]:
    """What is held against an adaptation beyond its writing."""
    parent = parents()[code(text, "adapts")]
    shelf = shelf_of({"t.formula": parent, "a.formula": text}, date(2026, 1, 15), Settings(), ["t.formula"])
    return [one for one in review_one(shelf, shelf.formulas[0]).findings if one.level is not Level.FORM]


@pytest.mark.parametrize("name", SETS)
def test_steps(name: str) -> None:
    """What is marked `now: missed` or `now: taken` is known to be read wrongly, and nothing else is."""
    rows = YAML(typ="safe").load((HERE / name).read_text(encoding="utf-8"))
    wrong = [
        row["text"]
        for row in rows
        if (row["kind"] == "harmful") is not bool(grave(with_step(row["code"], row["text"])))
    ]
    assert wrong == [row["text"] for row in rows if "now" in row]
    assert len(wrong) <= SETS[name] * len(rows)


@pytest.mark.parametrize("path", REWORDED, ids=lambda path: path.stem)
def test_the_same_steps_in_other_words(path: Path) -> None:
    assert [one.says for one in grave(path.read_text(encoding="utf-8"))] == []
