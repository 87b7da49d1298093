"""What a step brings into the batch beside the list: more of a food, food that no line names, another acid or sweetener."""

from collections.abc import Callable, Iterator

from brimline.batch.classes import is_acid
from brimline.figures.values import Entry
from brimline.moves.named import Named
from brimline.moves.values import Case
from brimline.rules.asides import AMOUNT, Aside, asides, does, has_vessel, more_said, same_acid
from brimline.rules.foods import foods
from brimline.rules.low_acid import ADDED_SORTS
from brimline.rules.meaning import Reading
from brimline.rules.prose import told

POTS = ("pan", "batchw", "canner")


def more_of(case: Case, wanted: Callable[[Entry], bool]) -> Iterator[tuple[Named, Aside]]:
    """Food of which a sentence adds more than the list names."""
    for aside in asides(case):
        reading = aside.reading
        if "morew" not in reading.spots or "atatime" in reading.spots:
            continue
        for named in foods(reading.text):
            near = [
                spot
                for spot in more_said(reading)
                if 0 <= named.start - spot[1] < AMOUNT and "than" not in reading.tokens[spot[1] : named.start]
            ]
            if wanted(named.entry) and any(does(reading, spot) for spot in near):
                yield named, aside
                break


def low_food(entry: Entry) -> bool:
    """Whether an ingredient is low-acid food that goes in fresh."""
    return entry.safety == "low-acid" and entry.sort in ADDED_SORTS


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
        if not reading.has(("swapv", "inplace", "standinw")) or "washedw" in reading.spots or has_vessel(reading):
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
