"""Compiles `schema/formula.lark` into the tables of its parser, as JSON, so that no reader has to build them again."""

import hashlib
import json
from pathlib import Path
from typing import Any

MADE = "linter/brimline/made/grammar.json"


def make(root: Path) -> dict[str, bytes]:
    """The parser's tables, the version of the library that wrote them and a digest of the grammar's text.

    Another version of the library reads the grammar's text instead. The library numbers its states in another order
    each time, so tables of the same grammar by the same version are kept; a test compares what they read with what the
    text reads. JSON has no numbers as keys, so a table with such keys stands as a list of pairs under `#pairs`.
    """
    import lark
    from lark.grammar import Rule
    from lark.lexer import TerminalDef

    from brimline.tree.grammar import built, grammar_text

    of = {"lark": lark.__version__, "text": hashlib.sha256(grammar_text().encode()).hexdigest()}
    old = (root / MADE).read_bytes().replace(b"\r\n", b"\n") if (root / MADE).is_file() else b"{}"
    kept = json.loads(old)
    if all(kept.get(key) == value for key, value in of.items()):
        return {MADE: old}
    data, memo = built().memo_serialize([TerminalDef, Rule])
    whole = of | {"data": _plain(data), "memo": _plain(memo)}
    return {MADE: (json.dumps(whole, separators=(",", ":"), ensure_ascii=False) + "\n").encode()}


def _plain(value: Any) -> Any:
    if isinstance(value, dict):
        if all(isinstance(key, str) for key in value):
            return {key: _plain(one) for key, one in value.items()}
        return {"#pairs": [[key, _plain(one)] for key, one in value.items()]}
    if isinstance(value, list | tuple):
        return [_plain(one) for one in value]
    if value is None or isinstance(value, str | int | float):
        return value
    raise ValueError(f"the parser's tables hold {value!r}, which JSON cannot")
