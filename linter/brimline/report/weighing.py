"""A weighed batch as text: its lines, the batch, jars and times; what has no figure is said."""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from brimline.batch import words
from brimline.batch.models.values import NoFigure
from brimline.figures.values import Interval
from brimline.findings import Source
from brimline.report.amounts import NO_FIGURE, about, ends, masses, percents, spread
from brimline.report.label import claim_lines, label_lines
from brimline.report.look import Look, cells, wrapped
from brimline.report.sink import Row, paint
from brimline.report.words import CLASSES, NOTICE, cited, sentence
from brimline.review.weighed import Acid, Fill, Finished, Gel, Minutes, WeighedLine, Weighing

WHAT_IT_SAYS = (
    "This says what the batch is as written; it judges nothing. brimline review compares it with what was tested."
)
PECTINS = {
    "pectin-powder": "powdered pectin",
    "pectin-liquid": "liquid pectin",
    "pectin-low-sugar": "low-sugar pectin",
    "pectin-calcium": "calcium-set pectin",
    "pectin-home": "home-made pectin",
    "gelling-sugar": "gelling sugar",
    "": "no added pectin",
}
# The classes as said where no acid is added.
WITHOUT_ACID = {
    "protects": "acid would be there to protect against illness",
    "doubtful": "whether acid would protect is doubtful",
    "sets": "acid would be there for the set",
}
_LABEL = 18
_STANDS = {
    "inside": "inside",
    "edge": "partly outside",
    "below": "below",
    "above": "above",
}
# A strong high and a deep low move boiling water by about this from a standard day (0.5 F for 1 kPa; judgement).
WEATHER_F = 2.0
_FATES = {"infused": "infused, taken out", "discarded": "not used in the jar"}


def weighing_text(weighed: Weighing, look: Look, notices: Iterable[str] = ()) -> str:
    """The weighing for people: the lines, the batch, jars and times, where the figures come from."""
    return paint(_rows(weighed, look, notices), look.colour)


def _rows(weighed: Weighing, look: Look, notices: Iterable[str]) -> Iterator[Row]:
    head = wrapped(f"{weighed.code or '(no code)'}  {weighed.title or '(no title)'}", look.width)
    yield from ((("strong", line),) for line in head)
    yield from _plain(
        "  ", f"{weighed.kind or 'no product'}, {weighed.standing or 'no standing'}; {weighed.path}", look
    )
    yield ()
    if weighed.unread:
        few = "1 thing in it" if weighed.unread == 1 else f"{weighed.unread:,} things in it"
        text = f"{few} could not be read; all below holds for the rest only. brimline review shows where"
        yield from _plain("", text, look)
        yield ()
    yield from _lines(weighed.lines, look)
    yield ()
    for label, text in (*_batch(weighed), *_pot(weighed), *_finished(weighed)):
        yield from _said(label, text, look)
    yield ()
    for label, text in _time(weighed):
        yield from _said(label, text, look)
    yield ()
    for label, text in (*label_lines(weighed.label), *claim_lines(weighed.claim)):
        yield from _said(label, text, look)
    yield ()
    for number, source in enumerate(sources_of(weighed)):
        yield from _said("" if number else "figures from", source, look)
    yield ()
    for text in (WHAT_IT_SAYS, NOTICE, *notices):
        yield from _plain("", text, look)


def facts(weighed: Weighing) -> Iterator[tuple[str, str]]:
    """Every figure of the batch, jars and times, with its word; a line without one belongs to the line before."""
    yield from (*_batch(weighed), *_pot(weighed), *_finished(weighed), *_time(weighed))


def sources_of(weighed: Weighing) -> list[str]:
    """Where the figures come from, each publication once."""
    asked = [source for check in weighed.claim.checks for source in check.sources] if weighed.claim else []
    return cited(_merged((*weighed.sources, *weighed.label.sources, *asked)))


def _merged(sources: Iterable[Source]) -> list[Source]:
    """Sources that differ only in the entry they name (`the food: 09107`) as one that names all the entries."""
    entries: dict[tuple[str, str, str], list[str]] = {}
    for one in sources:
        head, _, entry = one.section.rpartition(": ")
        entries.setdefault((one.title, head or entry, one.how), []).extend([entry] if head else [])
    return [
        Source("", title, f"{head}: {', '.join(dict.fromkeys(several))}" if several else head, how)
        for (title, head, how), several in entries.items()
    ]


def fate_words(line: WeighedLine) -> str:
    """What becomes of a line, in words; empty for what goes in as written."""
    return ", ".join(_FATES.get(word, word) for word in line.fate.split(", ")) if line.fate else ""


def _lines(lines: tuple[WeighedLine, ...], look: Look) -> Iterator[Row]:
    grams = [masses(line.grams) if line.grams else NO_FIGURE for line in lines]
    width = max((cells(text) for text in grams), default=0)
    for line, weight in zip(lines, grams, strict=True):
        fate = fate_words(line)
        text = f"{line.amount} {line.item}" + (f" ({fate})" if fate else "")
        first, *more = wrapped(text, look.width - width - 4)
        yield (("", f"  {weight.rjust(width)}  {first}"),)
        yield from ((("", " " * (width + 6) + part),) for part in more)


def _batch(weighed: Weighing) -> Iterator[tuple[str, str]]:
    """What goes into the pot and what is dissolved in it."""
    without = f", without {words.listed(list(weighed.unweighed))} ({NO_FIGURE})" if weighed.unweighed else ""
    yield "goes in", masses(weighed.total) + without
    known = " of what has a weight" if weighed.solids_share is None else ""
    of = f", {percents(weighed.sugar_share)} of what goes in" if weighed.sugar_share else known
    yield "sugar solids", f"{masses(weighed.sugar)} from sweeteners{of}" if weighed.sugar.high else f"none{known}"
    share = f", {percents(weighed.solids_share)} of the liquid part" if weighed.solids_share else known
    yield "soluble solids", f"{masses(weighed.solids)} before boiling{share}"
    if weighed.no_solids:
        yield "", f"{NO_FIGURE} for {words.listed(list(weighed.no_solids))}: counted from none to all of the dry matter"
    if weighed.alternatives:
        yield (
            "",
            f"read with the first choice where the formula gives several: {words.listed(list(weighed.alternatives))}",
        )


def _pot(weighed: Weighing) -> Iterator[tuple[str, str]]:
    """Acid, base, set."""
    for number, acid in enumerate(weighed.acids):
        yield "" if number else "added acid", _acid(acid)
    if not weighed.acids:
        yield "added acid", "none; the fruit's own acid is not counted"
    yield "base", _mass(weighed.base)
    of = f", {percents(weighed.sour_share)} of the base" if weighed.sour_share else ""
    yield "sour part", f"{_mass(weighed.sour)}{of}"
    classes = CLASSES if weighed.acids else WITHOUT_ACID
    yield "acid class", f"{weighed.acid_class}: {classes[weighed.acid_class]}; {weighed.acid_why}"
    gelled = "set by sugar and pectin" if weighed.gelled else "not set by sugar and pectin"
    yield "set", f"{gelled}; {PECTINS[weighed.pectin]}"


def _mass(span: Interval | None) -> str:
    return NO_FIGURE if span is None else masses(span) if span.high else "none"


def _acid(acid: Acid) -> str:
    ml = f"{spread(acid.ml)} ml" if acid.ml else ""
    parts = [
        ml,
        masses(acid.grams) if acid.grams else "",
        f"{masses(acid.citric)} as citric acid" if acid.citric else "",
    ]
    known = ", ".join(filter(None, parts)) or NO_FIGURE
    per = f" in each {acid.per}" if acid.per else ""
    return f"{acid.item}{per}: {known}" + (f"; as citric acid {NO_FIGURE}: {acid.unknown}" if acid.unknown else "")


def _time(weighed: Weighing) -> Iterator[tuple[str, str]]:
    if weighed.fill:
        yield "jars", _fill(weighed.fill, weighed.finished)
    where = "" if weighed.altitude_ft is None else f" at {words.feet(weighed.altitude_ft, 'ft')}"
    for number, one in enumerate(weighed.minutes):
        yield "" if number else "minutes", _minutes(one, where)
    if not weighed.minutes:
        yield "minutes", "the formula has no process table: no tested time"
    if weighed.gel is None:
        yield "gel point", "depends on the place; give its altitude with --at or boiling water with --water"
    else:
        yield from _gel(weighed.gel, where)


def _fill(fill: Fill, done: Finished | NoFigure) -> str:
    """The stated yield, the estimate, the ceiling."""
    stated = f"{ends(words.number(fill.stated.low), words.number(fill.stated.high))} {fill.jar} stated"
    if isinstance(done, Finished) and done.jars is not None:
        stated += f"; estimated {about(done.jars, 1, '', 1).replace('  ', ' ')}"
    if fill.most is None:
        return f"{stated}; how many the ingredients can fill at most: {NO_FIGURE}, {fill.says}"
    most = f"at most {float(fill.most):.{1 if fill.most >= 2 else 2}f} can be filled, with nothing boiled off"
    return (
        f"{stated}; the stated yield is more than the ingredients can fill: {most}"
        if fill.beyond
        else f"{stated}; {most}"
    )


def _minutes(one: Minutes, where: str) -> str:
    takes = f", taking the time of the {one.takes}" if one.takes and one.takes != one.jar else ""
    start = f"{one.jar}{where}, {one.method}{takes}"
    if one.says:
        return f"{start}: {one.says} in this formula"
    if one.minutes is None:
        return f"{start}: {', '.join(_band(band.minutes, band.psi, band.up_to_ft, band.unit) for band in one.bands)}"
    return f"{start}: {words.number(one.minutes)} min{_pressure(one.psi)} by this formula's table"


def _band(minutes: Fraction, psi: Fraction | None, up_to: Fraction | None, unit: str) -> str:
    return (
        f"{words.number(minutes)} min{_pressure(psi)} {'above' if up_to is None else f'to {words.feet(up_to, unit)}'}"
    )


def _pressure(psi: Fraction | None) -> str:
    return "" if psi is None else f" at {words.number(psi)} psi"


def _gel(gel: Gel, where: str) -> Iterator[tuple[str, str]]:
    if gel.read:
        model = f"{_degrees(gel.model)} by boiling water as read, {words.number(gel.above)} F over it"
    else:
        model = f"{_degrees(gel.model)} by the model, {words.number(gel.above)} F over boiling water{where}"
    published = f"{ends(words.number(gel.published.low), words.number(gel.published.high))} F" if gel.published else ""
    table = f"{published} as published{where if gel.read else ''}; " if published else ""
    if not table and where:
        table = "not in the published table; "
    yield "gel point", f"{table}{model}" + ("" if gel.used else "; this formula ends otherwise")
    if not gel.read:
        yield "water boils", f"{_degrees(gel.water)} on a day of standard weather; measure it on the day"
        return
    yield "water boils", f"{_degrees(gel.water)} as read" if isinstance(gel.water, float) else _degrees(gel.water)
    if isinstance(gel.standard, float) and isinstance(gel.water, float):
        apart = abs(gel.water - gel.standard)
        far = (
            f", {apart:.1f} F apart: more than weather does, so check thermometer and altitude"
            if apart > WEATHER_F
            else ""
        )
        yield "", f"{gel.standard:.1f} F by the model on a day of standard weather{where}{far}"


def _degrees(value: float | NoFigure) -> str:
    return f"{value:.1f} F" if isinstance(value, float) else f"{NO_FIGURE} ({value.why})"


def _finished(weighed: Weighing) -> Iterator[tuple[str, str]]:
    """The batch when cooking ends."""
    done = weighed.finished
    if isinstance(done, NoFigure):
        yield "when done", f"{NO_FIGURE}: {done.why}"
        return
    yield "when done", f"{about(done.solids_share, 100, '%', 0)} soluble solids in the liquid part, estimated"
    mass = about(done.mass, 0.001, "kg", 2) if done.mass.high >= 1000 else about(done.mass, 1, "g", 0)
    yield (
        "",
        f"{about(done.sugar_share, 100, '%', 0)} sugar solids; {mass} is left, {about(done.ml, 0.001, 'l', 2)} hot",
    )
    start = "; it starts above that, so nothing is counted as boiled off" if done.unboiled else ""
    yield "", done.assumes + start
    if done.window is not None:
        span = f"{words.number(done.window.solids.low)} to {words.number(done.window.solids.high)} %"
        yield (
            "",
            f"{_STANDS[done.stands]} the {span} of solids where {done.window.kind} pectin sets with {done.window.needs}",
        )


def _said(label: str, text: str, look: Look) -> Iterator[Row]:
    for number, line in enumerate(wrapped(text, look.width - _LABEL)):
        yield (("faint", f"  {'' if number else label}".ljust(_LABEL)), ("", line))


def _plain(indent: str, text: str, look: Look) -> Iterator[Row]:
    for line in wrapped(text if indent else sentence(text), look.width - len(indent)):
        yield (("", indent + line),)
