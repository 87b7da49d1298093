"""Which habit a step tells the cook to follow, where one word or one sentence makes the difference."""

from pathlib import Path

import pytest
from ruamel.yaml import YAML

from brimline.rules.practice import worst
from brimline.rules.standins import no_lid, other_container, replaces_process

ROWS = YAML(typ="safe").load((Path(__file__).parent / "habits.yaml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("row", ROWS, ids=[row["text"] for row in ROWS])
def test_habit(row: dict[str, str]) -> None:
    text = row["text"]
    habit = worst(text)
    seen = replaces_process(text) or no_lid(text) or other_container(text) or (habit.name if habit else "")
    assert seen == row["habit"]
