"""Published figures by id: process times, headspace, limits, doses, lives, and the publications they are from."""

from collections.abc import Mapping
from fractions import Fraction
from functools import lru_cache
from types import MappingProxyType
from typing import Any

from brimline.figures._made import made
from brimline.figures.values import Interval, Number, ProcessTable, Published, TimeRow
from brimline.findings import Source

_JUDGEMENT = Source("judgement", "our judgement, on the cautious side", "", "judgement")


def _source(id_: str, cited: list[str]) -> Source:
    return Source(id_, *cited)


def _published(key: str, raw: dict[str, Any]) -> Published:
    table, _, id_ = key.partition("/")
    numbers = tuple(Number(name, Fraction(low), Fraction(high), unit) for name, low, high, unit in raw["numbers"])
    return Published(
        id=id_,
        table=table,
        says=raw["says"],
        numbers=numbers,
        about=raw["about"],
        applies=raw["for"],
        note=raw["note"],
        inferred=raw["inferred"],
        against=tuple(raw["against"]),
        cautious=raw["cautious"],
        source=_source(id_, raw["source"]),
    )


def _process(id_: str, raw: dict[str, Any]) -> ProcessTable:
    rows = tuple(
        TimeRow(fill, tuple(jars), tuple((minutes, up_to) for minutes, up_to in bands))
        for fill, jars, bands in raw["rows"]
    )
    start = raw["start-minutes"]
    return ProcessTable(
        id=id_,
        product=raw["product"],
        kind=raw["kind"],
        method=raw["method"],
        headspace=None if raw["headspace"] is None else Fraction(raw["headspace"]),
        sterile=tuple(raw["sterile"]),
        acid_required=raw["acid-required"],
        rows=rows,
        start_f=raw["start-f"],
        start_minutes=None if start is None else (start[0], start[1]),
        note=raw["note"],
        source=_source(id_, raw["source"]),
    )


@lru_cache(maxsize=1)
def process_tables() -> Mapping[str, ProcessTable]:
    """Every published process table by id."""
    tables = made("published")["processes"]
    return MappingProxyType({id_: _process(id_, raw) for id_, raw in tables.items()})


@lru_cache(maxsize=512)
def published(id_: str) -> Published:
    """The published figure of an id, alone (`tomato_acid`) or with its table (`storage/lemon_curd`).

    An id that two tables have needs its table.

    Raises KeyError if there is none.
    """
    table = made("published")
    key = table["alone"].get(id_, id_)
    return _published(key, table["figures"][key])


def published_ids() -> tuple[str, ...]:
    """Every published figure by its id with its table (`storage/lemon_curd`), process tables left out."""
    return tuple(made("published")["figures"])


@lru_cache(maxsize=2048)
def source(id_: str) -> Source:
    """The publication behind a source id, and the place in it.

    The id of a published figure or process table, of a source of the ingredient table with or without the place in it
    (`SR28 09003`), or `judgement`. Raises KeyError for any other.
    """
    if id_ == "judgement":
        return _JUDGEMENT
    table = made("published")
    if id_.startswith("factors/"):
        return _source(id_, table["factors"][id_.removeprefix("factors/")]["source"])
    alone = id_.removeprefix("process_times/")
    if alone in table["processes"]:
        return _source(alone, table["processes"][alone]["source"])
    if id_ in table["alone"] or id_ in table["figures"]:
        return published(id_).source
    name, _, place = id_.partition(" ")
    if name not in table["ingredients"]:
        return published(name).source
    title, section, how = table["ingredients"][name]
    return Source(id_, title, f"{section}: {place}" if place else section, how)


def gel_temperature(altitude_ft: int) -> Interval | None:
    """The published temperature in F at which jelly without added pectin is done, from sea level to 8,000 ft.

    A printed altitude gives one number; between two of them the interval runs from the one to the other. None beyond
    the table. Up to 4,000 ft the table was read, above that it is from memory.
    """
    numbers = [number for id_ in ("table_f", "table_f_higher") for number in published(id_).numbers]
    by_altitude = {int(number.name.removeprefix("at ").removesuffix(" ft")): number.low for number in numbers}
    below = [altitude for altitude in by_altitude if altitude <= altitude_ft]
    above = [altitude for altitude in by_altitude if altitude >= altitude_ft]
    if not below or not above:
        return None
    return Interval(by_altitude[min(above)], by_altitude[max(below)])


def conflicts() -> Mapping[str, tuple[tuple[str, ...], str]]:
    """Where publications disagree, by id: what each side says, and what is used."""
    return MappingProxyType({id_: (tuple(sides), used) for id_, sides, used in made("published")["conflicts"]})


def factor(kind: str, fruit: str) -> tuple[Fraction, Source] | None:
    """The factor of a fruit in a US standard of identity (`jelly` or `fruit butter`), with its source.

    Soluble solids in per cent are 100 divided by it. None where the standard does not list the fruit.
    """
    listed = made("published")["factors"].get(kind, {"factors": {}})
    value = listed["factors"].get(fruit)
    return None if value is None else (Fraction(value), source(f"factors/{kind}"))
