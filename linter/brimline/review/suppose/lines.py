"""Finds the lines a caller means, multiplies amounts, and writes new lines; spans of new lines mean nothing yet."""

from collections.abc import Callable, Iterator
from fractions import Fraction

from msgspec.structs import replace

from brimline.document import units
from brimline.document.print_numbers import UnprintableError
from brimline.document.print_numbers import number as printable
from brimline.document.values import Amount, Document, Line, Measure
from brimline.figures import names, weigh
from brimline.figures.values import Entry
from brimline.findings import Span
from brimline.review.suppose.values import AskError

NOWHERE = Span(0, 0)
_SMALLER = {"gal": "qt", "qt": "cup", "pint": "cup", "cup": "tbsp", "tbsp": "tsp", "lb": "oz", "kg": "g", "l": "ml"}
_DECIMALS = 10_000
_GRAVE = {"low-acid": 0, "borderline": 1}
Wanted = Callable[[Line], bool]


def entry(line: Line) -> Entry | None:
    """The table's entry for a line; None for an unknown or ambiguous name."""
    first = line.amount.parts[0].unit if line.amount and line.amount.parts else ""
    return names.find(line.item, line.forms, first).entry


def tags(line: Line) -> frozenset[str]:
    """The tags of a line's entry."""
    found = entry(line)
    return found.tags if found else frozenset()


def sort(line: Line) -> str:
    """What a line is; the author's role if the table does not know it."""
    found = entry(line)
    return found.sort if found else line.role


def is_acid(line: Line) -> bool:
    """Whether a line is acid of the formula."""
    return sort(line) == "acid" and bool(tags(line) & {"lemon", "lime", "vinegar", "citric"})


def is_sugar(line: Line) -> bool:
    """Whether a line is plain sugar, white or brown; not honey, syrup or a substitute."""
    found = entry(line)
    return sort(line) == "sweetener" and (found is None or not found.tags & _NOT_SUGAR)


_NOT_SUGAR = frozenset({"honey", "corn-syrup", "other-sugar", "non-sugar", "gelling-sugar"})


def _sorted(*sorts: str) -> Wanted:
    return lambda line: sort(line) in sorts


def _tagged(*wanted: str) -> Wanted:
    return lambda line: bool(tags(line) & set(wanted))


# Words that mean a whole class of lines.
_CLASSES: dict[str, Wanted] = {
    "acid": is_acid,
    "sugar": is_sugar,
    "sugars": is_sugar,
    "white sugar": is_sugar,
    "granulated sugar": is_sugar,
    "sweetener": _sorted("sweetener"),
    "pectin": _sorted("pectin"),
    "gelatin": _sorted("gelling"),
    "lemon juice": lambda line: is_acid(line) and "lemon" in tags(line),
    "bottled lemon juice": lambda line: is_acid(line) and "lemon" in tags(line),
    "lime juice": lambda line: is_acid(line) and "lime" in tags(line),
    "vinegar": lambda line: is_acid(line) and "vinegar" in tags(line),
    "peppers": _tagged("pepper-hot", "pepper-sweet"),
    "pepper": _tagged("pepper-hot", "pepper-sweet"),
    "hot peppers": _tagged("pepper-hot"),
    "sweet peppers": _tagged("pepper-sweet"),
    "bell peppers": _tagged("pepper-sweet"),
    "spice": _sorted("spice"),
    "spices": _sorted("spice"),
    "salt": _sorted("salt"),
    "nuts": _sorted("nut"),
    "starch": _sorted("thickener"),
    "thickener": _sorted("thickener"),
    "fat": _sorted("fat"),
    "herbs": _sorted("herb"),
    "water": _sorted("liquid"),
    "fruit": lambda line: sort(line) in ("fruit", "juice"),
    "berries": _sorted("fruit"),
    "juice": _sorted("juice"),
    "vegetables": _sorted("vegetable"),
    "peel": _sorted("peel"),
    "zest": _sorted("peel"),
    "eggs": _sorted("egg"),
    "tomatoes": _tagged("tomato"),
}


def wanted(what: str, document: Document) -> Wanted:
    """What a caller's word means among the lines of a formula. Raises AskError for a word that nothing knows."""
    if what in ("lemon", "lemons", "lime", "limes"):
        juice = _CLASSES[f"{what.rstrip('s')} juice"]
        if any(juice(line) for line in every(document)):
            return juice
    if what in _CLASSES:
        return _CLASSES[what]
    meant = meaning(what)
    exact = [line for line in every(document) if (found := entry(line)) is not None and found.name == meant.name]
    if exact:
        return lambda line: (found := entry(line)) is not None and found.name == meant.name
    return lambda line: (found := entry(line)) is not None and (found.family, found.sort) == (meant.family, meant.sort)


def meaning(what: str) -> Entry:
    """The entry a caller's word means; of two, the one that needs more care. Raises AskError with the nearest names."""
    found = names.find(what)
    if found.entry is not None:
        return found.entry
    from brimline.figures import entries

    if found.ambiguous:
        several = [entries()[one] for one in found.ambiguous]
        return min(several, key=lambda one: _GRAVE.get(one.safety, 2))
    near = f"; did you mean {' or '.join(found.nearest)}?" if found.nearest else ""
    raise AskError(f'"{what}" is not in the ingredient table{near}')


def every(document: Document) -> Iterator[Line]:
    """All lines, those a mixture is made of too."""
    for line in document.take:
        yield line
        yield from line.made_of


def changed(document: Document, want: Wanted, change: Callable[[Line], tuple[Line, ...]]) -> Document:
    """The document with every line that is meant exchanged for none, one or several; a mixture's parts likewise."""
    take: list[Line] = []
    for line in document.take:
        parts = tuple(one for part in line.made_of for one in (change(part) if want(part) else (part,)))
        kept = replace(line, made_of=parts)
        take.extend(change(kept) if want(kept) else (kept,))
    return replace(document, take=tuple(take))


def meant(document: Document, want: Wanted) -> list[Line]:
    """The lines that are meant, as they stand."""
    return [line for line in every(document) if want(line)]


def times(line: Line, by: Fraction) -> Line:
    """A line with its amount, its alternatives and what it is made of multiplied."""
    return replace(
        line,
        amount=scaled(line.amount, by),
        other=tuple(times(one, by) for one in line.other),
        made_of=tuple(times(one, by) for one in line.made_of),
    )


def scaled(amount: Amount | None, by: Fraction) -> Amount | None:
    """An amount multiplied, in measures that can be written."""
    if amount is None or amount.some:
        return amount
    parts = tuple(_times(one, by) for one in amount.parts)
    also = tuple(tuple(_times(one, by) for one in some) for some in amount.also)
    return replace(amount, parts=parts, also=also)


def _times(one: Measure, by: Fraction) -> Measure:
    return written(replace(one, low=one.low * by, high=one.high * by))


def written(one: Measure) -> Measure:
    """A measure that can be written: in a smaller unit if that is exact, else to four decimals."""
    here: Measure | None = one
    while here is not None:
        try:
            printable(here.low, here.unit)
            printable(here.high, here.unit)
        except UnprintableError:
            here = _smaller(here)
        else:
            return here
    low, high = (Fraction(round(end * _DECIMALS), _DECIMALS) for end in (one.low, one.high))
    return replace(one, low=max(low, Fraction(1, _DECIMALS)), high=max(high, Fraction(1, _DECIMALS)))


def _smaller(one: Measure) -> Measure | None:
    unit = _SMALLER.get(one.unit)
    if unit is None or one.pack is not None:
        return None
    factor = units.units()[one.unit].factor / units.units()[unit].factor
    return replace(one, low=one.low * factor, high=one.high * factor, unit=unit)


def volume(amount: Amount | None, grams_a_cup: Fraction) -> Amount | None:
    """An amount by volume: as stated if it is, else its weight in cups of so many grams."""
    if amount is None or amount.some:
        return None
    for parts in (amount.parts, *amount.also):
        if parts and all(_dimension(one.unit) == "volume" and one.pack is None for one in parts):
            return replace(amount, parts=parts, also=())
    for parts in (amount.parts, *amount.also):
        if parts and all(_dimension(one.unit) == "mass" for one in parts):
            low = sum((one.low * units.units()[one.unit].factor for one in parts), Fraction(0)) / grams_a_cup
            high = sum((one.high * units.units()[one.unit].factor for one in parts), Fraction(0)) / grams_a_cup
            return replace(amount, parts=(written(Measure(low, high, "cup")),), also=())
    return None


def ml(amount: Amount | None) -> Fraction | None:
    """An amount in millilitres, a range at its middle; None if it is not stated by volume."""
    if amount is None or amount.some or not all(_dimension(one.unit) == "volume" for one in amount.parts):
        return None
    return sum(((one.low + one.high) / 2 * units.units()[one.unit].factor for one in amount.parts), Fraction(0))


def _dimension(unit: str) -> str:
    found = units.unit(unit)
    return found.dimension if found else ""


def cup_of(found: Entry) -> Fraction:
    """Grams in a cup of something, the middle of its figure; 200 (granulated sugar) where there is none."""
    weight = weigh(found, (), "cup")
    return weight.middle if weight else Fraction(200)


def fresh_line(what: str, role: str, amount: Amount, forms: tuple[str, ...] = ()) -> Line:
    """A new line for something, called by the caller's word if the format can write it, else by the table's name."""
    found = meaning(what)
    here = names.find(what, forms).entry
    item, more = (what, forms) if here == found and what.replace(" ", "").isalpha() else _named(found, forms)
    role = role if role in found.roles or not found.roles else found.roles[0]
    return Line(role, amount, item, more, NOWHERE, NOWHERE, NOWHERE, strength=_strength(more))


def _strength(forms: tuple[str, ...]) -> Fraction | None:
    """The percentage among forms, as reading the line would find it."""
    written_as = [form.removesuffix("%").strip() for form in forms if form.endswith("%")]
    return Fraction(written_as[0]) if written_as and written_as[0].isdigit() else None


def _named(found: Entry, forms: tuple[str, ...]) -> tuple[str, tuple[str, ...]]:
    item, *more = [part.strip().removesuffix(" acid") for part in found.name.split(",")]
    return item, tuple(dict.fromkeys([*more, *forms]))


def plain(low: Fraction, unit: str) -> Amount:
    """An amount of one measure."""
    return Amount((written(Measure(low, low, unit)),))
