"""The shipped collection is clean, its classroom is held back, each lesson for the reason it states."""

from datetime import date
from pathlib import Path

import pytest

from brimline.batch.resolve import resolve
from brimline.batch.values import Item
from brimline.document import read
from brimline.review.engine import review
from brimline.shelf import load_shelf

ROOT = Path(__file__).parent.parent / "formulas"
TODAY = date(2026, 1, 15)
KINDS = {
    "jelly",
    "jam",
    "preserves",
    "marmalade",
    "conserve",
    "chutney",
    "fruit butter",
    "fruit curd",
    "spread",
    "fruit syrup",
}


def test_the_collection_holds_nothing_back() -> None:
    found = review(load_shelf([str(ROOT)], TODAY))
    assert [one.path for one in found.formulas if one.held_back] == []
    assert len(found.formulas) == 42


def test_every_classroom_formula_is_held_back() -> None:
    found = review(load_shelf([str(ROOT / "classroom")], TODAY))
    assert len(found.formulas) == 24
    assert [one.path for one in found.formulas if not one.held_back] == []


def test_all_ten_kinds_are_there() -> None:
    files = sorted((ROOT / "tested").glob("*.formula"))
    assert len(files) == 30
    products = {one.product for one in (read(file.name, file.read_bytes()).document for file in files) if one}
    assert products >= KINDS


@pytest.mark.parametrize("folder", ["tested", "adapted", "classroom"])
def test_every_file_says_what_it_is(folder: str) -> None:
    silent = [
        file.name
        for file in (ROOT / folder).glob("*.formula")
        if "Demonstration. Not tested. Do not preserve from this." not in file.read_text(encoding="utf-8")
    ]
    assert silent == []


def _names(items: tuple[Item, ...]) -> set[str]:
    return {one.name for one in items}


def test_no_two_tested_formulas_share_more_than_half_their_items() -> None:
    documents = [read(f.name, f.read_bytes()).document for f in sorted((ROOT / "tested").glob("*.formula"))]
    names = {one.code: _names(resolve(one)) for one in documents if one}
    alike = [
        (a, b)
        for a, left in names.items()
        for b, right in names.items()
        if a < b and 2 * len(left & right) > max(len(left), len(right))
    ]
    assert alike == []
