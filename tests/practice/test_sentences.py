"""Unsafe habits in sentences: every instruction is seen, advice and reports are let alone.

Every set was read once before the rule was corrected on it. On first sight the reader missed 8 of 15 unsafe sentences
of the second set, 4 of 20 of the third, 4 of 10 of the fourth, 2 of 10 of the fifth and 2 of 8 of the sixth; of the
others it took 5 of 26, 6 of 40, 4 of 20, 3 of 20 and 4 of 16 for instructions. It has been corrected on all of them
since, so the sets guard what it has learned; about one unseen unsafe sentence in four still passes it.
"""

from pathlib import Path

import pytest
from ruamel.yaml import YAML

from brimline.rules.practice import worst
from brimline.rules.standins import no_lid, other_container, replaces_process

HERE = Path(__file__).parent
FILES = {"sentences.yaml": 1, "more.yaml": 1, "third.yaml": 1, "fourth.yaml": 0, "fifth.yaml": 0, "sixth.yaml": 0}


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
