"""What judges a mutant: each entry of the tables of small changes, each rule case, each comparison, by name."""

import sys
from collections.abc import Callable, Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "linter"), str(ROOT / "tests")]


def items() -> Iterator[tuple[str, Callable[[], bool]]]:
    """Each name with what tells whether something is noticed: first what is said of the entries, last what is listed.

    The entries hold the words and the thresholds and the lists take longest, hence the order.
    """
    import rule_cases
    from edge_cases import edges

    for edge in edges():
        said = sorted({word for one in edge.says for word in one.partition("@")[0].split() if "-" in word})
        yield " ".join(("entry", edge.name, *said)), lambda edge=edge: _entry(edge)  # type: ignore[misc]
    for path in sorted(rule_cases.case_files()):
        yield f"case {path.relative_to(rule_cases.CASES).as_posix()}", lambda path=path: _case(path)  # type: ignore[misc]
    for edge in edges():
        if edge.adapted:
            yield f"list {edge.name}", lambda edge=edge: _listed(edge)  # type: ignore[misc]


def _entry(edge: object) -> bool:
    from edge_cases import reviewed

    return reviewed(edge, edge.shelf()) != ([], [])  # type: ignore[arg-type, attr-defined]


def _case(path: Path) -> bool:
    import rule_cases

    wanted = rule_cases.expected(path.read_text(encoding="utf-8"))
    return bool(rule_cases.problems(rule_cases.findings(path), wanted))


def _listed(edge: object) -> bool:
    from edge_cases import told_apart, told_more

    return bool(told_apart(edge) or told_more(edge))  # type: ignore[arg-type]


def rows_of(module: str) -> set[str]:
    """The rows that the rules of a module decide: what speaks of them is asked first. None for a comparison."""
    from brimline.rules import registered

    return {row for rule in registered() if rule.check.__module__ == module for row in rule.decides}
