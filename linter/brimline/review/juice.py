"""How much of a juice or syrup is juice, by the least Brix (or acid) of juice of 100 percent. For a label, no judgement."""

from collections.abc import Iterator
from fractions import Fraction

from brimline.batch import words
from brimline.batch.linear import Linear, ratio, total, value
from brimline.batch.linear import times as scaled
from brimline.batch.values import Batch, Item
from brimline.figures.label import full_strength, juice_sources
from brimline.figures.values import Interval
from brimline.review.counting import WRITE_BRIX, added_solids, in_pot
from brimline.review.sums import WHOLE, Sums, brix_of
from brimline.review.weighed import Juice

# Products one drinks, as they are or made up with water.
KINDS = frozenset({"juice", "fruit syrup"})
# What may be in juice besides without hiding how much of it is juice.
PLAIN = frozenset(
    {"sweetener", "liquid", "acid", "salt", "spice", "herb", "flavouring", "colour", "firming", "preservative"}
)


def juice(batch: Batch, sums: Sums) -> Juice | None:
    """The share of juice with the juice as it was at full strength; None for what is no drink or holds no juice."""
    pot = in_pot(batch)
    lines = [one for one in pot if one.sort == "juice" or _is_citrus(one)]
    if batch.kind not in KINDS or not lines:
        return None
    if why := next(_why_not(pot, sums), ""):
        return Juice(None, None, why, juice_sources())
    forms: list[Linear] = []
    for one in lines:
        form, why = _at_full_strength(one, sums)
        if form is None:
            return Juice(None, None, f"{one.line.item}: {why}", juice_sources())
        forms.append(form)
    weight, whole = total(forms), total(form for one in pot if (form := sums.grams(one)))
    share = ratio(weight, whole, sums.bounds)
    if share is None:
        return Juice(None, None, "it weighs nothing that is known", juice_sources())
    percent = Interval(min(share.low * WHOLE, WHOLE), min(share.high * WHOLE, WHOLE))
    return Juice(percent, value(weight, sums.bounds), "", juice_sources())


def _is_citrus(one: Item) -> bool:
    return one.sort == "acid" and bool(one.tags & {"lemon", "lime"})


def _why_not(pot: list[Item], sums: Sums) -> Iterator[str]:
    """What keeps the share from being told, before any figure is looked up."""
    other = [one.line.item for one in pot if one.sort not in PLAIN | {"juice"}]
    if other:
        yield f"how much juice {words.listed(other)} brings is not written"
    loose = [
        one.line.item for one in pot if sums.grams(one) is None and one.sort in ("juice", "liquid", "sweetener", "acid")
    ]
    if loose:
        yield f"what {words.listed(loose)} weighs is not known"


def _at_full_strength(one: Item, sums: Sums) -> tuple[Linear | None, str]:
    """Grams of juice of 100 percent that a line stands for, or why nobody can tell."""
    grams = sums.grams(one)
    if one.entry is None or grams is None:
        return None, "which juice it is is not known"
    found = full_strength(one.entry.name)
    if found is None:
        return None, "the table has no figure for its fruit"
    if "sweetened" in one.tags:
        return None, "it holds sugar of its own, and how much is not known"
    if found.basis == "acid":
        acid = one.strength if one.strength is not None else one.entry.acid
        return (None, "its acid is not known") if acid is None else (scaled(grams, acid / found.percent), "")
    stated = brix_of(one)
    if stated is None:
        if "concentrate" in one.tags:
            return None, f"its soluble solids are not written; {WRITE_BRIX}"
        if any(part.sort == "liquid" and part.stay == "kept" for part in one.made_of):
            return None, f"it was drawn with water, so its soluble solids are not those of juice; {WRITE_BRIX}"
        # Juice as it was pressed is of 100 percent, whatever its fruit was like.
        return grams, ""
    if value(added_solids(one, sums), sums.bounds).high:
        return None, "sugar was put into it before it was measured"
    return scaled(grams, min(stated, _most(one, found.percent)) / found.percent), ""


def _most(one: Item, full: Fraction) -> Fraction:
    """Juice that is no concentrate counts as itself at most, however sweet its fruit was."""
    return WHOLE if "concentrate" in one.tags else full
