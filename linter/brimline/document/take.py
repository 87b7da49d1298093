"""The productions of `take`: an ingredient line, its alternatives, what it is made of, its notes."""

import re
from fractions import Fraction
from typing import TYPE_CHECKING

from brimline.document import units
from brimline.document.amounts import FOOD, Note, amount, is_token, parts, refuse, span_of, spot, tokens
from brimline.document.values import Amount, Line, Measure
from brimline.findings import Level, Span

if TYPE_CHECKING:
    from lark import Token

    from brimline.document.amounts import Node

_STRENGTH = re.compile(r"([0-9]{1,2}(?:\.[0-9]{1,4})?)[ \t]*%(?:[ \t]+acid(?:ity)?)?")
_SOLD_BY_VOLUME = re.compile(r"\b(?:juice|vinegar|water|cider|wine|milk)\b")


def line(node: "Node", body: str) -> tuple[Line, tuple[Note, ...]]:
    """take: OPTIONAL? STAY? ROLE amount item?  |  OR ROLE? amount item?  |  FROM ROLE? amount item?

    A line without an item parses, so that `3 lemons` can be answered with the unit it lacks. An `or` or `from` line
    without a role has an empty one here and takes over that of the line above it.
    """
    flags: list[str] = []
    role = ""
    stated: Node | None = None
    item: Node | None = None
    for child in parts(node):
        if is_token(child):
            if child.type == "ROLE":
                role = str(child)
            elif child.type in ("OPTIONAL", "STAY"):
                flags.append(str(child))
        elif child.data == "amount":
            stated = child
        else:
            item = child
    assert stated is not None, "the grammar asks for an amount"  # noqa: S101
    if item is None:
        raise _without_item(stated, body)
    _check_unit(stated, item, body)
    how_much = amount(stated, body)
    name, item_span, forms = _item(item)
    notes = tuple(_ounces(how_much, stated, role, name, body))
    made = Line(
        role,
        how_much,
        name,
        forms,
        Span(*span_of(node)),
        spot(stated),
        item_span,
        tuple(flags),
        _strength(forms),
    )
    return made, notes


def mix(node: "Node") -> tuple[Line, ...]:
    """take: OR ANY_MIX_OF ":"? NAME ("," NAME)*; the members carry no amount of their own."""
    members = []
    for token in tokens(node):
        if token.type == "NAME":
            start, _ = span_of(token)
            name = token.rstrip()
            span = Span(start, start + len(name))
            members.append(Line("", None, name, (), span, span, span, any_mix=True))
    return tuple(members)


def _item(node: "Node") -> tuple[str, Span, tuple[str, ...]]:
    """item: NAME ("," FORM)*; the name, its span, and the forms, each without blanks around it."""
    name, *forms = tokens(node)
    start, _ = span_of(name)
    text = name.rstrip()
    return text, Span(start, start + len(text)), tuple(form.strip() for form in forms)


def _strength(forms: tuple[str, ...]) -> Fraction | None:
    """The percentage among the forms (`5 %`), if there is one."""
    for form in forms:
        found = _STRENGTH.fullmatch(form)
        if found:
            return Fraction(found.group(1))
    return None


def _last_unit(stated: "Node") -> "Token | None":
    found = None
    for token in tokens(stated):
        if token.type == "UNIT":
            found = token
    return found


def _without_item(stated: "Node", body: str) -> Exception:
    """The error for a line that ends after its amount: `3 lemons` lacks a unit, `3 cup` a name."""
    word = _last_unit(stated)
    if word is not None and units.unit(word) is None and word not in units.DOUBTFUL:
        start, _ = span_of(word)
        copy = f"{body[:start]}each {body[start:]}"
        return refuse(word, "writing/unit", f"`{word}` is not a unit.", f"Write `{copy}`.", copy)
    says = "The line ends without the name of the thing."
    return refuse((len(body), len(body)), "writing/syntax", says, "Write what it is behind the amount.")


def _check_unit(stated: "Node", item: "Node", body: str) -> None:
    """Raise for a word that stands where the unit belongs and describes the thing instead: `3 ripe lemons`."""
    word = _last_unit(stated)
    if word is None or units.unit(word) is not None or word in units.DOUBTFUL or units.nearest_unit(word, FOOD):
        return
    if stated.children and getattr(stated.children[-1], "data", "") == "per":
        return
    start, end = span_of(word)
    name, item_span, _ = _item(item)
    copy = f"{body[:start]}each {name}, {word}{body[item_span.end :]}"
    raise refuse((start, end), "writing/unit", f"`{word}` is not a unit.", f"Write `{copy}`.", copy)


def _ounces(how_much: Amount, stated: "Node", role: str, name: str, body: str) -> list[Note]:
    """The note on a liquid measured in bare `oz`, which is a weight here."""
    if role not in ("juice", "liquid") and not _SOLD_BY_VOLUME.search(name):
        return []
    sizes: list[Measure] = [one for group in (how_much.parts, *how_much.also) for one in group]
    if not any(one.unit == "oz" or (one.pack is not None and one.pack.unit == "oz") for one in sizes):
        return []
    words = [token for token in tokens(stated) if token.type == "UNIT" and token in ("oz", "ounce", "ounces")]
    copy = body
    for token in reversed(words):
        start, end = span_of(token)
        copy = f"{copy[:start]}fl oz{copy[end:]}"
    start, end = span_of(words[0])
    says = f"`{words[0]}` is read as a weight; a liquid is sold by volume, and the two differ."
    instead = f"Write `{copy}` if the volume is meant, or give the weight in g."
    return [Note(start, end, "writing/unit", says, instead, copy, Level.FORM)]
