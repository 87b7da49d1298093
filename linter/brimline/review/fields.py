"""Names the part of a formula that a place lies in, by section and item and never by line, so that layout is no matter.

A field reads like a JSON pointer: `/take/lemon-juice`, `/take/pepper-juice/from/vinegar`, `/pack/jar/pint`,
`/process/boiling-water/half-pint,pint/to-1000-ft`, `/make`, `/standing`. Two parts of one name have one field.
"""

import re
from collections.abc import Iterable, Iterator

from brimline.document.values import Band, Document, Jar, Line
from brimline.findings import Span
from brimline.text import Text

_NOT_LETTERS = re.compile(r"[^\w%.,]+")
_WORD = re.compile(r"[A-Za-z][A-Za-z-]*")

Parts = tuple[tuple[Span, str], ...]


def parts(document: Document) -> Parts:
    """Every part of a formula that has a name of its own: where it stands, and its field."""
    return tuple(_parts(document))


def field_of(named: Parts, document: Document, text: Text | None, at: Span) -> str:
    """The field a place lies in: the smallest named part around it, else the part on its line, else its section.

    A line that could not be read is called by its section and its first word (`/take/sweetener`).
    """
    around = [(span.end - span.start, field) for span, field in named if span.start <= at.start and at.end <= span.end]
    if around:
        return min(around)[1]
    section = section_of(document, at.start)
    if text is None or any(at == span for span in document.sections.values()):
        return f"/{section}"
    number = text.line_column(at.start)[0]
    for span, field in named:
        if text.line_column(span.start)[0] == number:
            return field
    line = text.line(number)
    word = _WORD.match(line.lstrip(" \t-"))
    indented = line[:1] in (" ", "\t")
    if not word or section == "make":
        return f"/{section}"
    return f"/{section}/{_plain(word.group())}" if indented else f"/{_plain(word.group())}"


def section_of(document: Document, offset: int) -> str:
    """The section a place lies in: the last section word at or before it, `formula` above the first."""
    before = [(span.start, word) for word, span in document.sections.items() if span.start <= offset]
    return max(before)[1] if before else "formula"


def _parts(document: Document) -> Iterator[tuple[Span, str]]:
    for word, span in document.headers.items():
        yield span, f"/{word}"
    for line in document.take:
        yield from _line(line, "/take")
    for step in document.make:
        yield step.span, "/make"
    yield from _pack(document)
    yield from _process(document)
    for keep in document.keep:
        yield keep.span, f"/keep/{_plain(keep.kind)}"
    for change in document.changes:
        yield change.span, f"/changes/{_plain(change.subject)}"
    for row in document.evidence:
        yield row.span, f"/evidence/{_plain(row.kind)}"


def _line(line: Line, above: str) -> Iterator[tuple[Span, str]]:
    field = f"{above}/{_plain(line.item)}"
    yield line.span, field
    for word, under in (("or", line.other), ("from", line.made_of)):
        for one in under:
            yield one.item_span, f"{field}/{word}/{_plain(one.item)}"
            yield from _line(one, f"{field}/{word}")


def _pack(document: Document) -> Iterator[tuple[Span, str]]:
    pack = document.pack
    for jar in pack.jars:
        yield jar.span, f"/pack/jar/{_plain(jar.name)}"
    for prepare in pack.prepare:
        yield prepare.span, f"/pack/prepare{_for(prepare.jars)}"
    for gap in pack.headspace:
        yield gap.span, f"/pack/headspace{_for(gap.jars)}"
    for word, header in (("fill", pack.fill), ("lid", pack.lid)):
        if header is not None:
            yield header.span, f"/pack/{word}"


def _process(document: Document) -> Iterator[tuple[Span, str]]:
    for process in document.process:
        field = f"/process/{_plain(process.method)}"
        yield process.span, field
        if process.start is not None:
            yield process.start.span, f"{field}/start"
        for row in process.rows:
            fill = f",{row.fill}" if row.fill else ""
            of_jars = f"{field}{_for(row.jars)}{fill}"
            yield row.span, of_jars
            for band in row.bands:
                yield band.span, f"{of_jars}/{_band(band)}"


def _for(jars: Iterable[Jar]) -> str:
    """The jars a row is for, in order of their names, so that their order in the row is no matter."""
    names = ",".join(sorted(_plain(jar.name) for jar in jars))
    return f"/{names}" if names else ""


def _band(band: Band) -> str:
    return "above" if band.up_to_ft is None else f"to-{round(band.up_to_ft)}-ft"


def _plain(words: str) -> str:
    """Words as one step of a field: small letters, one hyphen for blanks and signs, nothing that parts steps."""
    return _NOT_LETTERS.sub("-", words.casefold()).strip("-") or "-"
