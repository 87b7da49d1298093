"""A document as text in the canonical layout; the inverse of reading it.

Comments are not part of what a document says and are not printed.
"""

from collections.abc import Iterator

from msgspec.structs import replace

from brimline.document import Read, read
from brimline.document.print_numbers import (
    UnprintableError,
    counted,
    kept_for,
    long,
    number,
    plain_number,
    timed,
    warm,
    warmer,
)
from brimline.document.same import difference
from brimline.document.values import (
    Amount,
    Band,
    Document,
    Evidence,
    Finish,
    Headspace,
    Jar,
    Keep,
    Line,
    Measure,
    Packing,
    Per,
    Prepare,
    Process,
    Step,
    Times,
)
from brimline.findings import Level
from brimline.text import decode
from brimline.tree import neat
from brimline.tree import read as read_tree

__all__ = ["UnprintableError", "amount", "finish", "printed"]

_FOOT_IN_METRES = 3048  # ten-thousandths: the international foot is 0.3048 m exactly
_WIDEST = 106
_FINISH = {"rolling": "full rolling boil", "simmer": "simmer", "boil": "boil"}
# A jar whose name starts with a digit, as the word that can stand behind `per`.
_JAR_WORDS = {"12 oz": "three-quarter-pint"}


def printed(document: Document) -> str:
    """The text of a document, neat, ending in a line feed. Raises UnprintableError.

    The text is read back before it is handed out: what the format cannot say exactly (an amount of 7/27 cup, a name
    with a digit in it) is refused, never rounded or bent.
    """
    rough = "\n".join(_lines(document)) + "\n"
    data = rough.encode("utf-8")
    text, found = decode(document.path, data)
    if text is None or found:
        raise UnprintableError(found[0].says if found else "there is nothing to write")
    out = neat.text(neat.placed(read_tree(text)[0]))
    _verify(document, read(document.path, out.encode("utf-8")))
    return out


def _verify(document: Document, again: Read) -> None:
    lost = [one for one in again.findings if one.level is Level.UNREADABLE and one.rule != "writing/shape"]
    if lost:
        raise UnprintableError(f"{lost[0].says} ({lost[0].section or 'headers'}, line {lost[0].line})")
    differs = difference(Read(replace(document, comments=()), None), Read(again.document, None))
    if differs:
        raise UnprintableError(f"the format cannot say exactly what stands in {differs}")


def _lines(document: Document) -> Iterator[str]:
    """The lines, each with single blanks; the layout comes later."""
    yield from _headers(document)
    sections = (
        ("take", [row for line in document.take for row in _ingredient(line)]),
        ("make", [row for step in document.make for row in _step(step)]),
        ("pack", list(_pack(document.pack))),
    )
    for word, rows in sections:
        if rows:
            yield from (word, *(f"  {row}" for row in rows))
    for process in document.process:
        yield f"process {process.method}"
        yield from (f"  {row}" for row in _process(process))
    if document.keep:
        yield from ("keep", *(f"  {_keep(row)}" for row in document.keep))
    if document.changes:
        yield from ("changes", *(f"  {row.subject} {row.text}" for row in document.changes))
    if document.evidence:
        yield from ("evidence", *(f"  {_evidence(row)}" for row in document.evidence))


def _headers(document: Document) -> Iterator[str]:
    if document.code or document.title:
        yield f"formula {document.code} {document.title}"
    for word, value in (
        ("product", document.product),
        ("standing", document.standing),
        ("adapts", document.adapts),
        ("finish", "" if document.finish is None else finish(document.finish)),
    ):
        if value:
            yield f"{word} {value}"
    if document.yields is not None:
        yield f"yield {counted(document.yields.low, document.yields.high)} {document.yields.jar.name}"
    for word, value in (
        ("sold-as", document.sold_as),
        ("retired", document.retired),
        ("successor", document.successor),
    ):
        if value:
            yield f"{word} {value}"


def finish(value: Finish) -> str:
    """The words of a `finish` header. Raises UnprintableError."""
    low, high = value.low, value.high
    if low is None or high is None:
        return f"other {value.text}" if value.kind == "other" else value.kind
    match value.kind:
        case "gel":
            return "gel point" if low == 8 else f"gel point {warmer(low)} above"
        case "brix":
            return f"{number(low)} Brix"
        case "temperature":
            return f"{warm(low)} at sea level"
        case "reduce":
            return f"reduce to {number(low)}"
        case _:
            return f"{_FINISH[value.kind]} {timed(low, high)}"


def _ingredient(line: Line) -> Iterator[str]:
    yield _line(line, [*line.flags, line.role])
    for sub in line.made_of:
        yield f"  {_line(sub, ['from', _other_role(sub, line)])}"
    mix: list[str] = []
    for sub in line.other:
        if sub.any_mix:
            mix.append(sub.item)
            continue
        yield from _mix(mix)
        mix = []
        yield f"  {_line(sub, ['or', _other_role(sub, line)])}"
    yield from _mix(mix)
    yield from (f"  note {text}" for text in line.note)


def _mix(members: list[str]) -> Iterator[str]:
    if members:
        yield f"  or any mix of: {', '.join(members)}"


def _other_role(sub: Line, line: Line) -> str:
    return "" if sub.role == line.role else sub.role


def _line(line: Line, head: list[str]) -> str:
    if line.amount is None:
        raise UnprintableError(f"`{line.item}` has no amount")
    return " ".join([*filter(None, head), amount(line.amount), ", ".join([line.item, *line.forms])])


def amount(value: Amount) -> str:
    """An amount: `5 1/2 cup = 1.3 kg`, `1 box of 1 3/4 oz`, `1 tbsp per pint jar`, `some`. Raises UnprintableError."""
    if value.some:
        return "some"
    stated = [" + ".join(_measure(part) for part in parts) for parts in (value.parts, *value.also)]
    return " = ".join(stated) + (f" {_per(value.per)}" if value.per is not None else "")


def _measure(value: Measure) -> str:
    stated = f"{counted(value.low, value.high, value.unit)} {value.unit}"
    if value.pack is None:
        return stated
    return f"{stated} of {number(value.pack.number, value.pack.unit)} {value.pack.unit}"


def _per(value: Per) -> str:
    many = "" if value.number == 1 else number(value.number, value.unit)
    unit = _JAR_WORDS.get(value.unit, value.unit)
    return " ".join(filter(None, ["per", many, unit, value.of]))


def _step(step: Step) -> Iterator[str]:
    """A step, broken at single blanks where a line would grow long, never before a sign or number that opens a line."""
    line = "-"
    for word in step.text.split(" "):
        single = line != "-" and not line.endswith(" ") and word[:1].isalpha()
        if single and len(line) + len(word) >= _WIDEST:
            yield line
            line = f"  {word}"
        else:
            line = f"{line} {word}"
    yield line


def _jars(jars: tuple[Jar, ...]) -> str:
    return ", ".join(jar.name for jar in jars)


def _for(value: Prepare | Headspace) -> str:
    return f": {_jars(value.jars)}" if value.jars else ""


def _pack(value: Packing) -> Iterator[str]:
    if value.jars:
        yield f"jar {_jars(value.jars)}"
    yield from (f"prepare {row.kind}{_for(row)}" for row in value.prepare)
    if value.fill is not None:
        yield f"fill {value.fill.value}"
    yield from (f"headspace {long(row.inches)}{_for(row)}" for row in value.headspace)
    if value.lid is not None:
        yield f"lid {value.lid.value}"


def _process(value: Process) -> Iterator[str]:
    if value.start is not None:
        yield f"start {warm(value.start.water_f)}, {timed(value.start.low, value.start.high)} to the boil"
    yield from (_times(row) for row in value.rows)


def _times(value: Times) -> str:
    fill = f", {value.fill}" if value.fill else ""
    return f"{_jars(value.jars)}{fill}: {', '.join(_band(band) for band in value.bands)}"


def _band(value: Band) -> str:
    said = timed(value.minutes, value.minutes)
    if value.psi is not None:
        said += f" at {value.gauge} {number(value.psi)} psi"
    if value.up_to_ft is None:
        return f"{said} above"
    up_to = value.up_to_ft if value.unit == "ft" else value.up_to_ft * _FOOT_IN_METRES / 10_000
    return f"{said} to {plain_number(up_to)} {value.unit}"


def _keep(value: Keep) -> str:
    time = [] if value.low_h is None or value.high_h is None else [kept_for(value.low_h, value.high_h)]
    return f"{value.kind} {', '.join([*time, *value.where])}"


def _evidence(value: Evidence) -> str:
    """A row of evidence: as written if it was, else from its parts."""
    if value.text:
        return value.text
    said = [value.kind, value.date if value.kind != "reading" else ""]
    if value.value is not None:
        reading = plain_number(value.value)
        said.append(f"{reading} Brix" if value.quantity == "Brix" else f"{value.quantity} {reading}")
        said.append(f"on {value.date}" if value.date else "")
    return ", ".join([" ".join(filter(None, said)), *value.forms])
