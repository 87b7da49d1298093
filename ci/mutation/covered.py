"""Which lines everything that judges a mutant runs: what runs no line of a changed statement cannot notice the change."""

import ast
import json
import os
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).resolve().parents[2]
# What is run beside the items: the tests that judge formulas, not those of the frame.
TESTS = (
    "tests/moves",
    "tests/edges/test_yields.py",
    "tests/edges/test_spoken.py",
    "tests/test_published.py",
    "tests/test_collection.py",
    "tests/test_rows.py",
    "tests/test_properties.py",
    "tests/practice",
    "tests/report/test_data.py",
    "tests/report/test_pages.py",
    "tests/weigh",
    "tests/register/test_seals.py",
    "tests/identity",
)
# A compiled file counts as fresh by time and size, and a mutant can have both; so the copies hold those that are
# compared by content, and write no others.
QUIET = {"PYTHONDONTWRITEBYTECODE": "1", "HYPOTHESIS_STORAGE_DIRECTORY": os.devnull}


class Cover(NamedTuple):
    """Which items and which tests run each line: by file, by line."""

    items: dict[str, dict[int, set[str]]]
    tests: dict[str, dict[int, set[str]]]

    def running(self, file: str, at: int) -> tuple[list[str] | None, list[str]]:
        """The items and tests that run a line of the statement at one; None and all tests where importing runs it."""
        lines = statement((ROOT / file).read_text(encoding="utf-8"), at)
        if lines is None:
            return None, list(TESTS)
        asked, tests = (by.get(file, {}) for by in self)
        names = {name for line in lines for name in asked.get(line, ())}
        return sorted(names), [name for name in TESTS if any(name in tests.get(line, ()) for line in lines)]


def statement(text: str, line: int) -> range | None:
    """The lines of the innermost statement inside a function that a line belongs to, the head alone of a compound one."""
    inside: ast.stmt | None = None
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            held = (one for one in ast.walk(node) if isinstance(one, ast.stmt) and one is not node)
            around = [one for one in held if one.lineno <= line <= (one.end_lineno or 0)]
            inside = max([*around, *([inside] if inside else [])], key=lambda one: one.lineno, default=None)
    if inside is None or isinstance(inside, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
        return None
    body = getattr(inside, "body", None)
    if isinstance(body, list) and line < body[0].lineno:
        return range(inside.lineno, body[0].lineno)
    return range(inside.lineno, (inside.end_lineno or inside.lineno) + 1)


def cover(copy: Path, jobs: int) -> Cover:
    """Everything run once with nothing changed, and which lines it ran."""

    def one(what: str) -> dict[str, dict[str, list[int]]]:
        out = copy / f"cover-{what.replace('/', '-')}.json"
        command = [sys.executable, "-W", "ignore", str(copy / "ci" / "mutation" / "cover.py"), what, str(out)]
        done = subprocess.run(
            command, cwd=copy, check=False, capture_output=True, text=True, env=dict(os.environ, **QUIET)
        )
        if done.returncode:
            raise SystemExit(
                f"{what} fails without any mutant: mend it first.\n{done.stderr[-2000:]}{done.stdout[-2000:]}"
            )
        return dict(json.loads(out.read_text(encoding="utf-8")))

    out = Cover({}, {})
    with ThreadPoolExecutor(jobs) as pool:
        for number, found in enumerate(pool.map(one, ("items", *TESTS))):
            for name, files in found.items():
                for file, lines in files.items():
                    for line in lines:
                        out[number > 0].setdefault(file, {}).setdefault(line, set()).add(name)
    return out
