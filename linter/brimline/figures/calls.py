"""What callers ask and what is read out to them: the compiled phrases, and sentences with their sources."""

from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType
from typing import Any

from msgspec import Struct

from brimline.figures._made import made
from brimline.findings import Source


class Spoken(Struct, frozen=True):
    """Sentences fit to be read out, by name, and the publications behind their figures."""

    says: Mapping[str, str]
    sources: tuple[Source, ...]


def _spoken(raw: dict[str, Any]) -> Spoken:
    return Spoken(MappingProxyType(raw["says"]), tuple(Source(*one) for one in raw["sources"]))


@lru_cache(maxsize=256)
def spoken(part: str, key: str) -> Spoken | None:
    """The sentences of an entry of `rows`, `topics` or `talks`; None if there is none."""
    raw = made("calls")[part].get(key)
    return None if raw is None else _spoken(raw)


@lru_cache(maxsize=1)
def phrases() -> tuple[tuple[str, str, str, str], ...]:
    """The rows of the grammar in order: kind, what it is about, what it asks for besides, the pattern of words."""
    return tuple(
        (str(kind), str(about), str(besides), str(row)) for kind, about, besides, row in made("calls")["phrases"]
    )


def asks() -> Mapping[str, tuple[str, ...]]:
    """What can be asked, by group, as examples."""
    return MappingProxyType({group: tuple(some) for group, some in made("calls")["asks"].items()})
