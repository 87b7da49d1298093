"""Which way each line of a formula may be rounded, by what the ingredient table says it is."""

from fractions import Fraction

from brimline.batch.classes import GELLED_KINDS, TEASPOON_ML, is_acid
from brimline.batch.resolve import item
from brimline.batch.values import Item
from brimline.document.values import Document, Line
from brimline.review.restate.kitchen import DOWN, NEAR, UP

# Never more of these than the exact amount: what dilutes acid, brings it up or stops heat (rows of the decision table).
_NEVER_UP = frozenset(
    {
        *("vegetable", "meat", "liquid", "egg", "dairy", "fat", "nut", "dried-fruit", "herb", "spirit", "thickener"),
        *("preservative", "base"),
    }
)
SAYS = {
    UP: "never less than the exact amount",
    DOWN: "never more than the exact amount",
    NEAR: "the nearest, within 1 percent",
}


def way(line: Line, document: Document) -> str:
    """`up` for acid and for the salt of a ferment, `down` for low-acid food, water and the like, else `near`."""
    one = item(line)
    if is_acid(one) or (one.sort == "salt" and document.product == "fermented pickle"):
        return UP
    if _sour(one):
        return NEAR
    if one.sort in _NEVER_UP or one.safety in ("low-acid", "borderline", "unknown"):
        return DOWN
    return NEAR


def share(line: Line, document: Document, by: Fraction) -> Fraction:
    """How much of a line a batch of this size gets: alike for all, but half a teaspoon of fat against foam is for any pot.

    Row fat-foam of the decision table: not scaled up.
    """
    if by <= 1 or document.product not in GELLED_KINDS | {"fruit butter"}:
        return by
    one = item(line)
    volumes = [high for dim, _, high in one.quantity.dims if dim.startswith("volume:")]
    return Fraction(1) if one.sort == "fat" and volumes and volumes[0] <= TEASPOON_ML / 2 else by


def _sour(one: Item) -> bool:
    """Tomato and tomatillo dilute nothing: they are what other vegetables are measured against."""
    return bool(one.tags & {"tomato", "tomatillo"}) and not one.tags & {"tomato-paste", "dehydrated"}
