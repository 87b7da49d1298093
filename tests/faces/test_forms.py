"""The forms of a review as the command line hands them over: the same bytes everywhere, whole files or none."""

import json
import os
import subprocess
import sys
import xml.etree.ElementTree as ET
from collections.abc import Callable
from pathlib import Path

import pytest

from brimline.faces.cli import main
from brimline.faces.forms import FORMS

LINTER = Path(__file__).resolve().parents[2] / "linter"
DAY = ("--on", "2026-07-01")
MACHINE = [form for form in FORMS if form not in {"text", "lines"}]


@pytest.fixture
def printed(capfdbinary: pytest.CaptureFixture[bytes]) -> Callable[..., bytes]:
    """The bytes that one run of the command line prints."""

    def call(*words: object) -> bytes:
        main([str(word) for word in words])
        sys.stdout.flush()
        return bytes(capfdbinary.readouterr().out)

    return call


@pytest.fixture
def repository(tmp_path: Path, collection: Path, adapted: Path) -> Path:
    """The collection inside a repository."""
    (tmp_path / ".git").mkdir()
    assert adapted.is_relative_to(collection)
    return tmp_path


@pytest.mark.parametrize("form", MACHINE)
def test_the_same_bytes_from_any_working_folder(
    printed: Callable[..., bytes], repository: Path, form: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    collection = repository / "my formulas"
    seen = set()
    for folder, words in (
        (repository, ("my formulas",)),
        (collection, (".",)),
        (collection / "adapted", ("..",)),
        (repository.parent, (collection,)),
    ):
        monkeypatch.chdir(folder)
        seen.add(printed("review", *words, "--as", form, *DAY))
    assert len(seen) == 1
    (bytes_,) = seen
    assert b"KV-201" in bytes_
    assert str(repository).encode() not in bytes_
    assert repository.name.encode() not in bytes_
    assert sys.version.split()[0].encode() not in bytes_


@pytest.mark.parametrize("form", MACHINE)
def test_the_same_bytes_twice_and_in_any_order_of_paths(
    printed: Callable[..., bytes], repository: Path, form: str
) -> None:
    one, two = repository / "my formulas" / "kv-101.formula", repository / "my formulas" / "adapted" / "kv-201.formula"
    made = {printed("review", *paths, "--as", form, *DAY) for paths in ((one, two), (two, one), (one, two))}
    assert len(made) == 1


@pytest.mark.parametrize("form", ["markdown", "csv"])
def test_the_same_bytes_whatever_the_console_writes(repository: Path, form: str) -> None:
    # These two are not in ASCII, so a console of another encoding could write them in another way.
    title = "KV-201 Gelée de groseilles à maquereau"
    file = repository / "my formulas" / "adapted" / "kv-201.formula"
    file.write_text(file.read_text("utf-8").replace("KV-201 Gooseberry jam, no lemon", title), "utf-8")
    asked = [sys.executable, "-m", "brimline", "review", str(repository / "my formulas"), "--as", form, *DAY]
    path = os.pathsep.join(filter(None, [str(LINTER), os.environ.get("PYTHONPATH", "")]))
    made = set()
    for encoding, seed in (("utf-8", "1"), ("cp1252", "2"), ("ascii", "3")):
        around = {**os.environ, "PYTHONPATH": path, "PYTHONIOENCODING": encoding, "PYTHONHASHSEED": seed}
        made.add(subprocess.run(asked, capture_output=True, check=False, timeout=60, env=around).stdout)
    assert len(made) == 1
    assert "Gelée de groseilles à maquereau".encode() in made.pop()


def test_text_forms_end_their_lines_in_one_way(printed: Callable[..., bytes], repository: Path) -> None:
    for form in MACHINE:
        made = printed("review", repository / "my formulas", "--as", form, *DAY)
        # RFC 4180 ends the rows of a table with both; every other form has line feeds alone.
        assert made.count(b"\r") == (made.count(b"\r\n") if form == "csv" else 0)
        assert made.endswith(b"\n")


def uri(printed: bytes) -> str:
    place = json.loads(printed)["runs"][0]["results"][0]["locations"][0]["physicalLocation"]
    return str(place["artifactLocation"]["uri"])


def test_paths_start_at_the_top_of_the_repository(printed: Callable[..., bytes], repository: Path) -> None:
    made = printed("review", repository / "my formulas", "--as", "sarif", *DAY)
    assert uri(made) == "my%20formulas/adapted/kv-201.formula"


def test_or_where_they_are_asked_to_start(printed: Callable[..., bytes], repository: Path) -> None:
    asked = ("review", repository / "my formulas", "--as", "sarif", *DAY, "--paths-from")
    assert uri(printed(*asked, repository / "my formulas")) == "adapted/kv-201.formula"
    assert uri(printed(*asked, repository / "my formulas" / "adapted")) == "../adapted/kv-201.formula"


def test_without_a_repository_they_start_at_the_collection(
    printed: Callable[..., bytes], collection: Path, adapted: Path
) -> None:
    assert adapted.is_file()
    assert uri(printed("review", collection, "--as", "sarif", *DAY)).endswith("adapted/kv-201.formula")


def test_a_folder_that_is_none_is_refused(run, collection: Path) -> None:
    ran = run("review", collection, "--as", "sarif", "--paths-from", collection / "nowhere", *DAY)
    assert (ran.status, ran.out) == (2, "")
    assert "is no folder" in ran.err


def test_a_report_goes_into_a_file_and_people_get_the_text(run, adapted: Path, tmp_path: Path) -> None:
    target = tmp_path / "out" / "review.xml"
    target.parent.mkdir()
    ran = run("review", adapted, "--as", "junit", "--to", target, *DAY)
    assert ran.status == 1
    assert "1 held back" in " ".join(ran.out.split())
    assert ET.fromstring(target.read_bytes()).get("failures") != "0"
    assert [one.name for one in target.parent.iterdir()] == ["review.xml"]


def test_a_file_is_replaced_whole(run, adapted: Path, tmp_path: Path) -> None:
    target = tmp_path / "review.json"
    target.write_text("x" * 100_000, "utf-8")
    run("review", adapted, "--as", "json", "--to", target, *DAY)
    assert json.loads(target.read_text("utf-8"))["held_back"] == 1


@pytest.mark.parametrize("name", ["kv-999.formula", "collection.yaml", "gone/review.json", "."])
def test_a_report_replaces_no_formula_and_no_setting(run, adapted: Path, collection: Path, name: str) -> None:
    before = {file: file.read_bytes() for file in collection.rglob("*") if file.is_file()}
    ran = run("review", adapted, "--as", "json", "--to", collection / name, *DAY)
    assert (ran.status, ran.out) == (2, "")
    assert "review.sarif" in ran.err or "could not be written" in ran.err
    assert {file: file.read_bytes() for file in collection.rglob("*") if file.is_file()} == before


def test_text_for_people_needs_no_file(run, adapted: Path, tmp_path: Path) -> None:
    ran = run("review", adapted, "--to", tmp_path / "x.txt", *DAY)
    assert (ran.status, ran.out) == (2, "")
    assert "--as" in ran.err


@pytest.mark.parametrize("form", MACHINE)
def test_a_missing_path_is_told_in_every_form_that_has_a_place_for_it(
    printed: Callable[..., bytes], tmp_path: Path, form: str
) -> None:
    made = printed("review", tmp_path / "gone.formula", "--as", form)
    assert (b"gone.formula" in made) is (form not in {"code-quality", "csv"})


@pytest.mark.parametrize("form", MACHINE)
def test_a_missing_path_is_told_beside_the_report(run, tmp_path: Path, form: str) -> None:
    ran = run("review", tmp_path / "gone.formula", "--as", form)
    assert ran.status == 2
    # A path longer than a line stands cut over two.
    assert "gone.formulaisnotthere" in "".join(ran.err.split())


def test_every_rule_of_the_register_has_its_help(printed: Callable[..., bytes], collection: Path) -> None:
    log = json.loads(printed("review", collection, "--as", "sarif", *DAY))
    rules = log["runs"][0]["tool"]["driver"]["rules"]
    names = [rule["id"] for rule in rules]
    assert len(set(names)) == len(names) > 40
    assert all(rule["help"]["text"].startswith(rule["shortDescription"]["text"]) for rule in rules)
    assert {rule["defaultConfiguration"]["level"] for rule in rules} == {"error", "warning", "note"}
    # What the host that shows such logs takes at most: 25,000 rules, 20 tags each.
    assert all(1 <= len(rule["properties"]["tags"]) <= 20 for rule in rules)
