"""T6: nesting deep enough to end a program that walks it by calling itself."""

from datetime import date
from pathlib import Path

import pytest

from brimline.document import read
from brimline.review.engine import review
from brimline.shelf.loading import shelf_from
from brimline.shelf.records import collection_of

FORMULA = b"formula NE-1 Nested\nproduct jam\nstanding draft\n\ntake\n  %s\n\npack\n  jar half-pint\n"
DEEP = 100_000


@pytest.mark.parametrize("one", ["(", "[", "{", "from ", "or ", "optional ", "per cup "])
def test_a_line_of_brackets_and_words_is_only_a_faulty_line(one: str) -> None:
    line = f"fruit 1 cup gooseberries {one * (1900 // len(one))}".encode()
    found = read("ne-1.formula", FORMULA % line).findings
    assert {finding.line for finding in found} == {6}


def test_lines_under_lines_under_lines() -> None:
    rows = "\n".join("  " * min(depth, 900) + "or 1 cup gooseberries" for depth in range(2, 1500))
    read("ne-1.formula", FORMULA % f"fruit 1 cup gooseberries\n{rows}".encode())


@pytest.mark.parametrize("opening", [b"[", b"{a: ", b"- "])
def test_settings_nested_deeply_are_refused_in_words(opening: bytes) -> None:
    records = {"collection.yaml": b"name: A\nplaces: " + opening * (DEEP // len(opening))}
    shelf = shelf_from({"kv-1.formula": FORMULA % b"fruit 1 cup gooseberries"}, date(2026, 1, 15), records)
    refusals = [*shelf.refusals, *review(shelf).refusals]
    assert any("collection.yaml" in str(one) for one in refusals)


def test_a_register_nested_deeply_is_refused_in_words() -> None:
    _, refusals = collection_of(Path(), {"collection.yaml": b"name: A\n", "register.json": b"[" * DEEP})
    assert ["register.json" in str(one) for one in refusals] == [True]
