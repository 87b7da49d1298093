"""The ingredient table: entries by name, each built when it is first asked for."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from functools import lru_cache
from typing import Any

from brimline.figures._made import made
from brimline.figures.values import Entry, Weight


def _number(text: str | None) -> Fraction | None:
    return None if text is None else Fraction(text)


def _entry(raw: list[Any]) -> Entry:
    weights = tuple(
        Weight(state, unit, Fraction(low), Fraction(high), how, source)
        for state, unit, low, high, how, source in raw[7]
    )
    ph = raw[13]
    return Entry(
        name=raw[0],
        aliases=tuple(raw[1]),
        sort=raw[2],
        safety=raw[3],
        family=raw[4],
        tags=frozenset(raw[5]),
        roles=tuple(raw[6]),
        weights=weights,
        solids=_number(raw[8]),
        sugars=_number(raw[9]),
        sucrose=_number(raw[10]),
        water=_number(raw[11]),
        insoluble=_number(raw[12]),
        ph=None if ph is None else (Fraction(ph[0]), Fraction(ph[1])),
        acid=_number(raw[14]),
        acid_as=raw[15],
        allergens=tuple(raw[16]),
        note=raw[17],
        sources=tuple((figure, source) for figure, source in raw[18]),
        pectin=raw[19],
        refuse=_number(raw[20]),
    )


class _Entries(Mapping[str, Entry]):
    """All entries by name; an entry's values are made when it is looked up, so that starting costs nothing."""

    __slots__ = ("_places", "_raw", "_seen")

    def __init__(self, raw: list[list[Any]]) -> None:
        self._raw = raw
        self._places = {entry[0]: place for place, entry in enumerate(raw)}
        self._seen: dict[str, Entry] = {}

    def __getitem__(self, name: str) -> Entry:
        known = self._seen.get(name)
        if known is None:
            known = self._seen[name] = _entry(self._raw[self._places[name]])
        return known

    def __iter__(self) -> Iterator[str]:
        return iter(self._places)

    def __len__(self) -> int:
        return len(self._places)


@lru_cache(maxsize=1)
def entries() -> Mapping[str, Entry]:
    """Every ingredient of the table by its name, in the order of the table's files."""
    return _Entries(made("figures")["entries"])
