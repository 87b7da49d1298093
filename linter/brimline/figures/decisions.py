"""The decision table: what each kind of edit to a tested formula means."""

from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType
from typing import Any

from brimline.figures._made import made
from brimline.figures.values import Row
from brimline.findings import Source


def as_row(raw: dict[str, Any]) -> Row:
    """A compiled row as a value."""
    return Row(
        id=raw["id"],
        edit=raw["edit"],
        levels=tuple((key, level) for key, level in raw["levels"]),
        harms=tuple((key, harm) for key, harm in raw["harms"]),
        basis=tuple(Source(*basis) for basis in raw["basis"]),
        side=raw["side"],
        kinds=tuple(raw["kinds"]),
        note=raw["note"],
        why=raw["why"],
        advice=raw["advice"],
    )


@lru_cache(maxsize=1)
def rows() -> Mapping[str, Row]:
    """The rows of the decision table by id, in the table's order."""
    return MappingProxyType({raw["id"]: as_row(raw) for raw in made("decisions")})
