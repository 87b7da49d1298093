"""What of a formula counts as its fruit in a standard of identity, line by line."""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from msgspec import Struct

from brimline.batch import words
from brimline.batch.linear import Linear, total, value
from brimline.batch.linear import times as scaled
from brimline.batch.values import Batch, Item
from brimline.figures.identity import Standard, fruit_of
from brimline.figures.values import Interval
from brimline.review.sums import WHOLE, Sums, brix_of

# Words that say the fruit was weighed after what is not eaten had gone.
PREPARED = frozenset(
    [
        "pitted",
        "crushed",
        "chopped",
        "sliced",
        "mashed",
        "pureed",
        "diced",
        "ground",
        "peeled",
        "cored",
        "hulled",
        "stemmed",
        "trimmed",
        "halved",
        "quartered",
        "pulp",
        "grated",
        "minced",
        "seeded",
        "shelled",
        "prepared",
        "stoned",
        "strained",
        "sieved",
    ]
)
WITH_PITS = frozenset({"whole", "unpitted", "unstoned", "pits"})
FLESH = frozenset({"peeled", "sections", "segments", "flesh", "pulp", "sectioned", "segmented", "juice"})
CITRUS = "citrus"
VINE_FRUIT = "vine fruit"


class Part(Struct, frozen=True):
    """One line of fruit: what the standards call it, what of it counts (None with the reason in `why`), in words."""

    fruit: str
    item: Item
    form: Linear | None
    why: str = ""
    how: str = ""


def is_one_fruit(one: Item) -> bool:
    """Whether the table knows which fruit a line is."""
    return one.entry is not None and not one.mixture and "mixture" not in one.tags


def in_pot(batch: Batch) -> list[Item]:
    """The lines that are cooked and stay, without those stated per jar."""
    return [one for one in batch.items if one.stay == "kept" and one.per_jar is None and one.per_finished is None]


def parts(batch: Batch, standard: Standard, sums: Sums) -> list[Part]:
    """Every line of fruit with what of it counts."""
    return list(_parts(in_pot(batch), standard, sums))


def _parts(pot: Iterable[Item], standard: Standard, sums: Sums) -> Iterator[Part]:
    if standard.counts == "none":
        return
    for one in pot:
        name = fruit_of(one.entry.name) if one.entry is not None else ""
        is_peel = one.sort == "peel"
        if standard.counts == CITRUS:
            # Other fruit may be in it, and is no citrus.
            if one.tags & {CITRUS, "lemon", "lime"} or (
                one.sort == "juice" and one.family in ("orange", "grapefruit", "tangerine")
            ):
                yield _plain(name, one, sums)
            continue
        if standard.counts == "dried":
            if name == VINE_FRUIT or is_peel or "peel" in one.line.item.lower().split():
                yield _plain(VINE_FRUIT, one, sums)
            continue
        if is_peel or one.sort == "acid" or not (one.sort in ("fruit", "juice", "dried-fruit") or name):
            continue
        if standard.counts == "prepared" and one.sort == "juice":
            # Juice may stand in a jam, and is none of the fruit it is made of.
            continue
        yield _counted(name, one, standard, sums)


def _counted(name: str, one: Item, standard: Standard, sums: Sums) -> Part:
    if not is_one_fruit(one):
        return Part(name, one, None, "what fruit it is made of is not known")
    if "sweetened" in one.tags:
        return Part(name, one, None, "it holds sugar of its own, and how much is not known")
    if standard.counts == "factor":
        return _by_factor(name, one, standard, sums)
    if one.sort == "dried-fruit" or "concentrate" in one.tags:
        return Part(
            name, one, None, "it counts as the fresh fruit it was made from, and nobody states how much that was"
        )
    if standard.counts == "extract":
        return _extract(name, one, sums)
    return _prepared(name, one, standard, sums)


def _plain(name: str, one: Item, sums: Sums) -> Part:
    form = sums.grams(one)
    return Part(name, one, form, "" if form is not None else "what it weighs is not known")


def _prepared(name: str, one: Item, standard: Standard, sums: Sums) -> Part:
    """Fruit as weighed; where it may have been weighed with what is not eaten, an interval."""
    part = _plain(name, one, sums)
    entry, forms = one.entry, {word for form in one.line.forms for word in form.lower().split()}
    by_mass = one.quantity.get("mass") is not None
    if part.form is None or entry is None or not entry.refuse or not by_mass or one.sort == "juice" or forms & PREPARED:
        return part
    eaten = scaled(part.form, 1 - entry.refuse / WHOLE)
    if name in standard.never_counts and forms & WITH_PITS:
        return Part(name, one, eaten, "", f"less {words.decimal(entry.refuse)} % of pits and stems by the table")
    ends = Interval(value(eaten, sums.bounds).low, value(part.form, sums.bounds).high)
    how = f"weighed with or without the {words.decimal(entry.refuse)} % that is not eaten"
    return Part(name, one, opened(sums, f"prepared {one.line.span.start}", ends), "", how)


def _extract(name: str, one: Item, sums: Sums) -> Part:
    """Juice less the water it was drawn with, if all of that stayed in it."""
    if one.sort != "juice":
        return Part(name, one, None, "only its juice counts, and how much that is is not written")
    part = _plain(name, one, sums)
    water = [w for w in one.made_of if w.sort == "liquid" and w.stay == "kept"]
    if part.form is None or not water:
        return part
    added = [sums.grams(w) for w in water]
    juice = value(part.form, sums.bounds)
    if any(form is None for form in added):
        return Part(name, one, None, "how much water it was drawn with is not known")
    most = sum((value(form, sums.bounds).high for form in added if form is not None), Fraction(0))
    ends = Interval(max(Fraction(0), juice.low - most), juice.high)
    return Part(name, one, opened(sums, f"extract {one.line.span.start}", ends), "", "less the water it was drawn with")


def _by_factor(name: str, one: Item, standard: Standard, sums: Sums) -> Part:
    """Soluble solids of the juice or fruit, less added solids, times the factor of the fruit."""
    if "jelly" in standard.names and one.sort != "juice":
        return Part(name, one, None, "only its juice counts, and how much that is is not written")
    factor = dict(standard.factors).get(name)
    grams = sums.grams(one)
    if factor is None or grams is None or one.entry is None:
        return Part(name, one, None, "" if factor is None else "what it weighs is not known")
    stated = brix_of(one)
    brix = stated if stated is not None else one.entry.solids
    if brix is None:
        return Part(name, one, None, f"its soluble solids are not known; {WRITE_BRIX}")
    if stated is None and any(w.sort == "liquid" and w.stay == "kept" for w in one.made_of):
        return Part(
            name, one, None, f"it was drawn with water, so its soluble solids are not those of juice; {WRITE_BRIX}"
        )
    form: Linear = scaled(grams, brix / WHOLE * factor)
    added = value(added_solids(one, sums), sums.bounds)
    if added.high:
        whole = value(scaled(grams, brix / WHOLE), sums.bounds)
        ends = Interval(
            max(Fraction(0), whole.low - added.high) * factor, max(Fraction(0), whole.high - added.low) * factor
        )
        form = opened(sums, f"factor {one.line.span.start}", ends)
    less = f" less {spread(added)} added" if added.high else ""
    weight = spread(value(grams, sums.bounds))
    known = "as written" if stated is not None else "by the table"
    how = f"{weight} at {words.decimal(brix)} % soluble solids {known}{less}, times {words.decimal(factor)}"
    return Part(name, one, form, "", how)


WRITE_BRIX = "measure them and write them behind it, as `12.5 Brix`"


def added_solids(one: Item, sums: Sums) -> Linear:
    """The sugar that went into a measured juice, as its `from` lines say."""
    forms = [sums.solids(part) for part in one.made_of if part.sort == "sweetener" and part.stay == "kept"]
    return total(form for form in forms if form is not None)


def endocarp(one: Item, sums: Sums) -> Linear | None:
    """The flesh and juice of a citrus line; from none to all of it where nobody says. None without a weight."""
    grams, forms = sums.grams(one), {word for form in one.line.forms for word in form.lower().split()}
    if grams is None or one.sort == "peel":
        return None if grams is None else {}
    if one.sort == "juice" or forms & FLESH:
        return grams
    refuse = one.entry.refuse if one.entry is not None else None
    if refuse and refuse > 5 and one.quantity.get("mass") is not None:
        return scaled(grams, 1 - refuse / WHOLE)
    return opened(sums, f"endocarp {one.line.span.start}", Interval(Fraction(0), value(grams, sums.bounds).high))


def opened(sums: Sums, name: str, ends: Interval) -> Linear:
    """An unknown between two ends."""
    sums.bounds[name] = ends
    return {name: Fraction(1)}


def spread(span: Interval) -> str:
    """Grams that may lie between two ends."""
    low, high = words.grams(span.low), words.grams(span.high)
    if low == high:
        return low
    return f"{low} to {high}" if span.low else f"up to {high}"
