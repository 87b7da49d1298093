"""Times and altitudes: every jar at every altitude gets at least the time that was tested."""

from collections.abc import Iterator
from fractions import Fraction

from brimline.batch.words import decimal, feet, listed
from brimline.document.values import Band, Document
from brimline.findings import Figure, Flag, Span
from brimline.moves.published import stretches
from brimline.moves.times import at, fits
from brimline.moves.values import Case, Gap
from brimline.rules.contract import rule
from brimline.rules.jar import listed_jars
from brimline.rules.say import before_span, figure


def stretch(gap: Gap) -> str:
    """The altitudes of a gap in the author's unit."""
    if gap.high_ft is None:
        return f"above {feet(gap.low_ft, gap.unit)}"
    return f"from {feet(gap.low_ft, gap.unit)} to {feet(gap.high_ft, gap.unit)}"


@rule("heat/time", decides=("time-shorter", "band-widened", "jar-smaller-shorter", "time-longer", "ten-minutes-clean"))
def no_jar_gets_less_time(case: Case) -> Iterator[Flag]:
    """Every jar at every altitude gets at least the tested time.

    Water boils cooler the higher you are, and a time that is short at one altitude leaves the middle of the jar
    underheated there.
    """
    if case.tested is None:
        return
    short: dict[tuple[Span, Fraction], Gap] = {}
    for gap in case.gaps:
        if not gap.missing:
            short.setdefault((gap.at, gap.low_ft), gap)
    for gap in short.values():
        widened = gap.edge or gap.tested is None
        row = "jar-smaller-shorter" if gap.borrowed else "band-widened" if widened else "time-shorter"
        yield Flag(row, gap.at, _short(gap), _figures(gap), before_span(case, gap.before))
    long = _long(case.tested, case.document) if case.gelled and not case.gaps else None
    if long is not None:
        says = f"{decimal(long.minutes)} min, more than twice the tested time at this altitude."
        yield Flag("time-longer", long.span, says, level="quality", harm="soft-set")


def _tested_at(tested: Document, altitude: Fraction) -> Fraction | None:
    """The longest tested time at an altitude."""
    found = [at(row.bands, altitude) for process in tested.process for row in process.rows]
    return max((band.minutes for band in found if band is not None), default=None)


def _short(gap: Gap) -> str:
    here = _minutes(gap.here)
    if gap.tested_psi is not None and (gap.here_psi is None or gap.here_psi < gap.tested_psi):
        here += " without a pressure" if gap.here_psi is None else f" at {decimal(gap.here_psi)} psi"
        return f"{gap.jar} {stretch(gap)}: {decimal(gap.tested_psi)} psi tested, {here} here."
    takes = f" (it takes the {gap.tested_jar} time)" if gap.borrowed else ""
    return f"{gap.jar}{takes} {stretch(gap)}: {_minutes(gap.tested)} tested, {here} here."


def _minutes(time: Fraction | None) -> str:
    return "no time" if time is None else f"{decimal(time)} min"


def _figures(gap: Gap) -> tuple[Figure, ...]:
    sides = (("tested", gap.tested), ("here", gap.here))
    return tuple(figure(name, "none" if time is None else decimal(time), "min") for name, time in sides)


def _long(tested: Document, adapted: Document) -> Band | None:
    """The first band with more than twice the tested time at its middle: a gelled product overcooks."""
    jars = listed_jars(tested)
    for process in adapted.process:
        for row in process.rows:
            known = all(any(fits(jar, one) for one in jars) for jar in row.jars)
            for low, high, band in stretches(row.bands) if known else ():
                time = _tested_at(tested, (low + high) / 2)
                if time is not None and band.minutes > 2 * time:
                    return band
    return None


@rule("heat/band", decides=("band-missing",))
def every_altitude_has_a_time(case: Case) -> Iterator[Flag]:
    """Every altitude that the tested table covers, and the collection's own, has a time.

    A reader who lives higher than the table goes will use the time of the next band below it, which is too short.
    """
    gap = next((gap for gap in case.gaps if gap.missing), None)
    if gap is not None:
        says = f"{gap.jar} {stretch(gap)}: {_minutes(gap.tested)} tested, no time here."
        yield Flag("band-missing", gap.at, says, (), before_span(case, gap.before))
    if case.tested is None and case.document.standing != "draft":
        yield from _uncovered(case)


def _uncovered(case: Case) -> Iterator[Flag]:
    """A formula by itself whose table stops below the top: a note, unless the collection lies above it."""
    for process in case.document.process:
        for row in process.rows:
            top = row.bands[-1].up_to_ft
            if top is None:
                continue
            place = _above(case.altitude_ft, top)
            yield Flag(
                "band-missing",
                row.span,
                f"{listed([jar.name for jar in row.jars])}: no time above {feet(top, row.bands[-1].unit)}.{place}",
                level="untested" if place else "form",
                harm="illness" if place else "record",
            )


def _above(there: Fraction | None, top: Fraction) -> str:
    """Where a collection lies above the last time of a row, as a sentence; empty if it does not."""
    return f" The collection lies at {feet(there, 'ft')}." if there is not None and there > top else ""


@rule("heat/published", decides=("below-published",))
def time_is_the_published_one(case: Case) -> Iterator[Flag]:
    """A formula read by itself states no time below the published table of the product its source names.

    The table is what was tested; a shorter time is a slip of the pen or a wish.
    """
    if case.tested is not None or case.document.standing == "draft":
        return
    for gap in case.gaps[:1]:
        yield Flag("below-published", gap.at, _short(gap).replace("tested", "published"), _figures(gap))
