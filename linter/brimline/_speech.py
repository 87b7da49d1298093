"""The words of cooks by what they mean, as the maker wrote them from `figures/tables/speech.yaml`."""

from functools import cache
from pathlib import Path
from typing import Any

import msgspec

# In a phrase, any word.
ANY = r"\w"
# A word, a choice between words with whether it may be left out, or a choice between phrases.
Part = Any


class Words(msgspec.Struct, frozen=True):
    """Meanings of single words, with blanks between; phrases; what is made of others.

    A phrase is a list of words and of choices between phrases. `firsts` has the numbers of the phrases that can begin
    with a word, `base` the plain forms of verbs, `hide` the meanings whose phrases hide the words inside them. A row of
    `joined` is two meanings, how many words may stand between, and whether it may leave the clause.
    """

    single: dict[str, str]
    patterns: tuple[msgspec.Raw, ...]
    firsts: dict[str, tuple[int, ...]]
    base: frozenset[str]
    hide: frozenset[str]
    joined: dict[str, tuple[tuple[str, int, str, bool], ...]]


@cache
def words() -> Words:
    """The dictionary, read when the first step is."""
    return msgspec.json.decode((Path(__file__).parent / "made" / "speech.json").read_bytes(), type=Words)


Phrase = tuple[str, tuple[Part, ...], frozenset[str]]


@cache
def phrase(number: int) -> Phrase:
    """A phrase's meaning, its words, and the words that can stand second; a step needs few of them."""
    name, parts, seconds = msgspec.json.decode(words().patterns[number])
    return name, _parts(parts), frozenset(seconds)


def _parts(written: list[Any]) -> tuple[Part, ...]:
    return tuple(part if isinstance(part, str) else _choice(part) for part in written)


def _choice(several: list[list[Any]]) -> Part:
    if all(not one or (len(one) == 1 and isinstance(one[0], str) and one[0] != ANY) for one in several):
        return frozenset(one[0] for one in several if one), [] in several
    return tuple(_parts(one) for one in several)


@cache
def meanings(word: str) -> tuple[str, ...]:
    """What a single word means."""
    return tuple(words().single.get(word, "").split())
