"""Turns one line into its value and remembers it by its text; nothing here knows where the line stands.

Spans in what is remembered count from the start of the line's body; `moved.py` shifts them to a place in a file.
"""

from collections.abc import Callable
from functools import lru_cache
from typing import Any

from msgspec import Struct

from brimline.document import lines, take
from brimline.document.amounts import Note, UnreadableError, jar_list, parts, tokens
from brimline.document.plain import plain
from brimline.findings import Span
from brimline.tree import parse

_REMEMBERED = 16_384
_LONGEST_REMEMBERED = 240  # characters, as in the grammar's memory


class Said(Struct, frozen=True):
    """What one line says.

    `kind` is the production (`line`, `other`, `mix`, `made_of`, `note`, `jar_row`, `times`, `kept` ...), empty if the
    line could not be read. `value` is its value with spans from the body's start, `plain` the same as JSON, `word` the
    span of its first word.
    """

    kind: str
    value: Any
    plain: Any
    word: Span
    notes: tuple[Note, ...] = ()


def said(start: str, body: str) -> Said:
    """What a line's body says, read by the start for its kind of line; remembered by (start, body)."""
    return _remembered(start, body) if len(body) <= _LONGEST_REMEMBERED else _said(start, body)


def _said(start: str, body: str) -> Said:
    parsed = parse(start, body)
    first = body.split(maxsplit=1)
    word = Span(0, len(first[0]) if first else 0)
    if parsed.tree is None:
        return Said("", None, None, word)
    try:
        kind, value, notes = _value(parsed.tree, start, body)
    except UnreadableError as stopped:
        return Said("", None, None, word, (stopped.note,))
    return Said(kind, value, plain(value), word, notes)


_remembered = lru_cache(maxsize=_REMEMBERED)(_said)


def _value(tree: Any, start: str, body: str) -> tuple[str, Any, tuple[Note, ...]]:
    """The production, the value and the notes of a parsed line."""
    kind = str(tree.data)
    if kind in ("line", "other", "made_of"):
        return kind, *take.line(tree, body)
    if start == "evidence":
        return start, lines.evidence(tree, body), ()
    if kind in _OF_NODE:
        return kind, _OF_NODE[kind](tree), ()
    return kind, _OF_NODE_AND_BODY[kind](tree, body), ()


_OF_NODE: dict[str, Callable[[Any], Any]] = {
    "formula": lambda tree: (lines.value(tree, 1), lines.value(tree, 2)),
    **dict.fromkeys(("product", "standing", "adapts", "sold_as", "successor", "note", "fill", "lid"), lines.value),
    "section": lambda tree: tuple(str(token) for token in tokens(tree)),
    "mix": take.mix,
    "change": lines.change,
}
_OF_NODE_AND_BODY: dict[str, Callable[[Any, str], Any]] = {
    "header": lambda tree, body: lines.finish(parts(tree)[1], body),
    "retired": lines.retired,
    "yields": lines.yields,
    "jar_row": lambda tree, body: jar_list(parts(tree)[1], body),
    "prepare": lines.prepare,
    "headspace": lines.headspace,
    "times": lines.times,
    "start": lines.start,
    "kept": lines.kept,
}
