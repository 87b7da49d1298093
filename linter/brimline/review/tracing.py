"""What depends on a formula, a published figure or a publication: formulas to the last generation, figures, rules."""

import re
from collections.abc import Callable, Iterable, Iterator

from msgspec import Struct
from msgspec.structs import replace

from brimline import figures
from brimline.document.values import Document
from brimline.figures.values import Row
from brimline.findings import Source
from brimline.moves.published import tables
from brimline.review.engine import review_one
from brimline.review.rows import all_rows
from brimline.rules import registered
from brimline.shelf import Book, Shelf

_WORD = re.compile(r"[a-z0-9]+(?:[.-][a-z0-9]+)*")


class Dependent(Struct, frozen=True):
    """A formula that depends on what was asked for, and by which tie.

    `generation` is 0 for one that is tied to it directly, 1 for an adaptation of such a one, and so on. `tie` says how,
    in words; `line` is where it says so, 0 if nowhere in particular.
    """

    path: str
    code: str
    title: str
    standing: str
    generation: int
    tie: str
    line: int = 0


class FigureUse(Struct, frozen=True):
    """A published figure or process table: its id, what it is, its source."""

    id: str
    says: str
    source: Source


class RuleUse(Struct, frozen=True):
    """A rule and those of its rows in the decision table that rest on what was asked for; no rule for a row of none."""

    rule: str
    rows: tuple[str, ...]


class Traced(Struct, frozen=True):
    """What depends on one thing.

    `kind` is `formula`, `figure` or `source`; `asked` the words, `is_` what it is. `rests_on` are the figures and
    sources that a formula itself rests on. `unread` are paths that could not be read, so that nothing is known of them.
    """

    kind: str
    asked: str
    is_: str
    formulas: tuple[Dependent, ...] = ()
    figures: tuple[FigureUse, ...] = ()
    rules: tuple[RuleUse, ...] = ()
    rests_on: tuple[str, ...] = ()
    unread: tuple[str, ...] = ()


def trace_formula(shelf: Shelf, book: Book) -> Traced:
    """Everything that departs from a formula, to the last generation, and what the formula itself rests on."""
    document = book.read.document
    others = _readable(shelf)
    direct = [
        _dependent(other, one, 0, "was retired in its favour", "successor")
        for other, one in others
        if book.code and one.successor == book.code and other.collection == book.collection
    ]
    rests = [] if document is None else [*_own_sources(document), *_own_tables(document)]
    return Traced(
        kind="formula",
        asked=book.code or book.path,
        is_=f"{document.title}, {document.standing}" if document else "a formula that cannot be read",
        formulas=(*_descendants([book], others), *direct),
        rests_on=tuple(rests),
        unread=_unread(shelf),
    )


def trace_figure(shelf: Shelf, id_: str) -> Traced | None:
    """Everything that uses a published figure or process table; None if there is none of this id."""
    found = next((one for one in all_figures() if id_ in (one.id, one.id.partition("/")[2])), None)
    if found is None:
        return None
    return _resting(shelf, "figure", id_, found.says, (found,), lambda _: False)


def trace_source(shelf: Shelf, words: str) -> Traced:
    """Everything that names a publication, or uses a figure from it; every word asked for has to be there."""
    wanted = bag(words)
    named = tuple(one for one in all_figures() if wanted <= bag(f"{one.source.title} {one.source.section}"))
    return _resting(shelf, "source", words, "a publication, by its words", named, lambda text: wanted <= bag(text))


def bag(text: str) -> frozenset[str]:
    """The words of a text, small, without points and commas: `Guide 7, p. 7-8` is guide, 7, p, 7-8."""
    return frozenset(_WORD.findall(text.lower()))


def all_figures() -> tuple[FigureUse, ...]:
    """Every published figure and every process table."""
    values = [
        FigureUse(id_, one.says or one.about or _numbers(id_), one.source)
        for id_ in figures.published_ids()
        for one in [figures.published(id_)]
    ]
    processes = [
        FigureUse(f"process_times/{id_}", f"process table: {table.product}, {table.method}", table.source)
        for id_, table in figures.process_tables().items()
    ]
    return (*values, *processes)


def _numbers(id_: str) -> str:
    return ", ".join(number.name for number in figures.published(id_).numbers[:3])


def publications() -> tuple[str, ...]:
    """The titles of all publications behind figures and rows."""
    titles = [one.source.title for one in all_figures()] + [s.title for row in all_rows().values() for s in row.basis]
    return tuple(dict.fromkeys(titles))


def _resting(
    shelf: Shelf, kind: str, asked: str, is_: str, found: tuple[FigureUse, ...], names: Callable[[str], bool]
) -> Traced:
    """What rests on some figures, or names a publication in its own text."""
    ids = {part for one in found for part in (one.id, one.id.partition("/")[2])}

    def is_meant(source: Source) -> bool:
        return source.id in ids or names(f"{source.title} {source.section}")

    others = _readable(shelf)
    direct: list[Dependent] = []
    tied: list[Book] = []
    for book, document in others:
        ties = [*_named_in(book, document, names), *_used_by(shelf, book, document, ids, is_meant)]
        direct.extend(ties)
        tied.extend([book] if ties else [])
    rows = [row for row in all_rows().values() if any(is_meant(source) for source in row.basis)]
    return Traced(
        kind=kind,
        asked=asked,
        is_=is_,
        formulas=(*direct, *_descendants(tied, others)),
        figures=found,
        rules=tuple(_rules(rows)),
        unread=_unread(shelf),
    )


def _named_in(book: Book, document: Document, names: Callable[[str], bool]) -> Iterator[Dependent]:
    """Ties by a formula's own words: its evidence, its comments."""
    text = book.read.text
    for row in document.evidence:
        if row.kind in ("source", "tested") and names(row.text):
            line = text.line_column(row.span.start)[0] if text else 0
            yield replace(_dependent(book, document, 0, f"names it under {row.kind}"), line=line)
    for number, comment in document.comments:
        if names(comment):
            yield replace(_dependent(book, document, 0, "names it in a comment"), line=number)


def _used_by(
    shelf: Shelf, book: Book, document: Document, ids: set[str], is_meant: Callable[[Source], bool]
) -> Iterator[Dependent]:
    """Ties by the review: process tables its times are compared with, sources its findings cite."""
    for table in tables(document):
        if table.id in ids:
            yield _dependent(book, document, 0, f"its times are compared with {table.id}")
    cited = [one for one in review_one(shelf, book).findings if any(is_meant(source) for source in one.sources)]
    for finding in cited:
        tie = f"{finding.level.word} {finding.rule} cites it"
        yield replace(_dependent(book, document, 0, tie), line=finding.line)


def _rules(rows: Iterable[Row]) -> Iterator[RuleUse]:
    """The rules that decide some rows; a row that no rule decides stands by itself."""
    left = {row.id: row for row in rows}
    for rule in registered():
        decided = tuple(row for row in rule.decides if row in left)
        if decided:
            yield RuleUse(rule.name, decided)
            for row in decided:
                left.pop(row, None)
    if left:
        yield RuleUse("", tuple(left))


def _readable(shelf: Shelf) -> list[tuple[Book, Document]]:
    books = (*shelf.formulas, *shelf.known)
    return [(book, document) for book in books if (document := book.read.document) is not None]


def _unread(shelf: Shelf) -> tuple[str, ...]:
    return tuple(book.path for book in (*shelf.formulas, *shelf.known) if book.read.document is None)


def _dependent(book: Book, document: Document, generation: int, tie: str, header: str = "") -> Dependent:
    text, span = book.read.text, document.headers.get(header) if header else None
    line = text.line_column(span.start)[0] if text and span else 0
    return Dependent(book.path, document.code, document.title, document.standing, generation, tie, line)


def _descendants(roots: Iterable[Book], others: list[tuple[Book, Document]]) -> list[Dependent]:
    """All that depart from some formulas, parents before children; a ring of formulas is walked once."""
    out: list[Dependent] = []
    seen = {book.path for book in roots}
    level = [(book, 0) for book in roots]
    while level:
        parent, generation = level.pop(0)
        for other, document in others:
            tied = document.adapts and document.adapts == parent.code and other.collection == parent.collection
            if tied and other.path not in seen:
                seen.add(other.path)
                out.append(_dependent(other, document, generation + 1, f"adapts {parent.code}", "adapts"))
                level.append((other, generation + 1))
    return out


def _own_sources(document: Document) -> Iterator[str]:
    for row in document.evidence:
        if row.kind in ("source", "tested"):
            yield f"{row.kind}: {row.text.removeprefix(row.kind).strip()}"


def _own_tables(document: Document) -> Iterator[str]:
    for table in tables(document):
        yield f"published process table process_times/{table.id}: {table.product}"
