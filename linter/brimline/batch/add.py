"""Items to a batch: lines of one ingredient added up, mixtures opened, alternatives chosen."""

from collections.abc import Iterable
from fractions import Fraction
from itertools import islice, product

from msgspec.structs import replace

from brimline.batch.resolve import item as resolve_item
from brimline.batch.resolve import resolve
from brimline.batch.values import Batch, Group, Item, Mixture, Quantity
from brimline.document.own import Own
from brimline.document.values import Document

FIXED = frozenset({"rolling", "simmer", "boil", "none"})
# Alternatives of these sorts change nothing that is compared, so they are not multiplied out.
UNREAD_SORTS = frozenset({"spice", "colour", "flavouring", "salt"})
MOST_VARIANTS = 32

ZERO = Fraction(0)


def add_up(document: Document) -> Batch:
    """A formula added up as written, with the first member of every `or` set."""
    return _batch(document, resolve(document), "")


def variants(document: Document) -> tuple[tuple[Batch, ...], bool]:
    """Every reading of a formula's `or` sets, and whether there were too many to try them all.

    Sets of spice, colour, flavouring and salt are left at their first member: no measure reads them.
    """
    items = resolve(document)
    choices = [_members(one, document.own) for one in items]
    count = 1
    for members in choices:
        count *= len(members)
    picked = islice(product(*choices), MOST_VARIANTS)
    batches = tuple(_batch(document, pick, _label(items, pick)) for pick in picked)
    return batches, count > MOST_VARIANTS


def choose(document: Document, like: Batch) -> Batch:
    """A tested formula read with the alternatives that an adaptation uses, else with its first ones."""
    lines = [one for group in like.groups for one in group.items] + list(like.per_jar)
    exact, used = {_wording(one) for one in lines}, {one.name for one in lines}
    picked = []
    for one in resolve(document):
        members = _members(one, document.own, every=True)
        same = next((member for member in members if _wording(member) in exact), None)
        picked.append(same or next((member for member in members if member.name in used), members[0]))
    return _batch(document, tuple(picked), "")


def _wording(one: Item) -> tuple[str, frozenset[str], tuple[str, ...]]:
    """What a line says it is: its entry, its forms, and the dimensions it is measured in."""
    return one.name, frozenset(form.lower() for form in one.line.forms), tuple(dim for dim, _, _ in one.quantity.dims)


def _members(one: Item, own: tuple[Own, ...], every: bool = False) -> tuple[Item, ...]:
    """The readings of one line: itself and its `or` lines."""
    if not one.line.other:
        return (one,)
    others = []
    for line in one.line.other:
        other = resolve_item(line, one.stay, one.optional, own)
        if line.amount is None:
            # A member of `or any mix of` stands for the whole amount of the line it belongs to.
            same = replace(other, quantity=one.quantity, per_jar=one.per_jar, loose=one.loose)
            other = same if other.state == one.state else replace(same, quantity=_restate(one.quantity, other.state))
        others.append(other)
    if not every and all(member.sort in UNREAD_SORTS for member in (one, *others)):
        # Nothing that is compared hangs on which of these is taken.
        return (one,)
    return (one, *others)


def _restate(amount: Quantity, state: str) -> Quantity:
    """The same volume read in the state another member is measured in."""
    return Quantity(
        tuple((f"volume:{state}" if dim.startswith("volume:") else dim, lo, hi) for dim, lo, hi in amount.dims)
    )


def _label(items: tuple[Item, ...], pick: tuple[Item, ...]) -> str:
    """What was chosen in this reading, for the message; empty if nothing but first members."""
    return ", ".join(new.line.item for old, new in zip(items, pick, strict=True) if old is not new)


def _batch(document: Document, items: tuple[Item, ...], variant: str) -> Batch:
    """The batch of a list of chosen items."""
    mixtures = tuple(Mixture(one, group(one.made_of)) for one in items if one.mixture)
    pot = [one for one in items if one.per_jar is None and one.per_finished is None]
    for mixture in mixtures:
        # Acid that went into a measured juice is acid of the formula; the rest is in the measured amount already.
        pot.extend(part for part in mixture.parent.made_of if part.sort == "acid" and part.stay == "kept")
    pot = [_worst(one) if one.mixture else one for one in pot]
    finish = document.finish
    return Batch(
        document=document,
        kind=document.product,
        items=items,
        groups=group(pot),
        per_jar=tuple(one for one in items if one.per_jar is not None),
        mixtures=mixtures,
        fixed_time=finish is None or finish.kind in FIXED,
        variant=variant,
    )


def _worst(one: Item) -> Item:
    """A measured mixture takes the gravest safety class of what went into it, water and spice left out."""
    order = ("acidulant", "neutral", "high-acid", "borderline", "unknown", "low-acid")
    parts = [
        part
        for part in one.made_of
        if part.stay != "discarded"
        and part.sort in ("fruit", "juice", "vegetable", "peel", "dried-fruit", "meat", "herb")
    ]
    if not parts:
        return one
    gravest = max(parts, key=lambda part: order.index(part.safety))
    return replace(one, safety=gravest.safety, sort=one.sort if one.entry else one.line.role)


def group(items: Iterable[Item]) -> tuple[Group, ...]:
    """Lines of one ingredient with one fate, added exactly; splitting, order and wording are gone."""
    found: dict[tuple[str, str], list[Item]] = {}
    for one in items:
        found.setdefault((one.name, one.stay), []).append(one)
    return tuple(_group(lines) for lines in found.values())


def _group(lines: list[Item]) -> Group:
    """One group; its least leaves optional lines out and takes the low end of ranges."""
    first = lines[0]
    return Group(
        name=first.name,
        sort=first.sort,
        safety=first.safety,
        family=first.family,
        tags=first.tags,
        stay=first.stay,
        entry=first.entry,
        items=tuple(lines),
        least=_added([_end(one, low=True) for one in lines if not one.optional and not one.loose]),
        most=_added([_end(one, low=False) for one in lines]),
        loose=any(one.loose for one in lines),
        role=first.line.role,
    )


def _end(one: Item, low: bool) -> Quantity:
    """An item's quantity with both ends at its low or its high."""
    return Quantity(tuple((dim, lo if low else hi, lo if low else hi) for dim, lo, hi in one.quantity.dims))


def _added(amounts: list[Quantity]) -> Quantity:
    """Quantities added in the dimensions that all of them state; mixed measuring states fall back to unstated."""
    if not amounts:
        return Quantity()
    if len(amounts) == 1:
        return amounts[0]
    rows = []
    for dim, low, high in amounts[0].dims:
        others = [amount.get(dim) for amount in amounts[1:]]
        if all(other is not None for other in others):
            rows.append((dim, low + sum(o[0] for o in others if o), high + sum(o[1] for o in others if o)))
    return Quantity(tuple(rows))
