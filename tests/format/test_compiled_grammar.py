"""The compiled tables of the parser read every line as the grammar's text does, faults included."""

from pathlib import Path

import lark
import pytest

from brimline.text import decode
from brimline.tree import STARTS, grammar, read

ROOT = Path(__file__).resolve().parents[2]


def bodies() -> set[tuple[str, str]]:
    """The lines of all formulas of the project, each with its start, and each with its middle taken out."""
    out: set[tuple[str, str]] = set()
    for path in (*ROOT.glob("formulas/*/*.formula"), *ROOT.glob("tests/published/*.formula")):
        text, _ = decode(path.name, path.read_bytes())
        assert text is not None
        tree, _ = read(text)
        lines = {(row.kind, row.body) for row in tree.rows if row.kind in STARTS}
        out |= lines | {(start, body[: len(body) // 3] + body[len(body) // 2 :]) for start, body in lines}
    return out


def test_compiled_tables_and_the_text_read_every_line_alike(monkeypatch: pytest.MonkeyPatch) -> None:
    lines = sorted(bodies())
    assert len(lines) > 1000
    compiled = [grammar._parse(start, body) for start, body in lines]
    built = grammar.built()
    monkeypatch.setattr(grammar, "grammar", lambda: built)
    assert [grammar._parse(start, body) for start, body in lines] == compiled
    assert sum(one.fault is not None for one in compiled) > 300


def test_tables_of_another_version_of_the_library_are_not_used(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(lark, "__version__", "0.0")
    monkeypatch.setattr(lark.Lark, "load", lambda *_: pytest.fail("tables of another version were loaded"))
    parser = grammar.grammar.__wrapped__()
    assert parser.parse("product jam", start="header")


def test_missing_tables_are_no_trouble(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(grammar, "_compiled", lambda: None)
    assert grammar.grammar.__wrapped__().parse("product jam", start="header")
