"""The command line in this process, beside the collection that comes with the program."""

from collections.abc import Callable
from pathlib import Path

import pytest

from brimline.faces.cli import main

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Callable[..., tuple[int, str, str]]:
    """Run the command line from the top of the checkout, away from a terminal."""
    monkeypatch.delenv("COLUMNS", raising=False)
    monkeypatch.chdir(ROOT)

    def call(*words: object) -> tuple[int, str, str]:
        status = main([str(word) for word in words])
        said = capsys.readouterr()
        return status, said.out, said.err

    return call
