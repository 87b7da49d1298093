"""How many jars a batch can fill at most: everything in the pot at its lightest, nothing boiled off."""

from fractions import Fraction

from brimline.batch.linear import value
from brimline.batch.physics import hot_density
from brimline.batch.values import Batch, Item
from brimline.moves.pair import Unknowns, dimensions, form

# Kinds of which nothing goes into the jar but what is in the list; a packing liquid is often not measured.
ALL_LISTED = frozenset(
    {
        "jelly",
        "jam",
        "preserves",
        "marmalade",
        "conserve",
        "spread",
        "fruit butter",
        "fruit curd",
        "fruit syrup",
        "chutney",
    }
    | {"relish", "salsa", "sauce"}
)
# Too light to fill a jar, so that a missing weight does not matter.
SLIGHT = frozenset({"spice", "salt", "colour", "flavouring", "firming", "herb"})
MOST_BRIX = 75.0
WHOLE = Fraction(100)


def most_jars(batch: Batch) -> Fraction | None:
    """The most jars of the stated size that the ingredients can fill; None where a weight is not known.

    Every amount is taken at its most with optional lines in, the density at the least soluble solids the table gives,
    hot as it is filled. Source of the density: component-property equations of 1986 (`batch/physics.py`).
    """
    stated = batch.document.yields
    if stated is None or not stated.jar.volume_ml or batch.kind not in ALL_LISTED:
        return None
    grams, solids = Fraction(0), Fraction(0)
    for one in batch.items:
        if one.stay != "kept" or one.per_jar is not None or one.per_finished is not None:
            continue
        most = _grams(one)
        if most is None:
            if one.sort in SLIGHT or one.line.role in SLIGHT:
                continue
            return None
        grams += most
        if one.entry is not None and one.entry.solids is not None and not one.optional:
            solids += most * one.entry.solids / WHOLE
    if not grams:
        return None
    brix = min(float(solids / grams) * 100, MOST_BRIX)
    return grams / (Fraction(hot_density(brix)) / 1000) / stated.jar.volume_ml


def _grams(one: Item) -> Fraction | None:
    """The most grams a line can come to; None where no amount is written or nobody says what its measure weighs."""
    found = dimensions([one], False)
    if one.loose or not found or " per " in found[0]:
        return None
    unknowns = Unknowns()
    most = form(one, found[0], 2, unknowns, "", found[0])
    return None if unknowns.missing else value(most, unknowns.bounds).high
