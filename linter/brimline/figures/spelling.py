"""The closest known names to an unknown one. Only loaded when a name is not known."""

from functools import lru_cache

from brimline.figures._made import made
from brimline.figures.words import folded, single, words
from brimline.tree.near import distance

_AT_MOST = 3
# A name is offered if its words differ by less than this share of their letters on average.
_FAR = 0.45
_FIRST_LETTER = 0.08
_EXTRA_WORD = 0.3


@lru_cache(maxsize=1)
def _known() -> dict[str, tuple[tuple[str, ...], str]]:
    """Every name that can be written, in its own spelling, with its words and the entry it means."""
    return {text: (words(text), str(target)) for text, target in made("figures")["written"].items()}


@lru_cache(maxsize=1)
def _vocabulary() -> tuple[str, ...]:
    return tuple(sorted({word for known, _ in _known().values() for word in known}))


def _apart(one: str, other: str) -> float:
    """How far two words are from each other, from 0 for equal ones to 1 and a little."""
    longest = max(len(one), len(other))
    if abs(len(one) - len(other)) > longest / 2:
        return 1.0
    return distance(one, other) / longest + (_FIRST_LETTER if one[0] != other[0] else 0)


@lru_cache(maxsize=256)
def closest(item: str) -> tuple[str, ...]:
    """Up to three known names close to `item`, the closest first, each meaning another entry; empty if nothing is.

    Word by word: how many letters were added, dropped, changed or exchanged; words that the name has besides count
    against it. A name written in one word or in two (`goose berries`) is compared as a whole as well.
    """
    written = [single(word) for word in folded(item)][:12]
    if not written:
        return ()
    far = {word: {known: _apart(word, known) for known in _vocabulary()} for word in written}
    joined = "".join(written)
    scored = []
    for name, (known, target) in _known().items():
        if not known:
            continue
        apart = sum(min(far[word][other] for other in known) for word in written) / len(written)
        extra = _EXTRA_WORD * max(0, len(known) - len(written)) / len(known)
        cost = apart + extra
        if len(known) != len(written) and abs(len(joined) - sum(map(len, known))) <= 3:
            cost = min(cost, _apart(joined, "".join(known)))
        if cost < _FAR:
            scored.append((cost, len(name), name, target))
    best: dict[str, str] = {}
    for _, _, name, target in sorted(scored):
        best.setdefault(target, name)
        if len(best) == _AT_MOST:
            break
    return tuple(best.values())
