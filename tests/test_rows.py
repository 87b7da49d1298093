"""The decision table, the rules and the cases agree: every row is decided once and shown by cases."""

from collections import Counter
from pathlib import Path

import pytest

from brimline import figures
from brimline.review.rows import ENGINE_ROWS, OWN, all_rows
from brimline.rules import MODULES, contract, registered
from brimline.rules.contract import rule

CASES = Path(__file__).parent / "cases"
# What the engine itself says, not a rule.
ENGINE = set(ENGINE_ROWS)
# Rows whose rule is still to be written; their cases wait in tests/pending.
PENDING: set[str] = set()
# Rows that are judged as others: "as the acid and sugar rows say", "as batch-larger or batch-smaller".
NOT_OF_THEIR_OWN = {"fruit-mix-more", "whole-scaled"}


def test_every_row_is_decided_by_exactly_one_rule() -> None:
    decided = Counter(row for rule in registered() for row in rule.decides)
    assert {row: times for row, times in decided.items() if times > 1} == {}
    assert set(all_rows()) - set(decided) == ENGINE | PENDING
    assert set(decided) <= set(all_rows())


def test_every_row_of_the_table_has_cases() -> None:
    folders = {folder.name: [file.name for file in folder.glob("*.formula")] for folder in CASES.iterdir()}
    assert set(figures.rows()) - set(folders) - PENDING == set()
    for row in set(figures.rows()) - PENDING - NOT_OF_THEIR_OWN:
        assert any(name.startswith(("flagged", "accepted")) for name in folders[row]), row


def test_every_row_about_the_writing_has_flagged_and_silent_cases() -> None:
    """The rows that are not about an edit are shown by a case that speaks and by one that does not."""
    # Seals, variances and chains need a whole collection: tests/register shows them.
    elsewhere = {row for rule in registered() if rule.check.__module__.endswith(".register") for row in rule.decides}
    for row in set(OWN) - ENGINE - elsewhere:
        names = [file.name for file in (CASES / row).glob("*.formula")]
        assert any(name.startswith("flagged") for name in names), row
        assert any(name.startswith("accepted") for name in names), row
        assert any(name.startswith("near") for name in names), row


def test_every_row_with_a_level_says_why_and_what_to_do() -> None:
    silent = {""}
    for row in (*figures.rows().values(), *OWN.values()):
        levels = {level for _, level in row.levels}
        if levels - {"silent"}:
            assert row.why not in silent, row.id
            assert row.advice not in silent, row.id
        assert row.basis, row.id


def test_no_rule_file_is_left_out() -> None:
    files = {path.stem for path in Path(MODULES[0].__file__ or "").parent.glob("*.py")}
    helpers = {
        "__init__",
        "contract",
        "say",
        "terms",
        "prose",
        "meaning",
        "voices",
        "standins",
        "spoken",
        "asides",
        "brought",
        "handled",
        "foods",
        "habits",
        "less",
        "measured",
        "sugar_swap",
    }
    assert {module.__name__.rpartition(".")[2] for module in MODULES} == files - helpers


REASONS = "What must hold.\n\nWhy it matters."


@pytest.mark.parametrize(
    ("name", "decides", "words"),
    [
        ("acid/strength", ("acid-cut",), REASONS),  # taken
        ("colour/bright", ("acid-cut",), REASONS),  # no such group
        ("acid/bright", (), REASONS),
        ("acid/bright", ("acid-cut",), ""),
        ("acid/bright", ("acid-cut",), "What must hold."),
        ("acid/bright", ("acid-cut",), "What must hold.\n\n \n\nMore of it."),
    ],
)
def test_a_rule_that_says_not_enough_of_itself_is_refused(name: str, decides: tuple[str, ...], words: str) -> None:
    def check(_case: object) -> tuple[()]:
        return ()

    check.__doc__ = words
    before = registered()
    with pytest.raises(ValueError, match=name):
        rule(name, decides)(check)
    assert registered() == before


def test_a_rule_that_says_enough_is_registered_by_group_and_name(monkeypatch: pytest.MonkeyPatch) -> None:
    def check(_case: object) -> tuple[()]:
        return ()

    check.__doc__ = "What must\n    hold.\n\n    Why it matters.\n\n    More of it."
    monkeypatch.setattr(contract, "_register", {})
    try:
        for name in ("sugar/bright", "acid/dark", "acid/bright"):
            assert rule(name, ("acid-cut",))(check) is check
        found = contract.registered()
    finally:
        contract.registered.cache_clear()
    assert [one.name for one in found] == ["acid/bright", "acid/dark", "sugar/bright"]
    assert {(one.must, one.why, one.decides) for one in found} == {
        ("What must hold.", "Why it matters.", ("acid-cut",))
    }
