"""What a rule demands, why, which edits it decides at which level, on whose authority, and an example of each kind."""

from collections.abc import Iterable, Iterator, Sequence

from msgspec import Struct

from brimline.figures.values import Row as Decided
from brimline.findings import Level, Source
from brimline.report.look import Look, cells, wrapped
from brimline.report.sink import Row, paint, visible
from brimline.report.words import WHAT_IT_DOES, cited, sentence

_LABEL = 12
_WHOSE = 8  # `tested` and `here` before a line of an example, with the blanks after them

_WHERE = {
    "": "",
    "protects": "where the acid protects against illness",
    "doubtful": "where it is doubtful whether the acid protects",
    "sets": "where the acid is only there for the set",
    "end-point": "where the batch boils to an end point",
    "other-kind": "in other products",
    "plain": "in plain canned tomato and fig",
    "gelled-over-twice": "beyond twice the tested amount in a gelled product",
    "cold": "where it is kept in a refrigerator or freezer",
    "sweet-pickle": "in a sweet pickle or relish",
    "below": "below what the tested formula states",
    "flavour": "where sugar is there for the flavour only",
    "baby-food": "in food for babies",
    "over": "beyond that amount",
    "sweet-for-hot": "with sweet pepper in place of hot",
    "gelled": "in a gelled product",
    "salsa": "in a salsa, relish or chutney",
    "salsa-paste": "with a little extra tomato paste in a salsa",
    "less": "with less of it",
    "other-nut": "with another nut in the same amount",
    "process-cut": "where the process is cut as well",
    "under-half": "below half a batch",
    "alone": "in a formula read by itself",
    "collection-above": "where the collection lies higher",
    "recorded": "where its conditions are recorded",
    "short": "where the process is short",
    "published-row": "where a published row gives the time",
    "reusable-plastic": "with reusable plastic lids",
    "shop-jar": "with jars from shop food",
}


# What each group of rules is about, for somebody who sees the list for the first time.
GROUP_WORDS = {
    "writing": "how a formula is written",
    "kind": "what the product is",
    "acid": "the acid, and the food it has to protect",
    "sugar": "the sugar, and what stands in for it",
    "low-acid": "food that brings no acid of its own",
    "set": "the pectin, the fruit and the boil that make it gel",
    "jar": "jars, lids and the gap under the lid",
    "heat": "the process, and what slows heat on its way into the jar",
    "keep": "where it is kept, and how long",
    "practice": "what the steps tell the cook to do",
    "yield": "how many jars it fills",
    "evidence": "what shows that it was tested",
    "gate": "what a request may not change by itself",
    "identity": "what a product may be called",
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
        for level, where in levels_of(row):
            rest = " ".join(filter(None, [level, where, f"({', '.join(row.kinds)})" if row.kinds else ""]))
            first, *more = wrapped(rest, look.width - _LABEL - 2)
            yield (("", " " * _LABEL + "  "), (_style(level), level), ("", first.removeprefix(level)))
            yield from ((("", " " * _LABEL + f"  {line}"),) for line in more)
        if row.note:
            yield from _labelled("", sentence(row.note), look, indent=2)
    for number, advice in enumerate(advice_of(reason)):
        yield from _labelled("" if number else "Instead", advice, look)
    for number, source in enumerate(sources_of(reason)):
        yield from _labelled("" if number else "Sources", source, look)
    for example in reason.examples:
        yield from _example(example, look)
    yield ()
    yield from _labelled("", WHAT_IT_DOES, look, label=0)


def _example(example: Example, look: Look) -> Iterator[Row]:
    yield ()
    yield from _labelled("Flagged" if example.bad else "Accepted", sentence(example.shows), look)
    room = look.width - _LABEL - 2
    for line in example.text.rstrip().split("\n"):
        whose = line[:_WHOSE] if line[:_WHOSE].strip() in {"tested", "here"} else ""
        rest = visible(line[len(whose) :])
        lines = [rest] if cells(whose + rest) <= room else wrapped(rest, room - len(whose))
        for number, one in enumerate(lines):
            yield (("", " " * (_LABEL + 2) + (" " * len(whose) if number else whose) + one),)


def advice_of(reason: Reason) -> list[str]:
    """What to do instead, for all rows of a rule, each piece of advice once."""
    flagged = [row for row in reason.rows if any(level != "silent" for _, level in row.levels)]
    return [sentence(text) for text in dict.fromkeys(row.advice for row in flagged if row.advice)]


def sources_of(reason: Reason) -> list[str]:
    """The publications behind a rule, each once with its places; the text format for what is about the writing."""
    return [sentence(text) for text in cited(_sources(reason))]


def levels_of(row: Decided) -> Iterator[tuple[str, str]]:
    """Each level of a row in words, with where it holds."""
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
            about = GROUP_WORDS.get(group, "")
            first, *more = wrapped(f"{group}: {about}" if about else group, look.width)
            yield (("strong", group), ("", first.removeprefix(group)))
            yield from ((("", f"  {line}"),) for line in more)
        room = look.width - width - 2
        for number, line in enumerate(wrapped(sentence(reason.must), room)):
            name = "" if number else reason.name
            yield (("", f"  {name}{' ' * (width - cells(name))}{line}"),)
    yield ()
    yield from _labelled(
        "",
        "brimline why RULE shows one of them with its reason, its sources, what to do instead, and an example of each kind.",
        look,
        label=0,
    )


def _labelled(name: str, text: str, look: Look, indent: int = 0, label: int = _LABEL) -> Iterator[Row]:
    for number, line in enumerate(wrapped(text, look.width - label - indent)):
        start = ("" if number else name).ljust(label) + " " * indent
        yield (("", start + line),)
