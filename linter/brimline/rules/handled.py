"""What a step does with the food beside the list: thinned, pureed, with its skins, drained, neutralised, put into the boil."""

from collections.abc import Iterator

from brimline.moves.named import Named
from brimline.moves.values import Case
from brimline.rules.asides import (
    OBJECT,
    Aside,
    asides,
    does,
    has_vessel,
    more_said,
    solid,
    tested_sentences,
)
from brimline.rules.foods import foods
from brimline.rules.meaning import Reading
from brimline.rules.measured import more_water

# Water that cleans, scalds, soaks or covers does not stay in.
POURED_OFF = ("cleanv", "submerge", "washedw", "choresw")


def thinned(case: Case) -> Iterator[Aside]:
    """Sentences that thin the batch with water or another liquid, or add more water."""
    watered = list(more_water(case))
    dry = not any(one.sort == "liquid" for one in case.batch.items) and not any(map(_poured_in, tested_sentences(case)))
    for aside in asides(case):
        reading = aside.reading
        if has_vessel(reading):
            continue
        acts = [spot for spot in reading.spots.get("thinv", ()) if does(reading, spot)]
        found = foods(reading.text)
        wet = [one for one in found if one.entry.sort in ("liquid", "juice")]
        water = {one.start for one in found if one.entry.name == "water"}
        said = [(start, end) for start, end in more_said(reading) if not water.isdisjoint(range(end, end + OBJECT))]
        more = any(does(reading, spot) for spot in said) or aside in watered or (dry and _poured_in(reading))
        if (acts and wet) or (more and not reading.has(POURED_OFF)):
            yield aside


def _poured_in(reading: Reading) -> bool:
    """Whether a sentence puts water in."""
    adds = [reading.clauses[start] for name in ("addv", "dashw") for start, _ in reading.spots.get(name, ())]
    water = [one for one in foods(reading.text) if one.entry.name == "water" and reading.clauses[one.start] in adds]
    return any(does(reading, (one.start, one.end)) for one in water)


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
        reading = aside.reading
        for start, end in reading.spots["skinson"]:
            near = _next_to(reading, start)
            its = near.entry.family == family if near else _about(aside, family)
            if its and does(reading, (start, end), bare=True):
                yield aside
                break


def _next_to(reading: Reading, act: int) -> Named | None:
    """The food that stands last before an act in its clause, else the first one behind it there."""
    there = [one for one in solid(reading) if reading.clauses[one.start] == reading.clauses[act]]
    ahead = [one for one in there if one.start < act]
    return next(iter((*reversed(ahead), *there)), None)


DRAINS = ("drainjv", "juiceaway", "seedsout", "sievew")


def drained(case: Case, families: frozenset[str]) -> Iterator[Aside]:
    """Sentences that drain foods of their juice or take their seeds out, where no step of the tested formula does."""
    new = [name for name in DRAINS if not any(name in one.spots for one in tested_sentences(case))]
    for aside in asides(case):
        reading = aside.reading
        if not any(_about(aside, family) for family in families) or "undrained" in reading.text:
            continue
        for name, start, end in ((one, *spot) for one in new for spot in reading.spots.get(one, ())):
            # The water of washing and scalding is no juice.
            wet = name == "drainjv" and any(one < start for one, _ in reading.spots.get("washedw", ()))
            if not wet and does(reading, (start, end)) and _its_own(reading, start, families):
                yield aside
                break


def _its_own(reading: Reading, act: int, families: frozenset[str]) -> bool:
    """Whether the food named next to an act, before it or in its clause behind it, is of these families."""
    found = foods(reading.text)
    behind = [one for one in found if one.start >= act and reading.clauses[one.start] == reading.clauses[act]]
    ahead = [one for one in found if one.start < act]
    near = next(iter((*behind, *reversed(ahead))), None)
    return near is None or near.entry.family in families or near.entry.sort in ("juice", "liquid")


def neutralised(case: Case) -> Iterator[tuple[Named, Aside]]:
    """Bases that a sentence adds and the list does not name; not what washes and soaks."""
    listed = {one.name for one in case.batch.items}
    for aside in asides(case):
        reading = aside.reading
        if reading.has(("washedw", "cleanv", "choresw")) or has_vessel(reading):
            continue
        for named in foods(reading.text):
            adds = named.entry.tags & {"base"} and named.entry.name not in listed
            if adds and does(reading, (named.start, named.end)):
                yield named, aside
                break


def into_boiling(case: Case) -> Iterator[Aside]:
    """Sentences that put filled jars into water that boils already."""
    for aside in asides(case):
        reading = aside.reading
        if not reading.has(("jar",)) or not reading.has(("canner", "water")) or reading.has(("emptyjar",)):
            continue
        # To bring it to the boil is what was tested.
        boils = [one for one, _ in reading.spots.get("boilw", ()) if "to" not in reading.tokens[one - 2 : one]]
        boils += [one for one, _ in reading.spots.get("water", ()) if reading.tokens[one] == "boiling"]
        for start, end in reading.spots.get("putv", ()):
            goes_in = reading.tokens[start] not in STAY and "until" not in reading.tokens
            there = any(end <= one and reading.clauses[one] == reading.clauses[start] for one in boils)
            if goes_in and there and does(reading, (start, end)):
                yield aside
                break


# These say how long the jars are in the canner, not when they go in.
STAY = frozenset(["leave", "keep", "hold"])


def _new(case: Case, meanings: tuple[str, ...]) -> Iterator[Aside]:
    """The asides with one of some meanings that no sentence of the tested formula has."""
    if not any(one.has(meanings) for one in tested_sentences(case)):
        yield from (aside for aside in asides(case) if aside.reading.has(meanings))


def _about(aside: Aside, family: str) -> bool:
    """Whether a sentence speaks of a food of a family: names it, or names none and goes on about it."""
    found = [one for one in foods(aside.reading.text) if one.entry.sort not in ("juice", "liquid")]
    return any(one.entry.family == family for one in found) or (
        not found and family in ({one.family for one in aside.spoken} or {family})
    )
