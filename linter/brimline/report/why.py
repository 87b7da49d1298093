"""What a rule demands, why, which edits it decides at which level, on whose authority, and an example of each kind."""

from collections.abc import Iterable, Iterator, Sequence

from msgspec import Struct

from brimline.figures.values import Row as Decided
from brimline.findings import Level, Source
from brimline.report.look import Look, cells, wrapped
from brimline.report.sink import Row, paint
from brimline.report.words import WHAT_IT_DOES, cited, sentence

_LABEL = 12

_WHERE = {
    "": "",
    "protects": "where the acid protects against illness",
    "doubtful": "where it is doubtful whether the acid protects",
    "sets": "where the acid is only there for the set",
}


class Example(Struct, frozen=True):
    """A line or two of a formula and whether the rule objects to it, with a few words on what it shows."""

    text: str
    bad: bool
    shows: str = ""


class Reason(Struct, frozen=True):
    """All that is known about a rule: its name, what must hold, why, the rows it decides, examples."""

    name: str
    must: str
    why: str
    rows: tuple[Decided, ...] = ()
    examples: tuple[Example, ...] = ()
    sources: tuple[Source, ...] = ()

    @property
    def group(self) -> str:
        """The part of the name before the slash."""
        return self.name.partition("/")[0]


def page(reason: Reason, look: Look) -> str:
    """The page of one rule."""
    return paint(_page(reason, look), look.colour)


def contents(reasons: Iterable[Reason], look: Look) -> str:
    """All rules by group, each with what must hold, in the order given."""
    return paint(_contents(tuple(reasons), look), look.colour)


def _page(reason: Reason, look: Look) -> Iterator[Row]:
    yield (("strong", reason.name),)
    yield ()
    yield from _labelled("Must hold", sentence(reason.must), look)
    yield from _labelled("Why", sentence(reason.why), look)
    for number, row in enumerate(reason.rows):
        yield from _labelled("" if number else "Decides", f"{row.id}: {sentence(row.edit)}", look)
        for level, where in _levels(row):
            rest = " ".join(filter(None, [level, where, f"({', '.join(row.kinds)})" if row.kinds else ""]))
            first, *more = wrapped(rest, look.width - _LABEL - 2)
            yield (("", " " * _LABEL + "  "), (_style(level), level), ("", first.removeprefix(level)))
            yield from ((("", " " * _LABEL + f"  {line}"),) for line in more)
        if row.note:
            yield from _labelled("", sentence(row.note), look, indent=2)
    for number, source in enumerate(cited(_sources(reason))):
        yield from _labelled("" if number else "Sources", sentence(source), look)
    for example in reason.examples:
        yield from _example(example)
    yield ()
    yield from _labelled("", WHAT_IT_DOES, look, label=0)


def _example(example: Example) -> Iterator[Row]:
    yield ()
    shows = f", {example.shows}" if example.shows else ""
    yield (("", f"{'Objects to' if example.bad else 'Accepts'}{shows}:"),)
    for line in example.text.rstrip().split("\n"):
        yield (("", f"    {line.expandtabs(2)}"),)


def _levels(row: Decided) -> Iterator[tuple[str, str]]:
    for place, level in row.levels:
        yield "no finding" if level == "silent" else level, _WHERE.get(place, f"where {place}")


def _style(level: str) -> str:
    return level if level in {one.word for one in Level} else ""


def _sources(reason: Reason) -> Sequence[Source]:
    return tuple(dict.fromkeys([*reason.sources, *(source for row in reason.rows for source in row.basis)]))


def _contents(reasons: tuple[Reason, ...], look: Look) -> Iterator[Row]:
    width = max((cells(reason.name) for reason in reasons), default=0) + 2
    group = ""
    for reason in reasons:
        if reason.group != group:
            if group:
                yield ()
            group = reason.group
            yield (("strong", group),)
        room = look.width - width - 2
        for number, line in enumerate(wrapped(sentence(reason.must), room)):
            name = "" if number else reason.name
            yield (("", f"  {name}{' ' * (width - cells(name))}{line}"),)
    yield ()
    yield from _labelled("", "brimline why RULE shows one of them with its reason and its sources.", look, label=0)


def _labelled(name: str, text: str, look: Look, indent: int = 0, label: int = _LABEL) -> Iterator[Row]:
    for number, line in enumerate(wrapped(text, look.width - label - indent)):
        start = ("" if number else name).ljust(label) + " " * indent
        yield (("", start + line),)
