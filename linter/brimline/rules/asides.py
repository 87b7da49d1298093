"""What a step does to the batch beside the list: less acid or sugar, more low-acid food, water, puree, skins, drained juice.

The list is what was compared with the tested formula; a step that says otherwise is what the cook does.
"""

import unicodedata
from collections.abc import Callable, Iterator

from msgspec import Struct

from brimline._remember import remembered
from brimline.batch.classes import is_acid
from brimline.batch.values import Item
from brimline.figures import names
from brimline.figures.values import Entry
from brimline.findings import Span
from brimline.moves.values import Case
from brimline.rules.additive import notes
from brimline.rules.low_acid import ADDED_SORTS
from brimline.rules.meaning import TOKEN, Reading, Spot, readings
from brimline.rules.prose import instructs

# What comes after the jar is opened is not in it.
SERVED = ("serv", "when you open", "after opening", "opened", "to eat", "eating", "at the table", "open a jar")
# How many words may stand between an act and what it is done to, and between an amount and its food.
OBJECT, AMOUNT = 7, 3
# Words of a name that the table has, at most.
LONGEST = 4
# These also say how a fruit is cut and how a liquid boils down; only what pours can be meant by them.
CUTS = frozenset(["cut", "cutting", "cuts", "halve", "halves", "halved", "halving", "reduce", "reduced", "lower"])
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


class Named(Struct, frozen=True):
    """An ingredient that a sentence names: its entry, and the tokens of its words."""

    entry: Entry
    start: int
    end: int


class Less(Struct, frozen=True):
    """An ingredient of which a sentence takes less, or which it leaves to the cook: its tested lines, and the sentence."""

    was: tuple[Item, ...]
    aside: Aside


def asides(case: Case) -> Iterator[Aside]:
    """The sentences of an adaptation's steps and notes that its tested formula does not have."""
    if case.tested is None or case.contrast is None:
        return
    known = {one.text for text, _ in notes(case.tested) for one in readings(_folded(text))}
    for raw, span in notes(case.document):
        item = next((one for one in case.batch.items if raw in [note.lower() for note in one.line.note]), None)
        spoken = frozenset[str]() if item is None else frozenset([item.family])
        for reading in readings(_folded(raw)):
            if reading.text not in known and not any(word in reading.text for word in SERVED):
                yield Aside(reading, span, item, spoken)
            spoken = frozenset(one.entry.family for one in _solid(reading)) or spoken


@remembered
def _folded(text: str) -> str:
    """A text without accents, in lower case."""
    plain = unicodedata.normalize("NFKD", text.lower())
    return "".join(letter for letter in plain if not unicodedata.combining(letter))


def less_acid(case: Case) -> Iterator[Less]:
    """Acid that the tested formula requires and of which a sentence takes less, or leaves it to the cook."""
    if case.contrast is None:
        return
    batch = case.contrast.tested
    needed = [one for one in (*batch.items, *batch.per_jar) if is_acid(one) and one.kept and not one.optional]
    for named, aside in _lessened(case, lambda one: any(_same_acid(one.entry, item) for item in needed)):
        yield Less(tuple(item for item in needed if _same_acid(named.entry, item)), aside)


def less_sugar(case: Case) -> Iterator[Less]:
    """Sweetener that the tested formula requires and of which a sentence takes less, or leaves it to the cook."""
    if case.contrast is None:
        return
    needed = [one for one in case.contrast.tested.items if one.sort == "sweetener" and one.kept and not one.optional]
    for named, aside in _lessened(case, lambda one: one.entry.sort == "sweetener"):
        same = tuple(item for item in needed if named.entry.family == item.family)
        if same:
            yield Less(same, aside)


def _same_acid(entry: Entry, item: Item) -> bool:
    if "fresh" in entry.tags and "bottled" in item.tags:
        # Bottled instead of fresh is what was tested.
        return False
    return entry.family == item.family or bool(entry.tags & item.tags & {"lemon", "lime", "vinegar", "citric"})


def _lessened(case: Case, wanted: Callable[[Named], bool]) -> Iterator[tuple[Named, Aside]]:
    steps = [one for step in case.document.make for one in readings(_folded(step.text))]
    for aside in asides(case):
        reading = aside.reading
        if reading.spots.keys().isdisjoint(_ACTS):
            continue
        found = [one for one in foods(reading.text) if wanted(one)]
        hits = [one for one in found if any(_takes_less(reading, one, name, steps) for name in _ACTS)]
        yield from ((hit, aside) for hit in hits)
        if not hits and aside.item is not None and not foods(reading.text) and _left_open(reading):
            own = Named(aside.item.entry, 0, 0) if aside.item.entry is not None else None
            if own is not None and wanted(own):
                yield own, aside


_ACTS = ("omitv", "lessenv", "swapv", "inplace", "needlessw", "lesser", "optionalw")


def _left_open(reading: Reading) -> bool:
    return any(instructs(reading, spot, bare=True) for spot in reading.spots.get("optionalw", ()))


def _takes_less(reading: Reading, named: Named, act: str, steps: list[Reading]) -> bool:
    """Whether a sentence tells the cook to take less of what it names."""
    return any(
        _done_to(reading, spot, named, act, steps) and instructs(reading, spot, bare=act != "lesser")
        for spot in reading.spots.get(act, ())
    )


def _done_to(reading: Reading, spot: Spot, named: Named, act: str, steps: list[Reading]) -> bool:
    """Whether an act or amount is about what is named: right behind it, or behind what stands as its subject."""
    start, end = spot
    if reading.clauses[start] != reading.clauses[named.start]:
        return False
    if act == "lesser":
        return 0 <= named.start - end < AMOUNT and not _in_parts(reading, spot, named, steps)
    if act == "optionalw":
        return True
    if act == "lessenv" and reading.tokens[start] in CUTS and not _pours(named.entry):
        return False
    if named.start >= end:
        return named.start - end < OBJECT
    # The vinegar can be halved; but not: until the vinegar is reduced.
    between = reading.tokens[named.end : start]
    return "be" in between[-2:] and "until" not in reading.tokens[:start]


def _in_parts(reading: Reading, spot: Spot, named: Named, steps: list[Reading]) -> bool:
    """Whether an ingredient only goes in at two times: half of it is added here, the rest elsewhere."""
    if "cond" in reading.spots or not {"only", "just"}.isdisjoint(reading.tokens[spot[0] - 1 : spot[1]]):
        return False
    adds = [end for start, end in reading.spots.get("addv", ()) if reading.tokens[start] not in ("use", "give")]
    if not any(0 <= spot[0] - end <= 2 for end in adds):
        return False
    others = [one for one in steps if one.text != reading.text]
    again = (one.entry.family == named.entry.family for other in others for one in foods(other.text))
    return any("restw" in one.spots for one in steps) or any(again)


def _pours(entry: Entry) -> bool:
    return entry.sort in ("acid", "sweetener") and not entry.tags & {"citrus"}


def more_food(case: Case) -> Iterator[tuple[Named, Aside]]:
    """Low-acid food of which a sentence adds more than the list names."""
    for aside in asides(case):
        reading = aside.reading
        if "morew" not in reading.spots or "atatime" in reading.spots:
            continue
        for named in foods(reading.text):
            near = [spot for spot in reading.spots["morew"] if 0 <= named.start - spot[1] < AMOUNT]
            if _low(named.entry) and any(instructs(reading, spot) for spot in near):
                yield named, aside
                break


def _low(entry: Entry) -> bool:
    return entry.safety == "low-acid" and entry.sort in ADDED_SORTS


def thinned(case: Case) -> Iterator[Aside]:
    """Sentences that thin the batch with water or another liquid."""
    for aside in asides(case):
        reading = aside.reading
        if _has_vessel(reading):
            continue
        acts = [spot for spot in reading.spots.get("thinv", ()) if instructs(reading, spot)]
        if acts and any(one.entry.sort in ("liquid", "juice") for one in foods(reading.text)):
            yield aside


def pureed(case: Case) -> Iterator[Aside]:
    """Sentences that puree the batch, where no step of the tested formula does."""
    for aside in _new(case, ("pureev", "smoothw")):
        if any(
            instructs(aside.reading, spot)
            for name in ("pureev", "smoothw")
            for spot in aside.reading.spots.get(name, ())
        ):
            yield aside


def skins_left(case: Case, family: str) -> Iterator[Aside]:
    """Sentences that leave the skins on a food."""
    for aside in _new(case, ("skinson",)):
        acts = aside.reading.spots["skinson"]
        if _about(aside, family) and any(instructs(aside.reading, spot, bare=True) for spot in acts):
            yield aside


def drained(case: Case, families: frozenset[str]) -> Iterator[Aside]:
    """Sentences that drain foods of their juice or take their seeds out, where no step of the tested formula does."""
    for aside in _new(case, ("drainjv", "juiceaway", "seedsout")):
        reading = aside.reading
        if not any(_about(aside, family) for family in families) or "undrained" in reading.text:
            continue
        for name in ("drainjv", "juiceaway", "seedsout"):
            for spot in reading.spots.get(name, ()):
                # The water of washing and scalding is no juice.
                wet = any(start < spot[0] for start, _ in reading.spots.get("washedw", ())) and name == "drainjv"
                if not wet and instructs(reading, spot) and _its_own(reading, spot, families):
                    yield aside
                    return


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
            if adds and instructs(reading, (named.start, named.end)):
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
            boils = [one for one, _ in reading.spots.get("boilw", ()) if end <= one < end + 2 * OBJECT]
            same = any(reading.clauses[one] == reading.clauses[start] for one in boils)
            if same and "until" not in reading.tokens and instructs(reading, (start, end)):
                yield aside
                break


def _new(case: Case, meanings: tuple[str, ...]) -> Iterator[Aside]:
    """The asides with one of some meanings that no sentence of the tested formula has."""
    tested = [one for text, _ in notes(case.tested) for one in readings(_folded(text))] if case.tested else []
    if not any(one.has(meanings) for one in tested):
        yield from (aside for aside in asides(case) if aside.reading.has(meanings))


def _about(aside: Aside, family: str) -> bool:
    """Whether a sentence speaks of a food of a family: names it, or names none and goes on about it."""
    found = _solid(aside.reading)
    return any(one.entry.family == family for one in found) or (not found and family in aside.spoken)


def _solid(reading: Reading) -> list[Named]:
    return [one for one in foods(reading.text) if one.entry.sort not in ("juice", "liquid")]


def put_in(case: Case) -> Iterator[tuple[Named, Aside]]:
    """Ingredients of the table that a sentence puts into the batch or the jars, whatever the list names."""
    for aside in asides(case):
        reading = aside.reading
        for named in foods(reading.text) if "addv" in reading.spots else ():
            if any(
                0 <= named.start - end < OBJECT
                and reading.clauses[start] == reading.clauses[named.start]
                and instructs(reading, (start, end))
                for start, end in reading.spots["addv"]
            ):
                yield named, aside


def stirred_in(case: Case) -> Iterator[Aside]:
    """Sentences that put into the pot an acid that is measured into each jar."""
    doses = [one for one in case.compared.tested.per_jar if is_acid(one) and one.kept]
    for aside in asides(case) if doses else ():
        reading = aside.reading
        if "pan" not in reading.spots and "batchw" not in reading.spots:
            continue
        for named in foods(reading.text):
            clause = reading.clauses[named.start]
            acts = [spot for spot in reading.spots.get("addv", ()) if reading.clauses[spot[0]] == clause]
            pot = any(
                reading.clauses[one] == clause for name in ("pan", "batchw") for one, _ in reading.spots.get(name, ())
            )
            if (
                pot
                and any(_same_acid(named.entry, one) for one in doses)
                and any(instructs(reading, one) for one in acts)
            ):
                yield aside
                break


@remembered
def foods(sentence: str) -> tuple[Named, ...]:
    """The ingredients of the table that a sentence names, in order, the longest names first."""
    tokens = [*TOKEN.findall(sentence), "."]
    found: list[Named] = []
    at = 0
    while at < len(tokens):
        one = next(filter(None, (_named(tokens, at, at + size) for size in range(LONGEST, 0, -1))), None)
        if one is not None:
            found.append(one)
        at = one.end if one else at + 1
    return tuple(found)


def _named(tokens: list[str], start: int, end: int) -> Named | None:
    """What words name, without the words at both ends that add nothing."""
    entry = _entry(tokens[start:end])
    if entry is None:
        return None
    while end - start > 1 and _entry(tokens[start + 1 : end]) == entry:
        start += 1
    while end - start > 1 and _entry(tokens[start : end - 1]) == entry:
        end -= 1
    return Named(entry, start, end)


def _entry(words: list[str]) -> Entry | None:
    if not all(word[0].isalpha() for word in words):
        return None
    return names.find(" ".join(words), near=False).entry
