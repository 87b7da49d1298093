"""The facts for a label that a formula supports: its ingredients by weight, allergens, fruit and solids. No label."""

from collections.abc import Iterable, Iterator

from brimline.batch.linear import Linear, total
from brimline.batch.models.values import Estimate, NoFigure
from brimline.batch.values import Batch, Item
from brimline.figures.allergens import allergens
from brimline.figures.values import Interval
from brimline.review.acidified import acidified
from brimline.review.juice import juice
from brimline.review.servings import served
from brimline.review.sums import Sums
from brimline.review.weighed import Finished, Holds, Ingredient, Label

# Sorts that are bought ready-made as a rule: what else is in them stands on their package alone.
KEPT = frozenset({"sealed", "opened", "chilled", "frozen"})
BOUGHT = frozenset({"condiment", "spirit", "fat", "thickener", "flavouring", "meat"})


def label(batch: Batch, sums: Sums, fruit: Interval | None, finished: Finished | NoFigure) -> Label:
    """The label facts of a batch; `fruit` is its base in g, `finished` the batch when cooking ends, if known."""
    placed, unplaced = _placed(batch, sums)
    every = [*batch.items, *_inside(batch.items)]
    known = [one for one in every if one.entry is not None]
    holds = tuple(_holds(every))
    listed = allergens()
    solids, read = _solids(batch, finished)
    pressed, one, of_114 = juice(batch, sums), served(batch, sums, finished), acidified(batch)
    more = [source for part in (pressed, one, of_114) if part is not None for source in part.sources]
    return Label(
        ingredients=tuple(placed),
        unplaced=tuple(unplaced),
        holds=holds,
        ask=_names(one for one in known if _bought(one)),
        unknown=_names(one for one in every if one.entry is None and not one.made_of),
        fruit=_of_hundred(fruit, finished),
        solids=solids,
        read=read,
        keeping=tuple(f"{row.kind}: {row.text}" for row in batch.document.keep if row.kind in KEPT and row.text),
        sources=tuple(dict.fromkeys((*(one.source for one in listed), *more))),
        juice=pressed,
        served=one,
        acidified=of_114,
    )


def _inside(items: Iterable[Item]) -> Iterator[Item]:
    """What measured mixtures are made of, and every alternative a cook may choose."""
    from brimline.batch.resolve import item

    for one in items:
        yield from one.made_of
        yield from _inside(one.made_of)
        for line in one.line.other:
            yield item(line, one.stay, True)


def _bought(one: Item) -> bool:
    entry = one.entry
    return entry is not None and not entry.allergens and (one.sort in BOUGHT or "mixture" in one.tags)


def _names(items: Iterable[Item]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(_name(one) for one in items))


def _name(one: Item) -> str:
    """A name as a label has it: `muscadine grape` for the entry `grape, muscadine`, else the author's word."""
    if one.entry is None:
        return one.line.item
    return " ".join(reversed(one.entry.name.split(", ")))


def _placed(batch: Batch, sums: Sums) -> tuple[list[Ingredient], list[Ingredient]]:
    """The ingredients by weight, and those whose weight nobody knows; what is poured away is none."""
    groups: dict[tuple[str, str], list[Item]] = {}
    for one in batch.items:
        if one.stay != "discarded":
            groups.setdefault((one.name, one.stay), []).append(one)
    placed: list[tuple[Interval, Ingredient]] = []
    unplaced: list[Ingredient] = []
    for items in groups.values():
        forms = [_as_used(one, batch, sums) for one in items]
        known = [form for form in forms if form is not None]
        fate = _fate(items)
        name = _name(items[0])
        parts = _names(part for one in items for part in one.made_of if part.stay != "discarded")
        parts = () if parts == (name,) or not any(one.mixture for one in items) else parts
        if len(known) < len(forms) or items[0].stay == "infused":
            unplaced.append(Ingredient(name, None, parts, fate))
            continue
        grams = sums.added(known)
        placed.append((grams, Ingredient(name, grams, parts, fate)))
    placed.sort(key=lambda pair: (-pair[0].middle, pair[1].name))
    out: list[Ingredient] = []
    for grams, bare in placed:
        before = out[-1].grams if out else None
        close = before is not None and grams.high > before.low
        out.append(Ingredient(bare.name, grams, bare.made_of, bare.fate, close))
    return out, unplaced


def _as_used(one: Item, batch: Batch, sums: Sums) -> Linear | None:
    """Grams of a line in the whole batch; a line per jar counts for the jars of that name that the yield states."""
    form = sums.grams(one)
    if form is None or one.per_finished is not None:
        return None
    if one.per_jar is None:
        return form
    stated = batch.document.yields
    if stated is None or stated.jar.name != one.per_jar[0] or stated.low != stated.high:
        return None
    return total([{name: amount * stated.low for name, amount in form.items()}])


def _fate(items: list[Item]) -> str:
    said = []
    if all(one.optional for one in items):
        said.append("if used")
    if items[0].stay == "infused":
        said.append("infused, taken out")
    if any(one.line.other for one in items):
        others = [line.item for one in items for line in one.line.other]
        said.append(f"or {', '.join(others)}, if used instead")
    return "; ".join(said)


def _holds(items: list[Item]) -> Iterator[Holds]:
    """The allergens in all lines, those taken out or poured away too: they may leave something behind."""
    for one in allergens():
        of = [_said(item) for item in items if item.entry is not None and one.name in item.entry.allergens]
        if of:
            yield Holds(one.name, tuple(dict.fromkeys(of)))


def _said(one: Item) -> str:
    name = _name(one)
    how = {"infused": "infused", "discarded": "poured away"}.get(one.stay, "if used" if one.optional else "")
    return f"{name}, {how}" if how else name


def _of_hundred(part: Interval | None, finished: object) -> Estimate | None:
    """So many g of a part in 100 g of the finished product, from the estimate of what is left."""
    if part is None or not part.high or not isinstance(finished, Finished) or finished.mass.low <= 0:
        return None
    mass = finished.mass
    low, high = float(part.low) / mass.high * 100, float(part.high) / mass.low * 100
    return Estimate(low, float(part.middle) / mass.middle * 100, high)


def _solids(batch: Batch, finished: object) -> tuple[Estimate | None, bool]:
    """Soluble solids in per cent: the readings if there are any, else the estimate; whether they were read."""
    readings = [
        float(row.value)
        for row in batch.document.evidence
        if row.kind == "reading" and row.quantity == "Brix" and row.value
    ]
    if readings:
        return Estimate(min(readings), sum(readings) / len(readings), max(readings)), True
    if not isinstance(finished, Finished):
        return None, False
    share = finished.solids_share
    return Estimate(share.low * 100, share.middle * 100, share.high * 100), False
