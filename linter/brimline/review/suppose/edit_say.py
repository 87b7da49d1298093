"""What the edits of ingredients share: what is not there, which rows explain a silence, what a thing is called."""

from collections.abc import Sequence
from fractions import Fraction

from msgspec.structs import replace

from brimline.document.values import Document, Line, Step
from brimline.review.suppose import speak
from brimline.review.suppose.lines import NOWHERE, cup_of, entry, is_acid, sort
from brimline.review.suppose.patterns import sort_of as meaning_sort
from brimline.review.suppose.values import Asked, Made


def absent(document: Document, asked: Asked, lines: list[Line]) -> Made:
    """Nothing there to change."""
    what = spoken(asked.what)
    if lines:
        return Made(document, "", absent=f"the amount of {what} is left to the cook, so there is nothing to measure")
    acids = [line for line in document.take if is_acid(line)] if meaning_sort(asked.what) in ("acid", "fruit") else []
    has = f" (its acid is {speak.stuffs(acids[:1])})" if acids else ""
    return Made(document, "", absent=f"there is no {what} in this formula{has}, so there is nothing to change")


def roles(lines: list[Line]) -> tuple[str, ...]:
    """The roles of some lines, each once."""
    return tuple(dict.fromkeys(line.role for line in lines))


def why_silent(lines: list[Line], less: bool) -> tuple[str, ...]:
    """The rows that explain why less, or more, of these may be held against nobody."""
    sorts = {sort(line) for line in lines}
    if "sweetener" in sorts:
        return ((*(("sugar-in-range",) if all(map(left_open, lines)) else ()), "sugar-cut-flavour")) if less else ()
    if "acid" in sorts:
        return () if less else ("acid-more",)
    if sorts & {"vegetable", "herb"}:
        return ("lowacid-less",) if less else ()
    if "thickener" in sorts and less:
        return ("starch-less",)
    if sorts <= {"spice", "flavouring"}:
        return ("dry-spice",)
    if sorts <= {"salt"}:
        return ("salt-unfermented",)
    return ("colour",) if sorts <= {"colour"} else ()


def spoken(what: str) -> str:
    """What a thing is called to a caller."""
    return {"low-calorie sweetener": "a low-calorie sweetener"}.get(what, what)


def with_step(document: Document, text: str) -> Document:
    """The document with a step more, so that what is listed is also used."""
    return replace(document, make=(*document.make, Step(text, NOWHERE))) if document.make else document


def cup_weight(line: Line) -> Fraction:
    """Grams in a cup of what a line names."""
    found = entry(line)
    return cup_of(found) if found else Fraction(200)


def is_entry(line: Line, table_name: str) -> bool:
    """Whether a line is this entry of the table."""
    found = entry(line)
    return found is not None and found.name == table_name


def left_open(line: Line) -> bool:
    """Whether the tested formula itself leaves a line, or how much of it, to the cook."""
    ranges = line.amount is not None and any(one.low < one.high for one in line.amount.parts)
    return "optional" in line.flags or ranges


def shown(document: Document, lines: Sequence[Line]) -> list[Line]:
    """Of some lines those that are lines of the formula itself, not what a measured one is made of; else all of them."""
    return [line for line in lines if line in document.take] or list(lines)
