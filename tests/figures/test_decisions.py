"""The decision table: levels by acid class, sources that exist, and advice that never talks its way round heat."""

import re

import pytest

from brimline.figures import published, rows, source
from brimline.findings import Harm, Level

LEVELS = {level.word for level in Level} - {"unreadable"} | {"silent"}
# Rows about heat, jar, time or method: nothing but the tested process, or the cold, is a way out.
HEAT = {"jar-larger", "jar-smaller-shorter", "time-shorter", "band-widened", "band-missing", "sterile-dropped", "method-weaker", "method-steam", "method-pressure", "below-published", "fill-cold", "fill-hot", "canner-start", "lid-none", "container-other", "cook-shorter"}  # fmt: skip


def test_the_table_is_whole() -> None:
    assert len(rows()) == 137
    for id_, row in rows().items():
        assert row.id == id_
        assert row.edit
        assert row.why
        assert row.basis
        assert row.levels
        assert {level for _, level in row.levels} <= LEVELS
        assert {harm for _, harm in row.harms} <= {str(harm) for harm in Harm}
        assert row.side in {"edit", "alone", "both"}


@pytest.mark.parametrize(
    ("id_", "acid_class", "level"),
    [
        ("acid-dropped", "protects", "unsafe"),
        ("acid-dropped", "doubtful", "untested"),
        ("acid-dropped", "sets", "untested"),
        ("fresh-for-bottled", "protects", "unsafe"),
        ("fresh-for-bottled", "sets", "quality"),
        ("fresh-for-unstated", "sets", "silent"),
        ("acid-neutralised", "", "unsafe"),
        ("sugar-cut-gelled", "", "untested"),
        ("honey-half", "", "silent"),
        ("honey-pectin-over", "", "quality"),
        ("lowacid-added", "", "unsafe"),
        ("lowacid-less", "", "silent"),
        ("fruit-no-process", "", "unsafe"),
        ("jar-larger", "", "unsafe"),
        ("time-shorter", "", "unsafe"),
        ("band-missing", "", "untested"),
        ("sterile-dropped", "gelled", "untested"),
        ("sterile-dropped", "", "unsafe"),
        ("batch-larger", "", "quality"),
        ("undeclared", "", "form"),
    ],
)
def test_a_level_is_as_agreed(id_: str, acid_class: str, level: str) -> None:
    assert dict(rows()[id_].levels)[acid_class] == level


def test_what_holds_back_has_a_harm_and_advice() -> None:
    for row in rows().values():
        if {level for _, level in row.levels} - {"silent"}:
            assert row.harms, row.id
            assert row.advice, row.id


def test_keeping_what_was_tested_is_always_a_choice() -> None:
    kept = re.compile(
        r"\b(?:keep|as (?:the )?tested|as the tested|leave|tested (?:process|kind|formula)|state|use|give|add|peel|list|boil|label)",
        re.IGNORECASE,
    )
    for row in rows().values():
        if {level for _, level in row.levels} & {"unsafe", "untested"}:
            assert kept.search(row.advice), row.id


def test_no_advice_offers_testing_as_a_way_round() -> None:
    offered = re.compile(
        r"\b(?:have it tested|get it tested|test it|send it|process authority|laborator)", re.IGNORECASE
    )
    assert set(rows()) >= HEAT
    assert [row.id for row in rows().values() if offered.search(row.advice)] == []


def test_nothing_is_called_safe() -> None:
    called = re.compile(r"\b(?:is|are|makes? it|be) safe\b", re.IGNORECASE)
    assert [row.id for row in rows().values() if called.search(f"{row.why} {row.advice}")] == []


def test_every_basis_is_exactly_one_published_figure() -> None:
    for row in rows().values():
        for basis in row.basis:
            assert basis.how in {"read", "memory", "judgement"}
            if basis.id != "judgement":
                assert source(basis.id).title == basis.title
                assert source(basis.id).section == basis.section


def test_the_basis_of_a_row_says_what_the_row_says() -> None:
    assert [basis.section for basis in rows()["tomato-vine"].basis] == ["Guide 3, p. 3-5"]
    assert published("vine_killed_tomato").says.startswith("tomatoes from dead or frost-killed vines")
    assert rows()["honey-half"].basis[0].title == "Michigan State University Extension"
