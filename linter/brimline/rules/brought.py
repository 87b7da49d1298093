"""What a step brings into the batch beside the list: more of a food, food that no line names, another acid or sweetener."""

from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import pairwise

from brimline._patterns import pattern
from brimline.batch.classes import is_acid
from brimline.figures.values import Entry
from brimline.moves.named import Named
from brimline.moves.values import Case
from brimline.rules.asides import AMOUNT, OBJECT, Aside, asides, does, has_vessel, more_said, same_acid
from brimline.rules.foods import foods
from brimline.rules.low_acid import ADDED_SORTS
from brimline.rules.meaning import Reading
from brimline.rules.prose import told

POTS = ("pan", "batchw", "canner")
# A strength: `4 %`, `4.5 per cent`.
STRENGTH = pattern(r"\b(\d+(?:\.\d+)?)[ -]?(?:%|per ?cent\b)")
SOUR = frozenset(["lemon", "lemons", "lime", "limes"])
# Replace it with, sweeten it with, its sweetness comes from.
MAKES_WITH = ("swapv", "sweetenv", "tastew")
THEM = ("them", "it", "these", "those")


def more_of(case: Case, wanted: Callable[[Entry], bool]) -> Iterator[tuple[Named, Aside]]:
    """Food of which a sentence adds more than the list names."""
    for aside in asides(case):
        reading = aside.reading
        if "morew" not in reading.spots or "atatime" in reading.spots:
            continue
        for named in (*foods(reading.text), *_meant(aside)):
            near = [
                (start, end)
                for start, end in more_said(reading)
                if named.start in range(end, end + AMOUNT) and "than" not in reading.tokens[end : named.start]
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
            alike = reading.tokens[named.start - 1] in ("like", "as", "than")
            if not alike and does(reading, (named.start, named.end)):
                yield named, aside


def exchanged(case: Case) -> Iterator[tuple[Named, Aside]]:
    """Acids, sweeteners and juices that a sentence puts in the place of something of the list."""
    for aside in asides(case):
        reading = aside.reading
        if not reading.has(("inplace", "standinw", *MAKES_WITH)) or "washedw" in reading.spots or has_vessel(reading):
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
    swaps = [end for name in MAKES_WITH for _, end in reading.spots.get(name, ())]
    return any(not {"with", "by", "for", "from"}.isdisjoint(reading.tokens[end : named.start]) for end in swaps)


def stirred_in(case: Case) -> Iterator[Aside]:
    """Sentences that put into the pot an acid that is measured into each jar."""
    doses = [one for one in case.compared.tested.per_jar if is_acid(one) and one.kept]
    for aside in asides(case):
        reading = aside.reading
        for named in foods(reading.text):
            clause = reading.clauses[named.start]
            acts = [(start, end) for start, end in reading.spots.get("addv", ()) if reading.clauses[start] == clause]
            dosed = any(same_acid(named.entry, one) for one in doses)
            if dosed and _into_pot(reading, clause) and any(does(reading, one) for one in acts):
                yield aside
                break


def _into_pot(reading: Reading, clause: int) -> bool:
    """Whether a clause speaks of the pot; not: into each jar before the tomatoes go in."""
    places = [(start, name in POTS) for name in (*POTS, "intojar") for start, _ in reading.spots.get(name, ())]
    return next((pot for start, pot in sorted(places) if reading.clauses[start] == clause), False)


def _meant(aside: Aside) -> Iterator[Named]:
    """What the pronoun of an amount stands for: `another cup or two of them` is of the food that was named last."""
    for start, end in more_said(aside.reading):
        behind = pairwise(aside.reading.tokens[end : end + OBJECT])
        if any(one == "of" and other in THEM for one, other in behind):
            before = [one.entry for one in foods(aside.reading.text) if one.end <= start]
            yield from (Named(entry, end, end) for entry in (*aside.spoken, *before)[-1:])


def weak_vinegar(case: Case, full: Fraction) -> Iterator[Aside]:
    """Sentences that put in vinegar of a strength below `full` per cent, or of a kind whose strength nobody knows."""
    for aside in asides(case):
        reading = aside.reading
        said = [one for one in STRENGTH.findall(reading.text) if Fraction(one) < full]
        for named in foods(reading.text):
            begins = reading.begins(reading.clauses[named.start])
            ends = reading.begins(reading.clauses[named.start] + 1)
            weak = "weakvinegar" in reading.spots or not set(said).isdisjoint(reading.tokens[begins:ends])
            if "vinegar" in named.entry.tags and weak and does(reading, (named.start, named.end)):
                yield aside
                break


def squeezed(case: Case) -> Iterator[Aside]:
    """Sentences that put in the juice of fresh lemons or limes."""
    for aside in asides(case):
        spots = aside.reading.spots.get("freshjuice", ())
        kinds = (spot for spot in spots if not SOUR.isdisjoint(aside.reading.tokens[slice(*spot)]))
        if any(does(aside.reading, spot) for spot in kinds):
            yield aside
