"""Lays the rows of a file out anew: blanks, blank lines and line ends change, and nothing else does.

Where a thing stands in its line depends on that line alone. So one changed line never moves another, and two formulas
laid side by side differ only where they say different things.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from msgspec import Struct

from brimline.text import MOST_CHARACTERS
from brimline.tree.grammar import STARTS, parse
from brimline.tree.rows import Row

if TYPE_CHECKING:
    from lark import Token

    from brimline.tree import Tree

# Columns, counted from 0, at which things start when what stands before them leaves room.
HEADER_AT = 10
VALUE_AT = 13
NAME_AT = 34
_INDENT = "  "
_INDENT_UNDER = "    "

_SUB_LINES = frozenset({"other", "mix", "made_of", "note"})
# The tokens that say what a line is about; the value starts behind them.
_LEADING = frozenset({"OPTIONAL", "STAY", "ROLE", "OR", "FROM", "NOTE"})
# The tokens that hold words of the author's own.
_FREE = frozenset({"TEXT", "NAME", "FORM", "WHERE", "PART"})
# Lines that are one run of words from their start: a title behind its code, jars and times.
_UNALIGNED = frozenset({"formula", "section", "times", "start"})
_PUNCTUATION = {"": " ", ",": ", ", ":": ": ", "=": " = ", "+": " + "}


class Placed(Struct, frozen=True):
    """One row that is not blank, as it is to stand: blank lines before it, and the line without its line end."""

    row: Row
    blanks: int
    line: str


def placed(tree: "Tree", kept: frozenset[int] = frozenset()) -> tuple[Placed, ...]:
    """The rows of a tree as they are to stand.

    Rows in `kept` (numbers from 1), rows that could not be read and rows of an unknown section stay as they are, and so
    do the blank lines among them. Between two sections stands one blank line, inside a section none; a comment at the
    left edge goes with what follows it.
    """
    full = [row for row in tree.rows if row.body or row.comment]
    stay = kept | tree.faulty | {row.number for row in full if row.kind in ("lost", "stray", "refused")}
    lines = _lines(full, stay)
    opening = _opening(full, lines)
    out: list[Placed] = []
    for place, (row, line) in enumerate(zip(full, lines, strict=True)):
        before = full[place - 1] if place else None
        if place in opening:
            blanks = 1
        elif before is not None and row.number in stay and before.number in stay:
            blanks = row.number - before.number - 1
        else:
            blanks = 0
        out.append(Placed(row, blanks, line))
    return tuple(out)


def text(rows: tuple[Placed, ...]) -> str:
    """The rows as a text: line feeds alone end lines, and the last line has one."""
    return "".join("\n" * one.blanks + one.line + "\n" for one in rows)


def _lines(full: list[Row], stay: frozenset[int]) -> list[str]:
    """Each row's line. From the last to the first, because a comment stands where the line below it stands."""
    lines: list[str] = []
    section, indent = "", _INDENT
    for row in reversed(full):
        if row.section != section:
            section, indent = row.section, _INDENT
        if not row.body:
            lines.append((indent if row.indent and row.section else "") + row.comment.rstrip())
            continue
        line = row.text.rstrip("\n").removesuffix("\r") if row.number in stay else _line(row)
        lines.append(line)
        indent = line[: len(line) - len(line.lstrip())] if row.indent and row.number not in stay else _INDENT
    return lines[::-1]


def _opening(full: list[Row], lines: list[str]) -> frozenset[int]:
    """The places of rows that a blank line stands before: what opens a section, or the comments right above it."""
    out: set[int] = set()
    above = ""
    block: int | None = None
    for place, row in enumerate(full):
        if not row.body:
            if lines[place][:1] != "#":
                block = None
            elif block is None:
                block = place
            continue
        if _opens(row, above):
            out.add(place if block is None else block)
        block = None
        above = row.kind
    if block is not None:
        out.add(block)
    return frozenset(out - {0})


def _opens(row: Row, above: str) -> bool:
    """Whether a row opens a section, or a block of headers below one; `above` is the kind of the row above it."""
    if row.kind == "header":
        return above != "header"
    return row.kind == "section" or (row.kind == "stray" and row.section == "?")


def _line(row: Row) -> str:
    """A row that could be read, laid out; as it stands if it would become longer than a line may be."""
    if row.kind in STARTS:
        line = _aligned(row)
    elif row.kind == "step":
        line = f"{_INDENT}- {row.body[1:].lstrip()}"
    else:
        line = _INDENT_UNDER + row.body
    if row.comment:
        line += "  " + row.comment.rstrip()
    return line if len(line) <= MOST_CHARACTERS else row.text.rstrip("\r\n")


def _aligned(row: Row) -> str:
    """A row of the grammar: what it is about, its value, and in `take` the name of the thing, each at its column."""
    tree = parse(row.kind, row.body).tree
    assert tree is not None, "rows that cannot be read are kept"  # noqa: S101
    kind = str(tree.data)
    tokens = list(_tokens(tree))
    indent = _INDENT if row.indent else ""
    if kind in _UNALIGNED:
        return indent + _joined(row.body, tokens)
    if row.kind != "take":
        value_at = VALUE_AT if row.indent else HEADER_AT
        return _columns(row.body, [tokens[:1], tokens[1:]], indent, (value_at,))
    if kind in _SUB_LINES:
        indent = _INDENT_UNDER
    head = next((i for i, token in enumerate(tokens) if token.type not in _LEADING), len(tokens))
    name = next((i for i, token in enumerate(tokens) if token.type == "NAME"), len(tokens)) if kind != "mix" else -1
    cells = [tokens[:head], tokens[head:]] if name < head else [tokens[:head], tokens[head:name], tokens[name:]]
    return _columns(row.body, cells, indent, (VALUE_AT, NAME_AT))


def _columns(body: str, cells: "list[list[Token]]", indent: str, stops: tuple[int, ...]) -> str:
    """Cells at their columns; one that finds its column taken stands behind, after two blanks if it is a name."""
    line = indent + _joined(body, cells[0])
    for cell, stop in zip(cells[1:], stops, strict=False):
        if not cell:
            continue
        words = _joined(body, cell)
        gap = " " if stop != NAME_AT else "  "
        # Behind two blanks a number sign would open a comment.
        line = f"{line} {words}" if words.startswith("#") else f"{(line + gap).ljust(stop)}{words}"
    return line


def _joined(body: str, tokens: "list[Token]") -> str:
    """Tokens with one blank, or their punctuation, between them; those that touch (`5½`) stay together."""
    out: list[str] = []
    end = 0
    for token in tokens:
        start = token.start_pos or 0
        between = body[end:start]
        if out and between:
            out.append(_PUNCTUATION[between.strip(" \t")])
        # Free words keep the blanks their author gave them; `fl  oz` is a word of the format.
        out.append(token.rstrip() if token.type in _FREE else " ".join(token.split()))
        end = token.end_pos or 0
    return "".join(out)


def _tokens(tree: Any) -> "Iterator[Token]":
    """The tokens of a parse in order; nodes are at most five deep."""
    for child in tree.children:
        if isinstance(child, str):
            yield child  # type: ignore[misc]  # the only strings in a parse are tokens
        else:
            yield from _tokens(child)
