"""Finds a formula as it stood before a change."""

from brimline.document.values import Document
from brimline.findings import Level
from brimline.shelf import Book, Shelf


def former(base: Shelf | None, shelf: Shelf, book: Book, code: str) -> Document | None:
    """The formula of a code in the same collection of the shelf before a change; None if there was none to be read."""
    place = shelf.collection(book)
    if base is None or place is None or not code:
        return None
    for number, one in enumerate(base.collections):
        if one.folder == place.folder:
            found = base.of_code(number, code)
            read = found[0].read if len(found) == 1 else None
            if read is not None and not any(fault.level is Level.UNREADABLE for fault in read.findings):
                return read.document
    return None
