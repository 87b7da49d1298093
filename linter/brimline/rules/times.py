"""Times and altitudes: every jar at every altitude gets at least the time that was tested."""

from collections.abc import Iterator
from fractions import Fraction

from brimline.batch.words import decimal, feet, listed
from brimline.document.values import Band
from brimline.findings import Figure, Flag
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
    seen = set()
    for gap in case.gaps if case.tested is not None else ():
        if gap.missing or (gap.at, gap.low_ft) in seen:
            continue
        seen.add((gap.at, gap.low_ft))
        smaller = gap.jar != gap.tested_jar
        row = "jar-smaller-shorter" if smaller else "band-widened" if gap.edge or gap.tested is None else "time-shorter"
        yield Flag(row, gap.at, _short(gap), _figures(gap), before_span(case, gap.before))
    if case.tested is not None and case.gelled and not case.gaps:
        yield from _long(case)


def _tested_at(case: Case, band: Band, bands: tuple[Band, ...]) -> Fraction:
    """The longest tested time at the middle of a band."""
    below = [one.up_to_ft for one in bands if one.up_to_ft is not None and one.span.start < band.span.start]
    low = max(below, default=Fraction(0))
    middle = (low + (band.up_to_ft if band.up_to_ft is not None else max(low, Fraction(10000)))) / 2
    found = [
        hit.minutes
        for process in case.compared.tested.document.process
        for row in process.rows
        if (hit := at(row.bands, middle)) is not None
    ]
    return max(found, default=band.minutes)


def _short(gap: Gap) -> str:
    here = f"{decimal(gap.here)} min" if gap.here is not None else "no time"
    if gap.here_psi is not None and gap.tested_psi is not None and gap.here_psi < gap.tested_psi:
        here += f" at {decimal(gap.here_psi)} psi"
        return f"{gap.jar} {stretch(gap)}: {decimal(gap.tested_psi)} psi tested, {here} here."
    tested = f"{decimal(gap.tested)} min" if gap.tested is not None else "no time"
    takes = f" (it takes the {gap.tested_jar} time)" if gap.jar != gap.tested_jar else ""
    return f"{gap.jar}{takes} {stretch(gap)}: {tested} tested, {here} here."


def _figures(gap: Gap) -> tuple[Figure, ...]:
    return (
        figure("tested", decimal(gap.tested) if gap.tested is not None else "none", "min"),
        figure("here", decimal(gap.here) if gap.here is not None else "none", "min"),
    )


def _long(case: Case) -> Iterator[Flag]:
    """More than twice the tested time of a gelled product: it overcooks."""
    was = [
        band.minutes for process in case.compared.tested.document.process for row in process.rows for band in row.bands
    ]
    for process in case.document.process:
        for row in process.rows:
            if not all(any(fits(jar, one) for one in listed_jars(case.compared.tested.document)) for jar in row.jars):
                continue
            for band in row.bands:
                if was and band.minutes > 2 * _tested_at(case, band, row.bands):
                    yield Flag(
                        "time-longer",
                        band.span,
                        f"{decimal(band.minutes)} min, more than twice the tested time at this altitude.",
                        (),
                        level="quality",
                        harm="soft-set",
                    )
                    return


@rule("heat/band", decides=("band-missing",))
def every_altitude_has_a_time(case: Case) -> Iterator[Flag]:
    """Every altitude that the tested table covers, and the collection's own, has a time.

    A reader who lives higher than the table goes will use the time of the next band below it, which is too short.
    """
    gaps = [gap for gap in case.gaps if gap.missing]
    for gap in gaps[:1]:
        yield Flag(
            "band-missing",
            gap.at,
            f"{gap.jar} {stretch(gap)}: {decimal(gap.tested) if gap.tested is not None else 'no'} min tested, no time here.",
            (),
            before_span(case, gap.before),
        )
    if case.tested is None and case.document.standing != "draft":
        yield from _uncovered(case)


def _uncovered(case: Case) -> Iterator[Flag]:
    """A formula by itself whose table stops below the top: a note, unless the collection lies above it."""
    for process in case.document.process:
        for row in process.rows:
            if not row.bands or row.bands[-1].up_to_ft is None:
                continue
            top = row.bands[-1].up_to_ft
            above = case.altitude_ft is not None and case.altitude_ft > top
            place = f" The collection lies at {feet(case.altitude_ft, 'ft')}." if above and case.altitude_ft else ""
            yield Flag(
                "band-missing",
                row.span,
                f"{listed([jar.name for jar in row.jars])}: no time above {feet(top, row.bands[-1].unit)}.{place}",
                (),
                level="untested" if above else "form",
                harm="illness" if above else "record",
            )


@rule("heat/published", decides=("below-published",))
def time_is_the_published_one(case: Case) -> Iterator[Flag]:
    """A formula read by itself states no time below the published table of the product its source names.

    The table is what was tested; a shorter time is a slip of the pen or a wish.
    """
    if case.tested is not None or case.document.standing == "draft":
        return
    seen = set()
    for gap in case.gaps:
        line = (gap.at.start, gap.here)
        if line in seen:
            continue
        seen.add(line)
        yield Flag("below-published", gap.at, _short(gap).replace("tested", "published"), _figures(gap))
        return
