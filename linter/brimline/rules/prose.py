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


# A `skip` denies what begins within so many words behind it.
SKIPPED = 7
# So many words at most are a thing in a list, with the comma before it.
THING = 6
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
    return all(_stands(reading, row, clause) for row in habit.beside) and not any(
        _excused(reading, word, act) for word in habit.unless.split()
    )


def _stands(reading: Reading, row: str, clause: int) -> bool:
    """Whether one of the meanings of a row stands where the row wants it."""
    names = row.lstrip("=~<").split()
    if row.startswith("="):
        return reading.inside(names, clause)
    if not reading.inherited[clause].isdisjoint(names):
        return True
    if row.startswith("~"):
        return False
    return reading.has(names) or (row.startswith("<") and not reading.before.isdisjoint(names))


def _excused(reading: Reading, word: str, act: Spot) -> bool:
    name, clause = word.lstrip("=-<"), reading.clauses[act[0]]
    if word.startswith("<") and name in reading.before:
        return True
    if word.startswith("="):
        return reading.named([name], clause)
    if word.startswith("-"):
        filled = (reading.clauses[start] for start, _ in reading.spots.get("filled", ()))
        return name in reading.spots and not any(one <= clause for one in filled)
    # What is not to be done excuses nothing.
    negs = {end for _, end in reading.spots.get("neg", ())}
    return any(
        negs.isdisjoint(range(start - 3, start + 1)) and not (name in DOUBTED and _doubted(reading, start))
        for start, _ in reading.spots.get(name, ())
    )


def _doubted(reading: Reading, at: int) -> bool:
    """Whether an `if` stands before a place in its clause."""
    ifs = {start for start, _ in reading.spots.get("cond", ())}
    return not ifs.isdisjoint(range(reading.begins(reading.clauses[at]), at))


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


def _supposed(reading: Reading, act: Spot, bare: bool) -> bool:
    """Whether the words only say in which case something else is to be done: `if a band has worked loose`."""
    inside = range(reading.begins(reading.clauses[act[0]]), act[0])
    ifs = [end for start, end in reading.spots.get("cond", ()) if start in inside]
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
    begin = reading.begins(reading.clauses[start])
    negs = [spot for spot in reading.spots.get("neg", ()) if not _neutral(reading, spot) and not _allays(reading, spot)]
    if not bare and any(one in range(start, end) for one, _ in negs):
        return True
    if any(_reaches(reading, one, start) for one, last in negs if last <= start):
        return True
    left_out = reading.spots.get("leftout", ()) if not bare else ()
    if any(
        one >= begin and start in range(last, last + SKIPPED) and not _new_order(reading, last, start)
        for one, last in left_out
    ):
        return True
    if bare:
        return False
    # Behind the words only what is said of them denies: `is not`, `cannot`.
    aux = {one + 1 for one, _ in reading.spots.get("aux", ())}
    behind = [one for one, _ in negs if one in range(end, bisect(reading.clauses, reading.clauses[start]))]
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
    return [one for one, _ in reading.spots.get("unsafe", ()) if one in range(end, end + 3)]


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
    there = reading.clauses[act]
    begin, between = reading.begins(there), reading.tokens[neg:act]
    if any(one == "and" and two in AND_NOW for one, two in pairwise(between)):
        return False
    if neg >= begin:
        return True
    if not ENDS.isdisjoint(between):
        return False
    inside = reading.tokens[begin : act + 1]
    if len(inside) <= THING and words().base.isdisjoint(inside) and ARTICLES.isdisjoint(inside):
        # A thing in a list: `avoid brass, copper and iron pots`.
        return True
    return not LISTS.isdisjoint(reading.tokens[neg : bisect(reading.clauses, there + 1)])


def _warned(reading: Reading, act: Spot) -> bool:
    """Whether the sentence says what is wrong with it, rather than what goes wrong without it."""
    warnings = reading.spots.get("unsafe", ())
    if not warnings or "override" in reading.spots:
        return False
    return any(_blames(reading, start, act) for start, _ in warnings)


def _blames(reading: Reading, start: int, act: Spot) -> bool:
    """Whether a warning is about the act."""
    there, clause = reading.clauses[start], reading.clauses[act[0]]
    between = range(act[1], start + 1)
    if any(one in between and reading.clauses[one] >= there - 1 for one, _ in reading.spots.get("otherwise", ())):
        return False
    if reading.named(["slackstate"], there):
        # What is loose is blamed, and the cook is to make it tight.
        return False
    near = range(max(reading.begins(there), start - 3), start)
    if any(one in near for one, _ in reading.spots.get("plainneg", ())):
        return False
    if any(start in _allays(reading, neg) for neg in reading.spots.get("neg", ())):
        return False
    return there >= clause or not orders(reading, clause)
