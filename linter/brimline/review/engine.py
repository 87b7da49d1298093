"""The engine: picks the tested formula and the root, runs the rules, stamps who says it and how grave it is, sorts."""

from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction

from msgspec.structs import replace

from brimline.document.meaning import fingerprint
from brimline.document.values import Document
from brimline.findings import Finding, Flag, Level, Place, Span
from brimline.moves.case import against, alone
from brimline.moves.values import Case
from brimline.review.ancestry import ancestry, successor_fault
from brimline.review.before import former
from brimline.review.fingerprint import counted
from brimline.review.holding import held_levels, holds
from brimline.review.jars import jars
from brimline.review.records import records
from brimline.review.stamp import Stamp
from brimline.review.values import Comparison, MoveRow, Review, Reviewed
from brimline.review.variances import apply
from brimline.rules import Rule, registered
from brimline.shelf import Book, Shelf

Progress = Callable[[int, int], None]


def review(shelf: Shelf, progress: Progress | None = None, base: Shelf | None = None) -> Review:
    """Review every formula of a shelf that was asked for; `base` is the shelf as it was before a change."""
    out = []
    for number, book in enumerate(shelf.formulas, start=1):
        out.append(review_one(shelf, book, base=base))
        if progress is not None:
            progress(number, len(shelf.formulas))
    return whole(shelf, out)


def whole(shelf: Shelf, formulas: Iterable[Reviewed]) -> Review:
    """The review of a shelf from its formulas, however they were shared out; adds what the collection's own files say."""
    reviewed = tuple(formulas)
    return Review(reviewed, tuple(shelf.refusals), shelf.names(), shelf.notices(), records(shelf, reviewed))


def review_one(shelf: Shelf, book: Book, previous: Document | None = None, base: Shelf | None = None) -> Reviewed:
    """One formula: its writing, the formula by itself, and its comparison with the tested one and the root.

    `previous` is the formula as it stood before a change, for the rules about evidence. `base` is the shelf before the
    change: it gives `previous`, and a tested formula that was changed is compared with as it was there too.
    """
    previous = previous or former(base, shelf, book, book.code)
    document = book.read.document
    findings = [*book.read.findings, *shelf.findings(book)]
    if document is None:
        return Reviewed(book.path, book.code, "", "", "", "", "", True, counted(sorted(findings, key=_key)))
    stamp = Stamp(book.path, document, book.read.text)
    scale, root = "", ""
    if not any(one.level is Level.UNREADABLE for one in findings):
        made, scale, root = _judge(shelf, book, document, stamp, previous, base)
        findings.extend(made)
    kept = counted(sorted((_located(shelf, _fielded(stamp, one)) for one in findings), key=_key))
    kept = apply(shelf, book, document, kept)
    levels = held_levels(shelf.settings(book))
    held = any(holds(one, document.standing, levels) for one in kept)
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


def _fielded(stamp: Stamp, one: Finding) -> Finding:
    """A finding of the reading or the shelf with the part of the formula it is about."""
    return one if one.field else replace(one, field=stamp.field(one.at.span))


def _key(one: Finding) -> tuple[int, int, int, str, str]:
    """Findings of a formula are shown gravest first, then in the order of the text."""
    return (int(one.level), one.at.span.start, one.at.span.end, one.rule, one.says)


def _judge(
    shelf: Shelf,
    book: Book,
    document: Document,
    stamp: Stamp,
    previous: Document | None = None,
    base: Shelf | None = None,
) -> tuple[list[Finding], str, str]:
    """All findings of the rules, the scale as text, and the root's code."""
    altitude, today, collection = shelf.settings(book).altitude_ft, shelf.today.isoformat(), shelf.collection(book)
    seals, chosen = collection.register if collection else None, shelf.settings(book).identity
    if document.standing != "adapted":
        case = alone(document, altitude, today)
        case = _claimed(replace(case, previous=previous, register=seals, jars=jars), chosen)
        flags = [*_flags([case], only=_only(document))]
        if (lost := successor_fault(shelf, book, document)) is not None:
            flags.append((_SUCCESSOR, lost))
        return _once(stamp.finding(rule, flag, case) for rule, flag in flags), "", ""
    chain, fault = ancestry(shelf, book)
    if fault is not None:
        return _once([stamp.finding(_EVIDENCE, fault, None)]), "", ""
    parent, root = chain[0], chain[-1]
    cases, too_many = against(parent, document, altitude, today)
    cases = tuple(replace(case, register=seals) for case in cases)
    found: list[Finding | None] = []
    for case in (_claimed(one, chosen) for one in cases):
        seen = {(one.rule, one.row) for one in found if one is not None}
        counted_jars = replace(case, jars=jars)
        made = [stamp.finding(rule, flag, case) for rule, flag in _flags([counted_jars])]
        # Another reading of the alternatives that breaks in the same way is not said twice.
        found.extend(one for one in made if one is not None and (not found or (one.rule, one.row) not in seen))
    for says, tested in _further(shelf, book, chain, base):
        more, many = against(tested, document, altitude, today)
        too_many = too_many or many
        for case in (replace(one, register=seals) for one in more):
            for rule, flag in _flags([case], without=("evidence/undeclared",)):
                # Places in a formula as it was before a change cannot be shown.
                told = replace(flag, says=says + flag.says, before=None) if says else flag
                found.append(stamp.finding(rule, told, case))
    if too_many:
        found.append(stamp.finding(_EVIDENCE, Flag("too-many-readings", _at(document, "take"), _TOO_MANY), None))
    scale = cases[0].contrast.scale if cases[0].contrast else Fraction(1)
    return _once(found), f"{float(scale):.2f}", root.code


def _further(shelf: Shelf, book: Book, chain: list[Document], base: Shelf | None) -> Iterator[tuple[str, Document]]:
    """What else an adaptation is measured against, each with what to say first: the root, tested formulas as they were."""
    if chain[-1] is not chain[0]:
        yield "", chain[-1]
    for now in {one.code: one for one in (chain[0], chain[-1])}.values():
        was = former(base, shelf, book, now.code)
        if was is not None and was.standing == "tested" and fingerprint(was) != fingerprint(now):
            yield f"Beside {now.code} as it was before this change: ", was


def _only(document: Document) -> str:
    """The group of rules that a formula is judged by; nobody cooks from a retired one, so that only its record counts."""
    return "evidence" if document.standing == "retired" else ""


def _claimed(case: Case, chosen: tuple[str, ...]) -> Case:
    """The case with what the formula says it is sold as, measured; most formulas do not say so.

    `chosen` are the standards of the collection's settings: all where it chooses none, no other where it does.
    """
    place = case.document.sold_as.partition(",")[2].strip().casefold()
    if not case.document.sold_as or (chosen and place not in [one.casefold() for one in chosen]):
        return case
    from brimline.review.identity import claim

    return replace(case, claim=claim(case.batch))


_EVIDENCE = Rule("evidence/tested", (), lambda _: iter(()), "", "")
_SUCCESSOR = Rule("evidence/successor", (), lambda _: iter(()), "", "")
_TOO_MANY = "Its alternatives can be read in more ways than are tried."


def _at(document: Document, *words: str) -> Span:
    from brimline.moves.listing import section

    return section(document, *words)


def _flags(cases: Iterable[Case], without: tuple[str, ...] = (), only: str = "") -> Iterator[tuple[Rule, Flag]]:
    """Every flag of every rule; a rule that raises becomes a flag of its own, and fails the run."""
    for case in cases:
        for rule in registered():
            if rule.name in without or (only and rule.group != only):
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
    if group == "identity":
        # A standard asks several things, and one of them does not repeat another.
        return False
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
        means = _meaning(here)
        rows.append(MoveRow(move.kind, move.was, move.now, move.change, means, move.declared, line, before, move.ratio))
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
