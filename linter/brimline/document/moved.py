"""Shifts a remembered value to the place where its line stands in a file: every span moves by one offset."""

from msgspec.structs import replace

from brimline.document.values import (
    Band,
    Change,
    Evidence,
    Finish,
    Header,
    Headspace,
    Jar,
    Keep,
    Line,
    Prepare,
    Start,
    Times,
    Yield,
)
from brimline.findings import Span


def span(value: Span, by: int) -> Span:
    """A span moved by some characters."""
    return Span(value.start + by, value.end + by)


def line(
    value: Line,
    by: int,
    *,
    role: str = "",
    other: tuple[Line, ...] = (),
    made_of: tuple[Line, ...] = (),
    note: tuple[str, ...] = (),
    index: int = -1,
) -> Line:
    """An ingredient line moved, with what stands under it; `role` is for a line that has none of its own."""
    return Line(
        value.role or role,
        value.amount,
        value.item,
        value.forms,
        Span(value.span.start + by, value.span.end + by),
        Span(value.amount_span.start + by, value.amount_span.end + by),
        Span(value.item_span.start + by, value.item_span.end + by),
        value.flags,
        value.strength,
        other,
        value.any_mix,
        made_of,
        note,
        index,
    )


def jar(value: Jar, by: int) -> Jar:
    """A jar moved."""
    return Jar(value.name, value.volume_ml, span(value.span, by))


def jars(values: tuple[Jar, ...], by: int) -> tuple[Jar, ...]:
    """Jars moved."""
    return tuple(jar(value, by) for value in values)


def band(value: Band, by: int) -> Band:
    """A time with its altitude moved."""
    return Band(value.minutes, value.up_to_ft, span(value.span, by), value.gauge, value.psi, value.unit)


def times(value: Times, by: int) -> Times:
    """A row of a process moved."""
    bands = tuple(band(one, by) for one in value.bands)
    return Times(jars(value.jars, by), value.fill, bands, span(value.span, by))


def yields(value: Yield, by: int) -> Yield:
    """A yield moved."""
    return Yield(value.low, value.high, jar(value.jar, by), span(value.span, by))


def for_jars(value: Prepare | Headspace, by: int) -> Prepare | Headspace:
    """A preparation or headspace moved, with its jars."""
    return replace(value, jars=jars(value.jars, by), span=span(value.span, by))


def simple(value: Header | Finish | Start | Keep | Change | Evidence, by: int) -> object:
    """A value with one span moved."""
    return replace(value, span=span(value.span, by))
