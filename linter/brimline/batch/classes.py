"""What each ingredient counts as, and which class the acid of a formula has.

The terms are those of the decision table: base, sour part, low-acid load, minor line, gelled, protects.
"""

from fractions import Fraction

from brimline.batch.linear import Bounds, Linear, total, value
from brimline.batch.values import Batch, Group, Item

GELLED_KINDS = frozenset({"jelly", "jam", "preserves", "marmalade", "conserve", "spread"})
# Kinds whose base is fruit, juice, peel and vegetable; liquid counts only if the boiling time is fixed.
FRUIT_BASE_KINDS = GELLED_KINDS | {"fruit syrup", "fruit butter"}
ALWAYS_PROTECTS = frozenset(
    {"chutney", "relish", "salsa", "pickle", "fermented pickle", "pie filling", "fruit curd", "tomato"}
)
SEALED_METHODS = frozenset({"boiling-water", "steam", "pressure"})
LOW_PECTIN = ("pectin-low-sugar", "pectin-calcium")
# Plant food that dilutes acid; nuts, eggs, fat and dairy have rows of their own.
LOAD_SORTS = frozenset({"fruit", "juice", "vegetable", "meat", "herb"})
PRESENT_INFUSED = ("pepper-sweet", "pepper-hot", "onion", "garlic", "mushroom", "vegetable")
TEASPOON_ML = Fraction("4.92892159375")
TABLESPOON_ML = 3 * TEASPOON_ML
TWO_PERCENT = Fraction(2, 100)


def counts_in_base(group: Group, batch: Batch) -> bool:
    """Whether a group is part of the base, the food that acid and sugar are measured against."""
    if group.stay != "kept":
        return False
    if batch.kind == "fruit curd":
        return group.sort in ("egg", "dairy", "fat")
    if batch.kind in FRUIT_BASE_KINDS:
        plain = group.sort in ("fruit", "juice", "peel", "vegetable")
        return plain or (group.sort == "liquid" and (batch.fixed_time or is_infusion(batch) or has_concentrate(batch)))
    return group.sort in ("fruit", "juice", "vegetable", "dried-fruit", "liquid", "peel")


def is_infusion(batch: Batch) -> bool:
    """Whether nothing but liquid carries the flavour, as in a mint or tea jelly."""
    return not any(g.sort in ("fruit", "juice") and g.stay == "kept" for g in batch.groups)


def has_concentrate(batch: Batch) -> bool:
    """Whether a juice concentrate is made up with the formula's own water."""
    return any(g.has("concentrate") and g.stay == "kept" for g in batch.groups)


def is_tomato(group: Group) -> bool:
    """Tomato and tomatillo count with the sour part, paste and dried tomato do not."""
    return group.has("tomato", "tomatillo") and not group.has("tomato-paste", "dehydrated")


def counts_as_sour(group: Group) -> bool:
    """Whether a group is of the sour part: high-acid fruit and juice, tomato and tomatillo, not the added acid."""
    if group.stay != "kept":
        return False
    return (group.sort in ("fruit", "juice") and group.safety == "high-acid") or is_tomato(group)


def stays_or_leaches(group: Group) -> bool:
    """Whether a group is in the jar: kept, or a vegetable that was only infused and counts as present."""
    return group.stay == "kept" or (group.stay == "infused" and group.has(*PRESENT_INFUSED))


def counts_as_low_acid(group: Group, batch: Batch) -> bool:
    """Whether a group is part of the low-acid load of the batch."""
    if not stays_or_leaches(group) or is_tomato(group) or is_minor(group, batch):
        return False
    if group.has("dehydrated", "tomato-paste"):
        # Dried vegetables and tomato paste have rows of their own.
        return False
    return group.sort in LOAD_SORTS and group.safety in ("low-acid", "borderline")


def is_minor(group: Group, batch: Batch) -> bool:
    """A line too small or of a kind too harmless to move the acidity: dry spice, salt, a teaspoon of herb."""
    if group.stay == "infused" and not group.has(*PRESENT_INFUSED):
        return True
    if group.sort in ("salt", "colour", "sweetener", "acid", "pectin", "gelling", "firming", "spirit", "liquid"):
        return True
    if group.has("spice-dry", "herb-dried", "extract", "vanilla", "salt-table", "salt-canning", "salt-other"):
        return True
    if group.sort == "spice" and not group.has("ginger-fresh"):
        return True
    gelled = batch.kind in GELLED_KINDS
    if gelled and (group.sort in ("nut", "peel") or (group.sort == "dried-fruit" and group.safety == "high-acid")):
        return True
    if is_herb(group):
        return at_most(group, TEASPOON_ML)
    if group.sort == "fat":
        return batch.kind in GELLED_KINDS | {"fruit butter"} and at_most(group, TEASPOON_ML / 2)
    return group.sort == "flavouring" and group.safety == "neutral"


def is_herb(group: Group) -> bool:
    """Fresh herb, ginger, zest or flower: let in by the teaspoon."""
    return group.sort == "herb" or group.has("herb-fresh", "ginger-fresh", "zest", "flower")


def at_most(group: Group, limit_ml: Fraction) -> bool:
    """Whether the most of a group is a volume within a limit; other measures than volume do not tell."""
    volumes = [high for dim, _, high in group.most.dims if dim.startswith("volume:")]
    return bool(volumes) and volumes[0] <= limit_ml * Fraction(102, 100)


def is_gelled(batch: Batch) -> bool:
    """Whether sugar and pectin set the product: a sweet spread with required sugar and no low-sugar set."""
    if batch.kind not in GELLED_KINDS:
        return False
    required = any(
        g.sort == "sweetener" and g.stay == "kept" and not g.has("non-sugar") and _required(g) for g in batch.groups
    )
    other_set = any(g.has(*LOW_PECTIN, "gelatin", "agar") and g.stay == "kept" for g in batch.groups)
    return required and not other_set


def _required(group: Group) -> bool:
    """Whether some of it must go in."""
    return any(high > 0 for _, _, high in group.least.dims)


def acid_lines(batch: Batch) -> tuple[Item, ...]:
    """Every line whose acid counts: citric acid, lemon and lime juice, vinegar, in the pot or per jar."""
    lines = [one for group in batch.groups for one in group.items if is_acid(one)]
    return tuple(lines + [one for one in batch.per_jar if is_acid(one)])


def is_acid(one: Item | Group) -> bool:
    """Whether it is acid of the formula; ascorbic acid, cream of tartar and the like are not."""
    return one.sort == "acid" and bool(one.tags & {"lemon", "lime", "vinegar", "citric"})


def pectin_kind(batch: Batch) -> str:
    """Which pectin sets the batch: `pectin-powder`, `pectin-liquid`, a low-sugar kind, home-made, or nothing."""
    for tag in ("pectin-powder", "pectin-liquid", "pectin-low-sugar", "pectin-calcium", "pectin-home", "gelling-sugar"):
        if any(tag in g.tags and g.stay == "kept" for g in batch.groups):
            return tag
    return ""


def acid_class(batch: Batch, masses: dict[str, Linear], bounds: Bounds) -> str:
    """`protects`, `doubtful` or `sets`: what the added acid does in this formula.

    `masses` gives the grams of each group (keyed `name|stay`), optional lines counted as present.
    """
    if batch.kind in ALWAYS_PROTECTS or any(is_acid(one) for one in batch.per_jar):
        return "protects"
    if batch.kind == "sauce" and any(g.sort == "vegetable" and stays_or_leaches(g) for g in batch.groups):
        return "protects"
    if _much_low_acid(batch, masses, bounds) or _little_sour(batch, masses, bounds) or _sealed_without_sugar(batch):
        return "protects"
    lines = acid_lines(batch)
    written = any(one.tags & {"bottled", "citric"} for one in lines)
    stated = any(g.has(*LOW_PECTIN) and g.stay == "kept" for g in batch.groups) and bool(lines)
    return "doubtful" if written or stated else "sets"


def _grams(masses: dict[str, Linear], bounds: Bounds, wanted: list[Group]) -> Fraction:
    """The middle estimate of the grams of some groups."""
    return value(total(masses.get(f"{g.name}|{g.stay}", {}) for g in wanted), bounds).middle


def _much_low_acid(batch: Batch, masses: dict[str, Linear], bounds: Bounds) -> bool:
    """A line that is not minor is low-acid or borderline; in a gelled product, above 2 % of the base in total."""
    low = [
        g
        for g in batch.groups
        if stays_or_leaches(g)
        and g.safety in ("low-acid", "borderline")
        and not is_minor(g, batch)
        and g.sort in LOAD_SORTS | {"egg", "dairy", "fat", "condiment", "dried-fruit", "nut", "peel"}
    ]
    if not low:
        return False
    if batch.kind not in GELLED_KINDS:
        return True
    base = [g for g in batch.groups if counts_in_base(g, batch)]
    return _grams(masses, bounds, low) > TWO_PERCENT * _grams(masses, bounds, base)


def _little_sour(batch: Batch, masses: dict[str, Linear], bounds: Bounds) -> bool:
    """High-acid fruit and juice make up less than a third of the base."""
    base = [g for g in batch.groups if counts_in_base(g, batch)]
    sour = [g for g in base if g.sort in ("fruit", "juice") and g.safety == "high-acid"]
    whole = _grams(masses, bounds, base)
    return bool(whole) and 3 * _grams(masses, bounds, sour) < whole


def _sealed_without_sugar(batch: Batch) -> bool:
    """A spread, butter, syrup or fruit sauce sealed at room temperature, with an acid line and no required sugar."""
    if batch.kind not in ("spread", "fruit butter", "fruit syrup", "sauce"):
        return False
    sealed = any(process.method in SEALED_METHODS for process in batch.document.process)
    sugar = any(g.sort == "sweetener" and not g.has("non-sugar") and _required(g) for g in batch.groups)
    return sealed and bool(acid_lines(batch)) and not sugar
