"""A restated formula as a sheet: every amount in US and metric measures side by side, what was rounded, the verdict."""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from brimline.batch import words
from brimline.document.printer import UnprintableError, amount, finish
from brimline.document.values import Amount, Band, Document
from brimline.report.look import Look, cells, wrapped
from brimline.report.people import finding_rows
from brimline.report.sink import Row, paint, visible
from brimline.report.words import NOTICE, WHAT_IT_DOES, cited, level_counts, sentence
from brimline.review.restate.formula import edge
from brimline.review.restate.formula import words as done
from brimline.review.restate.values import Restated, RestatedLine

# How the columns are computed: the factors are those of the unit list, exactly.
BASIS = (
    "Both columns are computed from one exact amount, each by itself. 1 cup is 236.5882365 ml, 1 tbsp 14.78676478125 ml, "
    "1 tsp 4.92892159375 ml, 1 lb 453.59237 g (US customary; NIST Handbook 44, Appendix C), not the 240 ml or 250 ml cup."
)
ROUNDED = (
    "Rounded to what a kitchen can measure: acid never less than the exact amount (at most 2 percent more); low-acid food, "
    "water, fat, egg, nuts and herbs never more (at most 1 percent less); fruit, sugar and all else within 1 percent. "
    "Headspace and the edges of altitude bands are never raised. Times, methods, jars and strengths are those of the "
    "formula, whatever the batch."
)
_HEADS = {"us": ("US", ""), "metric": ("metric", ""), "both": ("US", "metric")}
_AMOUNT = 24
_FAHRENHEIT_C = Fraction(5, 9)


def sheet(one: Restated, look: Look, notices: Iterable[str] = ()) -> str:
    """The whole sheet for people."""
    return paint(_rows(one, look, notices), look.colour)


def filed(one: Restated, notices: Iterable[str] = ()) -> str:
    """The restated formula as a file: its notices and where it comes from as comments, then its text."""
    origin = f"Restated from {one.code}: {done(one.by, one.units) or 'in both systems of units'}."
    return "".join(f"# {visible(text)}\n" for text in (*notices, origin)) + one.text


def verdict(one: Restated) -> str:
    """What the review of the restated formula came to, in one line, and the caution on the batch, to print beside it."""
    found = one.reviewed
    if found is None:
        return f"It cannot be written as a formula, so it was not reviewed: {one.unwritten}"
    levels = level_counts(found.findings)
    says = f"Reviewed: {'held back' if found.held_back else 'not held back'}{f', {levels}' if levels else ''}."
    caution = "" if one.caution is None else f" {sentence(one.caution.why)} Instead: {sentence(one.caution.advice)}"
    return f"{says}{caution} {WHAT_IT_DOES}"


def _rows(one: Restated, look: Look, notices: Iterable[str]) -> Iterator[Row]:
    yield from ((("strong", line),) for line in wrapped(f"{one.code}  {one.title}", look.width))
    what = done(one.by, one.units) or "the whole batch"
    yield from _plain("  ", f"{what}; {one.source.product}, {one.standing}; {_place(one.path, look)}", look)
    for text in notices:
        yield from _plain("  ", text, look)
    yield ()
    yield from _take(one, look)
    yield ()
    yield from _make(one, look)
    yield from _pack(one, look)
    yield ()
    for text in (*_remarks(one), BASIS, ROUNDED):
        yield from _plain("", text, look)
    yield ()
    yield from _verdict(one, look)


def _place(path: str, look: Look) -> str:
    """The path as it can be opened from here; a pipe has none."""
    return path if path.startswith("<") else look.from_here(path)


def _take(one: Restated, look: Look) -> Iterator[Row]:
    heads = _HEADS[one.units]
    columns = len([head for head in heads if head])
    width = min(_AMOUNT, (look.width - 4) // (columns + 1))
    yield (("faint", "  " + "".join(head.ljust(width + 2) for head in heads if head)),)
    for line in one.lines:
        for text in _line(line, one.units, width, look.width):
            yield (("", text),)


def _line(line: RestatedLine, units: str, width: int, most: int) -> list[str]:
    indent = "    " if line.depth else "  "
    shown = _columns(line, units)
    rows = []
    parts = [wrapped(text, width - 2 * line.depth) for text in shown]
    item = " ".join(filter(None, [line.lead, line.item]))
    room = max(most - len(indent) - (width + 2) * len(shown), 12)
    names = wrapped(item, room)
    for number in range(max(len(names), *(len(part) for part in parts))):
        left = "".join(
            _padded(part[number] if number < len(part) else "", width - (2 * line.depth if not place else 0) + 2)
            for place, part in enumerate(parts)
        )
        rows.append(f"{indent}{left}{names[number] if number < len(names) else ''}")
    if line.kept and line.written is not None:
        rows += [f"{indent}  {text}" for text in wrapped(f"({line.kept})", most - len(indent) - 2)]
    for jar, us, metric in line.doses:
        doses = [said(dose) for dose, kind in ((us, "us"), (metric, "metric")) if units in (kind, "both")]
        rows += [f"{indent}  {text}" for text in wrapped(f"each {jar}: {' / '.join(doses)}", most - len(indent) - 2)]
    return rows


def _columns(line: RestatedLine, units: str) -> list[str]:
    kept = said(line.written) if line.written is not None else ""
    both = {"us": line.us, "metric": line.metric}
    names = ("us", "metric") if units == "both" else (units,)
    return [said(both[name]) if both[name] is not None else kept for name in names]


def said(value: Amount | None) -> str:
    """An amount as a formula writes it, rounded only where the format cannot write it."""
    try:
        return "" if value is None else amount(value)
    except UnprintableError:
        return words.amount(value)


def _padded(text: str, width: int) -> str:
    return text + " " * max(width - cells(text), 0)


def _make(one: Restated, look: Look) -> Iterator[Row]:
    for number, step in enumerate(one.document.make, start=1):
        first, *more = wrapped(step.text, look.width - 5)
        yield (("", f"{number:>3}. {first}"),)
        yield from ((("", f"     {line}"),) for line in more)
    if one.document.make:
        yield ()


def _pack(one: Restated, look: Look) -> Iterator[Row]:
    jars = [f"{jar.jar.name} ({jar.metric} jar)" if jar.metric else jar.jar.name for jar in one.jars]
    rows = [("jars", words.listed(jars)), *_filling(one)]
    for label, text in (row for row in rows if row[1]):
        lines = wrapped(text, look.width - 13)
        yield (("", f"  {label.ljust(11)}{lines[0]}"),)
        yield from ((("", f"{'':13}{line}"),) for line in lines[1:])


def _filling(one: Restated) -> Iterator[tuple[str, str]]:
    """What is done with the jars, each with its label; an empty label goes on from the one before."""
    document = one.source
    yields = one.document.yields
    if yields is not None:
        low, high = words.number(yields.low), words.number(yields.high)
        yield "fills", f"{low if low == high else f'{low} to {high}'} {yields.jar.name}, in whole jars"
    ready = [f"{one.kind} {words.listed([jar.name for jar in one.jars])}".strip() for one in document.pack.prepare]
    yield "prepare", words.listed(ready)
    yield "fill", document.pack.fill.value if document.pack.fill else ""
    yield "lid", document.pack.lid.value if document.pack.lid else ""
    for space in document.pack.headspace:
        millimetres = int(space.inches * Fraction("25.4"))
        held = f" ({words.listed([jar.name for jar in space.jars])})" if space.jars else ""
        yield "headspace", f"{words.number(space.inches)} in or {millimetres} mm{held}"
    if document.finish is not None:
        yield "finish", f"{finish(document.finish)}{_above(document)}"
    for process in document.process:
        start = process.start
        said_start = (
            f"; water at {words.number(start.water_f)} F ({int((start.water_f - 32) * _FAHRENHEIT_C)} C), "
            f"{words.number(start.low)} to {words.number(start.high)} min to the boil"
            if start
            else ""
        )
        yield "process", f"{process.method}{said_start}"
        for row in process.rows:
            jars_of = ", ".join([jar.name for jar in row.jars] + ([row.fill] if row.fill else []))
            yield "", f"{jars_of}: {', '.join(_band(band) for band in row.bands)}"


def _above(document: Document) -> str:
    """A temperature of the finish in both scales; a difference of degrees is not a temperature."""
    end = document.finish
    if end is None or end.low is None:
        return ""
    if end.kind == "gel":
        return f" ({words.number(end.low)} F or {_up(end.low * _FAHRENHEIT_C)} C above boiling water)"
    if end.kind == "temperature":
        return f" ({_up((end.low - 32) * _FAHRENHEIT_C)} C)"
    return ""


def _up(value: Fraction) -> str:
    """Tenths of a degree, never lower: an end point is not to be missed."""
    return words.decimal(Fraction(-((-value * 10) // 1), 10), 1)


def _band(band: Band) -> str:
    time = f"{words.number(band.minutes)} min" + (f" at {words.number(band.psi)} psi {band.gauge}" if band.psi else "")
    if band.up_to_ft is None:
        return f"{time} above"
    other = "m" if band.unit == "ft" else "ft"
    there = edge(band.up_to_ft, band.unit, other)
    return f"{time} to {words.feet(band.up_to_ft, band.unit)} ({words.feet(there, other)})"


def _remarks(one: Restated) -> Iterator[str]:
    if one.left:
        listed = words.listed([f"`{text}`" for text in one.left])
        yield f"The steps name amounts of the whole batch that are not in the list: {listed}. Work them out before you begin."
    counts = [line.item for line in one.lines if line.us and line.us.parts and _broken_count(line)]
    if counts:
        yield f"Counted things do not divide evenly: weigh or beat and measure {words.listed(counts)}."
    if any(line.doses for line in one.lines):
        yield "Amounts for each jar go by the jar's volume, never by the batch; a metric jar holds 5.7 percent more and gets more."
    if any(jar.metric for jar in one.jars):
        yield "A metric jar of the name given takes the time of its US jar (jar table)."


def _broken_count(line: RestatedLine) -> bool:
    from brimline.document import units

    part = line.us.parts[0] if line.us else None
    return part is not None and units.units()[part.unit].dimension == "count" and part.low.denominator > 1


def _verdict(one: Restated, look: Look) -> Iterator[Row]:
    said_already = {finding.row for finding in one.reviewed.findings} if one.reviewed else set()
    if one.caution is not None and one.caution.id not in said_already:
        row = one.caution
        larger = one.by > 1
        what = f"{done(one.by, 'both').capitalize()} {'in one pot' if larger else ''} was not tested as such".replace(
            "  ", " "
        )
        for text in (f"{what}. {row.why}", f"Instead: {row.advice}"):
            yield from _plain("", text, look)
        yield from _plain("", f"Source: {'; '.join(cited(row.basis))}", look)
    found = one.reviewed
    if found is None:
        yield from _plain("", f"It cannot be written as a formula, so it was not reviewed: {one.unwritten}", look)
    else:
        for finding in found.findings:
            yield from finding_rows((finding,), look)
        verdict = "Held back" if found.held_back else "Not held back"
        levels = level_counts(found.findings)
        against = f" beside {found.departs_from}" if found.departs_from else ""
        yield from _plain("", f"Reviewed{against}: {verdict.lower()}{f', {levels}' if levels else ''}", look)
    yield from _plain("", WHAT_IT_DOES, look)
    yield from _plain("", NOTICE, look)


def _plain(indent: str, text: str, look: Look) -> Iterator[Row]:
    for line in wrapped(sentence(text) if not indent else text, look.width - len(indent)):
        yield (("", indent + line),)
