"""A whole formula restated: amounts, headspace, band edges, yield; never a time, a method, a strength or a jar."""

from fractions import Fraction
from math import ceil, floor

from msgspec.structs import replace

from brimline.batch.resolve import item
from brimline.document.values import Amount, Band, Change, Document, Headspace, Line, Process, Yield
from brimline.findings import Span
from brimline.review.restate.amounts import Order, restated
from brimline.review.restate.steps import Restating
from brimline.review.restate.ways import share, way

_MM = Fraction("25.4")
_FOOT_M = Fraction("0.3048")
_NOWHERE = Span(0, 0)
_NAMES = {Fraction(1, 2): ("HALF", "half a batch"), Fraction(2): ("DOUBLE", "a double batch")}
_UNITS = {"us": ("US", "in US units"), "metric": ("METRIC", "in metric units"), "both": ("", "")}


def made(source: Document, by: Fraction, units: str) -> tuple[Document, tuple[str, ...]]:
    """The restated formula, and the amounts in its steps that stayed as they were."""
    pairs: list[tuple[Line, Amount, Amount]] = []

    def one(line: Line) -> Line:
        now = (
            None
            if line.amount is None
            else restated(line.amount, Order(share(line, source, by), units, way(line, source)))
        )
        if line.amount is not None and now is not None:
            pairs.append((line, line.amount, now))
        return replace(
            _named(line, now),
            other=tuple(one(sub) for sub in line.other),
            made_of=tuple(one(sub) for sub in line.made_of),
        )

    take = tuple(one(line) for line in source.take)
    spaces = {row.inches: f"{floor(row.inches * _MM)} mm" for row in source.pack.headspace}
    steps = Restating(pairs, spaces if units == "metric" else {})
    document = replace(
        source,
        take=take,
        make=tuple(replace(step, text=steps.step(step, by != 1)) for step in source.make),
        yields=None if source.yields is None else _yield(source.yields, by),
        pack=replace(source.pack, headspace=tuple(_headspace(row, units) for row in source.pack.headspace)),
        process=tuple(_process(process, units) for process in source.process),
        comments=(),
    )
    if source.standing != "draft":
        document = _departing(document, source, by, units)
    return replace(document, code=code(source.code, by, units), title=_title(source.title, by, units)), tuple(
        steps.left
    )


def _named(line: Line, now: Amount | None) -> Line:
    """The line with its new amount; by its name in the table where only the old unit told what it is.

    A teaspoon of `pepper` is black pepper, 2.5 ml of it could be a fresh one.
    """
    out = replace(line, amount=now or line.amount)
    was, entry = item(line).entry, item(out).entry
    if was is None or entry is was:
        return out
    name, *forms = was.name.split(", ")
    return replace(out, item=name, forms=(*forms, *(form for form in line.forms if form not in forms)))


def _departing(document: Document, source: Document, by: Fraction, units: str) -> Document:
    """The restated formula as an adaptation that owns up to what it is; tests and readings stay with their formula."""
    owned = {"batch": words(by, units) or "the whole batch"}
    for line, old in zip(document.take, source.take, strict=True):
        if line.amount != old.amount and line.amount and line.amount.per:
            owned.setdefault(line.role, "the dose for the metric jar of that name")
        if share(old, source, by) != by:
            owned.setdefault(line.role, "as much for any pot, so not scaled")
    return replace(
        document,
        standing="adapted",
        adapts=source.code,
        changes=tuple(Change(subject, text, _NOWHERE) for subject, text in owned.items()),
        evidence=tuple(row for row in source.evidence if row.kind in ("source", "review-by")),
    )


def words(by: Fraction, units: str) -> str:
    """What was done, in words: `half a batch, in metric units`; empty for nothing."""
    batch = (
        "" if by == 1 else _NAMES[by][1] if by in _NAMES else f"{by} of a batch" if by < 1 else f"{_mixed(by)} batches"
    )
    return ", ".join(filter(None, [batch, _UNITS[units][1]]))


def _mixed(value: Fraction) -> str:
    whole, rest = divmod(value, 1)
    return f"{whole} {rest}" if whole and rest else str(rest or whole)


def code(of: str, by: Fraction, units: str) -> str:
    """The code of a restated formula: that of its source and what was done, `KV-101-HALF`, `KV-101-B2OF3METRIC`."""
    batch = "" if by == 1 else _NAMES[by][0] if by in _NAMES else f"B{by}".replace("/", "OF")
    last = (batch + _UNITS[units][0])[:12] or "SAME"
    return "-".join([*of.split("-")[:4], last])


def _title(title: str, by: Fraction, units: str) -> str:
    done = words(by, units)
    return f"{title}, {done}" if done else title


def _yield(value: Yield, by: Fraction) -> Yield:
    """Whole jars: fewer at the low end, more at the high end."""
    low, high = value.low * by, value.high * by
    whole = (Fraction(max(floor(low), 1)), Fraction(max(ceil(high), 1)))
    return replace(value, low=low, high=high) if by == 1 else replace(value, low=whole[0], high=whole[1])


def _headspace(row: Headspace, units: str) -> Headspace:
    """Whole millimetres or sixteenths of an inch, never more than tested; as written if that is exact or too little."""
    if units == "metric":
        millimetres = floor(row.inches * _MM)
        return replace(row, inches=millimetres / _MM) if millimetres else row
    if units == "us" and row.inches.denominator not in (1, 2, 4, 8, 16):
        sixteenths = floor(row.inches * 16)
        return replace(row, inches=Fraction(sixteenths, 16)) if sixteenths else row
    return row


def _process(process: Process, units: str) -> Process:
    if units == "both":
        return process
    unit = "m" if units == "metric" else "ft"
    return replace(
        process,
        rows=tuple(replace(row, bands=tuple(_band(band, unit) for band in row.bands)) for row in process.rows),
    )


def _band(band: Band, unit: str) -> Band:
    """A band edge in the other unit, lowered so that no altitude gets less time; the time stays."""
    if band.up_to_ft is None:
        return band
    return replace(band, up_to_ft=edge(band.up_to_ft, band.unit, unit), unit=unit)


def edge(up_to_ft: Fraction, own: str, unit: str) -> Fraction:
    """A band edge in feet, at a round number of the unit at or below it and within 10 m (the table's `same`)."""
    if own == unit:
        return up_to_ft
    in_unit = _FOOT_M if unit == "m" else Fraction(1)
    exact = up_to_ft * in_unit
    within = Fraction(10) if unit == "m" else 10 / _FOOT_M
    for step in (100, 50, 20, 10, 5, 1):
        value = floor(exact / step) * step
        if value and exact - value < within:
            return value / in_unit
    return up_to_ft
