"""Acid and sugar of which a step takes less than the list says, or which it leaves to the cook."""

from collections.abc import Callable, Iterator

from msgspec import Struct

from brimline.batch.classes import is_acid
from brimline.batch.values import Item
from brimline.figures.values import Entry
from brimline.moves.named import Named
from brimline.moves.values import Case
from brimline.rules.asides import AMOUNT, OBJECT, Aside, asides, does, offered, readings_of, same_acid
from brimline.rules.foods import foods
from brimline.rules.meaning import Reading, Spot

# These also say how a fruit is cut and how a liquid boils down; only what pours can be meant by them.
CUTS = frozenset(["cut", "cutting", "cuts", "halve", "halves", "halved", "halving", "reduce", "reduced", "lower"])


class Less(Struct, frozen=True):
    """An ingredient of which a sentence takes less, or which it leaves to the cook: its tested lines, and the sentence."""

    was: tuple[Item, ...]
    aside: Aside


def less_acid(case: Case) -> Iterator[Less]:
    """Acid that the tested formula requires and of which a sentence takes less, or leaves it to the cook."""
    if case.contrast is None:
        return
    batch = case.contrast.tested
    needed = [one for one in batch.items if is_acid(one) and one.kept and not one.optional]
    chosen = offered(case)
    for entry, aside in _lessened(case, lambda one: any(same_acid(one, item) for item in needed)):
        listed = [item for item in case.batch.items if is_acid(item)]
        if not any(same_acid(entry, item) for item in listed):
            # It is not in the list either, and other rules have seen that.
            continue
        found = [one.entry for one in foods(aside.reading.text)]
        # What the tested formula offers instead is no less.
        if "inplace" in aside.reading.spots and any({one.name, one.family} & chosen for one in found):
            continue
        yield Less(tuple(item for item in needed if same_acid(entry, item)), aside)


def less_of(case: Case, sort: str) -> Iterator[Less]:
    """Sweetener or salt that the tested formula requires and of which a sentence takes less, or leaves it to the cook."""
    if case.contrast is None:
        return
    needed = [one for one in case.contrast.tested.items if one.sort == sort and one.kept and not one.optional]
    for entry, aside in _lessened(case, lambda one: any(one.family == item.family for item in needed)):
        yield Less(tuple(item for item in needed if item.family == entry.family), aside)


def _lessened(case: Case, wanted: Callable[[Entry], bool]) -> Iterator[tuple[Entry, Aside]]:
    """What a sentence takes less of, or a note leaves open of its own line."""
    steps = [one for step in case.document.make for one in readings_of(step.text)]
    for aside in asides(case):
        reading = aside.reading
        if reading.spots.keys().isdisjoint(_ACTS):
            continue
        found = [one for one in foods(reading.text) if wanted(one.entry)]
        hits = [one for one in found if any(_takes_less(reading, one, name, steps) for name in _ACTS)]
        yield from ((hit.entry, aside) for hit in hits)
        own = aside.item.entry if aside.item is not None else None
        if own is not None and wanted(own) and not foods(reading.text) and _left_open(reading):
            yield own, aside


PRONOUN = ("omitv", "needlessw", "lessenv", "staysoutw")
# What these are about stands right behind them: discard the spice bag and add the vinegar.
CLOSE = ("inplace", "awayv")
MODALS = frozenset(["can", "may", "might", "could", "will", "should"])
ALSO = frozenset(["and", "or", "the"])
OF_THE = frozenset(["of", "the"])
THEY = frozenset(["it", "them", "that", "they"])
WHEN = frozenset(["until", "till", "when", "once", "after", "while"])
BE = frozenset(["be", "is", "are", "gets"])
SAYS = frozenset(
    [
        "means",
        "mean",
        "makes",
        "make",
        "gives",
        "give",
        "is",
        "will",
        "would",
        "spoils",
        "leads",
        "leaves",
        "leave",
        "cannot",
    ]
)
_ACTS = ("diluted", "omitv", "awayv", "staysoutw", "lessenv", "swapv", "inplace", "needlessw", "lesser", "leftopenw")


def _left_open(reading: Reading) -> bool:
    return any(does(reading, spot, bare=True) for spot in reading.spots.get("leftopenw", ()))


def _takes_less(reading: Reading, named: Named, act: str, steps: list[Reading]) -> bool:
    """Whether a sentence tells the cook to take less of what it names."""
    spots = reading.spots.get(act, ())
    # Half of it is not enough: that is no order. But not so much of it is less.
    bare = {spot for spot in spots if act != "lesser" or reading.tokens[spot[0]] == "not"}
    return any(_done_to(reading, spot, named, act, steps) and does(reading, spot, bare=spot in bare) for spot in spots)


def _done_to(reading: Reading, spot: Spot, named: Named, act: str, steps: list[Reading]) -> bool:
    """Whether an act or amount is about what is named: right behind it, or behind what stands as its subject."""
    start, end = spot
    if act in PRONOUN and named.end <= start and not THEY.isdisjoint(reading.tokens[start - 1 : end + 1]):
        # The lemon is only for show, and you can do without it: what was named last.
        behind = [one for one in foods(reading.text) if one.end <= start]
        return behind[-1:] == [named]
    # `Optional: add the lemon juice.`
    if act == "leftopenw" and not start and reading.tokens[end] in (":", "-"):
        return True
    if reading.clauses[start] != reading.clauses[named.start]:
        return False
    if act == "lesser":
        # Less sugar means no set: that is no order.
        if reading.tokens[start - 1 : end] == ["a", "half"]:
            # A cup and a half.
            return False
        says = not SAYS.isdisjoint(reading.tokens[named.end : named.end + 2])
        return not says and named.start in range(end, end + AMOUNT) and not _in_parts(reading, spot, named, steps)
    if act == "diluted":
        return any(one.entry.name == "water" for one in foods(reading.text))
    if act == "leftopenw":
        return True
    if act == "lessenv" and reading.tokens[start] in CUTS and not _pours(named.entry):
        return False
    between = reading.tokens[named.end : start]
    if act == "staysoutw":
        # The lemon juice stays in the cupboard; but not: stays out until the fruit boils.
        return named.end <= start and MODALS.issuperset(between) and WHEN.isdisjoint(reading.tokens)
    if named.end <= start:
        # The vinegar can be halved; but not: until the vinegar is reduced.
        so_far = reading.tokens[reading.begins(reading.clauses[start]) : start]
        return not BE.isdisjoint(between[-2:]) and WHEN.isdisjoint(so_far)
    # Cut the onions and put the vinegar on them: the onions are cut.
    ahead = [one.end for one in foods(reading.text) if end <= one.start]
    other = any(not ALSO.issuperset(reading.tokens[one : named.start]) for one in ahead)
    return named.start - end < (AMOUNT if act in CLOSE else OBJECT) and not other


def _in_parts(reading: Reading, spot: Spot, named: Named, steps: list[Reading]) -> bool:
    """Whether an ingredient only goes in at two times: half of it is added here, the rest elsewhere."""
    if "cond" in reading.spots or reading.tokens[spot[0] - 1] in ("only", "just"):
        return False
    if _its_rest(reading, named):
        return True
    adds = [end for start, end in reading.spots.get("addv", ()) if reading.tokens[start] not in ("use", "give")]
    if not any(spot[0] in range(end, end + AMOUNT) for end in adds):
        return False
    elsewhere = [one for one in steps if one.text != reading.text]
    again = (one.entry.family == named.entry.family for other in elsewhere for one in foods(other.text))
    return any(_its_rest(one, named) for one in elsewhere) or any(again)


def _its_rest(reading: Reading, named: Named) -> bool:
    """Whether a sentence speaks of a rest that can be of what is named: the rest later; not: the rest of the onion."""
    others = [one for one in foods(reading.text) if one.entry.family != named.entry.family]
    return any(
        not any(end <= one.start and OF_THE.issuperset(reading.tokens[end : one.start]) for one in others)
        for _, end in reading.spots.get("restw", ())
    )


def _pours(entry: Entry) -> bool:
    return entry.sort in ("acid", "sweetener")
