"""The sentences of steps and notes that the tested formula does not have, and whether they tell the cook to do something.

The list is what was compared with the tested formula; a step that says otherwise is what the cook does.
"""

import unicodedata
from collections.abc import Iterator

from msgspec import Struct

from brimline._remember import remembered
from brimline.batch.values import Item
from brimline.figures.values import Entry
from brimline.findings import Span
from brimline.moves.named import Named
from brimline.moves.values import Case
from brimline.rules.additive import notes
from brimline.rules.foods import foods
from brimline.rules.meaning import Reading, Spot, readings
from brimline.rules.prose import instructs

# How many words may stand between an act and what it is done to, and between an amount and its food.
OBJECT, AMOUNT = 7, 3
VESSELS = ("canner", "jar", "lid", "band")


class Aside(Struct, frozen=True):
    """A sentence of a step or note that the tested formula does not have, with its place.

    `item` is the line that a note stands under; None for a step. `spoken` are the foods that the sentences before it
    named last.
    """

    reading: Reading
    span: Span
    item: Item | None = None
    spoken: tuple[Entry, ...] = ()


# The rules ask one after another of the same case; no name is kept longer than that.
_last: list[tuple[Case, tuple[Aside, ...]]] = []


def asides(case: Case) -> tuple[Aside, ...]:
    """The sentences of an adaptation's steps and notes that its tested formula does not have."""
    if not _last or _last[0][0] is not case:
        _last[:] = [(case, tuple(_asides(case)))]
    return _last[0][1]


def _asides(case: Case) -> Iterator[Aside]:
    if case.tested is None:
        return
    known = {one.text for one in tested_sentences(case)}
    for raw, span in notes(case.document):
        item = next((one for one in case.batch.items if raw in [note.lower() for note in one.line.note]), None)
        spoken: tuple[Entry, ...] = () if item is None or item.entry is None else (item.entry,)
        for reading in readings_of(raw):
            if reading.text not in known:
                yield Aside(reading, span, item, spoken)
            spoken = tuple(one.entry for one in solid(reading)) or spoken


def tested_sentences(case: Case) -> Iterator[Reading]:
    """Every sentence of the tested formula's steps and notes."""
    for text, _ in notes(case.tested) if case.tested else ():
        yield from readings_of(text)


def offered(case: Case) -> set[str]:
    """The names and families of what the tested formula lets the cook choose: `or` lines."""
    lines = [other for line in (case.tested.take if case.tested else ()) for other in line.other]
    entries = [named.entry for line in lines for named in foods(" ".join((line.item, *line.forms)).lower())]
    return {name for entry in entries for name in (entry.family, entry.name)}


def does(reading: Reading, spot: Spot, bare: bool = False) -> bool:
    """Whether the cook is told to do what stands at a place, to the batch and not to an opened jar."""
    clause = reading.clauses[spot[0]]
    # What a sentence begins with sets the scene for all of it: `at the table, thin it with water`.
    served = any(reading.clauses[start] in (0, clause) for start, _ in reading.spots.get("servedw", ()))
    later = "laterw" in reading.spots
    return not served and not later and instructs(reading, spot, bare)


@remembered
def readings_of(text: str) -> tuple[Reading, ...]:
    """The sentences of a text, read without accents and in lower case."""
    plain = unicodedata.normalize("NFKD", text.lower())
    return readings("".join(letter for letter in plain if not unicodedata.combining(letter)))


def same_acid(entry: Entry, item: Item) -> bool:
    """Whether a name means an acid of the list, or one of its kind."""
    if entry.sort == "acid" and "fresh" in entry.tags and "bottled" in item.tags:
        # Bottled instead of fresh is what was tested.
        return False
    if entry.sort not in ("acid", "juice", "fruit"):
        return False
    return entry.family == item.family or bool(entry.tags & item.tags & {"lemon", "lime", "vinegar", "citric"})


def more_said(reading: Reading) -> list[Spot]:
    """Where more of something is spoken of; not: more than boiling water."""
    return [spot for spot in reading.spots.get("morew", ()) if reading.tokens[spot[1]] != "than"]


def has_vessel(reading: Reading) -> bool:
    """Whether a jar, lid, band or canner is named; a pronoun may stand for anything."""
    # It, them; and a couple more jars is what it yields.
    said = {start for start, _ in reading.spots.get("pron", ())} | {end for _, end in reading.spots.get("morew", ())}
    return any(start not in said for name in VESSELS for start, _ in reading.spots.get(name, ()))


def solid(reading: Reading) -> list[Named]:
    """The foods that a sentence names, without juices, liquids and peel."""
    return [one for one in foods(reading.text) if one.entry.sort not in ("juice", "liquid", "peel")]
