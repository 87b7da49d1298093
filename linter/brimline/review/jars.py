"""How many jars a batch fills, for the rules that read a stated yield: the most it can, and the estimate when done."""

from fractions import Fraction

from brimline.batch.classes import is_gelled, pectin_kind
from brimline.batch.linear import value
from brimline.batch.values import Batch, Item
from brimline.figures.values import Interval
from brimline.moves.pair import weighed

# Kinds of which nothing goes into the jar but what is in the list; a packing liquid is often not measured.
ALL_LISTED = frozenset(
    {"jelly", "jam", "preserves", "marmalade", "conserve", "spread", "fruit butter", "fruit curd", "fruit syrup"}
    | {"chutney", "relish", "salsa", "sauce"}
)
# Too light to fill a jar, so that a missing weight does not matter.
SLIGHT = frozenset({"spice", "salt", "colour", "flavouring", "firming", "herb"})


# What a gram of a batch fills in ml at the very least: the density at 75 Brix, beyond which no spread is filled.
LEAST_ML = Fraction(74, 100)
# What a gram of what goes in comes to in ml: a yield between these ends needs no closer look, whatever boils off.
BOILED_DOWN = Interval(Fraction(42, 100), Fraction(56, 100))
BOILED_BRIEFLY = Interval(Fraction(50, 100), LEAST_ML)
ENDS = ("gel", "brix", "temperature")


def plain(batch: Batch) -> bool:
    """Whether a stated yield is so near to what goes in that no closer look is needed; a rough sum tells at once."""
    stated, finish = batch.document.yields, batch.document.finish
    if stated is None or not stated.jar.volume_ml or batch.kind not in ALL_LISTED:
        return True
    grams_of, unknowns = weighed(batch)
    kept = {f"{group.name}|{group.stay}" for group in batch.groups if group.stay == "kept"}
    grams = sum((value(form, unknowns.bounds).middle for name, form in grams_of.items() if name in kept), Fraction(0))
    if unknowns.missing or not grams:
        return False
    reach = BOILED_DOWN if finish is not None and finish.kind in ENDS else BOILED_BRIEFLY
    least = reach.low if finish is not None and finish.kind in (*ENDS, "rolling") else Fraction(0)
    # A last jar need not be full.
    last = 1 if reach is BOILED_BRIEFLY else 0
    enough = stated.high * stated.jar.volume_ml >= least * grams
    return enough and (stated.low - last) * stated.jar.volume_ml < reach.high * grams


def jars(batch: Batch) -> tuple[Fraction | None, Interval | None]:
    """The most jars of the stated size that the ingredients can fill, and how many the finished batch fills.

    Each is None where it cannot be told (no yield is stated, a weight is missing, nobody says how much boils off) or
    where the stated yield is plain.
    """
    if plain(batch):
        return None, None
    # The models are only loaded for a yield that needs them.
    from brimline.batch.models.values import NoFigure
    from brimline.review import finishing
    from brimline.review.sums import Sums

    sums = Sums()
    pot = [one for one in batch.items if one.stay == "kept" and one.per_jar is None and one.per_finished is None]
    missing = tuple(one.line.item for one in pot if _fills(one) and sums.grams(one) is None)
    loaded = finishing.load(pot, [], missing, sums)
    ceiling = finishing.fill(batch.document, loaded)
    done = finishing.finished(batch, loaded, is_gelled(batch), pectin_kind(batch))
    known = None if isinstance(done, NoFigure) else done.jars
    estimate = None if known is None else Interval(Fraction(known.low), Fraction(known.high))
    return ceiling.most if ceiling is not None else None, estimate


def _fills(one: Item) -> bool:
    return one.sort not in SLIGHT and one.line.role not in SLIGHT
