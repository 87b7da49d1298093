"""What a line brings of the fat, egg yolk or suet that a standard of identity asks for (curds, mincemeat)."""

from collections.abc import Sequence

from brimline.batch.linear import Linear
from brimline.batch.linear import times as scaled
from brimline.batch.values import Item
from brimline.figures import identity as table
from brimline.findings import Source
from brimline.review.sums import WHOLE, Sums

# What a standard may ask for in each kg, in words. Of `suet` the fat counts as it was weighed, not its pure fat.
NOUNS = {
    "fruit": "fruit",
    "endocarp": "flesh and juice of citrus",
    "fat": "fat",
    "yolk": "solids of egg yolk",
    "suet": "suet or other fat",
}
_SORTS = {"fat": "fat", "suet": "fat", "yolk": "egg"}


def held_lines(about: str, pot: Sequence[Item]) -> list[Item]:
    """The lines that may bring it."""
    return [one for one in pot if one.sort == _SORTS[about]]


def held(about: str, one: Item, sums: Sums) -> Linear | None:
    """Grams of it in a line; None where its weight or content is not known."""
    grams = sums.grams(one)
    if about == "suet" or grams is None or one.entry is None:
        return grams if one.entry is not None else None
    share = table.content(about, one.entry.name)
    return None if share is None else scaled(grams, share / WHOLE)


def held_sources(about: str) -> tuple[Source, ...]:
    """Where the contents come from; none for what counts as it was weighed."""
    source = table.content_source(about)
    return () if source is None else (source,)
