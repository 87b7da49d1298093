"""Which formula a file is and which it adapts, read from its header lines without parsing the rest."""

import re

from brimline.shelf.books import Book

# An `adapts` line about which there can be no doubt: one code and nothing else. The parser is asked about any other.
_LINE = re.compile(rb"(?:\A(?:\xef\xbb\xbf)?|\n)adapts([^\n]*)")
_PLAIN = re.compile(rb"[ \t]{1,80}([A-Z0-9]{1,12}(?:-[A-Z0-9]{1,12}){1,4})[ \t]{0,80}\r?")


def adapts_in(book: Book) -> str:
    """The code of the formula that a book departs from, as the parser reads it; empty if it names none.

    A formula that cannot be read at all may still be said to depart from another: that only makes one more to look at.
    """
    found = _LINE.findall(book.data or b"")
    if not found:
        return ""
    plain = _PLAIN.fullmatch(found[0]) if len(found) == 1 else None
    if plain:
        return str(plain.group(1), "ascii")
    document = book.read.document
    return document.adapts if document is not None else ""
