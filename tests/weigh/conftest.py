"""Formulas written for one test and weighed, and the command line run in this process."""

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from brimline.document import units
from brimline.document.values import Jar
from brimline.faces.cli import main
from brimline.findings import Span
from brimline.review.weighed import Weighing
from brimline.review.weighing import weighing
from brimline.shelf import Book

HEAD = """\
formula XX-1 Something
product   {kind}
standing  tested
finish    {finish}
yield     {jars}

take
{take}

pack
  jar        half-pint
  prepare    sterile
  fill       hot

process boiling-water
  half-pint, pint: 5 min to 1000 ft, 10 min to 6000 ft
"""

Weigh = Callable[..., Weighing]


@pytest.fixture
def weigh() -> Weigh:
    """Weigh a formula made of these lines."""

    def call(*take: str, kind: str = "jam", finish: str = "full rolling boil 1 min", jars: str = "8 half-pint",
             at: int | None = None, jar: str = "", water: int | None = None, evidence: tuple[str, ...] = ()) -> Weighing:  # fmt: skip
        text = HEAD.format(kind=kind, finish=finish, jars=jars, take="\n".join(f"  {line}" for line in take))
        if evidence:
            text += "\nevidence\n" + "".join(f"  {line}\n" for line in evidence)
        size = units.jar_named(jar) if jar else None
        found = weighing(
            Book("xx-1.formula", data=text.encode()),
            None if at is None else Fraction(at),
            Jar(size.name, size.ml, Span(0, 0)) if size else None,
            None if water is None else Fraction(water),
        )
        assert found is not None
        assert found.unread == 0
        return found

    return call


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Callable[..., tuple[int, str, str]]:
    """Run the command line in this process, away from a terminal."""
    monkeypatch.delenv("COLUMNS", raising=False)

    def call(*words: object) -> tuple[int, str, str]:
        status = main([str(word) for word in words])
        said = capsys.readouterr()
        return status, said.out, said.err

    return call


@pytest.fixture
def formulas() -> Path:
    """The collection that comes with the program."""
    return Path(__file__).resolve().parents[2] / "formulas"
