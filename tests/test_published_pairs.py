"""Published pairs: a published formula, and a change its source says not to make or says is fine.

Each file of `published_pairs` is one of the published formulas with that change, and carries the finding on the line it
must stand on; every other line is silent. The source of the sentence stands in its first lines.
"""

from datetime import date
from functools import cache
from pathlib import Path

import pytest
from rule_cases import expected, problems

from brimline.findings import Finding, Level
from brimline.review.engine import review_one
from brimline.shelf import Settings, shelf_of

FOLDER = Path(__file__).parent / "published_pairs"
PUBLISHED = Path(__file__).parent / "published"
PAIRS = sorted(FOLDER.glob("*.formula"))


@cache
def published() -> dict[str, str]:
    """The published formulas by the code an adaptation names."""
    texts = [path.read_text(encoding="utf-8") for path in sorted(PUBLISHED.glob("*.formula"))]
    return {line.split()[1]: text for text in texts for line in text.splitlines() if line.startswith("formula ")}


def found(text: str) -> tuple[Finding, ...]:
    """What the whole pipeline finds in a changed formula beside its published one."""
    adapts = next(line.split()[1] for line in text.splitlines() if line.startswith("adapts "))
    files = {"pair.formula": text, "published.formula": published()[adapts]}
    shelf = shelf_of(files, date(2026, 1, 15), Settings(), ["published.formula"])
    return review_one(shelf, shelf.formulas[0]).findings


@pytest.mark.parametrize("path", PAIRS, ids=[path.stem for path in PAIRS])
def test_a_pair_says_what_its_source_says(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert problems(found(text), expected(text)) == []


@pytest.mark.parametrize("path", PAIRS, ids=[path.stem for path in PAIRS])
def test_a_pair_names_its_source_and_flags_what_the_source_advises_against(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    head = " ".join(line.removeprefix("# ") for line in text.partition("formula ")[0].splitlines())
    assert "Source: " in head
    assert "(read)" in head or "(memory)" in head
    levels = [Level[one.level.upper()] for one in expected(text) if not one.also]
    if path.name.startswith("not-"):
        assert min(levels) <= Level.QUALITY
    else:
        assert path.name.startswith("fine-")
        assert all(level is Level.FORM for level in levels)


def test_there_are_pairs_enough_of_both_sorts() -> None:
    fine = [path for path in PAIRS if path.name.startswith("fine-")]
    assert len(fine) >= 12
    assert len(PAIRS) - len(fine) >= 25
