"""The header scan agrees with the parser about every formula that can be read."""

from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from brimline.findings import Level
from brimline.gate.scan import adapts_in, successor_in
from brimline.shelf import Book
from brimline.shelf.books import code_in

ROOT = Path(__file__).parents[2]
LINES = (
    "formula A-1 Jam",
    "formula A-1",
    "product jam",
    "standing adapted",
    "standing draft",
    "adapts A-2",
    "adapts  A-2  ",
    "adapts\tB-22-3",
    "adapts A-2  # why",
    "adapts A-2 # why",
    "adapts A-2\t# why",
    "adapts A-2, A-3",
    "adapts: A-2",
    "adapts",
    "adaptsA-2",
    "adapt A-2",
    "Adapts A-2",
    "adapts a-2",
    "adapts A-2x",
    "adapts-A-2",
    "  adapts A-2",
    "# adapts A-2",
    "adapts A-2" + " " * 90,
    "adapts A-2" + " " * 2100,
    "adapts A-2\u200b",
    "adapts ABCDEFGHIJKLM-2",
    "adapts A-2-3-4-5-6-7",
    "successor A-3",
    "successor A-3  # why",
    "successor  A-3,",
    "take",
    "  fruit 4 cup plums",
    "make",
    "  - Stir.",
    "    adapts A-9",
    "pack",
    "",
    "\u00e9",
    "adapts A-2\radapts A-3",
)


def agree(data: bytes) -> None:
    book = Book("a.formula", code_in(data), data=data)
    scanned, successor = adapts_in(book), successor_in(book)
    read = Book("a.formula", data=data).read
    if read.document is None or any(one.level is Level.UNREADABLE for one in read.findings):
        return
    assert scanned == read.document.adapts
    assert successor == read.document.successor
    assert book.code == read.document.code


@settings(max_examples=400)
@given(
    st.lists(st.sampled_from(LINES), max_size=12),
    st.sampled_from(["\n", "\r\n", "\r"]),
    st.sampled_from(["", "\ufeff"]),
)
@example(["formula A-1 Jam", "standing draft", "adapts A-2"], "\n", "\ufeff")
@example(["adapts A-2", "formula A-1 Jam", "standing draft"], "\r\n", "\ufeff")
@example(["formula A-1 Jam", "standing draft", "make", "adapts A-2"], "\n", "")
def test_made_up_headers(lines: list[str], end: str, start: str) -> None:
    agree((start + end.join(lines)).encode("utf-8"))


@settings(max_examples=200)
@given(st.lists(st.sampled_from(LINES[5:]), min_size=1, max_size=2), st.sampled_from(["\n", "\r\n"]))
def test_headers_of_a_draft_that_can_be_read(more: list[str], end: str) -> None:
    agree(end.join(["formula A-1 Jam", "standing draft", *more]).encode("utf-8"))


@pytest.mark.parametrize("file", sorted((ROOT / "formulas").rglob("*.formula")), ids=lambda file: file.name)
def test_shipped_formulas(file: Path) -> None:
    agree(file.read_bytes())


def test_published_and_cases() -> None:
    several = [*(ROOT / "tests" / "cases").rglob("*.formula"), *(ROOT / "tests" / "published").rglob("*.formula")]
    assert len(several) > 100
    for file in several:
        agree(file.read_bytes())


@settings(max_examples=200)
@given(st.binary(max_size=200))
def test_any_bytes(data: bytes) -> None:
    agree(data)
    agree(b"formula A-1 Jam\nstanding draft\nadapts A-2" + data)


def test_a_plain_header_is_not_parsed() -> None:
    book = Book("a.formula", data=b"formula A-1 Jam\nstanding adapted\nadapts A-2\n")
    assert adapts_in(book) == "A-2"
    assert book._read is None
