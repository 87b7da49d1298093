"""Judges mutants in a copy of the project, by the tests that run what a mutant changed."""

import json
import os
import shutil
import subprocess
import sys
import warnings
from pathlib import Path
from typing import NamedTuple

from covered import ASKED, QUIET, ROOT, Cover

# A string or number may be one object or two, which depends on where it was compiled; so these are imported anew.
ANEW = ("_Is", "_IsNot")


class Mutant(NamedTuple):
    """One change: its file, the operator and its occurrence, the line it stands on, old and new text of the line."""

    file: str
    operator: str
    occurrence: int
    line: int
    was: str
    now: str
    code: str

    @property
    def name(self) -> str:
        """What a reason goes by: file, operator and the line's own words, which outlive changes elsewhere."""
        return f"{self.file} {self.operator.rpartition('/')[2]}: {self.was} -> {self.now}"


class Judge:
    """A copy of the project, and a process there that has imported and collected everything."""

    def __init__(self, copy: Path, covered: Cover) -> None:
        self._copy, self._covered = copy, covered
        self._first: dict[str, list[str]] = {}
        command = [sys.executable, "-W", "ignore", str(copy.joinpath(*ASKED))]
        self._some = [*command, "some", str(copy / "some.json")]
        self._server: subprocess.Popen[str] | None = None
        if hasattr(os, "fork"):
            self._server = subprocess.Popen(
                [*command, "serve"],
                cwd=copy,
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,
                text=True,
                env=dict(os.environ, **QUIET),
            )

    def noticed(self, mutant: Mutant, first: int = 0, seconds: float = 0) -> bool:
        """Whether some test notices the mutant, of the likeliest: the first so many, and what more takes so long."""
        if refused(mutant.code):
            return True
        tests = self._covered.likeliest(mutant.file, mutant.line, first, seconds)
        # What noticed another mutant of the file is asked first; that changes the time and nothing else.
        before = [name for name in self._first.get(mutant.file, ()) if name in set(tests)]
        tests = list(dict.fromkeys([*before, *tests]))
        if not tests:
            return False
        answer = "?" if mutant.operator.endswith(ANEW) else self._asked(mutant, tests)
        if answer == "?":
            return self._anew(mutant, tests)
        if "::" in answer:
            self._first.setdefault(mutant.file, []).insert(0, answer)
        return answer != "-" and ("::" in answer or _ended(mutant))

    def calm(self, file: str, part: int, parts: int) -> bool:
        """Whether every test of a part passes here with nothing changed, in the order of a mutant of a file."""
        code = (self._copy / file).read_text(encoding="utf-8")
        same = Mutant(file, "", 0, 0, "", "", code)
        tests = self._covered.running(file, 1)[part::parts]  # importing runs the first line, so these are all
        return self._asked(same, tests) in ("-", "?") and not self._anew(same, tests[:200])

    def close(self) -> None:
        """End the process."""
        if self._server is not None:
            self._server.communicate()

    def _asked(self, mutant: Mutant, tests: list[str]) -> str:
        if self._server is None or self._server.stdin is None or self._server.stdout is None:
            return "?"
        before = (self._copy / mutant.file).read_text(encoding="utf-8")
        asked = {
            "file": mutant.file,
            "before": before,
            "code": mutant.code,
            "tests": tests,
            "patience": self._covered.patience(tests),
        }
        self._server.stdin.write(json.dumps(asked) + "\n")
        self._server.stdin.flush()
        answer = self._server.stdout.readline().strip()
        if not answer:
            raise SystemExit("The process that runs the tests has ended.")
        return answer

    def _anew(self, mutant: Mutant, tests: list[str]) -> bool:
        (self._copy / "some.json").write_text(json.dumps(tests), encoding="utf-8")
        file = self._copy / mutant.file
        whole = file.read_bytes()
        try:
            file.write_text(mutant.code, encoding="utf-8", newline="\n")
            done = subprocess.run(
                self._some,
                cwd=self._copy,
                check=False,
                capture_output=True,
                timeout=self._covered.patience(tests),
                env=dict(os.environ, **QUIET),
            )
        except subprocess.TimeoutExpired:
            return _ended(mutant)
        finally:
            file.write_bytes(whole)
        return done.returncode != 0


def _ended(mutant: Mutant) -> bool:
    """A mutant that ends the process or goes on without end has been noticed; said, for a slow machine might do it."""
    print(f"\nended, or out of time: {mutant.file}:{mutant.line}: {mutant.now}", file=sys.stderr)
    return True


def copied(place: Path) -> Path:
    """A copy of what the tests need, compiled so that a changed file is always seen as changed."""
    for name in ("linter", "tests", "schema", "formulas", "ci"):
        shutil.copytree(ROOT / name, place / name, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "pyproject.toml", place)
    command = [sys.executable, "-m", "compileall", "-q", "--invalidation-mode", "checked-hash", str(place / "linter")]
    subprocess.run(command, check=True)
    return place


def refused(code: str) -> bool:
    """Whether the compiler warns of the code, as of `is` beside a literal; ruff refuses the same (F632)."""
    with warnings.catch_warnings():
        warnings.simplefilter("error", SyntaxWarning)
        try:
            compile(code, "mutant", "exec")
        except (SyntaxError, SyntaxWarning):
            return True
    return False
