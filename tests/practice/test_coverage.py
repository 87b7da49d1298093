"""Every practice advised against, every fault and every habit has a rule and a case, or a reason why it cannot be seen."""

from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML
from rule_cases import CASES, findings

from brimline.rules import registered
from brimline.rules.habits import HABITS
from brimline.rules.standins import NO_LID, OTHER, REPLACES

TABLES = Path(__file__).parents[2] / "linter" / "brimline" / "figures" / "tables"


def load(path: Path) -> Any:
    return YAML(typ="safe", pure=True).load(path.read_text(encoding="utf-8"))


COVERED = load(Path(__file__).with_name("coverage.yaml"))
SHOWN = sorted({case for part in COVERED.values() for entry in part.values() for case in entry.get("cases", ())})


@pytest.mark.parametrize("table", ["not_recommended", "faults"])
def test_every_entry_of_a_table_is_accounted_for(table: str) -> None:
    assert set(COVERED[table]) == set(load(TABLES / f"{table}.yaml"))


def test_every_habit_of_the_reader_is_accounted_for() -> None:
    assert set(COVERED["habits"]) == {one.name for one in (*HABITS, *REPLACES, *NO_LID, *OTHER)}


def test_what_no_case_shows_says_why() -> None:
    silent = [name for part in COVERED.values() for name, entry in part.items() if not entry.get("cases")]
    assert [name for part in COVERED.values() for name in silent if name in part and not part[name].get("unseen")] == []


@pytest.mark.parametrize("case", SHOWN)
def test_the_case_is_decided_by_the_rule_of_its_row(case: str) -> None:
    row = case.partition("/")[0]
    rule = next(one.name for one in registered() if row in one.decides)
    found = findings(CASES / f"{case}.formula")
    assert (row, rule) in {(one.row, one.rule) for one in found}
