"""JSON in the published shape, and a published shape that means what it says."""

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from msgspec.structs import fields

from brimline._data import folder
from brimline.findings import Figure, Finding, Harm, Level, Place, Source, Span
from brimline.report.data import comparison_data, review_data
from brimline.review.values import Comparison, MoveRow, Refusal, Review, Reviewed

SCHEMA: dict[str, Any] = json.loads((folder("schema") / "findings.schema.json").read_text(encoding="utf-8"))
VALIDATOR = Draft202012Validator(SCHEMA)

TEXT = st.text(max_size=20)
NUMBER = st.integers(0, 300)
PLACES = st.builds(Place, TEXT, st.builds(Span, NUMBER, NUMBER))
SOURCES = st.builds(Source, TEXT, TEXT, TEXT, st.sampled_from(["read", "memory", "judgement"]))
FINDINGS = st.builds(
    Finding,
    at=PLACES,
    level=st.sampled_from(Level),
    rule=st.sampled_from(["acid/cut", "low-acid/added", "writing/syntax"]),
    harm=st.sampled_from(Harm),
    says=TEXT,
    why=TEXT,
    instead=TEXT,
    row=st.sampled_from(["", "acid-cut"]),
    line=NUMBER,
    column=NUMBER,
    section=TEXT,
    before=st.none() | PLACES,
    before_line=NUMBER,
    certain=st.booleans(),
    copy=TEXT,
    figures=st.lists(st.builds(Figure, TEXT, TEXT, TEXT), max_size=2).map(tuple),
    sources=st.lists(SOURCES, max_size=2).map(tuple),
)
REVIEWED = st.builds(
    Reviewed, TEXT, TEXT, TEXT, TEXT, TEXT, TEXT, TEXT, st.booleans(), st.lists(FINDINGS, max_size=2).map(tuple)
)
REVIEWS = st.builds(
    Review,
    st.lists(REVIEWED, max_size=2).map(tuple),
    st.lists(st.builds(Refusal, TEXT, TEXT, TEXT), max_size=1).map(tuple),
    st.lists(TEXT, max_size=1).map(tuple),
    st.lists(TEXT, max_size=1).map(tuple),
)
MOVES = st.builds(MoveRow, TEXT, TEXT, TEXT, TEXT, TEXT, st.booleans(), NUMBER, NUMBER)
COMPARISONS = st.builds(
    Comparison,
    REVIEWED,
    TEXT,
    TEXT,
    TEXT,
    st.sampled_from(["", "protects", "doubtful", "sets"]),
    st.lists(MOVES, max_size=2).map(tuple),
)


@given(REVIEWS)
def test_every_review_fits_the_published_shape(review: Review) -> None:
    printed = json.loads(review_data(review, "brimline 1"))
    VALIDATOR.validate(printed)
    assert printed["held_back"] == review.held_back
    assert sum(printed["counts"].values()) == sum(len(one.findings) for one in review.formulas)


@given(COMPARISONS)
def test_every_comparison_fits_the_published_shape(comparison: Comparison) -> None:
    VALIDATOR.validate(json.loads(comparison_data(comparison, "brimline 1")))


def test_nothing_a_finding_knows_is_left_out() -> None:
    published = SCHEMA["$defs"]["finding"]["properties"]
    elsewhere = {"line": "at", "column": "at", "section": "at", "before_line": "before", "copy": "write"}
    elsewhere["ordinal"] = "fingerprint"
    # The formula's code stands once, on the formula.
    missing = [
        f.name for f in fields(Finding) if f.name != "formula" and elsewhere.get(f.name, f.name) not in published
    ]
    assert missing == []


def _objects(schema: Any) -> list[dict[str, Any]]:
    inside = schema.values() if isinstance(schema, dict) else schema if isinstance(schema, list) else []
    here = [schema] if isinstance(schema, dict) and schema.get("type") == "object" else []
    return here + [one for part in inside for one in _objects(part)]


def test_the_published_shape_is_strict() -> None:
    objects = _objects(SCHEMA)
    assert len(objects) > 5
    assert all(one["additionalProperties"] is False for one in objects)
    assert all(set(one["required"]) == set(one["properties"]) for one in objects)


def test_the_published_shape_uses_only_words_that_the_standard_defines() -> None:
    strict = {"$ref": SCHEMA["$schema"], "unevaluatedProperties": False}
    checker = Draft202012Validator(strict)
    for schema in [{key: value for key, value in SCHEMA.items() if key != "$defs"}, *_objects(SCHEMA)]:
        checker.validate(schema)
    with pytest.raises(Exception, match="propertiez"):
        checker.validate({"propertiez": {}})


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"extra": 1}, "extra"),
        ({"version": 3}, "2 was expected"),
        ({"held_back": -1}, "-1"),
        ({"formulas": [{}]}, "path"),
    ],
)
def test_what_does_not_fit_is_refused(reviewed, finding, change: dict[str, Any], words: str) -> None:
    printed = json.loads(review_data(Review((reviewed(finding()),)), "brimline 1"))
    review_shape = Draft202012Validator({**SCHEMA["$defs"]["review"], "$defs": SCHEMA["$defs"]})
    review_shape.validate(printed)
    errors = list(review_shape.iter_errors({**printed, **change}))
    assert any(words in error.message for error in errors)


def test_paths_say_where_they_start(reviewed) -> None:
    assert json.loads(review_data(Review((reviewed(),)), "brimline 1", "formulas/"))["root"] == "formulas/"
    assert json.loads(review_data(Review((reviewed(),)), "brimline 1"))["root"] == "."
