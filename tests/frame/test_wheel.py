"""What people install is all of the tree's code and data, and it works without the tree."""

import email
import tarfile
import zipfile
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

import pytest

Run = Callable[..., CompletedProcess[str]]
# Where each folder of the tree lies in the wheel.
PLACES = {"linter/brimline/": "brimline/", "schema/": "brimline/schema/", "formulas/": "brimline/formulas/"}


@pytest.fixture(scope="module")
def built(copy: Path, run: Run, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder with the wheel and the source archive, built from the clean copy without the network."""
    out = tmp_path_factory.mktemp("built")
    done = run("-m", "hatchling", "build", "-t", "wheel", "-t", "sdist", "-d", str(out), folder=copy)
    assert done.returncode == 0, done.stdout + done.stderr
    return out


@pytest.fixture(scope="module")
def wheel(built: Path) -> Path:
    return next(built.glob("*.whl"))


def test_the_wheel_holds_the_code_and_the_data_and_nothing_else(wheel: Path, files: list[str]) -> None:
    expected = {
        place + name.removeprefix(folder)
        for folder, place in PLACES.items()
        for name in files
        if name.startswith(folder)
    }
    with zipfile.ZipFile(wheel) as archive:
        names = {name for name in archive.namelist() if not name.endswith("/")}
    assert {name for name in names if ".dist-info/" not in name} == expected
    # Each of the five kinds that could be lost as a whole.
    assert {"brimline/py.typed", "brimline/__main__.py", "brimline/schema/formula.lark"} < names
    assert any(name.startswith("brimline/made/") and not name.endswith(".py") for name in names)
    assert any(name.startswith("brimline/figures/") and not name.endswith(".py") for name in names)
    assert any(name.startswith("brimline/formulas/") and name.endswith(".formula") for name in names)


def test_the_wheel_says_what_it_is(wheel: Path, copy: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        about = {name.partition("/")[2]: archive.read(name).decode() for name in archive.namelist() if "info/" in name}
    data = email.message_from_string(about["METADATA"])
    assert data["Name"] == "brimline"
    assert data["License-Expression"] == "MIT"
    assert len(data.get_all("Requires-Dist") or []) == 4
    assert about["entry_points.txt"].split("\n")[:2] == ["[console_scripts]", "brimline = brimline.faces.start:start"]
    assert about["licenses/LICENSE"] == (copy / "LICENSE").read_text(encoding="utf-8")


def test_the_source_archive_holds_the_tree(built: Path, files: list[str]) -> None:
    with tarfile.open(next(built.glob("*.tar.gz"))) as archive:
        names = {name.partition("/")[2] for name in archive.getnames()}
    assert [name for name in files if not name.startswith(".") and name not in names] == []


def test_the_unpacked_wheel_reviews_its_own_collection(wheel: Path, run: Run, tmp_path: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(tmp_path / "installed")
    collection = tmp_path / "installed" / "brimline" / "formulas"
    done = run("-m", "brimline", "review", str(collection), folder=tmp_path, package=tmp_path / "installed")
    assert done.returncode == 0, done.stdout + done.stderr
