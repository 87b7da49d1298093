"""Jars and heat: the jar, time, altitude band, method, fill, headspace and lid that were tested."""

from collections.abc import Iterator
from fractions import Fraction

from brimline.batch.classes import GELLED_KINDS
from brimline.batch.words import decimal, feet, listed, number
from brimline.document.values import Band, Document, Jar
from brimline.findings import Figure, Flag
from brimline.moves.listing import section
from brimline.moves.times import at, columns, fits, same_size
from brimline.moves.values import Case, Gap
from brimline.rules.contract import rule
from brimline.rules.say import before_span, figure

SIXTEENTH = Fraction(1, 16)
CANNED = ("boiling-water", "steam", "pressure")
COLD = ("refrigerator", "freezer")
TEN = Fraction(10)


def listed_jars(document: Document) -> tuple[Jar, ...]:
    """Every jar a formula gives a time for, or names in its pack section where the process has no times."""
    timed = tuple(jar for process in document.process for column in columns(process) for jar in (column.jar,))
    return timed or document.pack.jars


def all_jars(document: Document) -> tuple[Jar, ...]:
    """Every jar a formula names, in its pack section, its process and its yield, each once."""
    out: list[Jar] = []
    named = (*document.pack.jars, *(column.jar for process in document.process for column in columns(process)))
    for jar in (*named, *((document.yields.jar,) if document.yields else ())):
        if not any(same_size(jar, one) for one in out):
            out.append(jar)
    return tuple(out)


@rule("jar/larger", decides=("jar-larger", "jar-between"))
def no_jar_is_larger_than_tested(case: Case) -> Iterator[Flag]:
    """No jar is larger than the largest one with a tested time.

    The middle of a larger jar heats later, and no calculation gives a time for it.
    """
    if case.tested is None or not _canned(case.document):
        return
    tested = listed_jars(case.tested)
    if not tested:
        return
    largest = max(tested, key=lambda jar: jar.volume_ml)
    for jar in all_jars(case.document):
        if not fits(jar, largest):
            yield Flag(
                "jar-larger",
                jar.span,
                f"{jar.name} ({decimal(jar.volume_ml, 0)} ml) is larger than the largest jar with a tested time, "
                f"{largest.name} ({decimal(largest.volume_ml, 0)} ml).",
                (figure("jar", decimal(jar.volume_ml, 0), "ml"),),
                before_span(case, largest.span),
            )
            return


def _canned(document: Document) -> bool:
    """Whether a formula is kept sealed at room temperature; one without a process is taken to be."""
    return not document.process or any(process.method in CANNED for process in document.process)


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
    for gap in case.gaps:
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


@rule("jar/sterile", decides=("sterile-dropped", "sterile-added"))
def short_times_have_sterile_jars(case: Case) -> Iterator[Flag]:
    """Jars are sterile wherever the time at the lowest altitude is under ten minutes.

    Ten minutes in boiling water clean a jar; five do not.
    """
    document = case.document
    for process in document.process:
        if process.method not in ("boiling-water", "steam"):
            continue
        for column in columns(process):
            # Where the Guide's own tables leave it open, the time of the lowest band decides: the cautious reading.
            times = [band.minutes for band in column.row.bands]
            if not times or min(times) >= TEN or _sterile(document, column.jar):
                continue
            at = document.pack.prepare[0].span if document.pack.prepare else section(document, "pack", "process")
            gelled = document.product in GELLED_KINDS
            yield Flag(
                "sterile-dropped",
                at,
                f"{column.jar.name} is processed {decimal(min(times))} min, and the jars are not said to be sterile.",
                (figure("shortest time", decimal(min(times)), "min"),),
                before_span(
                    case, case.tested.pack.prepare[0].span if case.tested and case.tested.pack.prepare else None
                ),
                level="untested" if gelled else "unsafe",
                harm="spoilage" if gelled else "illness",
            )
            return


def _sterile(document: Document, jar: Jar) -> bool:
    return any(
        one.kind == "sterile" and (not one.jars or any(same_size(jar, other) for other in one.jars))
        for one in document.pack.prepare
    )


STEAM_WORDS = ("steam", "vent", "column", "212", "dome", "temperature")


@rule("heat/method", decides=("method-weaker", "method-steam", "method-pressure", "method-cold"))
def method_is_as_strong(case: Case) -> Iterator[Flag]:
    """Jars are processed by the tested method.

    Only heat that reaches the middle of every jar kills what was sealed in; a method that seals without it, or a
    weaker one, leaves it alive.
    """
    document, tested = case.document, case.tested
    if tested is None:
        if not document.process and document.standing == "tested":
            text = "No process is stated: nothing here says how the jars are heated or kept cold."
            yield Flag("method-weaker", section(document, "process"), text)
        return
    was = [process.method for process in tested.process]
    now = [process.method for process in document.process]
    place = document.process[0].span if document.process else section(document, "process")
    before = before_span(case, tested.process[0].span if tested.process else None)
    if any(method in CANNED for method in was) and not now:
        yield Flag(
            "method-weaker", place, f"The tested formula is processed ({listed(was)}); this one is not.", (), before
        )
        return
    for process in document.process:
        row, level = _method(process.method, was, case)
        if row:
            yield Flag(
                row,
                process.span,
                f"The tested formula is processed by {listed(was) or 'nothing'}, this one by {process.method}.",
                (),
                before,
                level=level,
            )


def _method(now: str, was: list[str], case: Case) -> tuple[str, str]:
    if now == "freezer" and any("gelatin" in group.tags for group in case.batch.groups):
        return "method-cold", "untested"
    if now in was or now in COLD:
        return "", ""
    if not any(method in CANNED for method in was):
        return ("", "")
    if now == "boiling-water":
        return ("method-weaker", "") if "pressure" in was else ("", "")
    if now == "steam":
        recorded = sum(word in " ".join(step.text.lower() for step in case.document.make) for word in STEAM_WORDS) >= 3
        times = [band.minutes for p in case.document.process for row in p.rows for band in row.bands]
        short = bool(times) and max(times) <= 45
        fine = recorded and short and case.kind != "fruit curd"
        return "method-steam", "silent" if fine else ""
    return "method-pressure", ""


@rule("heat/fill", decides=("fill-cold", "fill-hot"))
def jars_are_filled_as_tested(case: Case) -> Iterator[Flag]:
    """Jars are filled hot where hot was tested, raw where raw was.

    A jar filled cold starts behind: the tested time counts on food that was hot.
    """
    if case.tested is None or not _canned(case.document):
        return
    was, now = case.tested.pack.fill, case.document.pack.fill
    if was is None or now is None or was.value == now.value:
        return
    times = [band.minutes for process in case.document.process for row in process.rows for band in row.bands]
    text = f"The tested formula fills {was.value}, this one {now.value}."
    if now.value == "raw":
        level = "unsafe" if not times or min(times) < 15 else "untested"
        yield Flag("fill-cold", now.span, text, (), before_span(case, was.span), level=level)
    else:
        yield Flag("fill-hot", now.span, text, (), before_span(case, was.span))


@rule("jar/headspace", decides=("headspace",))
def headspace_is_as_tested(case: Case) -> Iterator[Flag]:
    """The gap under the lid is the tested one, to a sixteenth of an inch.

    Too little and food boils out under the lid; too much and the air is not driven out, so the jar does not seal.
    """
    if case.tested is None or not _canned(case.document):
        return
    was, now = case.tested.pack.headspace, case.document.pack.headspace
    for here in now:
        tested = [one for one in was if not one.jars or not here.jars or _shares(one.jars, here.jars)]
        if tested and all(abs(here.inches - one.inches) > SIXTEENTH for one in tested):
            yield Flag(
                "headspace",
                here.span,
                f"{number(tested[0].inches)} in was tested, {number(here.inches)} in is written here.",
                (figure("tested", number(tested[0].inches), "in"), figure("here", number(here.inches), "in")),
                before_span(case, tested[0].span),
            )
    if was and not now and any(process.method in CANNED for process in case.document.process):
        yield Flag(
            "headspace",
            section(case.document, "pack"),
            f"{number(was[0].inches)} in was tested, none is written here.",
            (),
            before_span(case, was[0].span),
        )


def _shares(one: tuple[Jar, ...], other: tuple[Jar, ...]) -> bool:
    return any(same_size(a, b) for a in one for b in other)


LIDS = {"two-piece": "", "reusable plastic": "quality"}
NO_LID = ("none", "wax", "paraffin", "no lid", "cellophane", "cloth", "paper")
OTHER_LIDS = ("used", "reused", "wire-bail", "wire bail", "bail", "zinc", "lug", "one-piece", "rubber", "clip")


@rule("jar/lid", decides=("lid-none", "lid-other"))
def lids_are_new_and_two_piece(case: Case) -> Iterator[Flag]:
    """Jars are closed with new two-piece lids.

    Wax and old closures let mold in under them, and a used lid fails more often.
    """
    lid = case.document.pack.lid
    if lid is None:
        return
    word = lid.value.lower()
    before = before_span(case, case.tested.pack.lid.span if case.tested and case.tested.pack.lid else None)
    if any(one in word.split(", ") or one in word for one in NO_LID):
        yield Flag("lid-none", lid.span, f"The lid is given as {lid.value}.", (), before)
    elif any(one in word for one in OTHER_LIDS):
        yield Flag("lid-other", lid.span, f"The lid is given as {lid.value}.", (), before)
    elif "plastic" in word:
        yield Flag("lid-other", lid.span, f"The lid is given as {lid.value}.", (), before, level="quality")
