"""Text to rows and parsed lines: every fault of the writing is found in one run and stays on its line."""

import re
from collections.abc import Iterator

from msgspec import Struct

from brimline.findings import Finding
from brimline.text import Text
from brimline.tree.grammar import STARTS, Fault, Parse, parse
from brimline.tree.rows import HEADERS, SECTIONS, Row, join, rows

__all__ = ["HEADERS", "SECTIONS", "STARTS", "Fault", "Parse", "Row", "Tree", "parse", "read"]

_PARSED = frozenset(STARTS)
_OTHER_BULLET = re.compile(r"(?:[*•–—]|\d{1,2}[.)])[ \t]+")


class Tree(Struct, frozen=True):
    """A file's rows in order. `faulty` are the numbers of rows that could not be read, `text` is the rows joined."""

    rows: tuple[Row, ...]
    faulty: frozenset[int] = frozenset()

    @property
    def text(self) -> str:
        """The file's text again."""
        return join(self.rows)


def read(text: Text) -> tuple[Tree, tuple[Finding, ...]]:
    """Split a text into rows and parse each; returns all faults of the file, one a row, in order."""
    all_rows = tuple(rows(text))
    found = tuple(_faults(text, all_rows))
    return Tree(all_rows, frozenset(one.line for one in found) | text.refused), found


def _faults(text: Text, all_rows: tuple[Row, ...]) -> Iterator[Finding]:
    """The faults of the rows, one a row; what puts them into words is loaded only if there is one."""
    homeless_said = False
    stepped = False
    for row in all_rows:
        kind = row.kind
        if kind in _PARSED:
            stepped = False if kind == "section" else stepped
            homeless_said = False if kind == "section" else homeless_said
            fault = parse(kind, row.body).fault
            if fault is not None:
                from brimline.tree import faults

                yield faults.explain(text, row, fault)
        elif kind == "blank" or kind == "refused":
            stepped = stepped or kind == "refused"
        elif kind == "stray":
            from brimline.tree import faults

            yield faults.stray(text, row)
        elif kind == "lost":
            if row.section != "?" and not homeless_said:
                homeless_said = True
                from brimline.tree import faults

                yield faults.homeless(text, row)
        else:
            problem = _step_fault(text, row, stepped)
            stepped = True
            if problem is not None:
                yield problem


def _step_fault(text: Text, row: Row, stepped: bool) -> Finding | None:
    """What is wrong with a row of `make`; `stepped` tells whether a step stands above it."""
    body = row.body
    bullet = None if row.kind == "step" else _OTHER_BULLET.match(body)
    if body.startswith(("- ", "-\t")) if row.kind == "step" else stepped and not bullet:
        return None
    from brimline.tree import faults

    if body == "-":
        return faults.bad_step(text, row, "A dash without a step.", "- Wash the fruit.")
    if row.kind == "step":
        return faults.bad_step(text, row, "A step is a dash, a blank and the words.", "- " + body.lstrip("-"))
    if bullet:
        return faults.bad_step(text, row, "A step starts with a dash and a blank.", "- " + body[bullet.end() :])
    return faults.bad_step(text, row, "No step stands above for this line to go on from.", "- " + body)
