"""Process times as step functions of altitude, jar by jar.

Nothing is interpolated: a jar takes its own time or that of the next larger listed jar, and at an altitude it takes
the time of the band it lies in. Two band edges within ten metres are one edge.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from msgspec import Struct

from brimline.document.values import Band, Document, Jar, Process, Times
from brimline.moves.values import Gap

TOP_FT = Fraction(10000)
TEN_METRES_FT = Fraction(10) / Fraction("0.3048")
# Two jars within half a percent are one size (473 ml and a pint).
SAME_JAR = Fraction(5, 1000)


class Column(Struct, frozen=True):
    """One jar's times: the jar, the fill if the row states one, its bands."""

    jar: Jar
    fill: str
    row: Times


def columns(process: Process) -> tuple[Column, ...]:
    """Every jar of a process with its row."""
    return tuple(Column(jar, row.fill, row) for row in process.rows for jar in row.jars)


def fits(jar: Jar, other: Jar) -> bool:
    """Whether `jar` is not larger than `other`."""
    return jar.volume_ml <= other.volume_ml * (1 + SAME_JAR)


def same_size(jar: Jar, other: Jar) -> bool:
    """Whether two jars are one size by the jar table."""
    return jar.name == other.name or (fits(jar, other) and fits(other, jar))


def listed_for(jar: Jar, fill: str, among: Sequence[Column]) -> Column | None:
    """The column a jar takes: the smallest listed jar that is not smaller, of the same fill if fills are stated."""
    if not jar.volume_ml:
        # A container that is no canning jar has no size that a time was tested for.
        return None
    fitting = [one for one in among if fits(jar, one.jar) and (not one.fill or not fill or one.fill == fill)]
    return min(fitting, key=lambda one: (one.jar.volume_ml, one.row.span.start), default=None)


def at(bands: Sequence[Band], altitude: Fraction) -> Band | None:
    """The band an altitude lies in; None above the last closed band."""
    return next((band for band in bands if band.up_to_ft is None or altitude <= band.up_to_ft), None)


def edges(*tables: Sequence[Band]) -> list[Fraction]:
    """All band edges from 0 to the top, edges within ten metres taken as one."""
    found = sorted({band.up_to_ft for bands in tables for band in bands if band.up_to_ft is not None})
    out = [Fraction(0)]
    for edge in found:
        if edge - out[-1] > TEN_METRES_FT and edge < TOP_FT:
            out.append(edge)
    return [*out, TOP_FT]


def same_times(one: Sequence[Band], other: Sequence[Band]) -> bool:
    """Whether two rows give the same minutes and pressure at every altitude."""
    if _alike(one, other):
        return True
    middles = [middle for _, _, middle in _stretches(one, other)]
    return [_given(one, middle) for middle in middles] == [_given(other, middle) for middle in middles]


def _stretches(*tables: Sequence[Band]) -> Iterator[tuple[Fraction, Fraction, Fraction]]:
    """From one edge to the next: where a stretch begins and ends, and its middle, which lies in one band only."""
    for low, high in pairwise(edges(*tables)):
        yield low, high, (low + high) / 2


def _given(bands: Sequence[Band], altitude: Fraction) -> tuple[Fraction, Fraction | None] | None:
    """Minutes and pressure at an altitude; None where there is no time."""
    band = at(bands, altitude)
    return (band.minutes, band.psi) if band else None


def _alike(one: Sequence[Band], other: Sequence[Band]) -> bool:
    """Whether two rows state the same bands, in other words: nothing has to be compared."""
    left, right = ([(band.minutes, band.psi, band.up_to_ft) for band in side] for side in (one, other))
    return left == right


def gaps(tested: Document, adapted: Document) -> Iterator[Gap]:
    """Every stretch of altitude where a jar of the adaptation gets less than tested, or no time at all."""
    for process in adapted.process:
        same = [one for one in tested.process if _method(one.method) == _method(process.method)]
        listed = [column for one in same for column in columns(one)]
        here = columns(process)
        fill = adapted.pack.fill.value if adapted.pack.fill else ""
        for jar in _jars(adapted, process):
            column = listed_for(jar, fill, here)
            target = listed_for(jar, column.fill if column and column.fill else fill, listed)
            if target is None:
                continue
            yield from _compare(jar, target, column.row if column else None, process)


def _method(word: str) -> str:
    """Steam and boiling water share their times; the change of method is judged by a rule of its own."""
    return "boiling-water" if word == "steam" else word


def _jars(adapted: Document, process: Process) -> list[Jar]:
    """The jars a process must cover: those of its rows and those of the pack section, each once."""
    out: list[Jar] = []
    for jar in (*(jar for row in process.rows for jar in row.jars), *adapted.pack.jars):
        if not any(same_size(jar, one) for one in out):
            out.append(jar)
    return out


def _compare(jar: Jar, target: Column, row: Times | None, process: Process) -> Iterator[Gap]:
    """The short stretches of one jar; no two neighbours lie under the same two bands, for each edge ends a band."""
    bands = row.bands if row else ()
    if _alike(target.row.bands, bands):
        return
    pieces = [
        (low, high, at(target.row.bands, middle), at(bands, middle))
        for low, high, middle in _stretches(target.row.bands, bands)
    ]
    fine = {id(now) for _, _, was, now in pieces if was and now and not _short(was, now, ())}
    for low_ft, high_ft, was, now in (one for one in pieces if _short(*one[2:], target.row.bands)):
        yield Gap(
            jar=jar.name,
            tested_jar=target.jar.name,
            low_ft=low_ft,
            high_ft=None if high_ft == TOP_FT else high_ft,
            tested=was.minutes if was else None,
            here=now.minutes if now else None,
            tested_psi=was.psi if was else None,
            here_psi=now.psi if now else None,
            at=now.span if now else row.span if row else process.span,
            before=was.span if was else target.row.span,
            unit=next(band.unit for band in (now, *bands, was) if band),
            missing=now is None,
            edge=id(now) in fine,
        )


def _short(was: Band | None, now: Band | None, tested: Sequence[Band]) -> bool:
    """Whether a stretch is short: less time or pressure, no time, or a tested time carried above the tested bands."""
    if was is None:
        return now is not None and any(now.minutes <= band.minutes for band in tested)
    if now is None:
        return True
    return now.minutes < was.minutes or (was.psi is not None and (now.psi is None or now.psi < was.psi))
