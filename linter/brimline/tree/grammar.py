"""The one grammar of a formula's lines: built when the first unknown line comes, and every parse remembered by its text.

A line seen before costs a look-up. Spans in a parse count from the start of the body, so that the same words on
another line of another file share one parse.
"""

from collections.abc import Iterable
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Any

from msgspec import Struct

if TYPE_CHECKING:
    from lark import Lark, Token, Tree
    from lark.exceptions import UnexpectedInput

STARTS = ("header", "section", "take", "pack", "process", "keep", "changes", "evidence")

_REMEMBERED = 16_384
_LONGEST_REMEMBERED = (
    240  # characters; longer lines are rare, and remembering them would let a hostile file fill memory
)


class Fault(Struct, frozen=True):
    """Where and why a body could not be parsed: half-open offsets in the body, and what could have stood there.

    `expected` are terminal names of the grammar, sorted; `faults.py` says them in words.
    """

    start: int
    end: int
    expected: tuple[str, ...]


class Parse(Struct, frozen=True):
    """One body parsed by one start of the grammar: its tree, or the fault that stopped it."""

    start: str
    body: str
    tree: "Tree[Token] | None"
    fault: Fault | None


def parse(start: str, body: str) -> Parse:
    """The parse of a line's body by the start for its kind of line; remembered by (start, body)."""
    return _remembered(start, body) if len(body) <= _LONGEST_REMEMBERED else _parse(start, body)


def grammar_text() -> str:
    """The text of `schema/formula.lark`."""
    from brimline._data import folder

    return (folder("schema") / "formula.lark").read_text(encoding="utf-8")


@cache
def grammar() -> "Lark":
    """The grammar's parser: from the tables that ci/make.py compiled, if this version of the library wrote them."""
    import lark

    compiled = _compiled()
    if compiled is None or compiled["lark"] != lark.__version__:
        return built()
    # Loading takes what the library's own `save` writes; as JSON it can hold nothing but data.
    return lark.Lark.load({"data": _keyed(compiled["data"]), "memo": _keyed(compiled["memo"])})


def built() -> "Lark":
    """The grammar's parser built from its text: LALR, contextual lexer.

    Never cached on disk: the library's cache is a pickle in a folder that others may write to.
    """
    from lark import Lark

    return Lark(grammar_text(), start=list(STARTS), parser="lalr", lexer="contextual", maybe_placeholders=False)


def _compiled() -> Any:
    """What `made/grammar.json` holds, or None where it is missing, as before the maker's first run."""
    from pathlib import Path

    from msgspec.json import decode

    file = Path(__file__).resolve().parent.parent / "made" / "grammar.json"
    try:
        return decode(file.read_bytes())
    except OSError:
        return None


def _keyed(value: Any) -> Any:
    """The tables with their numbers as keys again."""
    if isinstance(value, dict):
        pairs = value.get("#pairs")
        if pairs is not None:
            return {key: _keyed(one) for key, one in pairs}
        return {key: _keyed(one) for key, one in value.items()}
    return [_keyed(one) for one in value] if isinstance(value, list) else value


def _parse(start: str, body: str) -> Parse:
    from lark.exceptions import UnexpectedInput, UnexpectedToken

    try:
        return Parse(start, body, grammar().parse(body, start=start), None)
    except UnexpectedInput as stopped:
        at: int | None = stopped.pos_in_stream
        if isinstance(stopped, UnexpectedToken) and stopped.token.type == "$END":
            # The library places a fault at the end of a line on the last token's start; it belongs behind that token.
            at = len(body)
        return Parse(start, body, None, _fault(body, at or 0, _accepted(stopped)))


_remembered = lru_cache(maxsize=_REMEMBERED)(_parse)


def _accepted(stopped: "UnexpectedInput") -> Iterable[str]:
    """What the parser could really have taken; the lexer's own list holds tokens that a later step would refuse."""
    interactive = getattr(stopped, "interactive_parser", None)
    return () if interactive is None else interactive.accepts()


def _fault(body: str, at: int, expected: Iterable[str]) -> Fault:
    """A fault from an offset to the end of the word that stands there."""
    end = at
    while end < len(body) and not body[end].isspace():
        end += 1
    return Fault(at, end, tuple(sorted(expected)))
