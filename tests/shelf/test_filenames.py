"""File names that cannot travel."""

from datetime import date

import pytest

from brimline.findings import Level
from brimline.shelf import load_shelf
from brimline.shelf.books import code_in
from brimline.shelf.filenames import awkward


@pytest.mark.parametrize(
    "path",
    [
        "con.formula",
        "a/NUL",
        "aux/x.formula",
        "lpt1.formula",
        'a"b.formula',
        "a:b.formula",
        "x./y.formula",
        "tab\there.formula",
        f"{'a' * 81}.formula",
        "odd\udcff.formula",
        "com².formula",
        "CONOUT$",
        "nul .formula",
        "/".join(["a" * 40] * 4) + ".formula",
    ],
)
def test_each_of_these_makes_trouble_somewhere(path: str) -> None:
    assert list(awkward([path])) == [path]


@pytest.mark.parametrize(
    "path", ["kv-101.formula", "adapted/kv-101.formula", "with blank.formula", "confit.formula", "quitte-süß.formula"]
)
def test_ordinary_names_make_none(path: str) -> None:
    assert awkward([path]) == {}


def test_names_that_differ_in_capitals_only_are_told_apart_by_one_system_and_not_by_another() -> None:
    found = awkward(["a/KV-1.formula", "a/kv-1.formula"])
    assert list(found) == ["a/kv-1.formula"]
    assert "a/KV-1.formula" in found["a/kv-1.formula"]


def test_folders_that_differ_in_capitals_only_are_told_too() -> None:
    found = awkward(["Adapted/kv-1.formula", "adapted/kv-2.formula"])
    assert list(found) == ["adapted/kv-2.formula"]


def test_an_accent_written_in_two_ways_makes_twins() -> None:
    found = awkward(["pur\u00e9e.formula", "pure\u0301e.formula"])
    assert list(found) == ["pure\u0301e.formula"]
    assert "accent" in found["pure\u0301e.formula"]


def test_such_a_name_is_a_note_on_the_formula(tmp_path) -> None:
    (tmp_path / f"{'a' * 81}.formula").write_text("formula KV-101 Jam\n", encoding="utf-8")
    shelf = load_shelf([str(tmp_path)], date(2026, 7, 1))
    (finding,) = shelf.findings(shelf.formulas[0])
    assert (finding.level, finding.rule) == (Level.FORM, "writing/name")


@pytest.mark.parametrize(
    ("data", "code"),
    [
        (b"formula KV-101 Jam\n", "KV-101"),
        (b"\xef\xbb\xbfformula KV-101 Jam", "KV-101"),
        (b"# note\r\n\r\nformula\tA1-B2-C3 Jam\r\n", "A1-B2-C3"),
        (b"formula KV101 Jam\n", ""),
        (b"formula KV-101x Jam\n", ""),
        (b"  formula KV-101 Jam\n", ""),
        (b"# formula KV-101 Jam\n", ""),
        (b"formulas KV-101\n", ""),
        (b"\x00\xff", ""),
        (b"", ""),
    ],
)
def test_the_code_is_found_without_reading_the_formula(data: bytes, code: str) -> None:
    assert code_in(data) == code
