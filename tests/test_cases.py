"""Every case file through the whole pipeline: the expected findings on the expected lines, and silence elsewhere."""

from pathlib import Path

import pytest
from rule_cases import CASES, case_files, expected, findings, problems

FILES = case_files()


@pytest.mark.parametrize("path", FILES, ids=[path.relative_to(CASES).as_posix() for path in FILES])
def test_case(path: Path) -> None:
    """A case gives exactly the findings written on its lines."""
    assert problems(findings(path), expected(path.read_text(encoding="utf-8"))) == []


def test_flagged_cases_expect_something() -> None:
    """A case named flagged that expects nothing would prove nothing; one named accepted holds nothing back."""
    silent = [path.name for path in FILES if path.name.startswith("flagged") and not expected(path.read_text("utf-8"))]
    held = [
        path.name
        for path in FILES
        if path.name.startswith("accepted")
        and any(one.level in ("unreadable", "unsafe", "untested") for one in expected(path.read_text("utf-8")))
    ]
    assert (silent, held) == ([], [])
