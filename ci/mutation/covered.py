"""Which tests run each line: what runs no line of a changed statement cannot notice the change."""

import ast
import json
import os
import subprocess
import sys
from collections.abc import Iterable
from concurrent.futures import ThreadPoolExecutor
from itertools import accumulate
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).resolve().parents[2]
# A compiled file counts as fresh by time and size, and a mutant can have both; so the copies hold those that are
# compared by content, and write no others.
QUIET = {"PYTHONDONTWRITEBYTECODE": "1", "HYPOTHESIS_STORAGE_DIRECTORY": os.devnull}
NEAR = 25  # lines
TEST = 0.01  # seconds that any test takes
ASKED = ("ci", "mutation", "asked.py")


Ran = tuple[float, dict[str, list[int]]]


class Cover(NamedTuple):
    """Which tests run each line, by file, by line; what each test takes, in seconds; the files asked as a whole."""

    lines: dict[str, dict[int, set[str]]]
    seconds: dict[str, float]
    whole: frozenset[str]

    def running(self, file: str, at: int) -> list[str]:
        """The tests that run a line of the statement at one, the likeliest first; all where importing runs it."""
        lines = statement((ROOT / file).read_text(encoding="utf-8"), at)
        by_line = self.lines.get(file, {})
        found = set(self.seconds)
        if lines is not None:
            found = {name for line in lines for name in by_line.get(line, ())}
            files = {name.partition("::")[0] for name in found} & self.whole
            found |= {name for name in self.seconds if name.partition("::")[0] in files}
        # Who runs lines near it that few others run is about what stands there.
        score = dict.fromkeys(found, 0.0)
        for line in range(at - NEAR, at + NEAR):
            for name in by_line.get(line, set()) & found:
                score[name] += 1 / len(by_line[line])
        return sorted(found, key=lambda name: (-score[name] / (TEST + self.seconds[name]), name))

    def likeliest(self, file: str, at: int, first: int, seconds: float) -> list[str]:
        """Of the tests that run a statement the first so many, and as many more as so many seconds hold together."""
        tests = self.running(file, at)
        spent = accumulate(self.seconds[name] for name in tests)
        return [
            name
            for number, (name, so_far) in enumerate(zip(tests, spent, strict=True))
            if number < first or so_far <= seconds
        ]

    def patience(self, tests: Iterable[str]) -> int:
        """Seconds after which tests that took a fifth of it have been noticed not to end."""
        return 60 + int(5 * sum(self.seconds[name] for name in tests))


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
    """Every test run once with nothing changed, and which lines it ran."""

    def one(part: int) -> dict[str, Ran]:
        out = copy / f"lines-{part}.json"
        command = [sys.executable, "-W", "ignore", str(copy.joinpath(*ASKED)), "lines", str(out), str(part), str(jobs)]
        done = subprocess.run(
            command, cwd=copy, check=False, capture_output=True, text=True, env=dict(os.environ, **QUIET)
        )
        if done.returncode:
            raise SystemExit(f"The tests fail without any mutant.\n{done.stderr[-2000:]}")
        return dict(json.loads(out.read_text(encoding="utf-8")))

    with ThreadPoolExecutor(jobs) as pool:
        return of({name: ran for part in pool.map(one, range(jobs)) for name, ran in part.items()})


def of(found: dict[str, Ran]) -> Cover:
    """The lines of each test, the other way round."""
    by_file: dict[str, dict[int, set[str]]] = {}
    for name, (_, files) in found.items():
        for file, lines in files.items():
            for line in lines:
                by_file.setdefault(file, {}).setdefault(line, set()).add(name)
    tests = {name.partition("::")[0] for name in found}
    seconds = {name: ran[0] for name, ran in found.items()}
    return Cover(by_file, seconds, frozenset(name for name in tests if _remembers(name)))


def _remembers(file: str) -> bool:
    """Whether what one test has found out is kept for others, so that only the first runs the lines."""
    text = (ROOT / file).read_text(encoding="utf-8")
    return "cache" in text or "scope=" in text
