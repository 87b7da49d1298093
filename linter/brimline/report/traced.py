"""What depends on a formula, a figure or a publication, as text and as JSON."""

from collections.abc import Iterable, Iterator

from brimline.report.data import Value, as_text
from brimline.report.look import Look, wrapped
from brimline.report.sink import Row, paint, visible
from brimline.report.words import cited, counted
from brimline.review.tracing import Dependent, FigureUse, Traced

VERSION = 1
# What a trace cannot know, said with every one of them.
LIMITS = {
    "formula": "Sheets already printed or handed out are not known here; the code on them leads back to this formula.",
    "figure": (
        "A formula is listed if its times are compared with this table, or a finding of today's review cites it. A rule "
        "listed here is asked of every formula of its kinds, so a formula without findings may rest on it too."
    ),
    "source": (
        "A formula is listed if it names the publication in its evidence or a comment, if its times are compared with a "
        "table of it, or if a finding of today's review cites it. Other names for the same publication are not known; "
        "try its title, then its number. A rule listed here is asked of every formula of its kinds."
    ),
}


def trace_text(traced: Traced, look: Look) -> str:
    """The trace for people."""
    return paint(_rows(traced, look), look.colour)


def trace_data(traced: Traced, tool: str, root: str = "") -> str:
    """The trace as one JSON text in ASCII."""
    data: dict[str, Value] = {
        "report": "trace",
        "version": VERSION,
        "tool": tool,
        "root": root or ".",
        "kind": traced.kind,
        "asked": visible(traced.asked),
        "is": visible(traced.is_),
        "formulas": [
            {
                "path": one.path,
                "code": one.code,
                "title": visible(one.title),
                "standing": one.standing,
                "generation": one.generation,
                "tie": visible(one.tie),
                "line": one.line,
            }
            for one in traced.formulas
        ],
        "figures": [
            {
                "id": one.id,
                "says": visible(one.says),
                "title": one.source.title,
                "section": one.source.section,
                "how": one.source.how,
            }
            for one in traced.figures
        ],
        "rules": [{"rule": one.rule, "rows": list(one.rows)} for one in traced.rules],
        "rests_on": [visible(text) for text in traced.rests_on],
        "unread": list(traced.unread),
        "limits": LIMITS[traced.kind],
    }
    return as_text(data)


def _rows(traced: Traced, look: Look) -> Iterator[Row]:
    yield from ((("strong", line),) for line in wrapped(f"{traced.asked}: {traced.is_}", look.width))
    yield from _part("Rests on", traced.rests_on, look)
    direct = [one for one in traced.formulas if not one.generation]
    later = [one for one in traced.formulas if one.generation]
    yield from _formulas("Formulas tied to it", direct, look)
    yield from _formulas("Adaptations, generation by generation", later, look)
    yield from _part("Published figures", [_figure(one) for one in traced.figures], look)
    rules = [f"{one.rule or '(found while reading)'}: {', '.join(one.rows)}" for one in traced.rules]
    yield from _part("Rules, with their rows of the decision table", rules, look)
    yield ()
    if not (traced.formulas or traced.figures or traced.rules):
        yield from _hung("", "Nothing is known to depend on it.", look)
    if traced.unread:
        some = counted(len(traced.unread), "formula")
        yield from _hung(
            "", f"{some} could not be read, so it is not known what they rest on: {', '.join(traced.unread)}.", look
        )
    yield from _hung("", LIMITS[traced.kind], look)


def _figure(one: FigureUse) -> str:
    return f"{one.id}: {one.says or 'no words of its own'} ({'; '.join(cited([one.source]))})"


def _formulas(head: str, several: list[Dependent], look: Look) -> Iterator[Row]:
    if not several:
        return
    codes = len({one.path for one in several})
    yield ()
    yield (("strong", f"{head}: {counted(codes, 'formula')}"),)
    for one in several:
        line = f", line {one.line}" if one.line else ""
        text = f"{one.code or '(no code)'}  {one.title}, {one.standing}; {one.tie} ({look.from_here(one.path)}{line})"
        yield from _hung("  " * max(one.generation, 1), text, look)


def _part(head: str, texts: Iterable[str], look: Look) -> Iterator[Row]:
    several = list(texts)
    if several:
        yield ()
        yield (("strong", head),)
        for text in several:
            yield from _hung("  ", text, look)


def _hung(indent: str, text: str, look: Look) -> Iterator[Row]:
    inner = len(indent) + (2 if indent else 0)
    for number, line in enumerate(wrapped(text, look.width - inner, look.width - len(indent))):
        yield (("", (" " * inner if number else indent) + line),)
