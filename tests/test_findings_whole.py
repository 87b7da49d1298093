"""Every finding of every case says what was found, why it matters, what to do instead, on whose word, how grave."""

import re
from collections import defaultdict
from functools import cache
from pathlib import Path

import pytest
from rule_cases import case_files, findings

from brimline.document import read
from brimline.findings import Finding, Harm, Level
from brimline.report.words import cited

BROKEN = Path(__file__).parent / "format" / "broken"
SAMPLE = Path(__file__).parent / "format" / "samples" / "gooseberry.formula"
# Advice that keeps what was tested: the amount, the part, the time, the words, or what was published about it.
KEEPS = re.compile(r"\b(?:keep|tested|published)\b", re.IGNORECASE)
# A sentence, as every finding gives its reason in one.
ENDS = re.compile(r"[.!?](?:\s|$)")


@cache
def found() -> dict[str, tuple[Finding, ...]]:
    """All findings of all cases, by row or rule."""
    by_row: dict[str, list[Finding]] = defaultdict(list)
    for path in case_files():
        for one in findings(path):
            by_row[one.row or one.rule].append(one)
    return {row: tuple(several) for row, several in by_row.items()}


def broken() -> list[Finding]:
    """What reading finds in the broken lines of the format's tests."""
    out: list[Finding] = []
    for path in sorted(BROKEN.glob("*.txt")):
        line = re.search(r"^broken:\s+(.*)$", path.read_text(encoding="utf-8"), re.MULTILINE)
        text = f"{SAMPLE.read_text(encoding='utf-8')}\n{line[1] if line else ''}\n"
        out.extend(read("a.formula", text.encode("utf-8")).findings)
    return out


def whole(one: Finding) -> list[str]:
    """What a finding lacks."""
    lacks = []
    if not one.says.strip():
        lacks.append("what was found")
    if len(ENDS.findall(one.why.strip().rstrip(".") + ".")) != 1:
        lacks.append("its reason in one sentence")
    if not one.instead.strip():
        lacks.append("what to do instead")
    if not [line for line in cited(one.sources) if line.strip()]:
        lacks.append("its source")
    if one.level not in Level or one.harm not in Harm or "/" not in one.rule:
        lacks.append("level, harm and rule")
    return lacks


def test_every_finding_of_every_case_is_whole() -> None:
    wanting = {row: whole(one) for row, several in found().items() for one in several if whole(one)}
    assert wanting == {}
    assert sum(map(len, found().values())) > 500


def test_keeping_what_was_tested_is_always_a_choice() -> None:
    ways = {row: one.instead for row, several in found().items() for one in several if one.rule != "writing/syntax"}
    others = {row: way for row, way in ways.items() if not KEEPS.search(way) and not row.startswith("writing/")}
    # These speak of a tested formula's own record, beside which no other formula stands.
    record = {"no-evidence", "review-overdue", "evidence-changed", "evidence-unsealed", "private-data"}
    assert set(others) <= record


def test_every_finding_of_reading_is_whole() -> None:
    several = broken()
    assert len(several) >= 40
    assert [(one.says, whole(one)) for one in several if whole(one)] == []


@pytest.mark.parametrize("change", ["acid-cut", "sugar-cut-gelled", "lowacid-raised", "time-shorter", "headspace"])
def test_a_change_of_an_amount_is_given_in_figures(change: str) -> None:
    for one in found()[change]:
        assert re.search(r"\d", one.says)
        assert one.figures or re.search(r"\d.*\d", one.says)
