"""Reads what ci/make.py compiled, once, on first use."""

from functools import lru_cache
from pathlib import Path
from typing import Any

from msgspec.json import decode

_FOLDER = Path(__file__).resolve().parent.parent / "made"


@lru_cache(maxsize=8)
def made(name: str) -> Any:
    """The compiled table of that name, as JSON values.

    Raises FileNotFoundError, naming the file, if the maker has not been run.
    """
    return decode((_FOLDER / f"{name}.json").read_bytes())
