"""Who speaks in a sentence: the step itself, or a person, a paper or the past that it only reports."""

from collections.abc import Iterator

from brimline._speech import meanings, words
from brimline.rules.meaning import Reading, Spot

QUOTES = frozenset('"“”')
# A clause that begins with one of these can be an order behind a report: `Grandma swore by it, so turn them over`.
ORDERS = frozenset(["so", ";", "-", "–", "—"])


def asks(reading: Reading) -> bool:
    """Whether the sentence is a question."""
    if reading.spots.get("asking", [(1, 1)])[0][0] == 0:
        return True
    return reading.text.rstrip("\"'”’) ").endswith("?")


def orders(reading: Reading, clause: int) -> bool:
    """Whether a clause begins with an order: `turn them over`, `so you can turn them over`."""
    leads = {start for name in ("leadin",) for start, _ in reading.spots.get(name, ())}
    at = reading.begins(clause)
    while at < len(reading.tokens) and reading.clauses[at] == clause:
        token = reading.tokens[at]
        if token in words().base and at not in leads:
            return True
        if at not in leads and token[0].isalpha():
            return token in words().base
        at += 1
    return False


def reported(reading: Reading, act: Spot) -> bool:
    """Whether somebody else does it, did it or says it."""
    clause = reading.clauses[act[0]]
    quoted = sum(token in QUOTES for token in reading.tokens[: act[0]]) % 2 == 1
    heard = voices(reading)
    if quoted and (heard or "reportv" in reading.spots):
        return True
    free = not quoted and orders(reading, clause)
    past = {start for start, _ in reading.spots.get("pastaux", ())}
    # `Close them with the lids you had saved` is an order all the same.
    heard = [at for at in heard if not (free and at in past)]
    there = [reading.clauses[at] for at in heard]
    if clause in there:
        return True
    # `Some do it, but I find` goes on in the cook's own voice.
    if reading.tokens[reading.begins(clause)] == "but":
        there = [one for one in there if one > clause]
    if any(one < clause for one in there):
        begins = reading.begins(clause)
        return not (free and (reading.tokens[begins] in ORDERS or reading.tokens[begins + 1] in ("so", "but")))
    return bool(there) and not free


def voices(reading: Reading) -> list[int]:
    """Where the sentence reports: a person, a paper or the past speaks."""
    marks = [*_heard(reading), *_people(reading), *_papers(reading), *_past(reading)]
    asides = _asides(reading)
    negs = {start for start, _ in reading.spots.get("neg", ())}
    # `Do not copy her` is no order to do as she did.
    follow = [start for start, _ in reading.spots.get("ordered", ()) if negs.isdisjoint(range(start - 2, start))]
    ordered = max(follow, default=-1)
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
        word = reading.tokens[at]
        if word in ("that", "because", "how", "whether", "when", "since", "why"):
            return True
        if word == "to" or (at not in fill and word[0].isalpha() and at != start - 1):
            return False
        # An adjective may stand before the person: `our older neighbours`.
        owned = owned or at in fill
        at -= 1
    return (
        owned
        or start == 0
        or start - 1 in fill
        or reading.clauses[start - 1] != clause
        or not reading.tokens[start - 1][0].isalpha()
    )


def _verb_after(reading: Reading, end: int) -> str:
    """The first word behind a subject that is no adverb."""
    fill = {at for at, _ in reading.spots.get("always", ())}
    while end < len(reading.tokens) - 1 and end in fill:
        end += 1
    return reading.tokens[end]


def _people(reading: Reading) -> Iterator[int]:
    for name in ("human", "who"):
        for start, end in reading.spots.get(name, ()):
            if not _subject(reading, start) or reading.tokens[start - 1] in ("have", "get", "let", "ask"):
                # `Have someone tighten them` is an order.
                continue
            if name == "human" and not _named_so(reading, start, end):
                continue
            if reading.tokens[end - 1] in ANYONE and not ALLOWED.isdisjoint(_behind(reading, end)):
                continue
            after = reading.tokens[end] if end < len(reading.tokens) else "."
            verb = _verb_after(reading, end)
            if after in ("can", "should", "must", "needs", "need", "'s") or not after[0].isalpha():
                continue
            kinds = set(meanings(verb))
            if reading.tokens[end - 1] in SOME and verb not in words().base and verb not in ("have", "are", "do"):
                continue
            if name == "who" and kinds & {"jar", "lid", "band", "food", "jam", "water"}:
                continue
            yield start


def _behind(reading: Reading, end: int) -> list[str]:
    """What stands behind a place in its clause."""
    return reading.tokens[end : reading.begins(reading.clauses[end] + 1)]


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
    for start, _ in reading.spots.get("docstrong", ()):
        if _subject(reading, start):
            yield start
    for start, end in reading.spots.get("doc", ()):
        clause = reading.clauses[start]
        if not _named_so(reading, start, end):
            continue
        if any(end <= one <= end + 6 and reading.clauses[one] == clause for one in says) or (
            (old or "oldness" in reading.spots) and _subject(reading, start)
        ):
            yield start


# Anyone who likes it sweeter may leave it out: that is leave for every cook.
ANYONE = frozenset(["anyone", "anybody", "everyone", "everybody", "those"])
ALLOWED = frozenset(["may", "can", "could", "might"])
# Behind these stands a verb where they are people: `some put`, `many still use`.
SOME = frozenset(["many", "most", "some", "several", "few", "others", "those"])
# In front of these a past form tells what a thing is like: `lids that were used`, `if it is lost`.
QUALIFY = frozenset(["if", "where", "when", "unless", "as", "until", "once", "provided", "providing", "long"])
AUXILIARY = frozenset(["is", "are", "be", "been", "not", "has", "have", "that", "which", "who", "you"])


def _past(reading: Reading) -> Iterator[int]:
    for start, _ in reading.spots.get("pastaux", ()):
        before = reading.tokens[max(0, start - 3) : start]
        # We have always found that it works: that is the cook's own voice.
        helped = before[-2:-1] if before[-1:] in (["always"], ["often"]) else before[-1:]
        if QUALIFY.isdisjoint(before) and AUXILIARY.isdisjoint(helped):
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
