"""Who speaks in a sentence: the step itself, or a person, a paper or the past that it only reports."""

from bisect import bisect
from collections.abc import Iterator

from brimline._patterns import pattern
from brimline._speech import meanings, words
from brimline.rules.meaning import Reading, Spot

QUOTES = frozenset('"“”')
# A clause that begins with one of these can be an order behind a report: `Grandma swore by it, so turn them over`.
ORDERS = frozenset(["so", ";", "-", "–", "—"])


def asks(reading: Reading) -> bool:
    """Whether the sentence is a question."""
    return 0 in _starts(reading, "asking") or reading.text.rstrip("\"'”’) ").endswith("?")


def orders(reading: Reading, clause: int) -> bool:
    """Whether a clause begins with an order: `turn them over`, `so you can turn them over`."""
    leads = _starts(reading, "leadin")
    inside = range(reading.begins(clause), bisect(reading.clauses, clause))
    first = next((reading.tokens[at] for at in inside if at not in leads and _is_word(reading.tokens[at])), "")
    return first in words().base


def _is_word(token: str) -> bool:
    """Whether a token is a word, and no mark, number or ending such as `'s`."""
    return token[0].isalpha()


def _starts(reading: Reading, *names: str) -> set[int]:
    return {start for name in names for start, _ in reading.spots.get(name, ())}


def reported(reading: Reading, act: Spot) -> bool:
    """Whether somebody else does it, did it or says it."""
    clause = reading.clauses[act[0]]
    quoted = sum(token in QUOTES for token in reading.tokens[: act[0]]) % 2
    heard = voices(reading)
    if quoted and (heard or "reportv" in reading.spots):
        return True
    free = not quoted and orders(reading, clause)
    past = _starts(reading, "pastaux")
    # `Close them with the lids you had saved` is an order all the same.
    heard = [at for at in heard if not (free and at in past)]
    there = [reading.clauses[at] for at in heard]
    if clause in there:
        return True
    opens = reading.tokens[reading.begins(clause)]
    # `Some do it, but I find` goes on in the cook's own voice.
    if opens != "but" and min(there, default=clause) < clause:
        return not (free and opens in ORDERS)
    return max(there, default=clause) > clause and not free


def voices(reading: Reading) -> list[int]:
    """Where the sentence reports: a person, a paper or the past speaks."""
    marks = [*_heard(reading), *_people(reading), *_papers(reading), *_past(reading)]
    asides = _asides(reading)
    negs = _starts(reading, "neg")
    # `Do not copy her` is no order to do as she did.
    follow = [start for start in _starts(reading, "ordered") if negs.isdisjoint(range(start - 2, start))]
    against = {reading.clauses[start] for start in _starts(reading, "override")}
    marks = [at for at in marks if reading.clauses[at] not in against]
    return [at for at in marks if all(at > one for one in follow) and not any(at in aside for aside in asides)]


def _heard(reading: Reading) -> set[int]:
    return _starts(reading, "weasked", "pasttime", "reportnoun")


def _subject(reading: Reading, start: int) -> bool:
    """Whether nothing but articles and the like stands between a word and the beginning of its clause."""
    fill = _starts(reading, "det", "always", "asideword")
    inside = range(reading.begins(reading.clauses[start]), start)
    for at in reversed(inside):
        word = reading.tokens[at]
        if word in ("that", "because", "how", "whether", "when", "since", "why"):
            return True
        # An adjective may stand before the person: `our older neighbours`.
        if word == "to" or (at not in fill and _is_word(word) and at not in inside[-1:]):
            return False
    return not fill.isdisjoint(inside) or not any(_is_word(reading.tokens[at]) for at in inside)


def _verb_after(reading: Reading, end: int) -> str:
    """The first word behind a subject that is no adverb."""
    fill = _starts(reading, "always")
    return next(token for at, token in enumerate(reading.tokens[end:], end) if at not in fill)


def _people(reading: Reading) -> Iterator[int]:
    yield from (
        start
        for start, end in reading.spots.get("human", ())
        if _acts(reading, start, end) and _named_so(reading, start, end)
    )
    for start, end in reading.spots.get("who", ()):
        if _acts(reading, start, end) and THINGS.isdisjoint(meanings(_verb_after(reading, end))):
            yield start


def _acts(reading: Reading, start: int, end: int) -> bool:
    """Whether a word stands as one who does something, unasked."""
    # `Have someone tighten them` is an order.
    if not _subject(reading, start) or reading.tokens[start - 1] in ("have", "get", "let", "ask"):
        return False
    last, after, verb = reading.tokens[end - 1], reading.tokens[end], _verb_after(reading, end)
    if last in ANYONE and not ALLOWED.isdisjoint(_behind(reading, end)):
        return False
    if after in ("can", "should", "must", "needs", "need", "'s") or not _is_word(after):
        return False
    return last not in SOME or verb in words().base or verb in ("have", "are", "do")


def _behind(reading: Reading, end: int) -> list[str]:
    """What stands behind a place in its clause."""
    return reading.tokens[end : bisect(reading.clauses, reading.clauses[end])]


def _named_so(reading: Reading, start: int, end: int) -> bool:
    """Whether a word for a person is one: `a cook`, `cooks`, `grandma`, and not `cook it`."""
    if reading.tokens[end - 1].endswith(("s", "people", "folk", "men", "children")):
        return True
    return start in _starts(reading, "family") or start - 1 in _starts(reading, "det")


def _papers(reading: Reading) -> Iterator[int]:
    old = "oldness" in reading.spots or any(YEAR.fullmatch(token) for token in reading.tokens)
    yield from (start for start in _starts(reading, "docstrong") if _subject(reading, start))
    for start, end in reading.spots.get("doc", ()):
        if _named_so(reading, start, end) and (_says(reading, start, end) or (old and _subject(reading, start))):
            yield start


def _says(reading: Reading, start: int, end: int) -> bool:
    """Whether a word for telling stands soon behind a paper, in its clause."""
    behind = range(end, bisect(reading.clauses, reading.clauses[start]))
    return not _starts(reading, "reportv").isdisjoint(behind[:SOON])


YEAR = pattern(r"1[89]\d\d")
# What a paper does is one of so many words behind it.
SOON = 7
# What `most` and `some` can be instead of people.
THINGS = frozenset(["jar", "lid", "band", "food", "jam", "water"])
# Anyone who likes it sweeter may leave it out: that is leave for every cook.
ANYONE = frozenset(["anyone", "anybody", "everyone", "everybody", "those"])
ALLOWED = frozenset(["may", "can", "could", "might"])
# Behind these stands a verb where they are people: `some put`, `many still use`.
SOME = frozenset(["many", "most", "some", "several", "few", "others", "those"])
# In front of these a past form tells what a thing is like: `lids that were used`, `if it is lost`.
QUALIFY = frozenset(["if", "where", "when", "unless", "as", "until", "once", "provided", "providing", "long"])
AUXILIARY = frozenset(["is", "are", "be", "been", "not", "has", "have", "that", "which", "who", "you"])


def _past(reading: Reading) -> Iterator[int]:
    for start in _starts(reading, "pastaux"):
        before = reading.tokens[max(0, start - 3) : start]
        # We have always found that it works: that is the cook's own voice.
        helped = [one for one in before if one not in ("always", "often")]
        if QUALIFY.isdisjoint(before) and AUXILIARY.isdisjoint(helped[-1:]):
            yield start


def _asides(reading: Reading) -> list[range]:
    """The places of remarks such as `as my aunt did`, which report nothing."""
    out = []
    people, past = _starts(reading, "human"), _starts(reading, "pasttime")
    for start, end in reading.spots.get("asideword", ()):
        # `As children we did` is a report.
        if start not in past and not people.isdisjoint(range(end, end + 4)):
            out.append(range(start, bisect(reading.clauses, reading.clauses[start])))
    return out
