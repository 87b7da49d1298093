"""Whether a cook is told to do what a sentence speaks of: instruction against denial, warning, report and question.

Where that is unclear it is an instruction.
"""

from bisect import bisect
from collections.abc import Iterator
from functools import cache
from itertools import pairwise

from msgspec import Struct

from brimline._speech import words
from brimline.rules.meaning import Reading, Spot, readings
from brimline.rules.voices import asks, orders, reported, voices


class Habit(Struct, frozen=True):
    """A habit, told by meanings that stand together (the words of each are in `figures/tables/speech.yaml`).

    `act` are the meanings of which one must stand, and whose place in the sentence decides whether the cook is told to
    do it. Of each row of `beside` one must stand too: in the clause of the act (or be what that clause still speaks of)
    if the row begins with `=`, only that after `~`, else anywhere in the sentence. `unless` excuses; after `=` only in the clause of the act,
    after `-` only if nothing filled or closed was spoken of before the act, after `<` also in an earlier sentence.
    `bare` holds where the act is itself a negation. `why` is one sentence, `source` the id of the guidance it rests on,
    empty for common practice without a source.
    """

    name: str
    act: str
    beside: tuple[str, ...] = ()
    unless: str = ""
    bare: bool = False
    level: str = "unsafe"
    harm: str = "illness"
    why: str = ""
    source: str = ""


# How far before the words that it denies a `skip` can stand.
NEAR = 6
# Over these a `not` never reaches.
ENDS = frozenset([";", ":", ".", "(", "but", "then", "so", "because", "just", "instead"])
# A list of things has none of these before its words.
ARTICLES = frozenset(["the", "a", "an", "those", "these", "your"])
# What is said to hold only in some case is no excuse.
DOUBTED = frozenset(["newlid", "throwout"])
# After these a new order starts, though the clause goes on.
AND_NOW = frozenset(["just", "then", "instead", "simply"])
LISTS = frozenset(["or", "nor"])
# What a `not` soon behind one of these says is a condition, or a remark on a thing.
REMARKS = frozenset(["if", "unless", "when", "where", "that", "which", "who", "provided", "until", "anyone", "those"])
_BE = frozenset(["is", "are", "isn't", "aren't"])


def shown(habits: tuple[Habit, ...], text: str) -> Iterator[Habit]:
    """Every habit that a step tells the cook to follow."""
    for reading in readings(text):
        meant = reading.spots.keys()
        for habit in habits:
            if not _acts(habit.act).isdisjoint(meant) and shows(habit, reading):
                yield habit


@cache
def _acts(act: str) -> frozenset[str]:
    return frozenset(act.split())


def shows(habit: Habit, reading: Reading) -> bool:
    """Whether a sentence tells the cook to follow the habit."""
    return any(
        _together(habit, reading, spot) and instructs(reading, spot, habit.bare)
        for name in habit.act.split()
        for spot in reading.spots.get(name, ())
    )


def _together(habit: Habit, reading: Reading, act: Spot) -> bool:
    clause = reading.clauses[act[0]]
    for row in habit.beside:
        names = row.lstrip("=~<").split()
        there = not reading.inherited[clause].isdisjoint(names)
        if row[0] == "=":
            there = reading.inside(names, clause)
        elif row[0] != "~":
            there = there or reading.has(names) or (row[0] == "<" and not reading.before.isdisjoint(names))
        if not there:
            return False
    return not any(_excused(reading, word, act) for word in habit.unless.split())


def _excused(reading: Reading, word: str, act: Spot) -> bool:
    how, name = (word[0], word[1:]) if word[0] in "=-<" else ("", word)
    if how == "<" and name in reading.before:
        return True
    spots = reading.spots.get(name, ())
    if how == "=":
        return any(reading.clauses[start] == reading.clauses[act[0]] for start, _ in spots)
    if how == "-":
        return bool(spots) and not any(
            start < act[0] or reading.clauses[start] == reading.clauses[act[0]]
            for start, _ in reading.spots.get("filled", ())
        )
    # What is not to be done excuses nothing.
    negs = [end for _, end in reading.spots.get("neg", ())]
    ifs = [one for one, _ in reading.spots.get("cond", ())]
    return any(
        not any(end <= start <= end + 3 for end in negs)
        and not any(name in DOUBTED and one < start and reading.clauses[one] == reading.clauses[start] for one in ifs)
        for start, _ in spots
    )


def instructs(reading: Reading, act: Spot, bare: bool = False) -> bool:
    """Whether the cook is told to do what stands at a place of the sentence."""
    return not (
        asks(reading)
        or _supposed(reading, act, bare)
        or reported(reading, act)
        or _denied(reading, act, bare)
        or _warned(reading, act)
    )


def told(reading: Reading) -> bool:
    """Whether a sentence only reports or asks: nobody is told to do anything."""
    return asks(reading) or bool(voices(reading))


def _supposed(reading: Reading, act: Spot, bare: bool = False) -> bool:
    """Whether the words only say in which case something else is to be done: `if a band has worked loose`."""
    clause = reading.clauses[act[0]]
    ifs = [end for start, end in reading.spots.get("cond", ()) if reading.clauses[start] == clause and start < act[0]]
    if not ifs or act[0] - max(ifs) > (4 if bare else 7):
        return False
    if any(start >= act[1] for name in ("ordered", "nevermind") for start, _ in reading.spots.get(name, ())) or (
        "nomatter" in reading.spots
    ):
        # A case that is said to do no harm is allowed.
        return False
    if reading.tokens[max(ifs) : max(ifs) + 2] in (
        ["you", "have"],
        ["you", "own"],
        ["you", "possess"],
        ["there", "is"],
    ):
        return False
    before = reading.tokens[act[0] - 1]
    return not (
        reading.tokens[act[0]] in words().base and before not in ("they", "it", "is", "are", "to", "who", "not")
    )


def _denied(reading: Reading, act: Spot, bare: bool = False) -> bool:
    """Whether the words are spoken against."""
    start, end = act
    clause = reading.clauses[start]
    negs = [spot for spot in reading.spots.get("neg", ()) if not _neutral(reading, spot) and not _allays(reading, spot)]
    if not bare and any(start <= one < end for one, _ in negs):
        return True
    if any(_reaches(reading, one, start) for one, last in negs if last <= start):
        return True
    left_out = reading.spots.get("leftout", ()) if not bare else ()
    if any(
        last <= start <= last + NEAR and reading.clauses[one] == clause and not _new_order(reading, last, start)
        for one, last in left_out
    ):
        return True
    if bare:
        return False
    # Behind the words only what is said of them denies: `is not`, `cannot`.
    aux = {one + 1 for one, _ in reading.spots.get("aux", ())}
    behind = [one for one, _ in negs if one in range(end, bisect(reading.clauses, clause))]
    return any(
        (one in aux or reading.tokens[one].endswith(("n't", "cannot"))) and "and" not in reading.tokens[end:one]
        for one in behind
    )


def _new_order(reading: Reading, start: int, end: int) -> bool:
    """Whether an order begins between two places: `skip the canner and turn the jars`."""
    return any(one == "and" and two in words().base for one, two in pairwise(reading.tokens[start:end]))


def _allays(reading: Reading, neg: Spot) -> list[int]:
    """Where the warnings stand that a `not` takes back: `it is not dangerous to`."""
    start, end = neg
    if _BE.isdisjoint(reading.tokens[start - 1 : end]):
        return []
    return [one for one, _ in reading.spots.get("unsafe", ()) if end <= one <= end + 2]


def _neutral(reading: Reading, neg: Spot) -> bool:
    """Whether a `not` denies nothing, because it belongs to a condition or to a remark on a thing."""
    start = neg[0]
    near = range(max(0, start - 4), start)
    return any(reading.tokens[at] in REMARKS and not _points(reading, at) for at in near)


def _points(reading: Reading, at: int) -> bool:
    """Whether a `that` begins a statement, and no remark on a thing: `but that does not help`."""
    before = reading.tokens[at - 1]
    return reading.tokens[at] == "that" and (not before.isalpha() or before in ("but", "and", "so"))


def _reaches(reading: Reading, neg: int, act: int) -> bool:
    """Whether a `not` goes on to the act: in one clause, or in a list that ends with `or`."""
    here, there = reading.clauses[neg], reading.clauses[act]
    between = reading.tokens[neg:act]
    if any(one == "and" and two in AND_NOW for one, two in pairwise(between)):
        return False
    if here == there:
        return True
    if not ENDS.isdisjoint(between):
        return False
    inside = reading.tokens[reading.begins(there) : act + 1]
    if len(inside) <= NEAR and words().base.isdisjoint(inside) and ARTICLES.isdisjoint(inside):
        # A thing in a list: `avoid brass, copper and iron pots`.
        return True
    end = next((at for at in range(act, len(reading.tokens)) if reading.clauses[at] > there + 1), len(reading.tokens))
    return not LISTS.isdisjoint(reading.tokens[neg:end])


def _warned(reading: Reading, act: Spot) -> bool:
    """Whether the sentence says what is wrong with it, rather than what goes wrong without it."""
    warnings = reading.spots.get("unsafe", ())
    if not warnings or "override" in reading.spots:
        return False
    return any(_blames(reading, start, act) for start, _ in warnings)


def _blames(reading: Reading, start: int, act: Spot) -> bool:
    """Whether a warning is about the act."""
    there, clause = reading.clauses[start], reading.clauses[act[0]]
    others = [one for one, _ in reading.spots.get("otherwise", ()) if reading.clauses[one] in (there, there - 1)]
    if any(act[1] <= one <= start for one in others):
        return False
    if any(reading.clauses[one] == there for one, _ in reading.spots.get("slackstate", ())):
        # What is loose is blamed, and the cook is to make it tight.
        return False
    denied = [one for one, _ in reading.spots.get("plainneg", ()) if reading.clauses[one] == there]
    if any(one < start <= one + 3 for one in denied):
        return False
    if any(start in _allays(reading, neg) for neg in reading.spots.get("neg", ())):
        return False
    return start >= act[0] or there == clause or not orders(reading, clause)
