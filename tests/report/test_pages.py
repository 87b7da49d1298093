"""The pages of the rules, and the examples that `why` shows: every rule has a bad and a good one, and a place."""

import re
from pathlib import Path

import pytest

from brimline.faces.why import all_reasons
from brimline.findings import Level
from brimline.report.look import Look, cells
from brimline.report.why import GROUP_WORDS, Reason, levels_of, page
from brimline.review.rows import ENGINE_ROWS, all_rows
from brimline.rules import GROUPS

CHECKOUT = Path(__file__).parents[2]
PAGES = CHECKOUT / "schema" / "rules"
REASONS = {reason.name: reason for reason in all_reasons()}


def words(text: str) -> str:
    """Text without its layout and without the signs of Markdown."""
    return " ".join(re.sub(r"\\\\(.)", r"\\1", text).split())


@pytest.mark.parametrize("reason", REASONS.values(), ids=REASONS)
def test_every_rule_has_one_bad_and_one_good_example(reason: Reason) -> None:
    assert [example.bad for example in reason.examples] == [True, False]
    bad, good = reason.examples
    assert bad.text != good.text
    for example in reason.examples:
        assert example.shows.endswith(".")
        assert 0 < len(example.text.split("\n")) <= 8


@pytest.mark.parametrize("reason", REASONS.values(), ids=REASONS)
def test_a_rule_stands_on_the_page_of_its_group_and_in_the_index(reason: Reason) -> None:
    text = (PAGES / f"{reason.group}.md").read_text(encoding="utf-8")
    section = text.partition(f"## {reason.name}\n")[2].partition("\n## ")[0]
    assert words(reason.must).rstrip(".") in words(section)
    assert words(reason.why).rstrip(".") in words(section)
    assert "Sources:" in section
    for example in reason.examples:
        assert f"```\n{example.text}\n```" in section
    index = (PAGES / "README.md").read_text(encoding="utf-8")
    assert f"[{reason.name}]({reason.group}.md#{reason.name.replace('/', '')})" in index


@pytest.mark.parametrize("reason", REASONS.values(), ids=REASONS)
def test_the_page_in_the_terminal_says_the_same(reason: Reason) -> None:
    printed = page(reason, Look())
    assert all(cells(line) <= 80 for line in printed.splitlines())
    for word in ("Must hold", "Why", "Sources", "Flagged", "Accepted"):
        assert sum(line.startswith(word) for line in printed.splitlines()) == 1, word
    flagged = any(level in {one.word for one in Level} for row in reason.rows for _, level in row.levels)
    assert flagged == any(line.startswith("Instead") for line in printed.splitlines())


def test_every_row_is_told_under_some_rule() -> None:
    told = [row.id for reason in REASONS.values() for row in reason.rows]
    assert sorted(told) == sorted(all_rows())
    assert set(ENGINE_ROWS) <= set(told)


def test_a_level_that_holds_somewhere_says_where_in_words() -> None:
    where = [where for row in all_rows().values() for _, where in levels_of(row)]
    assert [one for one in where if one.startswith("where ") and "-" in one] == []
    assert [row.id for row in all_rows().values() for key, _ in row.levels if f"where {key}" in where] == []


def test_every_group_says_what_it_is_about() -> None:
    assert set(GROUP_WORDS) == set(GROUPS)
