"""Finds the known word that a misspelt one was meant to be."""

from collections.abc import Iterable


def nearest(word: str, known: Iterable[str]) -> str:
    """The known word nearest to a word, or empty if none is near enough.

    Capitals, hyphens and blanks do not count. One slip (a letter added, dropped, changed, or two exchanged) is
    allowed in a word of up to four letters, two in one of up to eight, three in a longer one. Of equally near words
    the first one known is taken.
    """
    plain = _plain(word)
    if not plain:
        return ""
    allowed = 1 if len(plain) <= 4 else 2 if len(plain) <= 8 else 3
    best, least = "", allowed + 1
    for one in known:
        other = _plain(one)
        if abs(len(other) - len(plain)) >= least:
            continue
        slips = distance(plain, other)
        if slips < least:
            best, least = one, slips
    return best


def distance(one: str, other: str) -> int:
    """How many slips lead from one word to the other: letters added, dropped, changed, or neighbours exchanged."""
    before: list[int] = []
    last = list(range(len(other) + 1))
    for i, letter in enumerate(one, 1):
        row = [i]
        for j, another in enumerate(other, 1):
            cost = min(last[j] + 1, row[j - 1] + 1, last[j - 1] + (letter != another))
            if i > 1 and j > 1 and letter == other[j - 2] and one[i - 2] == another:
                cost = min(cost, before[j - 2] + 1)
            row.append(cost)
        before, last = last, row
    return last[-1]


def _plain(word: str) -> str:
    return "".join(letter for letter in word[:40].casefold() if letter not in " -_")
