"""Judges one mutant by the tables of small changes, the rule cases and the tests that judge formulas; stops at the first slip.

python ci/mutation/kill.py MODULE       run in a copy of the project; 1 if a case notices, else the tests' own status
"""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
# What is run where no case notices: the tests that judge formulas, not those of the frame.
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


def main(module: str) -> int:
    """0 if nothing notices the mutant, 1 or 2 if something does."""
    sys.path[:0] = [str(ROOT / "linter"), str(ROOT / "tests")]
    rows = _rows(module)
    if _by_verdicts(rows) or _by_cases(rows) or _by_comparisons():
        return 1
    tests = [name for name in TESTS if (ROOT / name).exists()]
    command = [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", *tests]
    return subprocess.run(command, cwd=ROOT, check=False, stdout=subprocess.DEVNULL).returncode


def _rows(module: str) -> set[str]:
    """The rows that the rules of a module decide: what speaks of them is asked first. None for a comparison."""
    from brimline.rules import registered

    return {row for rule in registered() if rule.check.__module__ == module for row in rule.decides}


def _by_verdicts(rows: set[str]) -> bool:
    """Whether what is said of an entry of the tables notices: they hold the words and the thresholds."""
    from edge_cases import edges, reviewed

    # The sort keeps the order within both halves, so a run is the same each time.
    near = sorted(edges(), key=lambda edge: rows.isdisjoint(" ".join(edge.says).split()))
    return any(reviewed(edge, edge.shelf()) != ([], []) for edge in near)


def _by_cases(rows: set[str]) -> bool:
    """Whether a rule case notices, those of the rows first."""
    import rule_cases

    for path in sorted(rule_cases.case_files(), key=lambda path: path.parent.name not in rows):
        wanted = rule_cases.expected(path.read_text(encoding="utf-8"))
        if rule_cases.problems(rule_cases.findings(path), wanted):
            return True
    return False


def _by_comparisons() -> bool:
    """Whether the figures of a comparison notice; these take longest, so they come after the cases."""
    from edge_cases import edges, told_apart, told_more

    return any(told_apart(edge) or told_more(edge) for edge in edges() if edge.adapted)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
