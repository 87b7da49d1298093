"""The command line in this process, from the top of the checkout."""

from collections.abc import Callable
from pathlib import Path

import pytest

from brimline.faces.cli import main


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Callable[..., tuple[int, str, str]]:
    """Run the command line in this process, away from a terminal."""
    monkeypatch.delenv("COLUMNS", raising=False)
    monkeypatch.chdir(Path(__file__).resolve().parents[2])

    def call(*words: object) -> tuple[int, str, str]:
        status = main([str(word) for word in words])
        said = capsys.readouterr()
        return status, said.out, said.err

    return call
