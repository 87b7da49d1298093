"""From an adaptation to the formula it departs from, that one's own, and so on to the root; or what breaks the chain."""

from brimline.document.values import Document
from brimline.findings import Flag, Level, Span
from brimline.shelf import Book, Shelf

# More adaptations of adaptations than any collection has; a longer chain is not followed, and said to be so.
MOST_GENERATIONS = 16


def ancestry(shelf: Shelf, book: Book) -> tuple[list[Document], Flag | None]:
    """The tested formula an adaptation names, that one's own tested formula and so on to the root; or what is wrong."""
    chain: list[Document] = []
    here, document = book, book.read.document
    while document is not None and document.standing == "adapted":
        if len(chain) == MOST_GENERATIONS:
            says = f"It is more than {MOST_GENERATIONS} adaptations away from a tested formula."
            return chain, Flag("tested-missing", _header(book, "adapts"), says)
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
        after = parent.document.successor
        return Flag(
            "tested-missing",
            at,
            f"{document.adapts} is {parent.document.standing}{whose} and nothing to depart from.",
            instead=f"look at {after}, which {document.adapts} names as its successor" if after else "",
        )
    return found[0]


def successor_fault(shelf: Shelf, book: Book, document: Document) -> Flag | None:
    """What is wrong with the successor a retired formula names; None if nothing is, or none is named."""
    code, at = document.successor, _header(book, "successor")
    if not code:
        return None
    found = shelf.by_code(code, book)
    if code == document.code:
        return Flag("successor-missing", at, f"{code} is its own successor.")
    if not found:
        near = _nearest(code, shelf.codes(book))
        return Flag("successor-missing", at, f"`{code}` is not in this collection{near}.")
    other = found[0].read.document
    if other is None or other.standing in ("draft", "retired"):
        after = f"; look at its own successor, {other.successor}" if other is not None and other.successor else ""
        standing = other.standing if other is not None else "not readable"
        return Flag("successor-missing", at, f"{code} is {standing}{after}.")
    return None


def _nearest(code: str, codes: tuple[str, ...]) -> str:
    from difflib import get_close_matches

    close = get_close_matches(code, codes, 3, 0.5)
    return f"; the nearest codes are {', '.join(close)}" if close else ""


def _header(book: Book, word: str) -> Span:
    document = book.read.document
    if document is None:
        return Span(0, 0)
    return document.headers.get(word, document.headers.get("formula", Span(0, 0)))
