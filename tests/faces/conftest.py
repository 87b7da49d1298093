"""A small collection on disk, and the command line run in this process or in one of its own."""

import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from msgspec import Struct

from brimline.faces.cli import main

LINTER = Path(__file__).resolve().parents[2] / "linter"

# The sample of the format's description: gooseberry jam with powdered pectin.
GOOSEBERRY = """\
formula KV-101 Gooseberry jam with powdered pectin
product   jam
standing  tested
finish    full rolling boil 1 min
yield     9 half-pint

take
  fruit      5 1/2 cup            gooseberries, crushed
  pectin     1 box of 1 3/4 oz    pectin, regular powdered
  acid       2 tbsp               lemon juice, bottled
  sweetener  7 cup                sugar, granulated

make
  - Sort, wash and crush the gooseberries; measure 5 1/2 cups into a wide, heavy pot.
  - Stir in the lemon juice and the pectin. Bring to a full rolling boil over high heat, stirring.
  - Add the sugar all at once, return to a full rolling boil and boil hard for 1 minute.
  - Take off the heat, skim, fill to 1/4 inch of the rim, wipe the rims and close.
  - Process, starting the time when the water boils. Let the jars stand 12 hours and check the seals.

pack
  jar        half-pint, pint
  prepare    sterile
  fill       hot
  headspace  1/4 in
  lid        two-piece

process boiling-water
  half-pint, pint: 5 min to 1000 ft, 10 min to 6000 ft, 15 min above

keep
  stand      12 h
  sealed     12 months, cool, dark, dry
  opened     4 weeks, refrigerated

evidence
  tested     2025-06-14, a test kitchen, report 31
  source     tested formulas, 3rd edition, p. 41
  review-by  2028-06-30
"""

NO_LEMON = (
    GOOSEBERRY.replace("KV-101 Gooseberry jam with powdered pectin", "KV-201 Gooseberry jam, no lemon")
    .replace("standing  tested", "standing  adapted\nadapts    KV-101")
    .replace("  acid       2 tbsp               lemon juice, bottled\n", "")
    .replace("the lemon juice and the pectin", "the pectin")
    .partition("evidence\n")[0]
)


class Ran(Struct, frozen=True):
    status: int
    out: str
    err: str


Run = Callable[..., Ran]


@pytest.fixture
def collection(tmp_path: Path) -> Path:
    """A collection with one tested formula, in a folder with a blank in its name."""
    folder = tmp_path / "my formulas"
    folder.mkdir()
    (folder / "collection.yaml").write_text("name: Kestrel Valley\nnotice: Demonstration. Not tested.\n", "utf-8")
    (folder / "kv-101.formula").write_text(GOOSEBERRY, "utf-8")
    return folder


@pytest.fixture
def adapted(collection: Path) -> Path:
    """An adaptation without its lemon juice, in the same collection."""
    file = collection / "adapted" / "kv-201.formula"
    file.parent.mkdir()
    file.write_text(NO_LEMON, "utf-8")
    return file


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Iterator[Run]:
    """Run the command line in this process, away from a terminal."""
    monkeypatch.delenv("COLUMNS", raising=False)
    monkeypatch.delenv("BRIMLINE_TRACE", raising=False)

    def call(*words: object) -> Ran:
        status = main([str(word) for word in words])
        said = capsys.readouterr()
        return Ran(status, said.out, said.err)

    return call


@pytest.fixture
def start() -> Run:
    """Run the command line as a program of its own, as a person would."""

    def call(*words: object, data: bytes = b"", **environment: str) -> Ran:
        path = os.pathsep.join(filter(None, [str(LINTER), os.environ.get("PYTHONPATH", "")]))
        done = subprocess.run(
            [sys.executable, "-m", "brimline", *(str(word) for word in words)],
            input=data,
            capture_output=True,
            check=False,
            timeout=60,
            env={**os.environ, "PYTHONPATH": path, **environment},
        )
        encoding = environment.get("PYTHONIOENCODING", "utf-8")
        return Ran(done.returncode, done.stdout.decode(encoding), done.stderr.decode(encoding))

    return call
