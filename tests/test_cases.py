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
    """A case named flagged that expects nothing would prove nothing; an accepted one is not held back by its own row."""
    wanted = {path: expected(path.read_text(encoding="utf-8")) for path in FILES}
    silent = [path.name for path, rows in wanted.items() if path.name.startswith("flagged") and not rows]
    held = [
        path.name
        for path, rows in wanted.items()
        if path.name.startswith("accepted")
        and any(one.row == path.parent.name and one.level in ("unreadable", "unsafe", "untested") for one in rows)
    ]
    assert (silent, held) == ([], [])
