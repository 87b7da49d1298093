"""Finds the table's entry for a written name.

A name is a bag of words over the item and its forms. Every word of the item must be accounted for, by the name that
matches or by a closed list of words that only describe (cut, colour, size, state); the name that accounts for most
words wins. What could be two things is never guessed.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from typing import Any

from msgspec import Struct

from brimline.figures._made import made
from brimline.figures.table import entries
from brimline.figures.values import Entry, Match
from brimline.figures.words import folded, named, single

_OR = re.compile(r"\sor\s", re.IGNORECASE)
_BAG, _PHRASE, _AS_WRITTEN, _TWOFOLD = range(4)


class _Written(Struct, frozen=True):
    """An item and its forms as words: folded in order, in the singular as sets."""

    item: tuple[str, ...]
    raw_item: tuple[str, ...]
    forms: tuple[str, ...]
    raw_forms: tuple[str, ...]

    @property
    def bag(self) -> frozenset[str]:
        return frozenset(self.item) | frozenset(self.forms)

    @property
    def raw_bag(self) -> frozenset[str]:
        return frozenset(self.raw_item) | frozenset(self.raw_forms)


@lru_cache(maxsize=1)
def _lists() -> dict[str, frozenset[str]]:
    return {name: frozenset(listed) for name, listed in made("figures")["words"].items()}


def _kept(form: str) -> tuple[str, ...]:
    """The words of a form that say what the thing is: none if it denies or offers a choice, none about other things."""
    lists = _lists()
    written = folded(form)
    if lists["denying"].intersection(written):
        return ()
    turn = next((place for place, word in enumerate(written) if word in lists["turning"]), len(written))
    before = named(written[:turn], lists["stop"], lists["medium"])
    after = named(written[turn:], lists["stop"], lists["medium"])
    return (*before, *(word for word in after if word.startswith("+")))


def _written(item: str, forms: Iterable[str]) -> _Written:
    lists = _lists()
    raw_item = named(folded(item), lists["stop"], lists["medium"])
    raw_forms = tuple(word for form in forms for word in _kept(form))
    return _Written(tuple(map(single, raw_item)), raw_item, tuple(map(single, raw_forms)), raw_forms)


def _follows(sought: Sequence[str], words: Sequence[str]) -> bool:
    """Whether the words stand together in that order."""
    size = len(sought)
    return any(tuple(words[start : start + size]) == tuple(sought) for start in range(len(words) - size + 1))


def _fits(kind: int, name: Sequence[str], written: _Written) -> bool:
    if kind == _PHRASE:
        return _follows(name, written.item)
    if kind == _AS_WRITTEN:
        return written.raw_bag.issuperset(name)
    return written.bag.issuperset(name)


def _candidates(written: _Written) -> dict[tuple[int, ...], list[list[Any]]]:
    """Every name that accounts for all words of the item, by how much it accounts for."""
    compiled = made("figures")
    lists = _lists()
    numbers: dict[int, None] = {}
    for word in (*written.item, *written.raw_item):
        numbers.update(dict.fromkeys(compiled["index"].get(word, ())))
    found: dict[tuple[int, ...], list[list[Any]]] = {}
    item = frozenset(written.item)
    for number in numbers:
        name = compiled["names"][number]
        kind, words = name[0], name[1]
        if not _fits(kind, words, written):
            continue
        known = frozenset(map(single, words))
        if not (item - known) <= lists["describing"]:
            continue
        left = frozenset(written.forms) - known
        if left & lists["identity"] or any(word.startswith("+") for word in left):
            continue
        strengths = sum(word.endswith("%") for word in known)
        rank = (len(known) - strengths, int(kind in (_PHRASE, _AS_WRITTEN)), strengths, len(known & item))
        found.setdefault(rank, []).append(name)
    return found


@lru_cache(maxsize=4096)
def find(item: str, forms: tuple[str, ...] = (), unit: str = "", near: bool = True) -> Match:
    """The ingredient a written name means, or what it could be.

    `item` is the text before the first comma, `forms` the texts after it. `unit` is the canonical unit of the amount
    if there is one; it settles the few names that mean a spice by the teaspoon and a vegetable by the cup (`pepper`).
    `Match.entry` is None for an unknown name (`nearest` then lists up to three known ones, unless `near` is off) and for one that could be
    several things (`ambiguous` lists the entries). `state` holds the words that describe (cut, size, colour, treatment),
    in the order written and in the singular, whether or not they also were part of the name. A form that leaves a choice
    (`white or yellow`) decides nothing, unless one choice is a food of a worse safety class: then it could be either.
    """
    match = _find(item, forms, unit, near)
    worse = _worse(match, _choices(item, forms, unit)) if match.entry else ()
    if match.entry and worse:
        return Match(None, match.state, ambiguous=(match.entry.name, *worse))
    return match


def _choices(item: str, forms: tuple[str, ...], unit: str) -> Iterator[Match]:
    """What the name would mean for each choice that a form leaves."""
    for place, form in enumerate(forms):
        choices = _OR.split(form)
        if len(choices) > 1:
            for choice in choices:
                yield _find(item, (*forms[:place], choice, *forms[place + 1 :]), unit, False)


def _worse(match: Match, choices: Iterable[Match]) -> tuple[str, ...]:
    """The entries among the choices that are of a worse safety class than the one matched, each once."""
    found = (choice.entry for choice in choices)
    graver = _grave(match.entry)
    return tuple(dict.fromkeys(entry.name for entry in found if entry and _grave(entry) > graver))


def _grave(entry: Entry | None) -> int:
    """How careful one has to be with it, from 0 for what is acid enough or does not matter."""
    if entry is None:
        return 0
    if entry.tags & {"poison", "no-process"}:
        return 3
    return {"borderline": 1, "low-acid": 2}.get(entry.safety, 0)


def _find(item: str, forms: tuple[str, ...], unit: str, near: bool) -> Match:
    """The match without regard to the choices that forms leave."""
    written = _written(item, forms)
    found = _candidates(written)
    if not found:
        return Match(None, nearest=nearest(item) if near else ())
    best = found[max(found)]
    meant: dict[str, None] = {}
    for kind, _, target in best:
        if kind == _TWOFOLD:
            by_unit = target["by-unit"].get(unit)
            meant.update(dict.fromkeys([by_unit] if by_unit else target["could-be"]))
        else:
            meant[target] = None
    describing = _lists()["describing"]
    state = tuple(dict.fromkeys(word for word in (*written.item, *written.forms) if word in describing))
    if len(meant) > 1:
        return Match(None, state, ambiguous=tuple(meant))
    return Match(entries()[next(iter(meant))], state)


def stated(item: str, forms: tuple[str, ...]) -> tuple[frozenset[str], tuple[str, ...]]:
    """The words of a name that say what the thing is, in the singular, and those that only describe it, in order."""
    written, describing = _written(item, forms), _lists()["describing"]
    words = (*written.item, *written.forms)
    known = tuple(dict.fromkeys(word for word in words if word in describing))
    return frozenset(word for word in words if word not in describing), known


def nearest(item: str) -> tuple[str, ...]:
    """Up to three known names closest to one that is not known, the closest first; for messages only."""
    from brimline.figures.spelling import closest

    return closest(item)
