"""A formula as a sheet of paper that can be changed line by line and written out again."""

import re
from collections.abc import Iterable
from fractions import Fraction
from functools import cache

from msgspec import Struct
from msgspec.structs import replace

from brimline.document import read
from brimline.document.values import Amount, Band, Jar, Line, Measure, Process, Start, Times, Yield
from brimline.findings import Span

NOWHERE = Span(0, 0)
SECTIONS = ("take", "make", "pack", "process", "keep", "changes", "evidence")
_FILLS = re.compile(r"\b[Ff]ill\b|\bjars\b.*\bfill")
_SIXTEENTHS = (2, 3, 4, 5, 6, 8, 16)
Rows = tuple[tuple[str, str], ...]


class Sheet(Struct, frozen=True):
    """One formula: headers, pack, keep, changes and evidence as words with their text, the rest as values."""

    code: str
    title: str
    headers: Rows
    take: tuple[Line, ...]
    steps: tuple[str, ...]
    pack: Rows
    process: tuple[Process, ...]
    keep: Rows
    evidence: Rows
    changes: Rows = ()
    yields: Yield | None = None

    def header(self, word: str) -> str:
        """The text of a header, empty if it is not written."""
        return dict(self.headers).get(word, "")

    def with_header(self, word: str, text: str) -> "Sheet":
        """The sheet with one header changed or, for an empty text, taken out."""
        return replace(self, headers=_with(self.headers, word, text))

    def packed(self, word: str) -> str:
        """The text of a row of `pack`, empty if it is not written."""
        return dict(self.pack).get(word, "")

    def with_pack(self, word: str, text: str) -> "Sheet":
        """The sheet with one row of `pack` changed or, for an empty text, taken out."""
        return replace(self, pack=_with(self.pack, word, text))

    def with_keep(self, word: str, text: str) -> "Sheet":
        """The sheet with one row of `keep` changed or, for an empty text, taken out."""
        return replace(self, keep=_with(self.keep, word, text))

    def with_line(self, index: int, *lines: Line) -> "Sheet":
        """The sheet with one ingredient line replaced by others, or by none."""
        return replace(self, take=(*self.take[:index], *lines, *self.take[index + 1 :]))

    def with_more(self, *lines: Line) -> "Sheet":
        """The sheet with further ingredient lines at the end."""
        return replace(self, take=(*self.take, *lines))

    def with_step(self, text: str) -> "Sheet":
        """The sheet with a further step just before the jars are filled, or last if no step fills jars."""
        place = next((n for n, step in enumerate(self.steps) if _FILLS.search(step)), len(self.steps))
        return replace(self, steps=(*self.steps[:place], text, *self.steps[place:]))


def _with(rows: Rows, word: str, text: str) -> Rows:
    if not text:
        return tuple(row for row in rows if row[0] != word)
    if word not in dict(rows):
        return (*rows, (word, text))
    return tuple((key, text if key == word else old) for key, old in rows)


def sheet_of(text: str) -> Sheet:
    """The sheet of a formula's text; comments are left out."""
    document = read("sheet", text.encode("utf-8")).document
    if document is None:
        raise ValueError("the text holds no formula")
    rows: dict[str, list[tuple[str, str]]] = {name: [] for name in ("", *SECTIONS)}
    section = ""
    for raw in text.splitlines():
        line = raw.split("  #")[0].rstrip()
        word, _, rest = line.strip().partition(" ")
        if not line or word.startswith("#"):
            continue
        if line[0] not in " \t" and word in SECTIONS:
            section = word
        elif line[0] not in " \t" or section in ("pack", "keep", "evidence", "changes"):
            rows[section if line[0] in " \t" else ""].append((word, rest.strip()))
    return Sheet(
        code=document.code,
        title=document.title,
        headers=tuple(row for row in rows[""] if row[0] not in ("formula", "yield")),
        take=document.take,
        steps=tuple(step.text for step in document.make),
        pack=tuple(rows["pack"]),
        process=document.process,
        keep=tuple(rows["keep"]),
        evidence=tuple(rows["evidence"]),
        changes=tuple(rows["changes"]),
        yields=document.yields,
    )


@cache
def line_of(text: str) -> Line:
    """An ingredient line from its text, with its `or` and `from` lines if it has any.

    Raises ValueError if the text cannot be read.
    """
    document = read("line", f"formula X-1 X\nproduct jam\nstanding draft\n\ntake\n  {text}\n".encode()).document
    if document is None or len(document.take) != 1:
        raise ValueError(f"not one ingredient line: {text}")
    return document.take[0]


def named(line: Line, item: str, role: str = "") -> Line:
    """The line with another thing of the same amount; `item` is written as in a formula (`vinegar, white, 5 %`)."""
    other = line_of(f"{role or line.role} 1 cup {item}")
    return replace(line, role=other.role, item=other.item, forms=other.forms, strength=other.strength)


def number(value: Fraction) -> str:
    """A number as a formula states it: a kitchen fraction, or a decimal of at most four places."""
    whole, part = divmod(value, 1)
    if not part:
        return str(whole)
    if part.denominator in _SIXTEENTHS:
        return f"{whole} {part}" if whole else str(part)
    return f"{float(value):.4f}".rstrip("0").rstrip(".")


def measure(one: Measure) -> str:
    """One measure as text."""
    low = number(one.low)
    count = low if one.low == one.high else f"{low} to {number(one.high)}"
    pack = f" of {number(one.pack.number)} {one.pack.unit}" if one.pack else ""
    return f"{count} {one.unit}{pack}"


def amount(one: Amount) -> str:
    """An amount as text, with its equivalents and what it is stated for."""
    if one.some:
        return "some"
    text = " = ".join(" + ".join(map(measure, parts)) for parts in (one.parts, *one.also))
    if one.per is None:
        return text
    count = "" if one.per.number == 1 else f"{number(one.per.number)} "
    return f"{text} per {count}{one.per.unit}" + (f" {one.per.of}" if one.per.of else "")


def item(line: Line) -> str:
    """The thing and its forms as text."""
    return ", ".join((line.item, *line.forms))


def _line(line: Line, lead: str = "", role: bool = True) -> str:
    words = [*line.flags, *([lead] if lead else []), *([line.role] if role else [])]
    stated = [amount(line.amount)] if line.amount else []
    return " ".join([*words, *stated, item(line)])


def _take(line: Line) -> Iterable[str]:
    yield f"  {_line(line)}"
    mix = [other for other in line.other if other.any_mix]
    for other in line.other:
        if not other.any_mix:
            yield f"    {_line(other, 'or')}"
    if mix:
        yield f"    or any mix of: {', '.join(item(other) for other in mix)}"
    for child in line.made_of:
        yield f"    {_line(child, 'from')}"
    for note in line.note:
        yield f"    note {note}"


def _band(band: Band, unit: str) -> str:
    gauge = f" at {band.gauge} {number(band.psi)} psi" if band.psi is not None else ""
    if band.up_to_ft is None:
        return f"{number(band.minutes)} min{gauge} above"
    edge = band.up_to_ft * Fraction(3048, 10000) if unit == "m" else band.up_to_ft
    return f"{number(band.minutes)} min{gauge} to {round(edge)} {unit}"


def _times(row: Times) -> str:
    places = ", ".join([jar.name for jar in row.jars] + ([row.fill] if row.fill else []))
    return f"  {places}: " + ", ".join(_band(band, band.unit) for band in row.bands)


def _start(start: Start) -> str:
    low, high = number(start.low), number(start.high)
    return f"  start {number(start.water_f)} F, {low if low == high else f'{low} to {high}'} min to the boil"


def write(sheet: Sheet) -> str:
    """The formula as text."""
    lines = [f"formula {sheet.code} {sheet.title}"]
    lines.extend(f"{word} {text}" for word, text in sheet.headers)
    if sheet.yields is not None:
        low, high = number(sheet.yields.low), number(sheet.yields.high)
        lines.append(f"yield {low if low == high else f'{low} to {high}'} {sheet.yields.jar.name}")
    lines.extend(["", "take"])
    for line in sheet.take:
        lines.extend(_take(line))
    if sheet.steps:
        lines.extend(["", "make", *(f"  - {step}" for step in sheet.steps)])
    lines.extend(["", "pack", *(f"  {word} {text}" for word, text in sheet.pack)])
    for process in sheet.process:
        lines.extend(["", f"process {process.method}"])
        if process.start is not None:
            lines.append(_start(process.start))
        lines.extend(map(_times, process.rows))
    for name, rows in (("keep", sheet.keep), ("changes", sheet.changes), ("evidence", sheet.evidence)):
        if rows:
            lines.extend(["", name, *(f"  {word} {text}".rstrip() for word, text in rows)])
    return "\n".join(lines) + "\n"


def jar(name: str) -> Jar:
    """A jar for a row of times; only its name is written out."""
    return Jar(name, Fraction(0), NOWHERE)


def with_bands(row: Times, bands: Iterable[tuple[Fraction, Fraction | None]]) -> Times:
    """The row with other minutes and altitudes in feet (None is the open band)."""
    unit = row.bands[0].unit if row.bands else "ft"
    return replace(row, bands=tuple(Band(minutes, edge, NOWHERE, unit=unit) for minutes, edge in bands))
