"""What a step does to the batch beside the list: less acid or sugar, more low-acid food, water, puree, skins, drained juice.

The list is what was compared with the tested formula; a step that says otherwise is what the cook does.
"""

import unicodedata
from collections.abc import Callable, Iterator

from msgspec import Struct

from brimline._remember import remembered
from brimline.batch.classes import is_acid
from brimline.batch.values import Item
from brimline.figures.values import Entry
from brimline.findings import Span
from brimline.moves.named import Named
from brimline.moves.values import Case
from brimline.rules.additive import notes
from brimline.rules.foods import foods
from brimline.rules.low_acid import ADDED_SORTS
from brimline.rules.meaning import Reading, Spot, readings
from brimline.rules.prose import instructs, told

# How many words may stand between an act and what it is done to, and between an amount and its food.
OBJECT, AMOUNT = 7, 3
POTS = ("pan", "batchw", "canner")
VESSELS = ("canner", "jar", "lid", "band")


class Aside(Struct, frozen=True):
    """A sentence of a step or note that the tested formula does not have, with its place.

    `item` is the line that a note stands under; None for a step. `spoken` are the families of the foods that the
    sentences before it named last.
    """

    reading: Reading
    span: Span
    item: Item | None = None
    spoken: frozenset[str] = frozenset()


# The rules ask one after another of the same case; no name is kept longer than that.
_last: list[tuple[Case, tuple[Aside, ...]]] = []


def asides(case: Case) -> tuple[Aside, ...]:
    """The sentences of an adaptation's steps and notes that its tested formula does not have."""
    if not _last or _last[0][0] is not case:
        _last[:] = [(case, tuple(_asides(case)))]
    return _last[0][1]


def _asides(case: Case) -> Iterator[Aside]:
    if case.tested is None or case.contrast is None:
        return
    known = {one.text for one in _tested(case)}
    for raw, span in notes(case.document):
        item = next((one for one in case.batch.items if raw in [note.lower() for note in one.line.note]), None)
        spoken = frozenset[str]() if item is None else frozenset([item.family])
        for reading in readings_of(raw):
            if reading.text not in known:
                yield Aside(reading, span, item, spoken)
            spoken = frozenset(one.entry.family for one in _solid(reading)) or spoken


def _tested(case: Case) -> Iterator[Reading]:
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


def more_of(case: Case, wanted: Callable[[Entry], bool]) -> Iterator[tuple[Named, Aside]]:
    """Food of which a sentence adds more than the list names."""
    for aside in asides(case):
        reading = aside.reading
        if "morew" not in reading.spots or "atatime" in reading.spots:
            continue
        for named in foods(reading.text):
            near = [
                spot
                for spot in _more(reading)
                if 0 <= named.start - spot[1] < AMOUNT and "than" not in reading.tokens[spot[1] : named.start]
            ]
            if wanted(named.entry) and any(does(reading, spot) for spot in near):
                yield named, aside
                break


def _more(reading: Reading) -> list[Spot]:
    """Where more of something is spoken of; not: more than boiling water."""
    return [spot for spot in reading.spots.get("morew", ()) if reading.tokens[spot[1]] != "than"]


def low_food(entry: Entry) -> bool:
    """Whether an ingredient is low-acid food that goes in fresh."""
    return entry.safety == "low-acid" and entry.sort in ADDED_SORTS


def thinned(case: Case) -> Iterator[Aside]:
    """Sentences that thin the batch with water or another liquid, or add more water."""
    for aside in asides(case):
        reading = aside.reading
        if _has_vessel(reading):
            continue
        acts = [spot for spot in reading.spots.get("thinv", ()) if does(reading, spot)]
        found = foods(reading.text)
        wet = [one for one in found if one.entry.sort in ("liquid", "juice")]
        more = any(
            0 <= one.start - end < AMOUNT + 2 and one.entry.name == "water" and does(reading, (start, end))
            for one in wet
            for start, end in _more(reading)
        )
        if (acts and wet) or (more and not reading.has(("cleanv", "submerge"))):
            yield aside


def pureed(case: Case) -> Iterator[Aside]:
    """Sentences that puree the batch, where no step of the tested formula does."""
    for aside in _new(case, ("pureev", "smoothw")):
        found = foods(aside.reading.text)
        # A paste of flour and water is none of the fruit.
        if found and all(one.entry.sort in ("thickener", "liquid", "spice", "acid") for one in found):
            continue
        if any(
            does(aside.reading, spot) for name in ("pureev", "smoothw") for spot in aside.reading.spots.get(name, ())
        ):
            yield aside


def skins_left(case: Case, family: str) -> Iterator[Aside]:
    """Sentences that leave the skins on a food."""
    for aside in _new(case, ("skinson",)):
        for spot in aside.reading.spots["skinson"]:
            near = _next_to(aside.reading, spot)
            its = near.entry.family == family if near else _about(aside, family)
            if its and does(aside.reading, spot, bare=True):
                yield aside
                break


def _next_to(reading: Reading, spot: Spot) -> Named | None:
    """The food that stands last before an act in its clause, else the first one behind it there."""
    there = [one for one in _solid(reading) if reading.clauses[one.start] == reading.clauses[spot[0]]]
    ahead = [one for one in there if one.end <= spot[0]]
    behind = [one for one in there if one.start >= spot[1]]
    return ahead[-1] if ahead else behind[0] if behind else None


DRAINS = ("drainjv", "juiceaway", "seedsout", "sievew")


def drained(case: Case, families: frozenset[str]) -> Iterator[Aside]:
    """Sentences that drain foods of their juice or take their seeds out, where no step of the tested formula does."""
    new = [name for name in DRAINS if not any(name in one.spots for one in _tested(case))]
    for aside in asides(case):
        reading = aside.reading
        if not any(_about(aside, family) for family in families) or "undrained" in reading.text:
            continue
        for name, spot in ((one, spot) for one in new for spot in reading.spots.get(one, ())):
            # The water of washing and scalding is no juice.
            wet = any(start < spot[0] for start, _ in reading.spots.get("washedw", ())) and name == "drainjv"
            if not wet and does(reading, spot) and _its_own(reading, spot, families):
                yield aside
                break


def _its_own(reading: Reading, spot: Spot, families: frozenset[str]) -> bool:
    """Whether the food named next to an act, before it or in its clause behind it, is of these families."""
    found = foods(reading.text)
    behind = [one for one in found if one.start >= spot[0] and reading.clauses[one.start] == reading.clauses[spot[0]]]
    ahead = [one for one in found if one.end <= spot[0]]
    near = behind[:1] or ahead[-1:]
    return not near or near[0].entry.family in families or near[0].entry.sort in ("juice", "liquid")


def neutralised(case: Case) -> Iterator[tuple[Named, Aside]]:
    """Bases that a sentence adds and the list does not name; not what washes and soaks."""
    listed = {one.name for one in case.batch.items}
    for aside in asides(case):
        reading = aside.reading
        if "washedw" in reading.spots or "cleanv" in reading.spots or _has_vessel(reading):
            continue
        for named in foods(reading.text):
            adds = named.entry.tags & {"base"} and named.entry.name not in listed
            if adds and does(reading, (named.start, named.end)):
                yield named, aside
                break


def _has_vessel(reading: Reading) -> bool:
    """Whether a jar, lid, band or canner is named; a pronoun may stand for anything."""
    said = {start for start, _ in reading.spots.get("pron", ())}
    return any(start not in said for name in VESSELS for start, _ in reading.spots.get(name, ()))


def into_boiling(case: Case) -> Iterator[Aside]:
    """Sentences that put the jars into water that boils already."""
    for aside in asides(case):
        reading = aside.reading
        if not reading.has(("jar",)) or not reading.has(("canner", "water")):
            continue
        for start, end in reading.spots.get("putv", ()):
            boils = [
                one
                for one, _ in reading.spots.get("boilw", ())
                # To bring it to the boil is what was tested.
                if end <= one < end + 2 * OBJECT and "to" not in reading.tokens[one - 2 : one]
            ]
            same = any(reading.clauses[one] == reading.clauses[start] for one in boils)
            if same and "until" not in reading.tokens and does(reading, (start, end)):
                yield aside
                break


def _new(case: Case, meanings: tuple[str, ...]) -> Iterator[Aside]:
    """The asides with one of some meanings that no sentence of the tested formula has."""
    if not any(one.has(meanings) for one in _tested(case)):
        yield from (aside for aside in asides(case) if aside.reading.has(meanings))


def _about(aside: Aside, family: str) -> bool:
    """Whether a sentence speaks of a food of a family: names it, or names none and goes on about it."""
    peels = [one for one in foods(aside.reading.text) if one.entry.sort == "peel" and one.end - one.start > 1]
    found = [*_solid(aside.reading), *peels]
    return any(one.entry.family == family for one in found) or (not found and family in (aside.spoken or {family}))


def _solid(reading: Reading) -> list[Named]:
    return [one for one in foods(reading.text) if one.entry.sort not in ("juice", "liquid", "peel")]


def put_in(case: Case) -> Iterator[tuple[Named, Aside]]:
    """Ingredients of the table that a sentence names as if they went in, whatever the list names."""
    for aside in asides(case):
        reading = aside.reading
        for named in foods(reading.text):
            alike = named.start > 0 and reading.tokens[named.start - 1] in ("like", "as", "than")
            if not alike and does(reading, (named.start, named.end)):
                yield named, aside


def exchanged(case: Case) -> Iterator[tuple[Named, Aside]]:
    """Acids, sweeteners and juices that a sentence puts in the place of something of the list."""
    for aside in asides(case):
        reading = aside.reading
        if not reading.has(("swapv", "inplace", "standinw")) or "washedw" in reading.spots or _has_vessel(reading):
            continue
        for named in foods(reading.text):
            # `Takes the place of` warns where the canner is meant; here it is an exchange.
            said = "standinw" in reading.spots and not told(reading) and "neg" not in reading.spots
            other = named.entry.sort in ("acid", "sweetener", "juice") and _comes_in(reading, named)
            if other and (said or does(reading, (named.start, named.end))):
                yield named, aside


def _comes_in(reading: Reading, named: Named) -> bool:
    """Whether what is named comes in and does not go out: honey in place of sugar, replace sugar with honey."""
    for name in ("inplace", "standinw"):
        if any(named.end <= start for start, _ in reading.spots.get(name, ())):
            return True
    swaps = [end for _, end in reading.spots.get("swapv", ()) if end <= named.start]
    return any(not {"with", "by", "for"}.isdisjoint(reading.tokens[end : named.start]) for end in swaps)


def stirred_in(case: Case) -> Iterator[Aside]:
    """Sentences that put into the pot an acid that is measured into each jar."""
    doses = [one for one in case.compared.tested.per_jar if is_acid(one) and one.kept]
    for aside in asides(case) if doses else ():
        reading = aside.reading
        for named in foods(reading.text) if reading.has(POTS) else ():
            clause = reading.clauses[named.start]
            acts = [spot for spot in reading.spots.get("addv", ()) if reading.clauses[spot[0]] == clause]
            dosed = any(same_acid(named.entry, one) for one in doses)
            if dosed and reading.named(POTS, clause) and any(does(reading, one) for one in acts):
                yield aside
                break
