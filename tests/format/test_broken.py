"""Every labelled broken sample is answered at its place with the line to copy, and that line is then read."""

from pathlib import Path

import pytest

from brimline.document import read
from brimline.findings import Level

CASES = sorted((Path(__file__).parent / "broken").glob("*.txt"))
EDGE = ("header", "section")


def around(section: str, line: str) -> str:
    """A draft with the line in its section, at the left edge or indented by two blanks."""
    if section == "header":
        # The sample replaces the header that it is, or was meant to be.
        others = [header for header in ("formula KV-1 A", "standing draft") if header[:4] != line[:4]]
        return "\n".join([line, *others]) + "\n"
    head = "formula KV-1 A\nstanding draft\n"
    if section == "section":
        return f"{head}{line}\n"
    return f"{head}{'process boiling-water' if section == 'process' else section}\n  {line}\n"


def case(path: Path) -> dict[str, str]:
    lines = path.read_text(encoding="utf-8").splitlines()
    return {key: value.lstrip() for key, _, value in (line.partition(":") for line in lines)}


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_broken_line_is_answered_with_the_line_to_copy(path: Path) -> None:
    told = case(path)
    indent = "" if told["section"] in EDGE else "  "
    text = around(told["section"], told["broken"])
    (finding,) = read("x.formula", text.encode()).findings
    number = text.splitlines().index(indent + told["broken"]) + 1
    expected = (Level.UNREADABLE, number, int(told["column"]) + len(indent), indent + told["copy"])
    assert (finding.level, finding.line, finding.column, finding.copy) == expected
    assert f"`{finding.copy.partition('  #')[0].strip()}`" in finding.instead or "if it" in finding.instead


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_line_to_copy_is_read_without_a_fault(path: Path) -> None:
    told = case(path)
    assert read("x.formula", around(told["section"], told["copy"]).encode()).findings == ()
