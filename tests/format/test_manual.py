"""Every sample of schema/FORMAT.md is read without a fault, and the page covers every kind of line."""

import re
from pathlib import Path

import pytest

from brimline.document import read, units
from brimline.document.memory import said
from brimline.tree import HEADERS, SECTIONS, STARTS, parse
from brimline.tree.grammar import grammar

PAGE = (Path(__file__).parents[2] / "schema" / "FORMAT.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```([a-z]+)\n(.*?)^```$", PAGE, re.MULTILINE | re.DOTALL)
LINES = [(start, line) for start, block in BLOCKS if start != "formula" for line in block.splitlines()]


@pytest.mark.parametrize(("start", "line"), LINES)
def test_every_sample_line_is_read(start: str, line: str) -> None:
    says = said(start, line)
    assert (says.kind, says.notes) != ("", ())
    assert says.kind
    assert says.notes == ()


@pytest.mark.parametrize("block", [block for start, block in BLOCKS if start == "formula"])
def test_every_sample_formula_is_read(block: str) -> None:
    assert read("x.formula", block.encode()).findings == ()


def test_there_is_a_sample_of_every_kind_of_line() -> None:
    bodies = [(start, line) for start, line in LINES]
    for start, block in BLOCKS:
        section = ""
        for line in block.splitlines() if start == "formula" else ():
            words = line.split("  #")[0].split()
            if not words or words[0].startswith("#"):
                continue
            if not line[0].isspace():
                section = words[0] if words[0] in SECTIONS else section
                bodies.append(("section" if words[0] in SECTIONS else "header", line.split("  #")[0].strip()))
            elif section != "make":
                bodies.append((section, line.strip()))
    trees = [parse(start, body).tree for start, body in bodies]
    seen = {str(node.data) for tree in trees if tree is not None for node in tree.iter_subtrees()}
    named = {str(rule.alias or rule.origin.name) for rule in grammar().rules}
    aliased = {str(rule.origin.name) for rule in grammar().rules if rule.alias}
    assert set() == {name for name in named - aliased - seen if not name.startswith("_")}
    assert set(STARTS) >= {start for start, _ in LINES}
    assert set(HEADERS) | set(SECTIONS) == {line.split()[0] for _, line in bodies} & (set(HEADERS) | set(SECTIONS))


def test_the_page_lists_every_unit_jar_and_product() -> None:
    for name, unit in units.units().items():
        assert re.search(rf"(?<![\w-]){re.escape(name)}(?![\w-])", PAGE) or unit.dimension == "temperature", name
    for jar in units.jars():
        assert jar.name in PAGE
    flat = " ".join(PAGE.split())
    assert "fruit syrup, relish, salsa" in flat


def test_the_page_says_what_checking_cannot_do() -> None:
    flat = " ".join(PAGE.split())
    for words in ("cannot make an untested formula safe", "botulism", "extension office", "do not eat"):
        assert words in flat
