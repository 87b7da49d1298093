"""Whether a cook is told to do what a sentence speaks of: instruction against denial, warning, report and question.

Where that is unclear it is an instruction.
"""

from collections.abc import Iterator

from msgspec import Struct

from brimline._remember import remembered
from brimline.rules.meaning import Reading, Spot, readings, sentences

__all__ = ["Habit", "instructs", "sentences", "shown", "told"]


class Habit(Struct, frozen=True):
    """A habit, told by meanings that stand together (the words of each are in `figures/tables/speech.yaml`).

    `act` are the meanings of which one must stand, and whose place in the sentence decides whether the cook is told to
    do it. Of each row of `beside` one must stand too: in the clause of the act (or be what that clause still speaks of)
    if the row begins with `=`, only that after `~`, named there after `!`, else anywhere in the sentence. `unless` excuses; after `=` only in the clause of the act,
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
# After these a new order starts, though the clause goes on.
AND_NOW = frozenset(["just", "then", "instead", "simply"])
LISTS = frozenset(["or", "nor"])
QUOTES = frozenset('"“”')
# A clause that begins with one of these can be an order behind a report: `Grandma swore by it, so turn them over`.
ORDERS = frozenset(["so", ";", "-", "–", "—"])


@remembered
def shown(habits: tuple[Habit, ...], text: str) -> tuple[Habit, ...]:
    """Every habit that a step tells the cook to follow."""
    return tuple(
        habit
        for reading in readings(text)
        for habit in habits
        if not reading.spots.keys().isdisjoint(habit.act.split()) and shows(habit, reading)
    )


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
        names = row.lstrip("=~<!").split()
        there = not reading.inherited[clause].isdisjoint(names)
        if row[0] == "=":
            there = reading.inside(names, clause)
        elif row[0] == "!":
            there = reading.named(names, clause)
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
    return any(not _denied(reading, spot, bare=True) for spot in spots)


def instructs(reading: Reading, act: Spot, bare: bool = False) -> bool:
    """Whether the cook is told to do what stands at a place of the sentence."""
    return not (
        asks(reading)
        or _supposed(reading, act, bare)
        or reported(reading, act)
        or _denied(reading, act, bare)
        or _warned(reading, act)
    )


def asks(reading: Reading) -> bool:
    """Whether the sentence is a question."""
    if reading.spots.get("asking", [(1, 1)])[0][0] == 0:
        return True
    return reading.text.rstrip("\"'”’) ").endswith("?")


def told(reading: Reading) -> bool:
    """Whether a sentence only reports or asks: nobody is told to do anything."""
    return asks(reading) or bool(_voices(reading))


def _orders(reading: Reading, clause: int) -> bool:
    """Whether a clause begins with an order: `turn them over`, `so you can turn them over`."""
    from brimline.made.speech import BASE

    leads = {start for name in ("leadin",) for start, _ in reading.spots.get(name, ())}
    at = reading.begins(clause)
    while at < len(reading.tokens) and reading.clauses[at] == clause:
        token = reading.tokens[at]
        if token in BASE and at not in leads:
            return True
        if at not in leads and token[0].isalpha():
            return token in BASE
        at += 1
    return False


def _supposed(reading: Reading, act: Spot, bare: bool = False) -> bool:
    """Whether the words only say in which case something else is to be done: `if a band has worked loose`."""
    from brimline.made.speech import BASE

    clause = reading.clauses[act[0]]
    ifs = [end for start, end in reading.spots.get("cond", ()) if reading.clauses[start] == clause and start < act[0]]
    if not ifs or act[0] - max(ifs) > (4 if bare else 7):
        return False
    if any(start >= act[1] for name in ("ordered", "nevermind") for start, _ in reading.spots.get(name, ())) or (
        "nomatter" in reading.spots
    ):
        # A case that is said to do no harm is allowed.
        return False
    if reading.tokens[max(ifs) : max(ifs) + 2] in (["you", "have"], ["you", "own"], ["you", "possess"], ["there", "is"]):
        return False
    before = reading.tokens[act[0] - 1]
    return not (reading.tokens[act[0]] in BASE and before not in ("they", "it", "is", "are", "to", "who", "not"))


def _denied(reading: Reading, act: Spot, bare: bool = False) -> bool:
    """Whether the words are spoken against."""
    start, end = act
    clause = reading.clauses[start]
    negs = [spot for spot in reading.spots.get("neg", ()) if not _neutral(reading, spot)]
    if not bare and any(start <= one < end for one, _ in negs):
        return True
    if any(_reaches(reading, one, start) for one, last in negs if last <= start):
        return True
    left_out = reading.spots.get("leftout", ()) if not bare else ()
    if any(last <= start <= last + NEAR and reading.clauses[one] == clause for one, last in left_out):
        return True
    if bare:
        return False
    # Behind the words only what is said of them denies: `is not`, `cannot`.
    aux = {one + 1 for one, _ in reading.spots.get("aux", ())}
    for one, _ in negs:
        if one >= end and reading.clauses[one] == clause and "and" not in reading.tokens[end:one]:
            if one in aux or reading.tokens[one].endswith("n't") or reading.tokens[one] == "cannot":
                return True
    return False


def _neutral(reading: Reading, neg: Spot) -> bool:
    """Whether a `not` denies nothing, because it belongs to a condition or to a remark on a thing."""
    start = neg[0]
    before = reading.tokens[max(0, start - 4) : start]
    return any(word in before for word in ("if", "unless", "when", "where", "that", "which", "who", "provided", "until"))


def _reaches(reading: Reading, neg: int, act: int) -> bool:
    """Whether a `not` goes on to the act: in one clause, or in a list that ends with `or`."""
    here, there = reading.clauses[neg], reading.clauses[act]
    between = reading.tokens[neg:act]
    if any(one == "and" and two in AND_NOW for one, two in zip(between, between[1:], strict=False)):
        return False
    if here == there:
        return True
    if any(token in ";:.(" or token in ("but", "then", "so", "because", "just", "instead") for token in between):
        return False
    end = next((at for at in range(act, len(reading.tokens)) if reading.clauses[at] > there + 1), len(reading.tokens))
    return not LISTS.isdisjoint(reading.tokens[neg:end])


def _warned(reading: Reading, act: Spot) -> bool:
    """Whether the sentence says what is wrong with it, rather than what goes wrong without it."""
    warnings = reading.spots.get("unsafe", ())
    if not warnings or "override" in reading.spots:
        return False
    clause = reading.clauses[act[0]]
    for start, _ in warnings:
        there = reading.clauses[start]
        others = [one for one, _ in reading.spots.get("otherwise", ()) if reading.clauses[one] in (there, there - 1)]
        if any(act[1] <= one <= start for one in others):
            continue
        if any(reading.clauses[one] == there for one, _ in reading.spots.get("slackstate", ())):
            # What is loose is blamed, and the cook is to make it tight.
            continue
        if any(reading.clauses[one] == there and one < start <= one + 3 for one, _ in reading.spots.get("plainneg", ())):
            continue
        if start >= act[0] or there == clause or not _orders(reading, clause):
            return True
    return False


def reported(reading: Reading, act: Spot) -> bool:
    """Whether somebody else does it, did it or says it."""
    clause = reading.clauses[act[0]]
    quoted = sum(token in QUOTES for token in reading.tokens[: act[0]]) % 2 == 1
    voices = _voices(reading)
    if quoted and (voices or "reportv" in reading.spots):
        return True
    free = not quoted and _orders(reading, clause)
    past = {start for start, _ in reading.spots.get("pastaux", ())}
    # `Close them with the lids you had saved` is an order all the same.
    voices = [at for at in voices if not (free and at in past and at > act[0])]
    there = [reading.clauses[at] for at in voices]
    if clause in there:
        return True
    if any(one < clause for one in there):
        begins = reading.begins(clause)
        return not (free and (reading.tokens[begins] in ORDERS or reading.tokens[begins + 1] in ("so", "but")))
    return bool(there) and not free


def _voices(reading: Reading) -> list[int]:
    """Where the sentence reports: a person, a paper or the past speaks."""
    marks = [*_heard(reading), *_people(reading), *_papers(reading), *_past(reading)]
    asides = _asides(reading)
    ordered = max((start for start, _ in reading.spots.get("ordered", ())), default=-1)
    against = {reading.clauses[start] for start, _ in reading.spots.get("override", ())}
    marks = [at for at in marks if reading.clauses[at] not in against]
    return [at for at in marks if at > ordered and not any(start <= at < end for start, end in asides)]


def _heard(reading: Reading) -> Iterator[int]:
    for name in ("weasked", "pasttime", "reportnoun"):
        yield from (start for start, _ in reading.spots.get(name, ()))


def _subject(reading: Reading, start: int) -> bool:
    """Whether nothing but articles and the like stands between a word and the beginning of its clause."""
    fill = {at for name in ("det", "always", "asideword") for at, _ in reading.spots.get(name, ())}
    clause = reading.clauses[start]
    at, owned = start - 1, False
    while at >= 0 and reading.clauses[at] == clause:
        token = reading.tokens[at]
        if token in ("that", "because", "how", "whether", "when", "since", "why"):
            return True
        if token == "to" or (at not in fill and token[0].isalpha() and at != start - 1):
            return False
        # An adjective may stand before the person: `our older neighbours`.
        owned = owned or at in fill
        at -= 1
    return owned or start == 0 or start - 1 in fill or reading.clauses[start - 1] != clause or not reading.tokens[start - 1][0].isalpha()


def _verb_after(reading: Reading, end: int) -> str:
    """The first word behind a subject that is no adverb."""
    fill = {at for at, _ in reading.spots.get("always", ())}
    while end < len(reading.tokens) - 1 and end in fill:
        end += 1
    return reading.tokens[end]


def _people(reading: Reading) -> Iterator[int]:
    from brimline.made.speech import SINGLE

    for name in ("human", "who"):
        for start, end in reading.spots.get(name, ()):
            if not _subject(reading, start):
                continue
            if name == "human" and not _named_so(reading, start, end):
                continue
            after = reading.tokens[end] if end < len(reading.tokens) else "."
            verb = _verb_after(reading, end)
            if after in ("can", "should", "must", "needs", "need", "'s") or not after[0].isalpha():
                continue
            kinds = set(SINGLE.get(verb, ()))
            if name == "who" and kinds & {"jar", "lid", "band", "food", "jam", "water"}:
                continue
            yield start


def _named_so(reading: Reading, start: int, end: int) -> bool:
    """Whether a word for a person is one: `a cook`, `cooks`, `grandma`, and not `cook it`."""
    if end - start > 1 or reading.tokens[end - 1].endswith(("s", "people", "folk", "men", "children")):
        return True
    if any(start == one for one, _ in reading.spots.get("family", ())):
        return True
    return start > 0 and any(one == start - 1 for one, _ in reading.spots.get("det", ()))


def _papers(reading: Reading) -> Iterator[int]:
    says = [start for start, _ in reading.spots.get("reportv", ())]
    old = any(len(token) == 4 and token[:2] in ("18", "19") for token in reading.tokens)
    for start, end in reading.spots.get("docstrong", ()):
        if _subject(reading, start):
            yield start
    for start, end in reading.spots.get("doc", ()):
        clause = reading.clauses[start]
        if not _named_so(reading, start, end):
            continue
        if any(end <= one <= end + 6 and reading.clauses[one] == clause for one in says):
            yield start
        elif (old or "oldness" in reading.spots) and _subject(reading, start):
            yield start


# In front of these a past form tells what a thing is like: `lids that were used`, `if it is lost`.
QUALIFY = frozenset("if where when unless as until once provided providing long".split())
AUXILIARY = frozenset("is are be been not has have that which who you they".split())


def _past(reading: Reading) -> Iterator[int]:
    for start, _ in reading.spots.get("pastaux", ()):
        before = reading.tokens[max(0, start - 3) : start]
        if QUALIFY.isdisjoint(before) and AUXILIARY.isdisjoint(before[-1:]):
            yield start


def _asides(reading: Reading) -> list[Spot]:
    """Remarks such as `as my aunt did`, which report nothing."""
    out = []
    people = [start for start, _ in reading.spots.get("human", ())]
    for start, end in reading.spots.get("asideword", ()):
        if any(end <= one <= end + 3 for one in people):
            clause = reading.clauses[start]
            out.append((start, max(at for at, one in enumerate(reading.clauses) if one == clause) + 1))
    return out
