"""Lines to items: what each ingredient is in the table, and how much of it in every dimension stated."""

from collections.abc import Iterable
from fractions import Fraction
from functools import lru_cache

from msgspec.structs import replace

from brimline import figures
from brimline.batch.own import own_match
from brimline.batch.values import Item, Quantity
from brimline.document import units
from brimline.document.own import Own
from brimline.document.values import Amount, Document, Line, Measure, Per
from brimline.figures import names
from brimline.figures.values import Entry, Match

# Roles whose amount may be left open without the batch becoming another one (edits.yaml, permission).
# Forms that leave an amount to the cook, whatever stands before them.
LEFT_OPEN = frozenset({"to taste", "as desired", "if desired", "as needed", "as you like", "or to taste", "optional"})
OPEN_ROLES = frozenset({"spice", "salt", "colour"})


def resolve(document: Document) -> tuple[Item, ...]:
    """The take lines of a formula as items, in order, with amounts stated per another line multiplied out."""
    plain = [item(line, own=document.own) for line in document.take]
    return tuple(_unfold(one, plain) for one in plain)


def item(line: Line, stay: str = "", optional: bool = False, own: tuple[Own, ...] = ()) -> Item:
    """One line as an item, its `from` lines resolved too; `or` lines stay on the line and are chosen by variant.

    `own` are the ingredients that the collection adds to the table.
    """
    first = line.amount.parts[0].unit if line.amount and line.amount.parts else ""
    match, state = _meaning(line.item, line.forms, first, own)
    entry = match.entry
    stay = stay or next((flag for flag in ("infused", "discarded") if flag in line.flags), "kept")
    optional = optional or "optional" in line.flags
    made_of = tuple(item(part, stay, optional, own) for part in line.made_of)
    amount = line.amount
    per = amount.per if amount else None
    sort = entry.sort if entry else line.role
    tags = entry.tags if entry else frozenset[str]()
    per_jar = None
    per_finished = None
    if per is not None and per.of == "jar":
        per_jar = jar_of(per)
    elif per is not None and per.of == "finished":
        per_finished = per.number * factor_of(per.unit)
    return Item(
        line=line,
        entry=entry,
        name=entry.name if entry else _words((line.item, *line.forms)),
        sort=sort,
        safety=entry.safety if entry else "unknown",
        family=entry.family if entry else "",
        tags=tags,
        state=state,
        stay=stay,
        optional=optional,
        loose=amount is None or amount.some or bool(LEFT_OPEN & {form.lower() for form in line.forms}),
        quantity=quantity(amount, state),
        strength=line.strength,
        per_jar=per_jar,
        per_finished=per_finished,
        ambiguous=match.ambiguous,
        nearest=match.nearest,
        made_of=made_of,
        mixture=_is_mixture(entry, made_of),
    )


@lru_cache(maxsize=8192)
def _meaning(item: str, forms: tuple[str, ...], unit: str, own: tuple[Own, ...]) -> tuple[Match, str]:
    """What a name means and in which state it is measured, remembered by its words."""
    match = names.find(item, forms, unit)
    if own and match.entry is None and not match.ambiguous:
        match = own_match(item, forms, own) or match
    return match, figures.state_key(match.entry, forms) if match.entry else _words(forms)


def jar_of(per: Per) -> tuple[str, Fraction]:
    """The jar an amount is stated for: its name and volume in ml."""
    known = units.jar_named(per.unit) if per.number == 1 else None
    if known is not None:
        return known.name, known.ml
    unit = units.unit(per.unit)
    sized = units.jar_sized(per.number, unit) if unit is not None else None
    return sized if sized is not None else (per.unit, per.number)


def factor_of(word: str) -> Fraction:
    """How many of its dimension's base a unit is; 1 for a word that is no unit (documents hold none)."""
    unit = units.unit(word)
    return unit.factor if unit is not None else Fraction(1)


def dimension_of(word: str) -> str:
    """The dimension of a unit; `count` for a word that is no unit."""
    unit = units.unit(word)
    return unit.dimension if unit is not None else "count"


def _is_mixture(entry: Entry | None, parts: tuple[Item, ...]) -> bool:
    """Whether `from` lines make a mixture to compare, and not a mere shopping note.

    They do when the table cannot say what the measured thing is, or when acid or low-acid food went into it.
    """
    if not parts:
        return False
    if entry is None or "mixture" in entry.tags:
        return True
    return any(
        part.stay != "discarded" and (part.sort == "acid" or part.safety in ("low-acid", "borderline", "unknown"))
        for part in parts
        if part.entry is None or part.entry.family != entry.family
    )


def _words(texts: Iterable[str]) -> str:
    """Words of a name in a fixed order, so that an unknown ingredient compares only with itself."""
    return " ".join(sorted(" ".join(texts).lower().replace("-", " ").split()))


def quantity(amount: Amount | None, state: str) -> Quantity:
    """An amount in every dimension it states; parts of a sum must share a dimension to be added."""
    if amount is None or amount.some:
        return Quantity()
    rows: list[tuple[str, Fraction, Fraction]] = []
    for stated in (amount.parts, *amount.also):
        for dim, low, high in _sum([_dims(measure, state) for measure in stated]):
            place = next((n for n, row in enumerate(rows) if row[0] == dim), None)
            if place is None:
                rows.append((dim, low, high))
            elif not _agree(rows[place], low, high):
                # Two measures that contradict each other: the worse one is judged, whichever that is.
                rows[place] = (dim, min(rows[place][1], low), max(rows[place][2], high))
    return Quantity(tuple(rows))


def _agree(row: tuple[str, Fraction, Fraction], low: Fraction, high: Fraction) -> bool:
    """Whether two measures of one amount are within the rounding of a kitchen."""
    near = Fraction(102, 100)
    return max(row[1], low) <= min(row[1], low) * near and max(row[2], high) <= min(row[2], high) * near


def _dims(measure: Measure, state: str) -> list[tuple[str, Fraction, Fraction]]:
    """One measure in its own dimension, and in that of its package if a size is printed on it."""
    unit, pack = measure.unit, measure.pack
    rows = [_row(dimension_of(unit), unit, factor_of(unit), measure.low, measure.high, state)]
    if pack is not None:
        factor = pack.number * factor_of(pack.unit)
        rows.append(_row(dimension_of(pack.unit), pack.unit, factor, measure.low, measure.high, state))
    return rows


def _row(
    dimension: str, name: str, factor: Fraction, low: Fraction, high: Fraction, state: str
) -> tuple[str, Fraction, Fraction]:
    """A dimension row: mass and volume in g and ml, anything else in pieces of its own unit."""
    if dimension == "mass":
        return ("mass", low * factor, high * factor)
    if dimension == "volume":
        return (f"volume:{state}", low * factor, high * factor)
    return (f"{dimension}:{name}", low, high)


def _sum(parts: list[list[tuple[str, Fraction, Fraction]]]) -> list[tuple[str, Fraction, Fraction]]:
    """The dimensions all parts share, added up."""
    if len(parts) == 1:
        return parts[0]
    out = []
    for dim, low, high in parts[0]:
        rows = [next((row for row in part if row[0] == dim), None) for part in parts[1:]]
        if all(row is not None for row in rows):
            out.append((dim, low + sum(r[1] for r in rows if r), high + sum(r[2] for r in rows if r)))
    return out


def _unfold(one: Item, others: list[Item]) -> Item:
    """An amount stated per another ingredient, multiplied by that ingredient's amount.

    `3/4 cup per cup juice` beside four cups of juice is three cups; without the other amount it stays a bare ratio.
    """
    per = one.line.amount.per if one.line.amount else None
    if per is None or one.per_jar or one.per_finished:
        return one
    fitting = [other for other in others if other is not one and _named(other, per.of)]
    # What is called juice by its role comes before what only has the word in its name (lemon juice).
    fitting.sort(key=lambda other: per.of not in (other.line.role, other.sort))
    for other in fitting:
        for dim, low, high in other.quantity.dims:
            if dim.partition(":")[0] == dimension_of(per.unit):
                step = per.number * factor_of(per.unit)
                rows = tuple((d, lo * low / step, hi * high / step) for d, lo, hi in one.quantity.dims)
                return _replace(one, Quantity(rows))
    rows = tuple((f"{dim} per {per.unit} {per.of}", low, high) for dim, low, high in one.quantity.dims)
    return _replace(one, Quantity(rows))


def _named(other: Item, word: str) -> bool:
    """Whether a line is what `per cup WORD` speaks of; without a word, the first fruit or juice."""
    if not word:
        return other.sort in ("fruit", "juice", "vegetable")
    return word in (other.line.role, other.sort) or word in other.line.item.lower().split()


def _replace(one: Item, amount: Quantity) -> Item:
    """The same item with another quantity (slotted values have no cheap copy)."""
    return replace(one, quantity=amount)
