"""JSON Lines, the code-quality list, CSV: each read back by a reader of its form."""

import csv
import io
import json
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from report_making import HOSTILE, handed, hostile_review, make_finding, make_reviewed, make_variance

from brimline._data import folder
from brimline.findings import Level, Place, Span
from brimline.report.jsonl import jsonl
from brimline.report.quality import quality
from brimline.report.spreadsheet import spreadsheet
from brimline.review.values import Refusal, Review

SCHEMA: dict[str, Any] = json.loads((folder("schema") / "findings.schema.json").read_text(encoding="utf-8"))
RECORD = Draft202012Validator({"$ref": "#/$defs/record", "$defs": SCHEMA["$defs"]})
# Said by the host that reads the list.
SEVERITIES = ["info", "minor", "major", "critical", "blocker"]


def mixed() -> Review:
    levels = [Level.FORM, Level.UNREADABLE, Level.QUALITY, Level.UNSAFE, Level.UNTESTED]
    formulas = tuple(
        make_reviewed(
            make_finding(level=level, at=Place(f"{number}.formula", Span(1, 2))),
            path=f"{number}.formula",
            code=f"KV-{number}",
        )
        for number, level in enumerate(levels)
    )
    return Review(formulas, (Refusal("gone", "is not there", ""),), ("Kestrel Valley",), ("Demonstration.",))


def records(review: Review) -> list[dict[str, Any]]:
    read = [json.loads(line) for line in jsonl(handed(review)).split("\n")[:-1]]
    for record in read:
        RECORD.validate(record)
    return read


@pytest.mark.parametrize("text", HOSTILE)
def test_each_line_of_json_lines_fits_the_published_shape(text: str) -> None:
    printed = jsonl(handed(hostile_review(text)))
    assert printed.isascii()
    assert len(printed.splitlines()) == len(records(hostile_review(text)))


def test_json_lines_hold_everything_unsafe_first_and_say_where_they_end() -> None:
    read = records(mixed())
    assert [record["record"] for record in read] == ["review", *["finding"] * 5, *["formula"] * 5, "refusal", "end"]
    levels = [record["finding"]["level"] for record in read if record["record"] == "finding"]
    assert levels == ["unsafe", "unreadable", "untested", "quality", "form"]
    end = read[-1]
    assert (end["formulas"], end["held_back"], end["refusals"]) == (5, 3, 1)
    assert sum(end["counts"].values()) == 5
    assert read[0]["root"] == "my formulas/"


def test_the_code_quality_list_has_what_the_host_asks_for() -> None:
    read = json.loads(quality(handed(mixed())))
    assert [set(one) for one in read] == [{"description", "check_name", "fingerprint", "severity", "location"}] * 5
    graveness = [SEVERITIES.index(one["severity"]) for one in read]
    assert graveness[0] == SEVERITIES.index("blocker")
    assert all(before >= after for before, after in pairwise(graveness))
    # The host shows only the first of two with one fingerprint.
    assert len({one["fingerprint"] for one in read}) == 5
    assert all(one["location"]["path"].startswith("my formulas/") for one in read)
    assert all(one["location"]["lines"]["begin"] >= 1 for one in read)


def test_a_finding_without_a_line_is_shown_at_the_first() -> None:
    (one,) = json.loads(quality(handed(Review((make_reviewed(make_finding(line=0)),)))))
    assert one["location"]["lines"]["begin"] == 1


def test_what_is_let_stand_is_information_only() -> None:
    (one,) = json.loads(quality(handed(Review((make_reviewed(make_finding(varied=make_variance())),)))))
    assert one["severity"] == "info"
    assert one["description"].startswith("It stands until 2027-03-31")


def test_a_clean_review_is_an_empty_list() -> None:
    assert json.loads(quality(handed(Review((make_reviewed(),))))) == []


def rows(review: Review) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(spreadsheet(handed(review)), newline=""), strict=True))


@given(st.text(max_size=40))
def test_a_cell_reads_back_as_one_cell(text: str) -> None:
    (row,) = rows(Review((make_reviewed(make_finding(says=text), title=text, code=text),)))
    assert None not in row
    assert None not in row.values()


def test_the_table_holds_every_finding_unsafe_first() -> None:
    read = rows(mixed())
    assert [row["level"] for row in read] == ["unsafe", "unreadable", "untested", "quality", "form"]
    assert read[0]["file"] == "my formulas/3.formula"
    assert read[0]["what"] == make_finding().says
