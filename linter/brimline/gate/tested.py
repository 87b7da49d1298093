"""What a request does to tested formulas: changed, removed, called so without a seal, changed with what departs from them."""

from collections.abc import Iterable, Iterator

from msgspec import Struct
from msgspec.structs import replace

from brimline.document.meaning import evidence_rows, fingerprint
from brimline.document.same import difference
from brimline.document.values import Document
from brimline.findings import Finding
from brimline.gate.own import REMOVED, TESTED, TOGETHER, finding
from brimline.gate.scan import adapts_in
from brimline.gate.shelves import codes
from brimline.review.ancestry import MOST_GENERATIONS
from brimline.shelf import Book, Shelf

Key = tuple[int, str]


class Touched(Struct, frozen=True):
    """A tested formula of the base that the request changes or removes; `after` is empty where it is gone."""

    before: Book
    after: tuple[Book, ...]
    what: str


def touched(base: Shelf, head: Shelf, paths: frozenset[str]) -> dict[Key, Touched]:
    """The tested formulas of the base that mean something else in the head, or are gone, by collection and code."""
    after = codes(head)
    found: dict[Key, Touched] = {}
    for book in (*base.formulas, *base.known):
        document = book.read.document if book.path in paths and book.code else None
        if document is None or document.standing != "tested":
            continue
        key = (book.collection, book.code)
        now = after.get(key, ())
        what = next((part for part in (_unlike(book, one) for one in now) if part), "")
        if what or not now:
            found[key] = Touched(book, now, what)
    return found


def _unlike(before: Book, after: Book) -> str:
    """In what two revisions of a tested formula differ that bears on its evidence; layout, title and notes do not."""
    was, now = before.read.document, after.read.document
    if was is None or now is None:
        return "" if was is now else "whether it can be read"
    if fingerprint(was) != fingerprint(now):
        return difference(before.read, after.read) or "what it means"
    if was.standing != now.standing:
        return "`standing`"
    return "" if set(evidence_rows(was)) == set(evidence_rows(now)) else "`evidence`"


def called_tested(base: Shelf, head: Shelf, paths: frozenset[str]) -> Iterator[Book]:
    """The formulas that are tested only since this request, and that no seal of the base stands for."""
    before = codes(base)
    for book in head.formulas:
        document = book.read.document if book.path in paths else None
        if document is None or document.standing != "tested":
            continue
        was = [one.read.document for one in before.get((book.collection, book.code), ())]
        if not any(one is not None and one.standing == "tested" for one in was) and not sealed(head, book, document):
            yield book


def sealed(shelf: Shelf, book: Book, document: Document) -> bool:
    """Whether the register of the base holds a seal of exactly what a formula means, and of all its evidence."""
    collection = shelf.collection(book)
    seal = (collection.register or {}).get(document.code) if collection else None
    if seal is None or seal.fingerprint != fingerprint(document):
        return False
    return set(evidence_rows(document)) == {row for row, _ in seal.evidence}


def chain(shelf: Shelf, book: Book) -> tuple[Key, ...]:
    """The codes a formula departs from, its parent first, as its header and those of its parents say."""
    found: list[Key] = []
    here: Book | None = book
    while here is not None and len(found) < MOST_GENERATIONS:
        parent = adapts_in(here)
        key = (book.collection, parent)
        if not parent or key in found:
            break
        found.append(key)
        here = next(iter(shelf.by_code(parent, book)), None)
    return tuple(found)


def own_findings(
    base: Shelf, head: Shelf, paths: frozenset[str], changes: dict[Key, Touched]
) -> dict[str, list[Finding]]:
    """The gate's findings about formulas of the head, and about tested ones that are gone, by path."""
    found: dict[str, list[Finding]] = {}

    def add(one: Finding) -> None:
        found.setdefault(one.at.path, []).append(one)

    aside = {*base.left_out, *head.left_out}
    for key, one in changes.items():
        if one.before.path in aside:
            continue
        for after in one.after:
            document = after.read.document
            if document is None or not sealed(head, after, document):
                add(finding(TESTED, after.path, _changed(key[1], one.what, document), key[1], "/standing"))
        if not one.after:
            add(finding(REMOVED, one.before.path, f"The tested formula {key[1]} is removed.", key[1], "/standing"))
    for book in called_tested(base, head, paths):
        says = (
            f"{book.code or 'This formula'} is called tested since this request, and no seal of the base stands for it."
        )
        add(finding(TESTED, book.path, says, book.code, "/standing"))
    for one_of in _together(head, paths, changes):
        add(one_of)
    return found


def _changed(code: str, what: str, document: Document | None) -> str:
    if document is not None and document.standing != "tested":
        return f"{code} was tested and is now {document.standing or 'without a standing'}."
    return f"The request changes a tested formula: {code} says something else in {what}."


def _together(head: Shelf, paths: frozenset[str], changes: dict[Key, Touched]) -> Iterable[Finding]:
    for book in head.formulas:
        if book.path not in paths or not changes:
            continue
        both = [key[1] for key in chain(head, book) if key in changes]
        if both:
            says = f"{book.code} and the tested formula it departs from, {both[0]}, are changed in one request."
            yield finding(TOGETHER, book.path, says, book.code, "/adapts")


def on_first_header(book: Book, one: Finding) -> Finding:
    """A finding of the gate placed on the header line that names the formula."""
    document, text = book.read.document, book.read.text
    span = document.headers.get("formula") if document is not None else None
    if span is None or text is None:
        return one
    line, column = text.line_column(span.start)
    return replace(one, at=replace(one.at, span=span), line=line, column=column, section="formula")
