"""T11: nothing that a collection keeps leads out of its folder: no link, no path, no file of another kind."""

import os
from datetime import date
from pathlib import Path

import pytest

from brimline.faces.cli import main
from brimline.shelf import RECORDS, load_shelf

TODAY = date(2026, 7, 1)
SECRET = "a secret of this computer"


def linked(link: Path, target: str) -> bool:
    """Make a link; Windows allows it only to some, and then there is nothing to be followed."""
    try:
        link.symlink_to(target)
    except OSError:
        return False
    return True


@pytest.fixture
def valley(tmp_path: Path) -> Path:
    (tmp_path / "secret").write_text(f"name: {SECRET}\n", "utf-8")
    folder = tmp_path / "valley"
    folder.mkdir()
    (folder / "kv-101.formula").write_text("formula KV-101 Plum jam\nstanding  draft\n", "utf-8")
    return folder


@pytest.mark.parametrize("name", [name for name in RECORDS if name != "collection.yaml"])
def test_a_register_or_variances_that_are_a_link_are_refused_unread(valley: Path, name: str) -> None:
    (valley / "collection.yaml").write_text("name: Valley\n", "utf-8")
    if not linked(valley / name, "../secret"):
        return
    shelf = load_shelf([str(valley)], TODAY)
    assert [(one.path, "link" in one.reason) for one in shelf.refusals] == [(name, True)]


def test_settings_that_are_a_link_make_no_collection(valley: Path, capsys: pytest.CaptureFixture[str]) -> None:
    if not linked(valley / "collection.yaml", "../secret"):
        return
    shelf = load_shelf([str(valley)], TODAY)
    assert SECRET not in shelf.names()
    assert main(["settings", str(valley)]) == 2
    said = capsys.readouterr()
    assert SECRET not in said.out + said.err


def test_a_link_in_place_of_the_register_is_never_written_through(valley: Path) -> None:
    (valley / "collection.yaml").write_text("name: Valley\n", "utf-8")
    before = (valley.parent / "secret").read_bytes()
    if not linked(valley / "register.json", "../secret"):
        return
    assert main(["seal", str(valley)]) == 2
    assert (valley.parent / "secret").read_bytes() == before
    assert (valley / "register.json").is_symlink()


@pytest.mark.parametrize("name", RECORDS[1:])
def test_a_folder_in_place_of_a_file_is_refused(valley: Path, name: str) -> None:
    (valley / "collection.yaml").write_text("name: Valley\n", "utf-8")
    (valley / name).mkdir()
    assert [one.path for one in load_shelf([str(valley)], TODAY).refusals] == [name]


@pytest.mark.parametrize("name", RECORDS[1:])
def test_a_named_pipe_is_refused_and_not_waited_for(valley: Path, name: str) -> None:
    (valley / "collection.yaml").write_text("name: Valley\n", "utf-8")
    if not hasattr(os, "mkfifo"):  # Windows has no named pipes in folders
        return
    os.mkfifo(valley / name)
    assert [one.path for one in load_shelf([str(valley)], TODAY).refusals] == [name]


@pytest.mark.parametrize(
    "path", ["..", "../other", "a/../../b", "/etc", "C:/x", "C:x", "\\\\server\\share", "a/./b", "x:stream", ""]
)
def test_no_setting_names_a_folder_outside(valley: Path, path: str) -> None:
    (valley / "collection.yaml").write_text(f"set-aside: ['{path}']\n", "utf-8")
    assert [one.path for one in load_shelf([str(valley)], TODAY).refusals] == ["collection.yaml"]
