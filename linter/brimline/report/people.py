"""A review as text for people: grouped by formula, the level first, then the arithmetic, why, the way out, the source."""

from collections.abc import Iterator
from itertools import groupby

from brimline.findings import Finding, Level
from brimline.report.look import Look, cells, clipped, wrapped
from brimline.report.sink import Row, paint
from brimline.report.summary import summary
from brimline.report.words import UNSURE, cited, gravest_first, sentence, stands_by
from brimline.review.values import Review, Reviewed

# Width of the column for the level word, the longest being `unreadable`, with two blanks before and after.
_LEVEL = 14


def people(review: Review, look: Look) -> str:
    """The whole review: the formulas with findings, those held back first, then a summary one can act on."""
    return paint(_rows(review, look), look.colour)


def _rows(review: Review, look: Look) -> Iterator[Row]:
    told = [(one, heading) for one in gravest_first(review.formulas)]
    told += [(one, _file) for one in gravest_first(review.records)]
    for formula, head in told:
        if formula.findings:
            yield from head(formula, look)
            for _, alike in groupby(formula.findings, key=all_but_the_sentence):
                yield ()
                yield from finding_rows(tuple(alike), look)
            yield ()
    yield from summary(review, look)


def heading(formula: Reviewed, look: Look) -> Iterator[Row]:
    """Code, title and path of a formula, the path at the right edge, and what the formula departs from."""
    code, title = formula.code or "(no code)", formula.title or "(no title)"
    first, *more = wrapped(title, look.width - 2, look.width - cells(code) - 2)
    lines = [f"{code}  {first}".rstrip(), *(f"  {line}" for line in more)]
    room = look.width - cells(lines[-1]) - cells(formula.path)
    for number, line in enumerate(lines):
        last = number == len(lines) - 1
        end: Row = (("faint", " " * room + formula.path),) if last and room >= 2 else ()
        yield (("strong", line), *end)
    if room < 2:
        for line in wrapped(formula.path, look.width - 2):
            yield (("faint", f"  {line}"),)
    for line in wrapped(_departure(formula), look.width - 2) if _departure(formula) else []:
        yield (("", f"  {line}"),)


def _file(formula: Reviewed, look: Look) -> Iterator[Row]:
    """A file that a collection keeps beside its formulas: what it is, and its path."""
    first, *more = wrapped("  ".join(filter(None, [formula.title, formula.path])), look.width - 2)
    yield (("strong", first),)
    yield from ((("strong", f"  {line}"),) for line in more)


def finding_rows(alike: tuple[Finding, ...], look: Look) -> Iterator[Row]:
    """Findings that differ in their sentence only: level, rule and place on the first line, then each part in turn."""
    finding = alike[0]
    word = finding.level.word
    place = _place(finding)
    start = f"{finding.rule}{'' if finding.certain else ', may be'}{', varied' if finding.varied else ''}"
    width = look.width - _LEVEL
    if cells(start) + cells(place) + 3 <= width:
        yield (("", "  "), (word, word), ("", " " * (_LEVEL - 2 - len(word)) + start), ("faint", f"   {place}"))
    else:
        yield (("", "  "), (word, word), ("", " " * (_LEVEL - 2 - len(word)) + start))
        yield from _hung("", place, look)
    if finding.level is Level.UNREADABLE or finding.copy:
        yield from _quoted(finding, look)
    for one in alike:
        yield from _hung("- " if len(alike) > 1 else "", sentence(one.says), look)
    if not finding.certain:
        yield from _hung("", UNSURE, look)
    if finding.varied is not None:
        yield from _hung("Varied: ", stands_by(finding.varied), look)
    yield from _hung("", sentence(finding.why), look)
    yield from _hung("Instead: ", sentence(finding.instead), look)
    for number, source in enumerate(cited(finding.sources)):
        yield from _hung("Source: " if number == 0 else "And: ", sentence(source), look)


def all_but_the_sentence(finding: Finding) -> tuple[object, ...]:
    """What has to be equal for findings to be shown as one: a time too short at three altitudes reads better so."""
    return (
        finding.level,
        finding.rule,
        (finding.at.path, finding.line or finding.at.span),
        (finding.before.path if finding.before else "", finding.before_line),
        finding.certain,
        finding.copy or (finding.level is Level.UNREADABLE and finding.at),
        finding.why,
        finding.instead,
        finding.sources,
        finding.varied,
    )


def _departure(formula: Reviewed) -> str:
    parts = []
    if formula.departs_from:
        root = (
            f" (whose own tested formula is {formula.root})" if formula.root not in {"", formula.departs_from} else ""
        )
        scale = f", read at {formula.scale} of its batch" if formula.scale else ", not compared"
        parts.append(f"departs from {formula.departs_from}{root}{scale}")
    if formula.standing == "draft":
        parts.append("a draft: shown, not held back")
    return "; ".join(parts)


def _place(finding: Finding) -> str:
    section = [finding.section] if finding.section else []
    place = ", ".join([*section, f"line {finding.line}"] if finding.line else section)
    if not finding.before:
        return place
    line = f", line {finding.before_line}" if finding.before_line else ""
    return f"{place} (tested: {finding.before.path}{line})"


def _quoted(finding: Finding, look: Look) -> Iterator[Row]:
    label = f"Line {finding.line}: "
    margin = " " * _LEVEL
    gutter = max(len(label), len("Write: "))
    text = look.written(finding.at.path, finding.line) if finding.line else ""
    if text:
        line, offset = clipped(text, finding.column, look.width - _LEVEL - gutter)
        yield (("", margin + label.ljust(gutter)), ("", line))
        yield (("", margin + " " * (gutter + offset)), (finding.level.word, "^"))
    if finding.copy:
        for number, line in enumerate(finding.copy.split("\n")):
            yield (("", margin + ("" if number else "Write: ").ljust(gutter)), ("strong", line))


def _hung(label: str, text: str, look: Look) -> Iterator[Row]:
    if not text:
        return
    for line in wrapped(f"{label}{text}", look.width - _LEVEL):
        yield (("", " " * _LEVEL + line),)
