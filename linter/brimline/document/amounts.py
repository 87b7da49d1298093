"""The productions that several kinds of line share: numbers, amounts, jars, temperatures, dates.

Each function is named after the production it reads; its docstring is that production. Spans count from the start of
the body.
"""

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING, Any, TypeAlias, TypeGuard

from msgspec import Struct

from brimline.document import units
from brimline.document.values import Amount, Jar, Measure, Pack, Per
from brimline.findings import Level, Span

if TYPE_CHECKING:
    from lark import Token, Tree

    Node: TypeAlias = Tree[Token]

FOOD = frozenset({"mass", "volume", "count", "package"})
_GLYPHS = {
    sign: Fraction(int(above), int(below))
    for sign, above, below in (
        ("½12", "⅓13", "⅔23", "¼14", "¾34", "⅕15", "⅖25", "⅗35", "⅘45", "⅙16", "⅚56", "⅛18", "⅜38", "⅝58", "⅞78")
    )
}
_SHORT_MONTHS = {4: 30, 6: 30, 9: 30, 11: 30}


class Note(Struct, frozen=True):
    """A problem of one line beyond its syntax: half-open offsets in the body, and the body to write instead.

    `body` is empty where none can be offered.
    """

    start: int
    end: int
    rule: str
    says: str
    instead: str
    body: str = ""
    level: Level = Level.UNREADABLE


class UnreadableError(Exception):
    """Raised where a line parses but says nothing that can be known: its note says why."""

    def __init__(self, note: Note) -> None:
        super().__init__(note.says)
        self.note = note


def refuse(at: "Token | tuple[int, int]", rule: str, says: str, instead: str, body: str = "") -> UnreadableError:
    """The error to raise for a token, or for a pair of offsets."""
    start, end = at if isinstance(at, tuple) else span_of(at)
    return UnreadableError(Note(start, end, rule, says, instead, body))


def is_token(child: Any) -> "TypeGuard[Token]":
    """Whether a child of a node is a token; tokens are strings with a place."""
    return isinstance(child, str)


def parts(node: "Node") -> list[Any]:
    """The children of a node, tokens and nodes; their kinds are fixed by the production that is being read."""
    return list(node.children)


def tokens(node: "Node") -> "Iterator[Token]":
    """The tokens of a node in order; nodes are at most five deep."""
    for child in parts(node):
        if is_token(child):
            yield child
        else:
            yield from tokens(child)


def span_of(at: "Node | Token") -> tuple[int, int]:
    """Half-open offsets of a token, or of everything under a node."""
    first = last = at
    while not isinstance(first, str):
        first = first.children[0]
    while not isinstance(last, str):
        last = last.children[-1]
    return first.start_pos or 0, last.end_pos or 0


def spot(at: "Node | Token") -> Span:
    """The span of a token or node."""
    return Span(*span_of(at))


def number(node: "Node") -> Fraction:
    """number: INT (FRACTION | GLYPH)? | FRACTION | GLYPH | DECIMAL."""
    return sum((_value(part) for part in tokens(node)), Fraction(0))


def _value(token: str) -> Fraction:
    glyph = _GLYPHS.get(token)
    if glyph is not None:
        return glyph
    if "/" in token:
        above, _, below = token.partition("/")
        return Fraction(int(above), int(below))
    if "." in token:
        whole, _, decimals = token.partition(".")
        return Fraction(int(whole + decimals), 10 ** len(decimals))
    return Fraction(int(token.replace(",", "")))


def count(node: "Node") -> tuple[Fraction, Fraction]:
    """count: number (TO number)?; raises UnreadableError for a range that runs downwards."""
    numbers = [number(child) for child in parts(node) if not is_token(child)]
    if numbers[-1] < numbers[0]:
        raise refuse(
            span_of(node), "writing/syntax", "The range runs downwards.", "Write the smaller number first, then `to`."
        )
    return numbers[0], numbers[-1]


def unit(token: "Token", dimensions: frozenset[str], what: str, body: str) -> units.Unit:
    """UNIT, looked up in the closed list; raises UnreadableError for an unknown one, or one that measures other things.

    `what` says in words what is measured, `body` is the whole line, for the line to copy.
    """
    start, end = span_of(token)
    found = units.unit(token)
    if found is not None and found.dimension in dimensions:
        return found
    near = "" if found is not None and token not in units.DOUBTFUL else units.nearest_unit(str(token), dimensions)
    fits = near and units.units()[near].dimension in dimensions
    copy = f"{body[:start]}{near}{body[end:]}" if fits else ""
    if token in units.DOUBTFUL:
        says = f"`{token}` is read in more than one way, as a spoon or a cup or a degree."
    elif found is not None:
        says = f"`{token}` is a unit of {found.dimension}, not {what}."
    else:
        says = f"`{token}` is not a unit."
    instead = f"Write `{copy}`." if copy else f"Use a unit of the list: {_some(dimensions)}."
    raise refuse(token, "writing/unit", says, instead, copy)


def _some(dimensions: frozenset[str]) -> str:
    """A few units of some dimensions, for a message."""
    fitting = [name for name, one in units.units().items() if one.dimension in dimensions]
    return ", ".join(fitting[:14])


def measure(node: "Node", body: str) -> Measure:
    """part: count UNIT (PACKED number UNIT)?"""
    children = parts(node)
    low, high = count(children[0])
    named = unit(children[1], FOOD, "of an amount", body)
    pack = None
    if len(children) > 2:
        size = number(children[3])
        of = unit(children[4], FOOD | {"length"}, "of what a package holds", body)
        pack = Pack(size, of.name)
    return Measure(low, high, named.name, pack)


def amount(node: "Node", body: str) -> Amount:
    """amount: SOME | stated ("=" stated)* per?  with  stated: part ("+" part)*"""
    stated: list[tuple[Measure, ...]] = []
    for_what = None
    for child in parts(node):
        if is_token(child):
            return Amount((), some=True)
        if child.data == "per":
            for_what = per(child, body)
        else:
            stated.append(tuple(measure(part, body) for part in parts(child)))
    return Amount(stated[0], tuple(stated[1:]), for_what)


def per(node: "Node", body: str) -> Per:
    """per: PER number? UNIT (JARS | FINISHED | OF_WHAT)?"""
    how_many, of = Fraction(1), ""
    word: Token | None = None
    for child in parts(node)[1:]:
        if not is_token(child):
            how_many = number(child)
        elif child.type == "UNIT":
            word = child
        else:
            of = {"JARS": "jar", "FINISHED": "finished"}.get(child.type) or child.split()[-1].replace("é", "e")
    assert word is not None, "the grammar asks for a unit"  # noqa: S101
    if of == "jar":
        named = units.jar_named(word)
        if named is not None:
            return Per(how_many, named.name, of)
    elif units.unit(word) is None and units.jar_named(word) is not None:
        start, end = span_of(word)
        copy = f"{body[:end]} jar{body[end:]}"
        says = f"`{word}` is a jar, and `per` here asks for a unit."
        raise refuse((start, end), "writing/unit", says, f"Write `{copy}`.", copy)
    elif word in ("jar", "jars"):
        says = "A dose for each jar holds for one size of jar."
        raise refuse(word, "writing/unit", says, "Write which jar: `per pint jar`, `per 500 ml jar`.")
    return Per(how_many, unit(word, FOOD, "of an amount", body).name, of)


def jar(node: "Node", body: str) -> Jar:
    """jar: (INT | DECIMAL)? UNIT; a container that is not made for canning has no volume."""
    words = list(tokens(node))
    word = words[-1]
    if len(words) == 1:
        known = units.jar_named(word)
        if known is not None:
            return Jar(known.name, known.ml, spot(node))
        container = units.container_named(word)
        if container:
            return Jar(container, Fraction(0), spot(node))
        start, end = span_of(word)
        near = units.nearest_jar(word)
        copy = f"{body[:start]}{near}{body[end:]}" if near else ""
        instead = f"Write `{copy}`." if copy else f"Use {', '.join(one.name for one in units.jars())}, or a size in ml."
        raise refuse(word, "writing/unit", f"`{word}` is not a jar of the table.", instead, copy)
    size = _value(words[0])
    sized = units.jar_sized(size, unit(word, frozenset({"volume", "mass"}), "of a jar's size", body))
    if sized is None or not size:
        raise refuse(span_of(node), "writing/unit", "A jar is stated by its volume.", "Write its size in ml or oz.")
    return Jar(*sized, spot(node))


def jar_list(node: "Node", body: str) -> tuple[Jar, ...]:
    """jars: jar ("," jar)*"""
    return tuple(jar(child, body) for child in parts(node) if not is_token(child))


def date(token: "Token") -> str:
    """DATE, as it stands; raises UnreadableError for a day that no calendar has."""
    year, month, day = (int(part) for part in token.split("-"))
    leap = year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
    last = _SHORT_MONTHS.get(month, (29 if leap else 28) if month == 2 else 31)
    if not (year and 1 <= month <= 12 and 1 <= day <= last):
        says = f"`{token}` is not a day of the calendar."
        raise refuse(token, "writing/syntax", says, "Write year, month and day: `2025-06-14`.")
    return str(token)
