"""What a variance lets stand, and what is wrong with one that lets nothing stand.

A variance lifts only findings of its rule, on its formula, as long as the formula means what it meant then, and only with
evidence that fits how grave the finding is. It never hides a finding.
"""

from collections.abc import Iterable, Iterator, Mapping
from datetime import date

from msgspec.structs import replace

from brimline.document.meaning import fingerprint
from brimline.document.private import private
from brimline.document.values import Document
from brimline.findings import Finding, Harm, Level, Place, Span, Variance
from brimline.review.rows import row_of
from brimline.review.values import Reviewed
from brimline.rules import registered
from brimline.shelf import Book, Shelf

# Findings that nothing lifts: what cannot be read, and what says whether the record itself can be trusted.
NEVER = ("writing", "evidence")
# Findings about acid and ingredients. A letter says that the product was looked at, the readings that its acid is enough
# in batch after batch; at least three batches are what process authorities ask for (common practice, no source).
NEED_READINGS = ("acid", "low-acid", "sugar", "set", "kind", "identity")
LEAST_BATCHES = 3
MONTHS = 12


def apply(shelf: Shelf, book: Book, document: Document, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings of a formula, each with the variance that lets it stand, if there is one."""
    kept = tuple(findings)
    collection = shelf.collection(book)
    mine = [one for one in collection.variances if one.formula == document.code] if collection else []
    if not mine:
        return kept
    printed = fingerprint(document)
    valid = [one for one in mine if not fault(one, shelf.today) and one.fingerprint == printed]
    return tuple(
        replace(one, varied=next((v for v in valid if v.rule == one.rule and not lacking(v, one)), None))
        for one in kept
    )


def fault(one: Variance, today: date) -> tuple[str, str] | None:
    """What keeps a variance from lifting anything, whatever it is for: the row it falls under and a sentence."""
    names = {rule.name for rule in registered()}
    if one.rule not in names:
        broad = "*" in one.rule or "," in one.rule or any(name.startswith(f"{one.rule}/") for name in names)
        says = (
            f"It is for `{one.rule}`, and a variance is for one rule." if broad else f"There is no rule `{one.rule}`."
        )
        return ("variance-broad" if broad else "variance-unused"), says
    if "*" in one.formula or "," in one.formula or " " in one.formula:
        return "variance-broad", f"It is for `{one.formula}`, and a variance is for one formula."
    if not one.role or not one.reason:
        return "variance-weak", "It does not say who gave it, or why."
    if one.until < today.isoformat():
        return "variance-expired", f"It ended on {one.until}."
    if one.until > _months_on(today, MONTHS).isoformat():
        return "variance-broad", f"It runs until {one.until}, more than {MONTHS} months from {today.isoformat()}."
    if one.rule.partition("/")[0] in NEVER:
        return "variance-broad", f"Nothing lifts a finding of `{one.rule}`."
    return None


def lacking(one: Variance, finding: Finding) -> str:
    """What the evidence of a variance lacks to let a finding stand; empty if it is enough."""
    if finding.level is Level.UNREADABLE:
        return "What cannot be read cannot be permitted."
    if finding.level is Level.UNSAFE:
        if not one.letter:
            return (
                "An unsafe finding stands only with a letter of a process authority; a pH reading alone lifts nothing."
            )
        if one.rule.partition("/")[0] in NEED_READINGS and one.batches < LEAST_BATCHES:
            return (
                "A finding about acid or ingredients stands only if the letter comes with pH readings, 4.6 or below, of the "
                f"finished, equilibrated product from at least {LEAST_BATCHES} batches; it has {one.batches}."
            )
    if finding.level is Level.UNTESTED and not (one.letter or one.readings or one.records):
        return "It names no evidence."
    return ""


def record_findings(shelf: Shelf, reviewed: Iterable[Reviewed]) -> Iterator[tuple[str, Finding]]:
    """What is wrong with the variances of the formulas reviewed, and of formulas that are not there: path and finding."""
    by_code: dict[tuple[int, str], Reviewed] = {}
    for done in reviewed:
        book = shelf.find(done.path)
        if book is not None and done.code:
            by_code[book.collection, done.code] = done
    for number, collection in enumerate(shelf.collections):
        for one in collection.variances:
            seen = by_code.get((number, one.formula))
            known = bool(shelf.of_code(number, one.formula))
            if seen is None and (known or not shelf.is_whole(number)):
                continue
            for row, says in _wrong(shelf, one, seen):
                yield (
                    one.path,
                    record_finding(
                        one.path, one.line, "evidence/variance", row, f"{_called(one)}: {says}", one.formula
                    ),
                )


def _wrong(shelf: Shelf, one: Variance, seen: Reviewed | None) -> Iterator[tuple[str, str]]:
    if data := private(" ".join((one.reason, one.role, one.letter, *map(str, one.readings), *one.records))):
        yield "private-data", f"It holds {data}."
    wrong = fault(one, shelf.today)
    if wrong:
        yield wrong
        return
    book = shelf.find(seen.path) if seen else None
    document = book.read.document if book else None
    if seen is None or document is None:
        yield "variance-unused", f"There is no formula {one.formula} in the collection."
        return
    printed = fingerprint(document)
    if one.fingerprint != printed:
        yield "variance-stale", f"{one.formula} is not what it was given for; its fingerprint is {printed} now."
        return
    found = [finding for finding in seen.findings if finding.rule == one.rule]
    if not found:
        yield "variance-unused", f"{one.formula} has no finding of `{one.rule}`."
        return
    for says in dict.fromkeys(lacking(one, finding) for finding in found if finding.varied is None):
        if says:
            yield "variance-weak", says


def record_finding(path: str, line: int, rule: str, row: str, says: str, code: str = "") -> Finding:
    """A finding in a file that a collection keeps beside its formulas, placed on a line of it."""
    decided = row_of(row)
    levels: Mapping[str, str] = dict(decided.levels)
    return Finding(
        at=Place(path, Span(0, 0)),
        level=Level[levels[""].upper()],
        rule=rule,
        harm=Harm.RECORD,
        says=says,
        why=decided.why,
        instead=decided.advice,
        formula=code,
        row=row,
        line=line,
        column=1 if line else 0,
        sources=decided.basis,
    )


def _called(one: Variance) -> str:
    return f"The variance for {one.formula or 'no formula'}, {one.rule or 'no rule'}"


def _months_on(day: date, months: int) -> date:
    """The same day some months on, or the last day of that month."""
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    for back in range(4):
        try:
            return date(year, month + 1, day.day - back)
        except ValueError:
            continue
    return date(year, month + 1, 28)
