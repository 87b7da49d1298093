"""Which formulas a formula names in its header lines, read without parsing the rest."""

import re

from brimline.shelf.books import Book

# A line about which there can be no doubt: one code and nothing else. The parser is asked about any other.
_LINE = {
    word: re.compile(rb"(?:\A(?:\xef\xbb\xbf)?|\n)" + word.encode("ascii") + rb"([^\n]*)")
    for word in ("adapts", "successor")
}
_PLAIN = re.compile(rb"[ \t]{1,80}([A-Z0-9]{1,12}(?:-[A-Z0-9]{1,12}){1,4})[ \t]{0,80}\r?")


def adapts_in(book: Book) -> str:
    """The code of the formula that a book departs from, as the parser reads it; empty if it names none.

    A formula that cannot be read at all may still be said to depart from another: that only makes one more to look at.
    """
    return _named(book, "adapts")


def successor_in(book: Book) -> str:
    """The code of the formula that a retired one names as its successor; empty if it names none."""
    return _named(book, "successor")


def _named(book: Book, word: str) -> str:
    data = book.data or b""
    # Most formulas have no such line; looking for its bare word takes a fiftieth of the time.
    found = _LINE[word].findall(data) if word.encode("ascii") in data else []
    if not found:
        return ""
    plain = _PLAIN.fullmatch(found[0]) if len(found) == 1 else None
    if plain:
        return str(plain.group(1), "ascii")
    document = book.read.document
    return str(getattr(document, word)) if document is not None else ""
