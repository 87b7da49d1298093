"""The calls of the desk: each asked in three wordings, its verdict, the row behind it, the fact and its publication."""

from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML
from suppose.desk import call

from brimline.figures import rows
from brimline.report.words import cited
from brimline.review.stamp import level_word

CALLS = YAML(typ="safe", pure=True).load((Path(__file__).parent / "calls.yaml").read_text(encoding="utf-8"))
ASKED = [(one, words) for one in CALLS for words in one["ask"]]
LEVELS = {"unsafe": {"unsafe"}, "untested": {"untested"}, "quality": {"quality"}, "matches": {"silent"}}


@pytest.mark.parametrize(("one", "words"), ASKED, ids=[f"{one['name']}: {words}" for one, words in ASKED])
def test_a_call_is_answered(one: dict[str, Any], words: str) -> None:
    """The last answer is that to a question that is no edit, where one is asked; else there is only one."""
    given = call(one["of"], words).answers[-1]
    assert (given.verdict, given.row) == (one["verdict"], one["row"])
    text = " ".join([*given.says, *(says for _, says in given.also)])
    assert [part for part in one["says"] if part.lower() not in text.lower()] == []
    assert one.get("instead", "") in given.instead
    assert one["source"] in "; ".join(cited(given.sources))


def test_every_call_has_three_wordings_and_says_where_its_fact_is_from() -> None:
    assert [one["name"] for one in CALLS if len(set(one["ask"])) != 3 or not one["from"] or not one["says"]] == []


@pytest.mark.parametrize("one", [one for one in CALLS if one["row"]], ids=lambda one: one["name"])
def test_the_verdict_agrees_with_the_row_of_the_decision_table(one: dict[str, Any]) -> None:
    """A row gives its level plainly, one for each acid class, or in its note (honey-pectin-over is quality as it stands)."""
    row = rows()[one["row"]]
    allowed = {level_word(row, name) for name in ("protects", "doubtful", "sets")}
    allowed |= {level for _, level in row.levels}
    noted = {word for word in ("silent", "quality", "untested", "unsafe") if word in row.note}
    assert LEVELS[one["verdict"]] & (allowed | noted) or row.id == "whole-scaled"
