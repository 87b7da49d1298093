"""Whether the cook is told to do what a sentence speaks of: one habit, in every way it can be told, denied or reported."""

from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from brimline.rules.standins import replaces_process

ROWS = YAML(typ="safe").load((Path(__file__).parent / "told.yaml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("row", ROWS, ids=[row["text"] for row in ROWS])
def test_told(row: dict[str, Any]) -> None:
    assert (replaces_process(row["text"]) == "inversion") is (row["told"] == "yes")
