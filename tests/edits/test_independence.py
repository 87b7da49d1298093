"""The benchmark must not know how edits are found, or it would only agree with itself."""

import ast
from pathlib import Path

import pytest

CHECKOUT = Path(__file__).resolve().parents[2]
BENCH = sorted((CHECKOUT / "ci" / "edit_bench").glob("*.py"))
# What may be used to make an edit; the reviewer itself is seen by one module only.
ALLOWED = ("brimline.document", "brimline.figures", "brimline.findings")
REVIEWER = ("brimline.review", "brimline.shelf")


def imported(path: Path) -> set[str]:
    names: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names.update(alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "imports are written in full, so that they can be checked"
            names.update(f"{node.module}.{alias.name}" for alias in node.names)
    return {name for name in names if name.startswith("brimline")}


def test_there_is_something_to_check() -> None:
    assert {path.stem for path in BENCH} >= {"cases", "score", "judge", "disguises"}


@pytest.mark.parametrize("path", [*BENCH, CHECKOUT / "ci" / "edits.py"], ids=lambda path: path.stem)
def test_no_module_imports_moves_or_rules(path: Path) -> None:
    allowed = (*ALLOWED, *REVIEWER) if path.stem == "score" else ALLOWED
    assert {name for name in imported(path) if not name.startswith(allowed)} == set()
