"""Runs tests for the mutants: once to see which lines each runs, then for each mutant those that run what it changed.

python ci/mutation/asked.py lines OUT PART PARTS     this part of the tests; writes the lines of each as JSON
python ci/mutation/asked.py some WHICH               those that WHICH, a JSON list, names, until one fails; 1 if one did
python ci/mutation/asked.py serve                    a mutant a line as JSON, {file, before, code, tests, patience};
                                                     answers a line each: a test's name, "-" for none, "?" for: not here

To serve, a child process is forked for each mutant, so everything is imported and collected only once; only where the
system can fork.
"""

import json
import os
import signal
import sys
import time
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).resolve().parent))
import lines
from lines import ROOT, forget
from swap import swapped

# The tests that judge formulas, not those of the frame, of the words before they mean anything, and of hostile input.
FILES = (
    "tests/edges",
    "tests/test_cases.py",
    "tests/moves",
    "tests/practice",
    "tests/identity",
    "tests/weigh",
    "tests/register",
    "tests/suppose",
    "tests/restate",
    "tests/shelf",
    "tests/dependents",
    "tests/report/test_data.py",
    "tests/report/test_pages.py",
    "tests/test_rows.py",
    "tests/test_collection.py",
    "tests/test_findings_whole.py",
    "tests/test_printed.py",
    "tests/test_published_pairs.py",
    "tests/test_properties.py",
    "tests/test_published.py",
)
# Those that try every entry once more in other words would double the time and seldom notice more.
AGAIN = "not (in_two_lines or what_is_in_both)"
WARM = FILES[0]
MOST = 8 << 30  # bytes a mutant may take, if it should grow without end


class Seen:
    """Runs a part of the tests and notes the lines of each, and how many failed."""

    def __init__(self, part: int, parts: int) -> None:
        self.part, self.parts, self.failed = part, parts, list[str]()
        self.found: dict[str, tuple[float, dict[str, list[int]]]] = {}

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        """Every so many-th test, so that the long ones are shared out."""
        items[:] = items[self.part :: self.parts]

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> object:
        """Around one test."""
        forget()
        lines.start()
        began = time.monotonic()
        try:
            return (yield)
        finally:
            self.found[item.nodeid] = time.monotonic() - began, lines.take()

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """A test that fails with nothing changed would notice every mutant."""
        if report.failed:
            self.failed.append(report.nodeid)


class Some:
    """Runs the tests that are named, in that order."""

    def __init__(self, names: list[str]) -> None:
        self._names = names

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        """Only these."""
        by_name = {item.nodeid: item for item in items}
        items[:] = [by_name[name] for name in self._names if name in by_name]


class Server:
    """Collects everything once, then answers for one mutant after another."""

    def __init__(self) -> None:
        self._failed = False
        # What the tests and pytest print must not stand between the answers.
        self._answers = os.fdopen(os.dup(1), "w")
        os.dup2(os.open(os.devnull, os.O_WRONLY), 1)

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Instead of running the tests."""
        by_name = {item.nodeid: item for item in session.items}
        # Figures, words and tables are read once, here, and not in each child.
        for item in [item for item in session.items if item.nodeid.startswith(WARM)][::100]:
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=None)
        forget()
        for line in sys.stdin:
            asked = json.loads(line)
            out, into = os.pipe()
            child = os.fork()
            if child == 0:
                os.close(out)
                try:
                    os.write(
                        into, self._judge(asked, [by_name[name] for name in asked["tests"] if name in by_name]).encode()
                    )
                finally:
                    os._exit(0)
            os.close(into)
            with os.fdopen(out) as told:
                answer = told.read()
            os.waitpid(child, 0)
            # A mutant that ends its process, or runs out of time, has said nothing and has been noticed.
            print(answer or "(ended)", file=self._answers, flush=True)
        return True

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """Whether one has failed."""
        self._failed = self._failed or report.failed

    def _judge(self, asked: dict[str, str], items: list[pytest.Item]) -> str:
        import resource

        resource.setrlimit(resource.RLIMIT_AS, (MOST, MOST))
        signal.alarm(int(asked["patience"]))
        if not swapped(str(ROOT / asked["file"]), asked["before"], asked["code"]):
            return "?"
        forget()
        for item, after in zip(items, [*items[1:], None], strict=True):
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=after)
            if self._failed:
                return item.nodeid
        return "-"


def _pytest(plugin: object, *more: str) -> int:
    return int(pytest.main(["-q", "-s", "-p", "no:cacheprovider", "-k", AGAIN, *more], plugins=[plugin]))


def main(what: str, *rest: str) -> int:
    """What the head of this file says of each word."""
    os.chdir(ROOT)
    if what == "some":
        names = json.loads(Path(rest[0]).read_text(encoding="utf-8"))
        files = list(dict.fromkeys(name.partition("::")[0] for name in names))
        return _pytest(Some(names), "-x", *files)
    sys.path.insert(0, str(ROOT / "linter"))
    if what == "lines":
        lines.note()
    import brimline.review.engine  # noqa: F401 - every rule and comparison is there before any test asks for it

    if what == "serve":
        return _pytest(Server(), *FILES)
    seen = Seen(int(rest[1]), int(rest[2]))
    _pytest(seen, *FILES)
    Path(rest[0]).write_text(json.dumps(seen.found), encoding="utf-8")
    for name in seen.failed:
        print(f"{name} fails with nothing changed: mend it first.", file=sys.stderr)
    return int(bool(seen.failed) or not seen.found)


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
