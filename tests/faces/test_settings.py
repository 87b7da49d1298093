"""`brimline settings`: every value with its origin, as text and in the published shape."""

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from brimline._data import folder
from brimline.shelf.settings import KEYS

from .conftest import Run

SHAPE = json.loads((folder("schema") / "settings.schema.json").read_text(encoding="utf-8"))

FULL = """\
# A comment.
name: Kestrel Valley
altitude: 3000 to 4200 ft
places:
  Ferry Landing: 2150 ft
  High Terrace: {altitude: 1600 m, source: survey sheet 4}
hold-back: [quality]
office: |
  formula curator
  test kitchen technician
identity: [US, EU]
ingredients:
  - {name: valleyberry, role: fruit, class: high-acid, ph: 2.9 to 3.3, source: 'read Leaflet 12, p. 3'}
"""


def shown(run: Run, place: Path) -> dict[str, list[tuple[str, str, int]]]:
    done = run("settings", "--as", "json", place)
    assert done.status == 0
    read = json.loads(done.out)
    Draft202012Validator(SHAPE).validate(read)
    out: dict[str, list[tuple[str, str, int]]] = {}
    for one in read["settings"]:
        out.setdefault(one["key"], []).append((one["value"], one["origin"], one["line"]))
    return out


def test_every_value_is_shown_with_the_line_it_comes_from(collection: Path, run: Run) -> None:
    (collection / "collection.yaml").write_text(FULL, "utf-8")
    found = shown(run, collection)
    # 1600 m are 5,249 ft (1 ft = 0.3048 m exactly); the highest place decides.
    assert found["altitude"] == [("2,150 to 5,249 ft", "collection.yaml", 6)]
    assert found["places"][1] == ("High Terrace: 5,249 ft (survey sheet 4)", "collection.yaml", 6)
    assert found["office"] == [
        ("formula curator", "collection.yaml", 8),
        ("test kitchen technician", "collection.yaml", 8),
    ]
    assert found["ingredients"][0] == ("valleyberry: fruit, high-acid; read Leaflet 12, p. 3", "collection.yaml", 13)
    assert found["identity"] == [("US", "collection.yaml", 11), ("EU", "collection.yaml", 11)]
    assert found["review-interval"] == [("at most 60 months", "published floor", 0)]
    assert found["register"] == [("", "not set", 0)]


def test_no_setting_is_left_out(collection: Path, run: Run) -> None:
    assert set(KEYS) <= set(shown(run, collection))


def test_what_no_collection_can_loosen_is_said_to_be_so(collection: Path, run: Run) -> None:
    (collection / "collection.yaml").write_text(FULL, "utf-8")
    levels = shown(run, collection)["hold-back"]
    assert levels == [
        ("unreadable", "published floor", 0),
        ("unsafe", "published floor", 0),
        ("untested", "published floor", 0),
        ("quality", "collection.yaml", 7),
    ]


@pytest.mark.parametrize("inside", [".", "adapted", "adapted/kv-201.formula"])
def test_the_collection_around_a_folder_or_file_is_shown(
    collection: Path, adapted: Path, run: Run, inside: str
) -> None:
    assert adapted.exists()
    done = run("settings", collection / inside)
    assert done.status == 0
    assert "Kestrel Valley" in done.out
    assert "collection.yaml, line 1" in done.out


def test_settings_that_cannot_be_used_are_told_and_nothing_is_guessed(collection: Path, run: Run) -> None:
    (collection / "collection.yaml").write_text("nmae: x\n", "utf-8")
    done = run("settings", collection)
    assert (done.status, done.out) == (2, "")
    assert "write `name`" in done.err


def test_a_folder_without_a_collection_is_told(tmp_path: Path, run: Run) -> None:
    done = run("settings", tmp_path)
    assert (done.status, "belongs to no collection" in done.err) == (2, True)


def test_nothing_in_a_setting_steers_the_terminal(collection: Path, run: Run) -> None:
    (collection / "collection.yaml").write_text('name: "a\\e[2Kb\\u202e"\nnotice: "::error::x"\n', "utf-8")
    done = run("settings", collection)
    assert "\x1b" not in done.out
    assert "\u202e" not in done.out
