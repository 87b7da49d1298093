"""What the makers of figures share: reading a table, exact numbers, checking sources, writing JSON."""

import json
import re
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.error import YAMLError

TABLES = Path("linter/brimline/figures/tables")
MADE = "linter/brimline/made"
HOWS = {"read", "calc", "memory", "assumed", "judgement"}
_NUMBER = re.compile(r"(?:(\d+) )?(\d+)/(\d+)|(\d+(?:\.\d+)?)")


class TableError(ValueError):
    """A table cannot be compiled: says which file, which entry and what is missing."""


def load(root: Path, name: str) -> Any:
    """One table.

    Raises TableError, with file and line, if it is not well written or has the same key twice.
    """
    try:
        return YAML(typ="safe").load((root / TABLES / name).read_text(encoding="utf-8"))
    except YAMLError as fault:
        raise TableError(f"{name}: {fault}") from fault


def text(number: Any) -> str:
    """A number as the exact decimal that was written."""
    return format(Decimal(str(number)), "f")


def ends(written: Any) -> tuple[str, str]:
    """The two ends of `567 to 680`, or one number twice."""
    low, _, high = str(written).partition(" to ")
    return text(low), text(high or low)


def exact(written: str) -> Fraction:
    """A kitchen number exactly: `1 1/2`, `3/4`, `0.85`.

    Raises TableError for anything else.
    """
    found = _NUMBER.fullmatch(written.strip())
    if not found:
        raise TableError(f"not a number: {written!r}")
    whole, above, below, plain = found.groups()
    return Fraction(plain) if plain else int(whole or 0) + Fraction(int(above), int(below))


def dumped(value: Any) -> bytes:
    """JSON without blanks, one line feed at the end."""
    return (json.dumps(value, ensure_ascii=False, separators=(",", ":")) + "\n").encode("utf-8")


class Sources:
    """The ids that figures may name as their source."""

    def __init__(self, known: set[str]) -> None:
        self.known = known

    def split(self, written: Any, where: str) -> tuple[str, str]:
        """How a figure is known, and its source with the place in it.

        Raises TableError if the source is missing or is not in the list of sources.
        """
        how, _, source = str(written or "").partition(" ")
        if how not in HOWS or not source:
            raise TableError(f"{where}: no source, or not said how it is known: {written!r}")
        if source.split(" ")[0] not in self.known:
            raise TableError(f"{where}: unknown source {source!r}")
        return how, source

    def check(self, written: Any, where: str) -> str:
        """The source as it is kept: how, then id and place."""
        return " ".join(self.split(written, where))
