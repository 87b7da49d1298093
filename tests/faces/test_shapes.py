"""What `weigh`, `restate`, `trace` and `notice` print as JSON has the shape published for it, for everything we ship."""

import json
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

ROOT = Path(__file__).resolve().parents[2]
DAY = ("--on", "2026-07-01")
FORMULAS = sorted((ROOT / "formulas").rglob("*.formula"))
PUBLISHED = sorted((ROOT / "tests" / "published").glob("*.formula"))
KINDS = ["weighing", "restated", "trace", "notice"]


@cache
def validator(kind: str) -> Draft202012Validator:
    schema = json.loads((ROOT / "schema" / f"{kind}.schema.json").read_text("utf-8"))
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)


def printed(ran: Any, kind: str) -> dict[str, Any]:
    assert ran.out.isascii(), ran.err
    read: dict[str, Any] = json.loads(ran.out)
    validator(kind).validate(read)
    return read


@pytest.mark.parametrize("kind", KINDS)
def test_no_key_is_free(kind: str) -> None:
    """A key that is not published is refused, at every depth."""

    def walk(part: Any) -> None:
        if isinstance(part, dict):
            if "properties" in part:
                assert part.get("additionalProperties") is False
                assert sorted(part["required"]) == sorted(part["properties"])
            for one in part.values():
                walk(one)
        elif isinstance(part, list):
            for one in part:
                walk(one)

    walk(validator(kind).schema)


@pytest.mark.parametrize("path", [*FORMULAS, *PUBLISHED], ids=lambda path: path.stem)
def test_every_formula_restated(run, path: Path) -> None:
    for batch, units in (("1/2", "both"), ("1 1/2", "metric"), ("whole", "us")):
        ran = run("restate", path, "--batch", batch, "--units", units, "--as", "json", *DAY)
        if ran.status != 2:
            read = printed(ran, "restated")
            assert (read["held_back"] is None) is bool(read["unwritten"])
            assert batch != "whole" or read["caution"] is None


@pytest.mark.parametrize("path", [*FORMULAS, *PUBLISHED], ids=lambda path: path.stem)
def test_every_formula_weighed(run, path: Path) -> None:
    for further in ((), ("--at", "5200 ft"), ("--water", "204.5 F", "--jar", "pint")):
        ran = run("weigh", path, *further, "--as", "json")
        read = printed(ran, "weighing")
        assert (read["altitude_ft"] == 5200) is ("--at" in further)


@pytest.mark.parametrize("what", ["KV-101", "KV-102", "tomato_acid", "Complete Guide", "jelly"])
def test_every_kind_of_trace(run, what: str) -> None:
    read = printed(run("trace", what, "--in", ROOT / "formulas", "--as", "json", *DAY), "trace")
    assert read["asked"]


@pytest.mark.parametrize(
    "path", [path for path in FORMULAS if path.parent.name != "tested"], ids=lambda path: path.stem
)
def test_every_adaptation_as_a_new_version_of_its_tested_formula(run, path: Path) -> None:
    parent = next(line.split()[1] for line in path.read_text("utf-8").splitlines() if line.startswith("adapts"))
    tested = next((one for one in FORMULAS if one.stem == parent.lower()), None)
    if tested is not None:
        printed(run("notice", tested, path, "--as", "json", *DAY), "notice")
