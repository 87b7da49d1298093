"""Finds the data folders that live beside the code in a checkout and inside the package once installed."""

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable


def folder(kind: str) -> "Traversable":
    """The folder `schema` or `formulas`: the checkout's own if the code runs from one, else the packaged copy.

    The checkout comes first, because an editable install leaves a second copy beside the installed packages, which
    nobody edits and which would go stale. This file stays exactly two folders below the top of the checkout.

    Raises FileNotFoundError, naming the folder, if the package was installed without it.
    """
    checkout = Path(__file__).resolve().parents[2]
    if (checkout / "pyproject.toml").is_file() and (checkout / kind).is_dir():
        return checkout / kind
    from importlib.resources import files

    packaged = files("brimline") / kind
    if packaged.is_dir():
        return packaged
    raise FileNotFoundError(f"brimline was installed without its {kind!r} folder")
