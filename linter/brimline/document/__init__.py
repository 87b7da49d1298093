"""Rows to one formula as frozen values, each with the place it was read from."""

from msgspec import Struct

from brimline.document import shape, units
from brimline.document.build import build
from brimline.document.load import load
from brimline.document.plain import to_json
from brimline.document.values import Document
from brimline.findings import Finding
from brimline.text import Text, decode
from brimline.tree import read as read_tree

__all__ = ["Document", "Read", "load", "read", "to_json", "units"]


class Read(Struct, frozen=True):
    """A file read as far as it can be.

    `document` holds every line that could be read, and is None only where there is no text at all. `findings` are all
    problems of the writing, sorted; none of them stops the others from being found.
    """

    document: Document | None
    text: Text | None
    findings: tuple[Finding, ...] = ()


def read(path: str, data: bytes) -> Read:
    """Read a formula from bytes; `path` is how it is called in findings. Never raises for anything in the bytes."""
    text, refused = decode(path, data)
    if text is None:
        return Read(None, None, refused)
    tree, faults = read_tree(text)
    built = build(text, tree)
    found = (*refused, *faults, *built.findings, *shape.faults(text, built))
    if found:
        found = tuple(sorted(found, key=lambda one: one.key))
    return Read(built.document, text, found)
