"""The major food allergens of US law: nine, sesame since 1 January 2023."""

from functools import lru_cache

from msgspec import Struct

from brimline.figures._made import made
from brimline.findings import Source


class Allergen(Struct, frozen=True):
    """One major food allergen; `names_kind` tells that the kind has to be named with it (which nut, which fish)."""

    name: str
    names_kind: bool
    source: Source


@lru_cache(maxsize=1)
def allergens() -> tuple[Allergen, ...]:
    """All nine, in the order of the acts."""
    return tuple(Allergen(name, kind, Source(f"allergens/{name}", *cited)) for name, kind, cited in made("allergens"))
