"""A sentence as what its words mean: words and fixed phrases are looked up, and a pronoun stands for what was named."""

from bisect import bisect
from collections import defaultdict
from collections.abc import Iterable, Sequence
from itertools import pairwise

import msgspec

from brimline._patterns import pattern
from brimline._remember import remembered
from brimline._speech import ANY, Part, meanings, phrase, words

Spot = tuple[int, int]
TOKEN = pattern(r"\d[\d/.,]*\d|\d|[a-z]+n't\b|[a-z]+|'(?:s|re|ve|ll|d|m)\b|[\"“”;:,.!?()]|(?<=\s)-+(?=\s)|--|[–—]")
# A mark or a word that ends what a `not` before it is about.
MARKS = frozenset('"“”;:,.!?()-–—')
BREAKS = frozenset(["but", "then", "so", "because", "whereas", "--"])
# What a pronoun can stand for.
KINDS = ("jar", "lid", "band", "food", "jam", "pan", "bowl", "bag")
DESCRIBES = frozenset(["hot", "emptyadj", "filledadj", "cold", "force"])
ONE = frozenset(["it", "its", "that"])
MEASURES = frozenset(["pint", "pints", "quart", "quarts"])
NUMBERS = frozenset(["half", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "twelve"])


class Reading(msgspec.Struct):
    """One sentence: its tokens, the clause each stands in, and where each meaning stands.

    `clauses` numbers the clauses; `spots` has first token and the one behind the last; `inherited` the things a clause
    that names none speaks of; `before` the meanings of the sentences before it in the step.
    """

    text: str
    tokens: list[str]
    clauses: list[int]
    spots: dict[str, list[Spot]]
    inherited: list[frozenset[str]]
    before: frozenset[str]

    def has(self, names: Iterable[str]) -> bool:
        """Whether any of the meanings stands in the sentence."""
        return any(name in self.spots for name in names)

    def named(self, names: Iterable[str], clause: int) -> bool:
        """Whether any of the meanings stands in a clause."""
        return any(self.clauses[start] == clause for name in names for start, _ in self.spots.get(name, ()))

    def inside(self, names: Sequence[str], clause: int) -> bool:
        """Whether any of the meanings stands in a clause, or is what the clause still speaks of."""
        return not self.inherited[clause].isdisjoint(names) or self.named(names, clause)

    def begins(self, clause: int) -> int:
        """The first token of a clause."""
        return self.clauses.index(clause)


def read(sentence: str, last: frozenset[str], before: frozenset[str]) -> tuple[Reading, frozenset[str]]:
    """A sentence read behind others, of which `last` were the things named last; and what is named last after it."""
    tokens = [*TOKEN.findall(sentence), "."]
    spots = _spots(tokens)
    clauses = _clauses(tokens, spots)
    reading = Reading(sentence, tokens, clauses, spots, [], before)
    last = _things(reading, last)
    for name, ways in words().joined.items():
        for way in ways:
            if way[0] in spots and (not way[2] or way[2] in spots):
                found = _joined(spots, clauses, way)
                if found:
                    spots[name] = sorted({*spots.get(name, ()), *found})
    return reading, last


def _spots(tokens: list[str]) -> dict[str, list[Spot]]:
    known = words()
    found: list[tuple[int, int, str]] = []
    for at, (token, follows) in enumerate(pairwise(tokens)):
        for number in known.firsts.get(token, ()):
            name, parts, seconds = phrase(number)
            if follows not in seconds and ANY not in seconds:
                continue
            end = max(_ends(parts, tokens, at), default=at)
            if end > at + 1:
                found.append((at, end, name))
    hidden = _hidden([one for one in found if one[2] in known.hide])
    out: dict[str, list[Spot]] = {}
    for at, token in enumerate(tokens):
        if at not in hidden:
            for name in meanings(token):
                out.setdefault(name, []).append((at, at + 1))
    for at, end, name in found:
        cover = hidden.get(at)
        if cover is None or end > cover[1] or (at, end) == cover:
            out.setdefault(name, []).append((at, end))
    _measures(tokens, out)
    return out


def _hidden(found: list[tuple[int, int, str]]) -> dict[int, Spot]:
    """By token the longest of the phrases that hide what stands inside them."""
    out: dict[int, Spot] = {}
    for at, end, _ in sorted(found, key=lambda one: one[0] - one[1]):
        if at not in out:
            out.update({one: (at, end) for one in range(at, end) if one not in out})
    return out


def _ends(parts: Sequence[Part], tokens: list[str], at: int) -> set[int]:
    """Where a phrase that starts at a token can end; no phrase goes on behind a full stop, with which the tokens end."""
    places = {at}
    for part in parts:
        if isinstance(part, str):
            places = {one + 1 for one in places if tokens[one] == part or (part == ANY and tokens[one] not in MARKS)}
        elif isinstance(part[0], frozenset):
            # A choice between single words, which may be left out altogether.
            choice, free = part
            found = {one + 1 for one in places if tokens[one] in choice}
            places = places | found if free else found
        else:
            places = {end for one in places for choice in part for end in _ends(choice, tokens, one)}
        if not places:
            return places
    return places


def _measures(tokens: list[str], spots: dict[str, list[Spot]]) -> None:
    """Pints and quarts that measure something are no jars."""
    jars = [
        (start, end)
        for start, end in spots.get("jar", ())
        if not (
            " ".join(tokens[start:end]) in MEASURES
            and start
            and (tokens[start - 1][0].isdigit() or tokens[start - 1] in NUMBERS or tokens[end] == "of")
        )
    ]
    if jars:
        spots["jar"] = jars
    else:
        spots.pop("jar", None)


def _clauses(tokens: list[str], spots: dict[str, list[Spot]]) -> list[int]:
    describing = {spot[0] for name in DESCRIBES for spot in spots.get(name, ())}
    out: list[int] = []
    clause = 0
    for at, word in enumerate(tokens):
        ends = word in MARKS or word in BREAKS
        if word == "then" and tokens[at - 1] in ("is", "are", "be"):
            ends = False
        if word == "," and at - 1 in describing and at + 1 in describing:
            ends = False
        if ends and at:
            clause += 1
        out.append(clause)
    return out


def _things(reading: Reading, last: frozenset[str]) -> frozenset[str]:
    """Let pronouns stand for the things named last, and clauses that name nothing speak of them."""
    spots, clauses = reading.spots, reading.clauses
    at: dict[int, list[str]] = {}
    for kind in KINDS:
        for start, _ in spots.get(kind, ()):
            at.setdefault(start, []).append(kind)
    pronouns = {start for start, _ in spots.get("pron", ())}
    added: dict[str, list[Spot]] = {}
    named: dict[int, set[str]] = defaultdict(set)
    inherited: dict[int, frozenset[str]] = {}
    vessel = {start for name in ("canner", "water") for start, _ in spots.get(name, ())}
    single = True
    for token, clause in enumerate(clauses):
        inherited.setdefault(clause, last)
        if token in vessel:
            single = False
        if token in at:
            single = True
            named[clause].update(at[token])
            now = frozenset(named[clause])
            # A lid or a band is on a jar that was spoken of.
            last = now.union(["jar"] if "jar" in last and now <= {"lid", "band"} else [])
        elif token in pronouns:
            # `It` behind the canner or the water is that.
            here = last if single or reading.tokens[token] not in ONE else ()
            for kind in here:
                if kind in ("jar", "lid", "band"):
                    added.setdefault(kind, []).append((token, token + 1))
            named[clause].add("")
    for kind, found in added.items():
        spots[kind] = sorted({*spots.get(kind, ()), *found})
    reading.inherited = [
        frozenset() if clause in named else here & {"jar", "lid", "band"} for clause, here in inherited.items()
    ]
    return last


def _joined(spots: dict[str, list[Spot]], clauses: list[int], way: tuple[str, int, str, bool]) -> list[Spot]:
    one, gap, other, anywhere = way
    if not other:
        return spots[one]
    second = spots[other]
    out: list[Spot] = []
    for a, b in spots[one]:
        end = len(clauses) if anywhere else bisect(clauses, clauses[a])
        behind = second[bisect(second, (a, len(clauses))) :]
        out += [(a, d) for c, d in behind if c <= b + gap and b < d <= end]
    return out


# Not behind a unit that is cut short: `15 min. at the boil`.
SENTENCE = pattern(
    r"(?<=[.!?])(?<!\d min\.)(?<!\d in\.)(?<!\d (?:hr|oz|lb|qt|pt|ft)\.)(?<!\d (?:hrs|tsp|lbs)\.)[\"'”’)]?\s+"
)


@remembered
def sentences(text: str) -> tuple[str, ...]:
    """The sentences of a step in lower case with straight quotes."""
    plain = " ".join(text.lower().replace("’", "'").split())
    return tuple(one for one in SENTENCE.split(plain) if one)


@remembered
def readings(text: str) -> tuple[Reading, ...]:
    """The sentences of a step, each read behind the ones before it."""
    out: list[Reading] = []
    # Where nothing was named yet, a step about canning speaks of jars.
    last, before = frozenset({"jar"}), frozenset[str]()
    for sentence in sentences(text):
        reading, last = read(sentence, last, before)
        out.append(reading)
        before |= reading.spots.keys()
    return tuple(out)
