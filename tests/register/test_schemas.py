"""The published shapes of what a collection keeps: strict, and of one mind with the readers."""

import json
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from ruamel.yaml import YAML

from brimline._data import folder
from brimline.shelf.register import read_register
from brimline.shelf.settings import KEYS, elaborate_keys, settings
from brimline.shelf.strict import Refused, read_yaml
from brimline.shelf.variances import read_variances

from .conftest import LESS, SALSA, sealed
from .test_own import BERRY
from .test_variances import FULL, variance

NAMES = ("collection", "register", "variances", "settings")


def schema(name: str) -> dict[str, Any]:
    return json.loads((folder("schema") / f"{name}.schema.json").read_text(encoding="utf-8"))  # type: ignore[no-any-return]


def fits(name: str, value: Any) -> bool:
    return Draft202012Validator(schema(name)).is_valid(value)


def parts(value: Any) -> list[dict[str, Any]]:
    inside = value.values() if isinstance(value, dict) else value if isinstance(value, list) else []
    return ([value] if isinstance(value, dict) else []) + [one for part in inside for one in parts(part)]


@pytest.mark.parametrize("name", NAMES)
def test_a_shape_is_valid_and_lets_nothing_unknown_or_unbounded_in(name: str) -> None:
    shape = schema(name)
    Draft202012Validator.check_schema(shape)
    for part in parts(shape):
        if part.get("type") == "object":
            assert part["additionalProperties"] is False, part
        if part.get("type") == "array":
            assert "maxItems" in part or name in ("variances", "settings"), part
        if part.get("type") == "string":
            assert "maxLength" in part or "pattern" in part, part
    # Keys of our own would be ignored by every checker.
    known = {*Draft202012Validator.META_SCHEMA["properties"]} | {
        key for one in Draft202012Validator.META_SCHEMA["allOf"] for key in _vocabulary(one["$ref"])
    }
    named = {key for part in parts(shape) for key in part}
    assert "additionalPropertys" not in named
    assert {"type", "additionalProperties", "properties"} <= known


def _vocabulary(ref: str) -> set[str]:
    from jsonschema.validators import SPECIFICATIONS  # type: ignore[attr-defined]

    found = SPECIFICATIONS.contents(f"https://json-schema.org/draft/2020-12/{ref}")
    return set(found["properties"])


COLLECTION = {
    "name": "Valley",
    "altitude": "3000 to 5,200 ft",
    "places": {"Ferry Landing": "2150 ft", "High Terrace": {"altitude": "1600 m", "source": "sheet 4"}},
    "hold-back": ["quality"],
    "review-interval": "36 months",
    "oldest-source-year": 1988,
    "identity": ["US"],
    "ingredients": [BERRY],
    "set-aside": "classroom",
}

WRONG: list[dict[str, Any]] = [
    {"nmae": "x"},
    {"name": 1},
    {"altitude": 5200},
    {"altitude": "high"},
    {"places": {"x": "y"}},
    {"places": ["x"]},
    {"places": {"x": {"altitude": "1 ft", "county": "y"}}},
    {"hold-back": ["unsafe"]},
    {"review-interval": "soon"},
    {"oldest-source-year": "1988"},
    {"oldest-source-year": 12},
    {"identity": ["DE"]},
    {"ingredients": [{**BERRY, "role": "acid"}]},
    {"ingredients": [{**BERRY, "extra": 1}]},
    {"ingredients": [{key: value for key, value in BERRY.items() if key != "source"}]},
    {"ingredients": [{**BERRY, "solids": 8}]},
    {"set-aside": {"a": 1}},
]


def test_the_reader_and_the_shape_know_the_same_keys() -> None:
    assert set(schema("collection")["properties"]) == set(KEYS)
    assert fits("collection", COLLECTION)
    assert settings(COLLECTION).own[0].names[0] == "valleyberry"


@pytest.mark.parametrize("value", WRONG)
def test_what_the_shape_of_settings_refuses_the_reader_refuses_too(value: dict[str, Any]) -> None:
    assert not fits("collection", value)
    with pytest.raises(Refused):
        settings(value)


def test_the_demonstration_fits_its_shapes() -> None:
    place = folder("formulas")
    assert fits("collection", dict(elaborate_keys((place / "collection.yaml").read_text(encoding="utf-8"))))
    assert fits("register", json.loads((place / "register.json").read_text(encoding="utf-8")))


def test_registers_and_variances_that_are_read_fit_their_shapes() -> None:
    assert fits("register", json.loads(sealed(SALSA, SALSA.replace("KV-101", "KV-9"))))
    assert read_variances(variance(evidence=FULL), "variances.yaml")
    assert fits("variances", _as_json(read_yaml(variance(LESS, evidence=FULL).decode()).value))


@pytest.mark.parametrize(
    "value",
    [{}, {"version": 2}, {"version": 1, "kv-1": {}}, {"version": 1, "KV-1": {}}, {"version": 1, "KV-1": {"x": 1}}, []],
)
def test_what_the_shape_of_a_register_refuses_the_reader_refuses_too(value: Any) -> None:
    assert not fits("register", value)
    with pytest.raises(Refused):
        read_register(json.dumps(value).encode())


def _as_json(value: Any) -> Any:
    """Dates as YAML reads them, as the text they were written as."""
    return json.loads(json.dumps(value, default=lambda one: one.isoformat()))


def test_the_sample_of_variances_in_the_manual_is_read() -> None:
    page = (folder("schema") / "FORMAT.md").read_text(encoding="utf-8")
    sample = page.split("```yaml variances\n")[1].split("```")[0]
    (one,) = read_variances(sample.encode(), "variances.yaml")
    assert one.batches == 3
    assert fits("variances", _as_json(YAML(typ="safe", pure=True).load(sample)))


def test_the_sample_of_settings_in_the_manual_is_read() -> None:
    page = (folder("schema") / "FORMAT.md").read_text(encoding="utf-8")
    keys = elaborate_keys(page.split("```yaml collection\n")[1].split("```")[0])
    assert settings(keys).own
    assert set(keys) == set(KEYS)
    assert fits("collection", dict(keys))
