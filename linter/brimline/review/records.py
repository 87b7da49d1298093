"""The files that a collection keeps beside its formulas, and what a review finds in them."""

from collections.abc import Iterable, Iterator

from brimline.document.private import private
from brimline.findings import Finding
from brimline.review import variances
from brimline.review.values import Reviewed
from brimline.review.variances import record_finding
from brimline.shelf import REGISTER, Collection, Shelf


def records(shelf: Shelf, reviewed: Iterable[Reviewed]) -> tuple[Reviewed, ...]:
    """One entry for each register and list of variances in which something is wrong, by path."""
    found: dict[str, list[Finding]] = {}
    for path, one in (*variances.record_findings(shelf, tuple(reviewed)), *_seals(shelf)):
        found.setdefault(path, []).append(one)
    return tuple(_record(path, several) for path, several in sorted(found.items()))


def _record(path: str, findings: list[Finding]) -> Reviewed:
    kept = tuple(sorted(findings, key=lambda one: (int(one.level), one.line, one.says)))
    title = "Register" if path.endswith(REGISTER) else "Variances"
    return Reviewed(path, "", title, "", "", "", "", held_back=False, findings=kept)


def _seals(shelf: Shelf) -> Iterator[tuple[str, Finding]]:
    """Seals without a tested formula, where the whole collection was looked at."""
    for number, collection in enumerate(shelf.collections):
        if collection.register is None or not shelf.is_whole(number):
            continue
        path = shelf.record_path(number, REGISTER)
        for code, says in _orphans(shelf, number, collection):
            yield path, record_finding(path, 0, "evidence/register", "seal-orphan", says, code)
        for seal in collection.register.values():
            if data := private(" ".join((seal.reason, *(row for row, _ in seal.evidence)))):
                says = f"The entry of {seal.code} holds {data}."
                yield path, record_finding(path, 0, "evidence/register", "private-data", says, seal.code)


def _orphans(shelf: Shelf, number: int, collection: Collection) -> Iterator[tuple[str, str]]:
    for code in collection.register or ():
        books = shelf.of_code(number, code)
        if not books:
            yield code, f"{code} is sealed, and no formula of the collection has that code."
            continue
        document = books[0].read.document
        standing = document.standing if document else ""
        if standing and standing not in ("tested", "retired"):
            yield code, f"{code} is sealed as tested, and its formula is called {standing}."
