"""The minutes a formula's own table gives: at an altitude, for a jar; nothing between its bands and nothing beyond."""

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from brimline.batch.words import listed
from brimline.document.values import Band, Document
from brimline.moves.times import Column, at, columns
from brimline.review.suppose import speak
from brimline.review.suppose.values import Asked

_NONE = "a time that the table does not give"


class Timed(Struct, frozen=True):
    """What the table gives: the words (`half-pint jars take 10 minutes`), the time alone if it is one, and whether every

    jar has a time there.
    """

    says: str
    alone: str
    whole: bool


def minutes(document: Document, asked: Asked | None) -> Timed | None:
    """The times of a formula at an altitude, or its whole rows without one; None if it has no time at all.

    Of a range of altitudes the highest counts, so that the time is long enough everywhere in it.
    """
    found = [(process.method, column) for process in document.process for column in columns(process)]
    if not found:
        return None
    said: dict[str, list[str]] = {}
    reaches: list[str] = []
    whole = True
    for method, column in found:
        words, reach = _words(column, asked)
        whole = whole and words != _NONE
        reaches.append(reach)
        said.setdefault(words, []).append(_jar(method, column, document))
    parts = [f"{listed(list(dict.fromkeys(jars)))} jars take {words}" for words, jars in said.items()]
    reach = reaches[0] if len(set(reaches)) == 1 else ""
    alone = f"{next(iter(said))}{reach}" if len(said) == 1 else ""
    return Timed("; ".join(parts) if asked is None else f"{listed(parts)}{reach}", alone, whole)


def _words(column: Column, asked: Asked | None) -> tuple[str, str]:
    """The time of a jar, and the altitudes it is for."""
    bands: Sequence[Band] = column.row.bands
    if asked is None:
        return speak.times(tuple(bands)), ""
    high = asked.high if asked.high is not None else asked.number or Fraction(0)
    band = at(bands, high)
    if band is None:
        return _NONE, ""
    place = next(number for number, one in enumerate(bands) if one is band)
    return speak.minutes(band), _reach(bands[place - 1].up_to_ft if place else None, band)


def _reach(below: Fraction | None, band: Band) -> str:
    """The altitudes a band is for."""
    if band.up_to_ft is None:
        return "" if below is None else f", the time above {speak.altitude(below, band.unit)}"
    if below is None:
        return f", the time up to {speak.altitude(band.up_to_ft, band.unit)}"
    return f", the time above {speak.altitude(below, band.unit)} and up to {speak.altitude(band.up_to_ft, band.unit)}"


def _jar(method: str, column: Column, document: Document) -> str:
    fill = f"{column.fill}-packed " if column.fill else ""
    several = len({process.method for process in document.process if process.rows}) > 1
    return f"{fill}{speak.jar(column.jar)}{f' ({method})' if several else ''}"
