"""The engine: picks the tested formula and the root, runs the rules, stamps who says it and how grave it is, sorts."""

from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction

from msgspec.structs import replace

from brimline.document.values import Document
from brimline.findings import Finding, Flag, Level, Place, Span
from brimline.moves.case import against, alone
from brimline.moves.values import Case
from brimline.review.jars import jars
from brimline.review.stamp import Stamp
from brimline.review.values import Comparison, MoveRow, Review, Reviewed
from brimline.rules import Rule, registered
from brimline.shelf import Book, Shelf

Progress = Callable[[int, int], None]
MOST_GENERATIONS = 16


def review(shelf: Shelf, progress: Progress | None = None) -> Review:
    """Review every formula of a shelf that was asked for."""
    out = []
    for number, book in enumerate(shelf.formulas, start=1):
        out.append(review_one(shelf, book))
        if progress is not None:
            progress(number, len(shelf.formulas))
    return Review(tuple(out), tuple(shelf.refusals), shelf.names(), shelf.notices())


def review_one(shelf: Shelf, book: Book, previous: Document | None = None) -> Reviewed:
    """One formula: its writing, the formula by itself, and its comparison with the tested one and the root.

    `previous` is the formula as it stood before a change, for the rules about evidence.
    """
    document = book.read.document
    findings = [*book.read.findings, *shelf.findings(book)]
    if document is None:
        return Reviewed(book.path, book.code, "", "", "", "", "", True, tuple(sorted(findings, key=_key)))
    stamp = Stamp(book.path, document, book.read.text)
    scale, root = "", ""
    if not any(one.level is Level.UNREADABLE for one in findings):
        made, scale, root = _judge(shelf, book, document, stamp, previous)
        findings.extend(made)
    kept = tuple(sorted((_located(shelf, one) for one in findings), key=_key))
    levels = {Level.UNREADABLE, Level.UNSAFE, Level.UNTESTED, *_more_levels(shelf, book)}
    held = document.standing != "draft" and any(one.level in levels for one in kept)
    return Reviewed(
        path=book.path,
        code=document.code,
        title=document.title,
        standing=document.standing,
        departs_from=document.adapts,
        root=root if root != document.adapts else "",
        scale=scale,
        held_back=held,
        findings=kept,
    )


def _located(shelf: Shelf, one: Finding) -> Finding:
    """A finding with the line of its place in the tested formula."""
    book = shelf.find(one.before.path) if one.before else None
    text = book.read.text if book else None
    if text is None or one.before is None:
        return one
    return replace(one, before_line=text.line_column(one.before.span.start)[0])


def _more_levels(shelf: Shelf, book: Book) -> Iterator[Level]:
    for word in shelf.settings(book).hold_back:
        yield Level[word.upper()]


def _key(one: Finding) -> tuple[int, int, int, str, str]:
    """Findings of a formula are shown gravest first, then in the order of the text."""
    return (int(one.level), one.at.span.start, one.at.span.end, one.rule, one.says)


def _judge(
    shelf: Shelf, book: Book, document: Document, stamp: Stamp, previous: Document | None = None
) -> tuple[list[Finding], str, str]:
    """All findings of the rules, the scale as text, and the root's code."""
    altitude, today = shelf.settings(book).altitude_ft, shelf.today.isoformat()
    if document.standing != "adapted":
        case = replace(alone(document, altitude, today), previous=previous, jars=jars)
        return _once(stamp.finding(rule, flag, case) for rule, flag in _flags([case])), "", ""
    chain, fault = ancestry(shelf, book)
    if fault is not None:
        return _once([stamp.finding(_EVIDENCE, fault, None)]), "", ""
    parent = chain[0]
    cases, too_many = against(parent, document, altitude, today)
    found: list[Finding | None] = []
    for case in cases:
        seen = {(one.rule, one.row) for one in found if one is not None}
        flags = _flags([replace(case, jars=jars)])
        made = [stamp.finding(rule, flag, case) for rule, flag in flags]
        # Another reading of the alternatives that breaks in the same way is not said twice.
        found.extend(one for one in made if one is not None and (not found or (one.rule, one.row) not in seen))
    root = chain[-1]
    if root is not parent:
        further, more = against(root, document, altitude, today)
        too_many = too_many or more
        for case in further:
            flags = _flags([case], without=("evidence/undeclared",))
            found.extend(stamp.finding(rule, flag, case) for rule, flag in flags)
    if too_many:
        found.append(stamp.finding(_EVIDENCE, Flag("too-many-readings", _at(document, "take"), _TOO_MANY), None))
    scale = cases[0].contrast.scale if cases[0].contrast else Fraction(1)
    return _once(found), f"{float(scale):.2f}", root.code


_EVIDENCE = Rule("evidence/tested", (), lambda _: iter(()), "", "")
_TOO_MANY = "Its alternatives can be read in more ways than are tried."


def _at(document: Document, *words: str) -> Span:
    from brimline.moves.listing import section

    return section(document, *words)


def ancestry(shelf: Shelf, book: Book) -> tuple[list[Document], Flag | None]:
    """The tested formula an adaptation names, that one's own tested formula and so on to the root; or what is wrong."""
    chain: list[Document] = []
    here, document = book, book.read.document
    while document is not None and document.standing == "adapted" and len(chain) < MOST_GENERATIONS:
        fault = _fault(shelf, here, document, book)
        if isinstance(fault, Flag):
            return chain, fault
        here = fault
        document = here.read.document
        if document is None or document.code in [one.code for one in chain] or document.code == book.code:
            at = _header(book, "adapts")
            return chain, Flag(
                "tested-missing", at, f"The chain of formulas it departs from comes back to {here.code}."
            )
        chain.append(document)
    return chain, None


def _fault(shelf: Shelf, here: Book, document: Document, book: Book) -> "Book | Flag":
    """The book of a parent, or the flag that says why there is none to compare with."""
    at = _header(book, "adapts")
    whose = "" if here is book else f" (through {here.code})"
    found = shelf.by_code(document.adapts, here)
    if not found:
        near = _nearest(document.adapts, shelf.codes(here))
        text = f"`{document.adapts}` is not in this collection{whose}."
        return Flag("tested-missing", at, text, (), instead=f"write the code of the tested formula{near}")
    if len(found) > 1:
        return Flag("tested-missing", at, f"Two formulas have the code {document.adapts}{whose}; which one is meant?")
    parent = found[0].read
    if parent.document is None or any(one.level is Level.UNREADABLE for one in parent.findings):
        return Flag("tested-missing", at, f"{document.adapts} ({found[0].path}) cannot be read{whose}.")
    if parent.document.standing in ("draft", "retired"):
        text = f"{document.adapts} is {parent.document.standing}{whose} and nothing to depart from."
        successor = parent.document.successor
        return Flag("tested-missing", at, text, instead=f"depart from {successor}, its successor" if successor else "")
    return found[0]


def _nearest(code: str, codes: tuple[str, ...]) -> str:
    from difflib import get_close_matches

    close = get_close_matches(code, codes, 3, 0.5)
    return f"; the nearest codes are {', '.join(close)}" if close else ""


def _header(book: Book, word: str) -> Span:
    document = book.read.document
    if document is None:
        return Span(0, 0)
    return document.headers.get(word, document.headers.get("formula", Span(0, 0)))


def _flags(cases: Iterable[Case], without: tuple[str, ...] = ()) -> Iterator[tuple[Rule, Flag]]:
    """Every flag of every rule; a rule that raises becomes a flag of its own, and fails the run."""
    for case in cases:
        for rule in registered():
            if rule.name in without:
                continue
            try:
                flags = list(rule.check(case))
            except Exception as error:
                at = case.document.headers.get("formula", Span(0, 0))
                flags = [Flag("rule-failed", at, f"The rule {rule.name} stopped with {type(error).__name__}: {error}.")]
                if _trace():
                    raise
            for flag in flags:
                yield rule, flag


def _trace() -> bool:
    import os

    return bool(os.environ.get("BRIMLINE_TRACE"))


def _once(found: Iterable[Finding | None]) -> list[Finding]:
    """Findings without repeats: one per row and place, the certain and graver one kept."""
    best: dict[tuple[str, str, Place], Finding] = {}
    for one in found:
        if one is None:
            continue
        key = (one.rule, one.row, one.at)
        old = best.get(key)
        if old is None or (int(one.level), not one.certain) < (int(old.level), not old.certain):
            best[key] = one
    kept = list(best.values())
    return [one for one in kept if one.certain or not _outdone(one, kept)]


def _outdone(one: Finding, others: list[Finding]) -> bool:
    """Whether an uncertain finding only repeats a certain one of its hazard that is as grave."""
    group = one.rule.partition("/")[0]
    return any(other.certain and other.level <= one.level and other.rule.partition("/")[0] == group for other in others)


def compare(shelf: Shelf, path: str) -> Comparison | None:
    """An adaptation beside the formula it departs from, move by move; None if there is nothing to compare with."""
    book = shelf.find(path) or (shelf.formulas[0] if shelf.formulas else None)
    if book is None or book.read.document is None or book.read.document.standing != "adapted":
        return None
    reviewed = review_one(shelf, book)
    chain, fault = ancestry(shelf, book)
    if fault is not None or not chain:
        return None
    parent, document = chain[0], book.read.document
    cases, _ = against(parent, document, shelf.settings(book).altitude_ft, shelf.today.isoformat())
    text = book.read.text
    parent_book = shelf.by_code(parent.code, book)[0]
    rows = []
    for move in dict.fromkeys(move for case in cases for move in case.moves):
        here = [one for one in reviewed.findings if one.at.span == move.at or _inside(move.at, one.at.span)]
        line = text.line_column(move.at.start)[0] if text else 0
        parent_text = parent_book.read.text
        before = parent_text.line_column(move.before.start)[0] if parent_text and move.before else 0
        rows.append(MoveRow(move.kind, move.was, move.now, move.change, _meaning(here), move.declared, line, before))
    contrast = cases[0].contrast
    scale = f"{float(contrast.scale):.2f}" if contrast else ""
    return Comparison(reviewed, parent.code, parent.title, scale, cases[0].acid_class, tuple(rows))


def _inside(outer: Span, inner: Span) -> bool:
    return outer.start <= inner.start and inner.end <= outer.end


def _meaning(findings: list[Finding]) -> str:
    grave = [one for one in findings if one.row not in ("undeclared", "honey-infant", "role-contradicted")]
    if not grave:
        return "nothing in the table holds this back"
    worst = min(grave, key=lambda one: int(one.level))
    return f"{'' if worst.certain else 'may be '}{worst.level.word}: {worst.rule}"


__all__ = ["ancestry", "compare", "review", "review_one"]
