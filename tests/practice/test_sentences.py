"""Unsafe habits in sentences: every instruction is seen, advice and reports are let alone.

The sentences were written without sight of the rule, but the rule was corrected with both files at hand: they guard
what it has learned and do not measure how it reads a sentence it has never met.
"""

from pathlib import Path

import pytest
from ruamel.yaml import YAML

from brimline.rules.practice import worst
from brimline.rules.standins import no_lid, other_container, replaces_process

HERE = Path(__file__).parent
FILES = {"sentences.yaml": 1, "more.yaml": 2}


def rows(name: str) -> list[dict[str, str]]:
    return list(YAML(typ="safe").load((HERE / name).read_text(encoding="utf-8")))


def seen(text: str) -> str:
    habit = worst(text)
    return replaces_process(text) or no_lid(text) or other_container(text) or (habit.name if habit else "")


@pytest.mark.parametrize("name", FILES)
def test_every_unsafe_instruction_is_seen(name: str) -> None:
    """An instruction to follow an unsafe habit never passes unseen."""
    missed = [row["text"] for row in rows(name) if row["kind"] == "unsafe" and not seen(row["text"])]
    assert missed == []


@pytest.mark.parametrize("name", FILES)
def test_advice_and_reports_are_let_alone(name: str) -> None:
    """Good advice, history, questions and harmless uses of the same words raise next to nothing."""
    false = [(seen(row["text"]), row["text"]) for row in rows(name) if row["kind"] != "unsafe" and seen(row["text"])]
    assert len(false) <= FILES[name], false
