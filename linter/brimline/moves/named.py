"""The ingredients of the table that the words of a sentence name, wherever they stand in it."""

from msgspec import Struct

from brimline._remember import remembered
from brimline.figures import names
from brimline.figures.values import Entry

# Words of a name that the table has, at most.
LONGEST = 5
FISHED = frozenset(["out", "the", "it", "them", "that"])
JOINS = frozenset(["and", "or", "the", "with", "then", "but", "plus"])
FILL = frozenset(
    [
        "a",
        "an",
        "the",
        "and",
        "or",
        "of",
        "in",
        "to",
        "with",
        "for",
        "on",
        "at",
        "by",
        "from",
        "into",
        "each",
        "any",
        "all",
        "some",
        "your",
        "its",
        "their",
        "his",
        "her",
        "both",
    ]
)


class Named(Struct, frozen=True):
    """An ingredient that a sentence names: its entry, and the tokens of its words."""

    entry: Entry
    start: int
    end: int


@remembered
def named(tokens: tuple[str, ...]) -> tuple[Named, ...]:
    """The ingredients of the table that words name, in order, the longest names first; the last word is a mark."""
    found: list[Named] = []
    at = 0
    while at < len(tokens):
        one = next(filter(None, (_named(tokens, at, at + size) for size in range(LONGEST, 0, -1))), None)
        # Without words before it that add nothing a name may go on further: `cold yellow sweet corn syrup` is no corn.
        if one is None or _entry(tokens[at + 1 : one.end]) == one.entry:
            at += 1
        else:
            found.append(one)
            at = one.end
    return tuple(found)


def _named(tokens: tuple[str, ...], start: int, end: int) -> Named | None:
    """What words name, without the words at the end that add nothing."""
    # To fish something out is to take it out.
    fished = tokens[start] == "fish" and tokens[start + 1] in FISHED
    # A name begins with a word of its own: `and the light corn` is no corn where syrup follows.
    # Nor does it go over an `and`: water and the lime juice are no lime water.
    apart = fished or tokens[start] in FILL or not JOINS.isdisjoint(tokens[start:end])
    entry = None if apart else _entry(tokens[start:end])
    if entry is None:
        return None
    # What names a food by itself is no such word: mandarin oranges in syrup hold neither an orange nor a syrup more.
    while _entry(tokens[start : end - 1]) == entry and _entry(tokens[end - 1 : end]) is None:
        end -= 1
    return Named(entry, start, end)


def _entry(words: tuple[str, ...]) -> Entry | None:
    if not all(word[0].isalpha() for word in words):
        return None
    text = " ".join(words)
    # `Red and green` names no food, though a table may know greens.
    if not names.stated(text, ())[0]:
        return None
    return names.find(text, near=False).entry
