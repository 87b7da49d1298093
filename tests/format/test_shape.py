"""The schema says what a document's shape is; the compiled check and the schema's own validator give one verdict."""

import copy
import json
import runpy
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from brimline.document import read, to_json
from brimline.document.shape import errors, fits, schema

ROOT = Path(__file__).parents[2]
SAMPLE = Path(__file__).parent / "samples" / "gooseberry.formula"
META = "https://json-schema.org/draft/2020-12/schema"


def sample() -> dict[str, Any]:
    document = read("x", SAMPLE.read_bytes()).document
    assert document is not None
    return to_json(document)


def every_schema(node: Any, names: bool = False) -> list[dict[str, Any]]:
    """All schemas in a schema; `names` where the keys of a node are names of properties, not keywords."""
    if isinstance(node, list):
        return [one for item in node for one in every_schema(item)]
    if not isinstance(node, dict):
        return []
    own = [] if names else [node]
    named = ("properties", "$defs")
    data = ("enum", "required", "const")
    return own + [
        one
        for key, value in node.items()
        if names or key not in data
        for one in every_schema(value, names=not names and key in named)
    ]


def test_the_schema_is_strictly_a_2020_12_schema() -> None:
    strict = {"$schema": META, "$ref": META, "unevaluatedProperties": False}
    assert schema()["$schema"] == META
    for one in every_schema(schema()):
        assert list(Draft202012Validator(strict).iter_errors(one)) == []
    assert list(Draft202012Validator(strict).iter_errors({"propertiez": {}})) != []


def test_every_string_is_bounded_and_no_key_is_unknown() -> None:
    for one in every_schema(schema()):
        assert "format" not in one
        if one.get("type") == "string":
            assert one["maxLength"] <= 4000
        if one.get("type") == "object":
            assert one["additionalProperties"] is False
        if one.get("type") == "array":
            assert one["maxItems"] <= 200


def test_exact_numbers_are_strings() -> None:
    taken = json.dumps(sample())
    assert '"low": "11/2"' in taken
    assert "5.5" not in taken


def test_the_sample_fits() -> None:
    assert fits(sample())
    assert list(errors(sample())) == []


def test_what_is_compiled_is_what_the_maker_makes() -> None:
    maker = runpy.run_path(str(ROOT / "ci" / "making" / "shape.py"))
    for path, content in maker["make"](ROOT).items():
        assert content == (ROOT / path).read_bytes()


JUNK: st.SearchStrategy[Any] = st.sampled_from(
    [None, "", "x", "x" * 5000, 0, 1.5, True, [], {}, [{}], ["jam"], {"kind": "x"}, "11/2", "KV-1", "retired"]
)
DRAFT = settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def places(node: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    children = node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ()
    return [path] * bool(path) + [one for key, value in children for one in places(value, (*path, key))]


@DRAFT
@given(data=st.data())
def test_both_verdicts_agree_on_any_spoilt_document(data: st.DataObject) -> None:
    document = sample()
    for _ in range(data.draw(st.integers(0, 3))):
        path = data.draw(st.sampled_from(places(document)))
        above = document
        for key in path[:-1]:
            above = above[key]
        how = data.draw(st.sampled_from(["drop", "junk", "double", "extra"]))
        if how == "drop":
            del above[path[-1]]
        elif how == "junk":
            above[path[-1]] = data.draw(JUNK)
        elif how == "double" and isinstance(above[path[-1]], list):
            above[path[-1]] = copy.deepcopy(above[path[-1]]) * data.draw(st.sampled_from([0, 2, 60]))
        elif isinstance(above[path[-1]], dict):
            above[path[-1]][data.draw(st.sampled_from(["extra", "retired", "adapts", "text"]))] = data.draw(JUNK)
    assert fits(document) == (not list(errors(document)))


def found(text: str) -> list[tuple[int, int, str]]:
    return [(one.line, one.column, one.says) for one in read("x", text.encode()).findings]


def test_what_is_missing_is_placed_where_it_should_be() -> None:
    text = "formula KV-1 A\nproduct jam\nstanding adapted\ntake\npack\n  fill hot\nprocess pressure\n"
    assert found(text) == [
        (1, 1, "An adapted formula does not state the formula it adapts."),
        (4, 1, "An adapted formula does not state its ingredients."),
        (5, 1, "An adapted formula does not state its jars."),
        (7, 1, "An adapted formula does not state the jars and times of the process."),
    ]


def test_without_a_section_it_is_placed_on_the_first_header() -> None:
    assert found("# a comment\nformula KV-1 A\nstanding tested\n") == [
        (2, 1, "A tested formula does not state its ingredients."),
        (2, 1, "A tested formula does not state its jars."),
        (2, 1, "A tested formula does not state its product."),
    ]


def test_nothing_is_called_missing_where_an_unreadable_line_may_have_stated_it() -> None:
    text = (
        "formula KV-1 A\nproduct\nstanding tested\ntake\n  fruit 5..2 cup plums\npack\n  jar half-pint\nprocess steam\n"
    )
    assert [line for line, _, _ in found(text)] == [2, 5]


def test_a_draft_may_be_a_fragment() -> None:
    assert found("formula KV-1 A\nstanding draft\n") == []
    assert found("formula KV-1 A\nstanding draft\nprocess boiling-water\n") == []


def test_a_process_without_heat_needs_no_times() -> None:
    text = (
        "formula KV-1 A\nproduct jam\nstanding tested\ntake\n  fruit 1 cup plums\npack\n  jar half-pint\nprocess {}\n"
    )
    assert found(text.format("refrigerator")) == []
    assert found(text.format("freezer")) == []
    assert len(found(text.format("steam"))) == 1


def test_retirement_is_stated_in_full() -> None:
    draft = "formula KV-1 A\nstanding {}\n{}"
    assert found(draft.format("draft", "retired 2025-01-01, old\n")) == [
        (2, 10, "A formula with a `retired` or `successor` line has the standing `retired`, not `draft`.")
    ]
    assert found(draft.format("draft", "successor KV-2\n")) == [
        (2, 10, "A formula with a `retired` or `successor` line has the standing `retired`, not `draft`.")
    ]
    assert (1, 1, "A retired formula does not state when and why it was retired.") in found(draft.format("retired", ""))


def test_a_code_and_a_standing_are_always_asked_for() -> None:
    assert found("product jam\n") == [
        (1, 1, "This formula does not state its code and title."),
        (1, 1, "This formula does not state its standing."),
        (1, 1, "This formula does not state its title."),
    ]


def test_what_is_written_twice_is_named_and_the_first_one_stands() -> None:
    text = "formula KV-1 A\nstanding draft\nproduct jam\nproduct jelly\npack\n  fill hot\n  fill raw\n  lid two-piece\n"
    result = read("x", text.encode())
    assert [(one.line, one.says) for one in result.findings] == [
        (4, "`product` is written twice; only the first one is read."),
        (7, "`fill` is written twice; only the first one is read."),
    ]
    assert result.document is not None
    assert result.document.pack.fill is not None
    assert (result.document.product, result.document.pack.fill.value) == ("jam", "hot")


def test_a_section_opened_twice_is_named_and_its_lines_are_kept() -> None:
    text = "formula KV-1 A\nstanding draft\ntake\n  fruit 1 cup plums\ntake\n  fruit 2 cup plums\n"
    result = read("x", text.encode())
    assert [one.says for one in result.findings] == [
        "`take` is opened twice; its lines stand together under the first one."
    ]
    assert result.document is not None
    assert len(result.document.take) == 2


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("title", "The title has 300 characters; it may have 200."),
        ("item", "The item has 150 characters; it may have 120."),
        ("take", "There are 201 entries under take; there may be 200."),
    ],
)
def test_bounds_are_named(text: str, says: str) -> None:
    head = f"formula KV-1 {'a' * 300 if text == 'title' else 'A'}\nstanding draft\ntake\n"
    lines = {"item": f"  fruit 1 cup {'a' * 150}\n", "take": "  fruit 1 cup plums\n" * 201}
    assert [says] == [one.says for one in read("x", (head + lines.get(text, "")).encode()).findings]
