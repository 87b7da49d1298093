"""Holds a document against `schema/formula.schema.json`.

A check compiled from the schema decides; only where it says no is the schema itself read, to name every fault in words
and at its place.
"""

from collections.abc import Callable, Iterator
from functools import cache
from typing import Any

from msgspec.json import decode

from brimline._data import folder
from brimline.document.build import Built
from brimline.findings import Finding, Span
from brimline.text import Text
from brimline.tree.near import nearest
from brimline.tree.rows import shown

_RULE = "writing/shape"
_WHY = "A formula that does not say this cannot be compared with a tested one."

# What a missing part is called, and the line that states it.
_MISSING = {
    "code": ("its code and title", "formula KV-101 Gooseberry jam"),
    "title": ("its title", "formula KV-101 Gooseberry jam"),
    "product": ("its product", "product   jam"),
    "standing": ("its standing", "standing  draft"),
    "adapts": ("the formula it adapts", "adapts    KV-101"),
    "retired": ("when and why it was retired", "retired   2026-01-15, superseded"),
    "take": ("its ingredients", "take"),
    "pack": ("its jars", "pack"),
    "jars": ("its jars", "  jar        half-pint, pint"),
    "rows": (
        "the jars and times of the process",
        "  half-pint, pint: 5 min to 1000 ft, 10 min to 6000 ft, 15 min above",
    ),
}
_STANDINGS = frozenset({"tested", "adapted", "draft"})
_HEADER_KEYS = frozenset({"code", "title", "product", "standing", "adapts", "retired"})


def fits(plain: dict[str, Any]) -> bool:
    """Whether a document's JSON has the shape that the schema defines."""
    try:
        _check()(plain)
    except ValueError:
        return False
    return True


def faults(text: Text, built: Built) -> tuple[Finding, ...]:
    """Findings for everything about a document's shape that the schema does not allow; none if it fits.

    Nothing is called missing where a line that could not be read may have stated it.
    """
    if fits(built.plain):
        return ()
    found: dict[tuple[Span, str], Finding] = {}
    for error in errors(built.plain):
        for one in _explained(text, built, error):
            found.setdefault((one.at.span, one.says), one)
    return tuple(found.values())


def errors(plain: dict[str, Any]) -> Iterator[Any]:
    """The errors of the schema's own validator, in order of place; slow, and asked only to explain a failure."""
    return iter(sorted(_validator().iter_errors(plain), key=lambda error: (str(error.json_path), str(error.message))))


@cache
def _check() -> Callable[[dict[str, Any]], object]:
    """The compiled check, loaded on first use."""
    from brimline.made import shape_check

    check: Callable[[dict[str, Any]], object] = shape_check.validate
    return check


@cache
def schema() -> dict[str, Any]:
    """The schema of a document as JSON."""
    data: dict[str, Any] = decode((folder("schema") / "formula.schema.json").read_bytes())
    return data


@cache
def _validator() -> Any:
    from jsonschema import Draft202012Validator

    return Draft202012Validator(schema())


def _explained(text: Text, built: Built, error: Any) -> Iterator[Finding]:
    """The finding for one error; none where the fault may lie in a line that could not be read."""
    path = list(error.absolute_path)
    if error.validator == "required":
        yield from _missing(text, built, path, _absent(error))
        return
    where = _place(built, path, "")
    name = _name(path)
    if error.validator == "enum":
        yield _unknown(text, where, name, str(error.instance), [str(one) for one in error.validator_value])
    elif error.validator == "maxLength":
        says = f"The {name} has {len(error.instance):,} characters; it may have {error.validator_value:,}."
        yield text.finding(where, _RULE, says, _WHY, "Say it shorter, or in a note.")
    elif error.validator == "maxItems":
        says = f"There are {len(error.instance):,} entries under {name}; there may be {error.validator_value:,}."
        yield text.finding(where, _RULE, says, _WHY, "Split the formula in two.")
    else:
        says = f"The {name} is not written as the format asks."
        yield text.finding(where, _RULE, says, _WHY, "Compare it with the samples of the format.")


def _missing(text: Text, built: Built, path: list[Any], key: str) -> Iterator[Finding]:
    """The finding for a part that is not there, placed where it should be."""
    section = str(path[0]) if path else "" if key in _HEADER_KEYS else key
    if built.unsure_edge or section in built.unsure:
        return
    standing = built.document.standing
    subject = "An adapted" if standing == "adapted" else f"A {standing}" if standing else "This"
    what, line = _MISSING.get(key, (f"`{key}`", key))
    says = f"{subject} formula does not state {what}."
    yield text.finding(
        _place(built, path, key), _RULE, says, _WHY, f"Write a line such as `{line.strip()}`.", section=section
    )


def _unknown(text: Text, where: Span, name: str, value: str, allowed: list[str]) -> Finding:
    """The finding for a word that is not on its list, with the nearest one that is."""
    if value in _STANDINGS and allowed == ["retired"]:
        says = f"A formula with a `retired` or `successor` line has the standing `retired`, not `{value}`."
        return text.finding(where, _RULE, says, _WHY, "Write `standing  retired`, or take the line out.")
    near = nearest(value, allowed)
    copy = _with(text, where, near) if near else ""
    instead = f"Write `{copy.strip()}`." if copy else f"Use one of: {', '.join(allowed)}."
    return text.finding(where, _RULE, f"`{shown(value)}` is not a {name} of this format.", _WHY, instead, copy=copy)


def _absent(error: Any) -> str:
    """The key that a `required` error misses; the library names it in its message only."""
    for key in error.validator_value:
        if key not in error.instance and f"'{key}'" in error.message:
            return str(key)
    return ""


def _place(built: Built, path: list[Any], key: str) -> Span:
    """Where something is, or would be: the narrowest known place above it, else the section, else the first header."""
    document = built.document
    while path:
        known = document.at.get("/" + "/".join(str(step) for step in path))
        if known is not None:
            return known
        path = path[:-1]
    return document.sections.get(key) or document.sections.get("formula") or Span(0, 0)


def _with(text: Text, span: Span, word: str) -> str:
    """The line of a span with a word in the span's place."""
    number, column = text.line_column(span.start)
    line = text.line(number)
    return line[: column - 1] + word + line[column - 1 + span.end - span.start :]


def _name(path: list[Any]) -> str:
    """What a place in a document is called: its last key that is a word."""
    words = [str(step) for step in path if isinstance(step, str)]
    return words[-1].replace("_", "-") if words else "formula"
