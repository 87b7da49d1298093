"""The productions of headers, pack, process, keep, changes and evidence; one function for each kind of line."""

from fractions import Fraction
from itertools import pairwise
from typing import TYPE_CHECKING

from brimline.document import units
from brimline.document.amounts import (
    count,
    date,
    is_token,
    jar,
    jar_list,
    number,
    parts,
    refuse,
    span_of,
    spot,
    tokens,
    unit,
)
from brimline.document.values import (
    Band,
    Change,
    Evidence,
    Finish,
    Header,
    Headspace,
    Keep,
    Prepare,
    Start,
    Times,
    Yield,
)
from brimline.findings import Span

if TYPE_CHECKING:
    from lark import Token

    from brimline.document.amounts import Node

_TIME = frozenset({"time"})
_LENGTH = frozenset({"length"})
_WARMTH = frozenset({"temperature"})
_GEL_ABOVE_F = Fraction(8)  # degrees F over boiling water where the formula states none


def value(node: "Node", at: int = 1) -> Header:
    """The text of a line from one of its tokens to the end, as it stands."""
    token = parts(node)[at]
    text = str(token).strip()
    start, _ = span_of(token)
    return Header(text, Span(start, start + len(text)))


def retired(node: "Node", body: str) -> Header:
    """header: RETIRED DATE "," TEXT; the value is the date and the reason as they stand."""
    day = parts(node)[1]
    date(day)
    start, _ = span_of(day)
    return Header(body[start:], Span(start, len(body)))


def finish(node: "Node", body: str) -> Finish:
    """finish: ROLLING_BOIL count UNIT | GEL_POINT (number UNIT ABOVE)? | number UNIT AT_SEA_LEVEL? | SIMMER count UNIT
    | BOIL count UNIT | REDUCE_TO number | THICK | NONE | OTHER TEXT
    """  # noqa: D205
    kind = str(node.data)
    span = spot(node)
    children = parts(node)
    if kind in ("rolling", "simmer", "boil"):
        low, high = count(children[1])
        factor = unit(children[2], _TIME, "of time", body).factor
        return Finish(kind, span, low * factor, high * factor)
    if kind == "gel":
        above = _GEL_ABOVE_F
        if len(children) > 1:
            degrees = unit(children[2], _WARMTH, "of temperature", body)
            # A difference, not a reading: the scale counts, its nought does not.
            above = number(children[1]) * degrees.factor / units.units()["F"].factor
        return Finish(kind, span, above, above)
    if kind == "reaches":
        return _reaches(node, body, span)
    if kind == "reduce":
        left = number(children[1])
        return Finish(kind, span, left, left)
    if kind == "other_finish":
        return Finish("other", span, text=str(children[1]).strip())
    return Finish(kind, span)


def _reaches(node: "Node", body: str, span: Span) -> Finish:
    """finish: number UNIT AT_SEA_LEVEL?; soluble solids (`65 Brix`) or a temperature (`220 F at sea level`)."""
    token: Token = parts(node)[1]
    reading = number(parts(node)[0])
    degrees = unit(token, _WARMTH | {"solids"}, "of temperature or soluble solids", body)
    if degrees.dimension == "solids":
        return Finish("brix", span, reading, reading)
    if len(parts(node)) < 3:
        copy = f"{body} at sea level"
        says = "A temperature needs the altitude it was read at."
        raise refuse((len(body), len(body)), "writing/syntax", says, f"Write `{copy}`.", copy)
    warmth = units.fahrenheit(reading, degrees)
    return Finish("temperature", span, warmth, warmth)


def yields(node: "Node", body: str) -> Yield:
    """header: YIELD count jar JARS?"""
    low, high = count(parts(node)[1])
    start = span_of(parts(node)[1])[0]
    return Yield(low, high, jar(parts(node)[2], body), Span(start, span_of(node)[1]))


def prepare(node: "Node", body: str) -> Prepare:
    """pack: PREPARE STERILE_OR_CLEAN (":" jars)?"""
    kept = jar_list(parts(node)[2], body) if len(parts(node)) > 2 else ()
    return Prepare(str(parts(node)[1]), kept, spot(node))


def headspace(node: "Node", body: str) -> Headspace:
    """pack: HEADSPACE number UNIT (":" jars)?; in inches, exactly."""
    gap = number(parts(node)[1])
    length = unit(parts(node)[2], _LENGTH, "of length", body)
    kept = jar_list(parts(node)[3], body) if len(parts(node)) > 3 else ()
    return Headspace(gap * length.factor / units.units()["in"].factor, kept, spot(node))


def times(node: "Node", body: str) -> Times:
    """process: place ("," place)* ":" band ("," band)*  with  place: jar | HOT_OR_RAW"""
    jars, bands = [], []
    fill = ""
    for child in parts(node):
        if is_token(child):
            continue
        if child.data == "band":
            bands.append(band(child, body))
            continue
        inner = parts(child)[0]
        if not is_token(inner):
            jars.append(jar(inner, body))
        elif fill:
            raise refuse(
                inner, "writing/syntax", "The fill is stated twice.", "Write a row for `hot` and one for `raw`."
            )
        else:
            fill = str(inner)
    if not jars:
        raise refuse(span_of(node), "writing/syntax", "The row names no jar.", "Write the jars before the colon.")
    for lower, upper in pairwise(bands):
        if lower.up_to_ft is None:
            says = "A time stands behind the open one."
            raise refuse(
                (upper.span.start, upper.span.end), "writing/syntax", says, "Write the time with `above` last."
            )
        if upper.up_to_ft is not None and upper.up_to_ft <= lower.up_to_ft:
            says = "The altitudes do not rise from one time to the next."
            raise refuse((upper.span.start, upper.span.end), "writing/syntax", says, "Write the lowest altitude first.")
    return Times(tuple(jars), fill, tuple(bands), spot(node))


def band(node: "Node", body: str) -> Band:
    """band: number UNIT (AT GAUGE number UNIT)? (TO altitude UNIT | ABOVE); altitudes in feet, exactly."""
    children = list(parts(node))
    minutes = number(children[0]) * unit(children[1], _TIME, "of time", body).factor
    gauge, pressure = "", None
    rest = children[2:]
    if getattr(rest[0], "type", "") == "AT":
        gauge = str(rest[1])
        pressure = number(rest[2])
        unit(rest[3], frozenset({"pressure"}), "of pressure", body)
        rest = rest[4:]
    if len(rest) == 1:
        return Band(minutes, None, spot(node), gauge, pressure)
    length = units.unit(rest[2])
    if length is None or length.name not in ("ft", "m"):
        first, last = span_of(rest[2])
        copy = f"{body[:first]}ft{body[last:]}"
        says = f"`{rest[2]}` is not a unit of altitude; an altitude is in `ft` or `m`."
        raise refuse(rest[2], "writing/unit", says, f"Write `{copy}` if it is in feet.", copy)
    up_to = number(rest[1]) * length.factor / units.units()["ft"].factor
    return Band(minutes, up_to, spot(node), gauge, pressure, length.name)


def start(node: "Node", body: str) -> Start:
    """process: START number UNIT "," count UNIT TO_THE_BOIL"""
    children = parts(node)
    warmth = units.fahrenheit(number(children[1]), unit(children[2], _WARMTH, "of temperature", body))
    low, high = count(children[3])
    factor = unit(children[4], _TIME, "of time", body).factor
    return Start(warmth, low * factor, high * factor, spot(node))


def kept(node: "Node", body: str) -> Keep:
    """keep: KEEP_WORD count UNIT ("," WHERE)* | KEEP_WORD WHERE ("," WHERE)*; times in hours, exactly."""
    children = parts(node)
    low = high = None
    if not is_token(children[1]):
        factor = unit(children[2], _TIME, "of time", body).factor / 60
        low, high = (time * factor for time in count(children[1]))
    where = tuple(token.strip() for token in tokens(node) if token.type == "WHERE")
    after = span_of(children[1])[0]
    return Keep(str(children[0]), low, high, where, spot(node), body[after:])


def change(node: "Node") -> Change:
    """changes: SUBJECT TEXT?"""
    text = str(parts(node)[1]).strip() if len(parts(node)) > 1 else ""
    return Change(str(parts(node)[0]), text, spot(node))


def evidence(node: "Node", body: str) -> Evidence:
    """evidence: TESTED DATE ("," PART)* | READING (QUANTITY number | number UNIT) (ON DATE)? ("," PART)* | SOURCE TEXT
    | REVIEW_BY DATE
    """  # noqa: D205
    kind = str(parts(node)[0])
    day, quantity, reading = "", "", None
    for child in parts(node)[1:]:
        if not is_token(child):
            reading = number(child)
        elif child.type == "DATE":
            day = date(child)
        elif child.type == "QUANTITY":
            quantity = str(child)
        elif child.type == "UNIT":
            solids = units.unit(child)
            if solids is None or solids.dimension != "solids":
                says = f"`{child}` is not a reading of this format; a reading is pH, Brix or aw."
                raise refuse(child, "writing/unit", says, "Write `pH 3.1`, `59 Brix` or `aw 0.85`.")
            quantity = solids.name
    forms = tuple(token.strip() for token in tokens(node) if token.type == "PART")
    return Evidence(kind, body, spot(node), day, quantity, reading, forms)
