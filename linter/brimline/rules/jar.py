"""Jars and heat: the jar, time, altitude band, method, fill, headspace and lid that were tested."""

from collections.abc import Iterator
from fractions import Fraction

from brimline.batch.classes import GELLED_KINDS
from brimline.batch.words import decimal, number
from brimline.document.values import Document, Jar
from brimline.findings import Flag
from brimline.moves.listing import first, section
from brimline.moves.times import columns, fits, same_size
from brimline.moves.values import Case
from brimline.rules.additive import notes
from brimline.rules.contract import rule
from brimline.rules.say import before_span, figure
from brimline.rules.standins import SOURCES, no_lid

SIXTEENTH = Fraction(1, 16)
BOILING = ("boiling-water", "steam")
CANNED = (*BOILING, "pressure")
COLD = ("refrigerator", "freezer")


def listed_jars(document: Document) -> tuple[Jar, ...]:
    """Every jar a formula gives a time for, or names in its pack section where the process has no times."""
    timed = tuple(column.jar for process in document.process for column in columns(process))
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
    if case.tested is None or not is_canned(case.document):
        return
    tested = listed_jars(case.tested)
    if not tested:
        return
    largest = max(tested, key=lambda jar: jar.volume_ml)
    jar = next((jar for jar in all_jars(case.document) if not fits(jar, largest)), None)
    if jar is not None:
        most, here = (str(round(one.volume_ml)) for one in (largest, jar))
        yield Flag(
            "jar-larger",
            jar.span,
            f"{jar.name} ({here} ml) is larger than the largest jar with a tested time, {largest.name} ({most} ml).",
            (figure("jar", here, "ml"),),
            before_span(case, largest.span),
        )


def is_canned(document: Document) -> bool:
    """Whether a formula is kept sealed at room temperature; one without a process is taken to be."""
    return not document.process or any(process.method in CANNED for process in document.process)


@rule("jar/sterile", decides=("sterile-dropped", "sterile-added"))
def short_times_have_sterile_jars(case: Case) -> Iterator[Flag]:
    """Jars are sterile wherever the time at the lowest altitude is under ten minutes.

    Ten minutes in boiling water clean a jar; five do not.
    """
    document = case.document
    enough = case.printed("sterile_jars/rule", "process under").low
    boiled = [column for process in document.process if process.method in BOILING for column in columns(process)]
    # Where the Guide's own tables leave it open, the time of the lowest band decides: the cautious reading.
    times = ((column.jar, min(band.minutes for band in column.row.bands)) for column in boiled)
    short = next(((jar, time) for jar, time in times if time < enough and not _sterile(document, jar)), None)
    if short is not None:
        jar, time = short
        at = first(document.pack.prepare, section(document, "pack", "process"))
        gelled = case.kind in GELLED_KINDS
        yield Flag(
            "sterile-dropped",
            at,
            f"{jar.name} is processed {decimal(time)} min, and the jars are not said to be sterile.",
            (figure("shortest time", decimal(time), "min"),),
            before_span(case, first(case.tested.pack.prepare, None) if case.tested else None),
            level="untested" if gelled else "unsafe",
            harm="spoilage" if gelled else "illness",
        )


def _sterile(document: Document, jar: Jar) -> bool:
    return any(
        one.kind == "sterile" and (not one.jars or any(same_size(jar, other) for other in one.jars))
        for one in document.pack.prepare
    )


@rule("jar/headspace", decides=("headspace",))
def headspace_is_as_tested(case: Case) -> Iterator[Flag]:
    """The gap under the lid is the tested one, to a sixteenth of an inch.

    Too little and food boils out under the lid; too much and the air is not driven out, so the jar does not seal.
    """
    if case.tested is None or (is_canned(case.tested) and not is_canned(case.document)):
        # Kept cold instead, it needs the room that freezing takes.
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


NO_LID = ("none", "wax", "paraffin", "no lid", "cellophane", "cloth", "paper")
OTHER_LIDS = ("used", "reused", "wire-bail", "wire bail", "bail", "zinc", "lug", "one-piece", "rubber", "clip")


@rule("jar/lid", decides=("lid-none", "lid-other"))
def lids_are_new_and_two_piece(case: Case) -> Iterator[Flag]:
    """Jars are closed with new two-piece lids.

    Wax and old closures let mold in under them, and a used lid fails more often.
    """
    for text, span in notes(case.document):
        wax = no_lid(text)
        if wax:
            says = f"This step closes jars without a lid: {wax}."
            yield Flag("lid-none", span, says, source=SOURCES.get(wax, ""))
    lid = case.document.pack.lid
    if lid is None:
        return
    word = lid.value.lower()
    before = before_span(case, case.tested.pack.lid.span if case.tested and case.tested.pack.lid else None)
    if any(one in word for one in NO_LID):
        yield Flag("lid-none", lid.span, f"The lid is given as {lid.value}.", (), before)
    elif any(one in word for one in OTHER_LIDS):
        yield Flag("lid-other", lid.span, f"The lid is given as {lid.value}.", (), before)
    elif "plastic" in word:
        yield Flag("lid-other", lid.span, f"The lid is given as {lid.value}.", (), before, level="quality")
