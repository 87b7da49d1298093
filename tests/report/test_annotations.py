"""Workflow commands: read as the host's own documentation says it reads them."""

import re
from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st
from report_making import HOSTILE, handed, hostile_review, make_finding, make_reviewed, make_variance

from brimline.findings import Level, Place, Span
from brimline.report.annotations import annotations
from brimline.review.values import Refusal, Review

COMMAND = re.compile(r"::(error|warning|notice) ([^:]*(?:%3A[^:]*)*)::(.*)")


def unescaped(text: str, value: bool) -> str:
    for code, letter in (("%0D", "\r"), ("%0A", "\n"), *((("%3A", ":"), ("%2C", ",")) if value else ())):
        text = text.replace(code, letter)
    return text.replace("%25", "%")


def commands(review: Review) -> list[tuple[str, dict[str, str], str]]:
    """What the host obeys: lines that start with two colons, whatever blanks stand before them."""
    read = []
    for line in annotations(handed(review)).splitlines():
        if line.lstrip().startswith("::"):
            found = COMMAND.fullmatch(line)
            assert found, line
            values = dict(part.split("=", 1) for part in found[2].split(","))
            values = {name: unescaped(value, True) for name, value in values.items()}
            read.append((found[1], values, unescaped(found[3], False)))
    return read


def log(review: Review) -> list[str]:
    return [line for line in annotations(handed(review)).splitlines() if not line.startswith("::")]


def many(level: Level, number: int) -> tuple[object, ...]:
    return tuple(
        make_finding(level=level, at=Place(f"{n}.formula", Span(n, n + 1)), line=n + 1, says=f"{level.word} {n}.")
        for n in range(number)
    )


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_texts_give_no_orders(text: str) -> None:
    read = commands(hostile_review(text))
    harmless = commands(hostile_review("jam"))
    assert [(kind, set(values)) for kind, values, _ in read] == [(kind, set(values)) for kind, values, _ in harmless]
    assert "##[" not in annotations(handed(hostile_review(text)))
    assert all(line.startswith("  > ") for line in log(hostile_review(text)))


@given(st.text(max_size=30).filter(str.isprintable))
def test_what_is_shown_is_what_was_found(text: str) -> None:
    finding = make_finding(says=f"A {text} b.", at=Place(f"a{text}b.formula", Span(1, 2)))
    ((kind, values, message),) = commands(Review((make_reviewed(finding, title=text),)))
    assert kind == "error"
    assert (values["line"], values["col"]) == ("7", "3")
    if "##[" not in text:
        assert values["file"] == f"my formulas/a{text}b.formula"
        assert f"A {text} b." in message


def test_each_level_has_its_kind() -> None:
    shown = {level: commands(Review((make_reviewed(make_finding(level=level)),)))[0][0] for level in Level}
    assert {level for level, kind in shown.items() if kind == "error"} == {x for x in Level if x.holds_back}
    assert (shown[Level.QUALITY], shown[Level.FORM]) == ("warning", "notice")


def test_what_is_let_stand_is_a_notice() -> None:
    ((kind, _, message),) = commands(Review((make_reviewed(make_finding(varied=make_variance())),)))
    assert kind == "notice"
    assert "letter covers this batch" in message


# The host shows ten errors, ten warnings and ten notices of a step, and drops the others without a word.
@pytest.mark.parametrize(
    ("errors", "warnings", "notices"), [(10, 10, 10), (11, 0, 0), (0, 11, 3), (40, 40, 40), (0, 0, 11), (11, 0, 10)]
)
def test_no_more_than_the_host_shows_and_the_last_says_how_many_more(errors: int, warnings: int, notices: int) -> None:
    levels = {Level.UNTESTED: errors, Level.QUALITY: warnings, Level.FORM: notices}
    findings = [finding for level, number in levels.items() for finding in many(level, number)]
    review = Review((make_reviewed(*findings),))
    read = commands(review)
    shown = Counter(kind for kind, _, _ in read)
    assert max(shown.values()) <= 10
    more = [int(found[1]) for _, _, text in read if (found := re.match(r"(\d+) more finding", text))]
    assert len(read) - len(more) + sum(more) == errors + warnings + notices
    assert bool(more) is (max(errors, warnings, notices) > 10)
    if more:
        assert read[-1][2].startswith(f"{more[0]} more")
    # The log holds every one of them.
    assert sum(".formula:" in line for line in log(review)) == errors + warnings + notices


def test_a_finding_without_a_line_is_shown_at_the_first() -> None:
    ((_, values, _),) = commands(Review((make_reviewed(make_finding(line=0, column=0)),)))
    assert (values["line"], values["col"]) == ("1", "1")


def test_what_was_not_looked_at_is_in_the_log() -> None:
    review = Review((), (Refusal("gone.formula", "is not there", "Check the name."),))
    assert any("Not looked at: gone.formula is not there." in line for line in log(review))
