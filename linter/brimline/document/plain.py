"""A document as JSON: the shape that `schema/formula.schema.json` defines.

Exact numbers are strings (`"11/2"`), because JSON numbers are doubles and would round. What is not written has no key.
"""

from typing import Any

from brimline.document.values import (
    Amount,
    Band,
    Change,
    Document,
    Evidence,
    Finish,
    Header,
    Headspace,
    Jar,
    Keep,
    Line,
    Measure,
    Packing,
    Per,
    Prepare,
    Process,
    Start,
    Step,
    Times,
    Yield,
)


def to_json(document: Document) -> dict[str, Any]:
    """The JSON of a document; places and comments are left out, because they are not what the formula says."""
    out: dict[str, Any] = {}
    for key in ("code", "title", "product", "standing", "adapts", "sold_as", "retired", "successor"):
        text = getattr(document, key)
        if text:
            out[key] = text
    if document.finish is not None:
        out["finish"] = plain(document.finish)
    if document.yields is not None:
        out["yield"] = plain(document.yields)
    for key in ("take", "make", "process", "keep", "changes", "evidence"):
        rows = getattr(document, key)
        if rows:
            out[key] = [plain(row) for row in rows]
    pack = plain(document.pack)
    if pack:
        out["pack"] = pack
    return out


def plain(value: Any) -> Any:
    """The JSON of one value of a document."""
    write = _WRITE.get(type(value))
    if write is not None:
        return write(value)
    if type(value) is tuple:
        return [plain(one) for one in value]
    return value


def _filled(**pairs: Any) -> dict[str, Any]:
    """The pairs that say something."""
    return {key: value for key, value in pairs.items() if value not in (None, "", [], False)}


def _span_of_numbers(low: Any, high: Any) -> dict[str, str]:
    return {} if low is None else {"low": str(low), "high": str(high)}


def _measure(value: Measure) -> dict[str, Any]:
    out: dict[str, Any] = {"low": str(value.low), "high": str(value.high), "unit": value.unit}
    if value.pack is not None:
        out["pack"] = {"number": str(value.pack.number), "unit": value.pack.unit}
    return out


def _amount(value: Amount) -> dict[str, Any]:
    if value.some:
        return {"some": True}
    out: dict[str, Any] = {"parts": [_measure(part) for part in value.parts]}
    if value.also:
        out["also"] = [[_measure(part) for part in parts] for parts in value.also]
    if value.per is not None:
        out["per"] = _per(value.per)
    return out


def _per(value: Per) -> dict[str, Any]:
    return _filled(number=str(value.number), unit=value.unit, of=value.of)


def _line(value: Line) -> dict[str, Any]:
    return _filled(
        flags=list(value.flags),
        role=value.role,
        amount=None if value.amount is None else _amount(value.amount),
        item=value.item,
        forms=list(value.forms),
        strength=None if value.strength is None else str(value.strength),
        any_mix=value.any_mix,
        other=[_line(one) for one in value.other],
        made_of=[_line(one) for one in value.made_of],
        note=list(value.note),
    )


def _finish(value: Finish) -> dict[str, Any]:
    return _filled(kind=value.kind, text=value.text) | _span_of_numbers(value.low, value.high)


def _jar(value: Jar) -> dict[str, str]:
    return {"name": value.name, "ml": str(value.volume_ml)}


def _jars(value: Prepare | Headspace | Times) -> dict[str, Any]:
    return {"jars": [_jar(jar) for jar in value.jars]} if value.jars else {}


def _packing(value: Packing) -> dict[str, Any]:
    return _filled(
        jars=[_jar(jar) for jar in value.jars],
        prepare=[plain(one) for one in value.prepare],
        fill=None if value.fill is None else value.fill.value,
        headspace=[plain(one) for one in value.headspace],
        lid=None if value.lid is None else value.lid.value,
    )


def _band(value: Band) -> dict[str, Any]:
    out = {"minutes": str(value.minutes), "unit": value.unit}
    if value.up_to_ft is not None:
        out["up_to_ft"] = str(value.up_to_ft)
    if value.gauge:
        out |= {"gauge": value.gauge, "psi": str(value.psi)}
    return out


def _start(value: Start) -> dict[str, Any]:
    return {"water_f": str(value.water_f)} | _span_of_numbers(value.low, value.high)


def _process(value: Process) -> dict[str, Any]:
    return _filled(
        method=value.method,
        start=None if value.start is None else _start(value.start),
        rows=[_times(row) for row in value.rows],
    )


def _times(value: Times) -> dict[str, Any]:
    return _jars(value) | _filled(fill=value.fill) | {"bands": [_band(one) for one in value.bands]}


def _keep(value: Keep) -> dict[str, Any]:
    return _filled(kind=value.kind, where=list(value.where)) | _span_of_numbers(value.low_h, value.high_h)


def _evidence(value: Evidence) -> dict[str, Any]:
    return _filled(
        kind=value.kind,
        text=value.text,
        date=value.date,
        quantity=value.quantity,
        value=None if value.value is None else str(value.value),
        forms=list(value.forms),
    )


_WRITE: dict[type, Any] = {
    Line: _line,
    Amount: _amount,
    Finish: _finish,
    Jar: _jar,
    Packing: _packing,
    Times: _times,
    Start: _start,
    Process: _process,
    Keep: _keep,
    Evidence: _evidence,
    Header: lambda value: value.value,
    Step: lambda value: value.text,
    Yield: lambda value: {"low": str(value.low), "high": str(value.high), "jar": _jar(value.jar)},
    Prepare: lambda value: {"kind": value.kind} | _jars(value),
    Headspace: lambda value: {"inches": str(value.inches)} | _jars(value),
    Change: lambda value: _filled(subject=value.subject, text=value.text),
}
