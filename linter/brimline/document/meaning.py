"""What a formula means, without how it is written: the canonical form that a seal and a variance are bound to.

Layout, comments, notes, title, code, evidence and declared changes are left out; equal amounts in other units are one
amount (8 fl oz is 1 cup); the order of lines that have no order is gone. Every amount, ingredient, jar, time, method,
headspace, step and stated life is in it, so that changing one of them changes the fingerprint.
"""

from collections.abc import Iterable
from fractions import Fraction
from typing import Any

from msgspec import Struct

from brimline.document import units
from brimline.document.values import (
    Amount,
    Document,
    Evidence,
    Finish,
    Headspace,
    Jar,
    Keep,
    Line,
    Measure,
    Packing,
    Per,
    Prepare,
    Process,
    Times,
)

# Part of every fingerprint, so that one made by another canonical form is never taken for one of this form.
FORM = "m1"


class Seal(Struct, frozen=True):
    """One tested formula in a register: what it meant, since when, and the evidence for it.

    `evidence` pairs each row of evidence, as one squeezed text, with the fingerprint of the formula it was made for.
    `reason` says why a formula was sealed anew; empty for the first time. `sealed` is an ISO date.
    """

    code: str
    fingerprint: str
    sealed: str
    evidence: tuple[tuple[str, str], ...] = ()
    reason: str = ""


def fingerprint(document: Document) -> str:
    """The fingerprint of what a formula means: `m1-` and the SHA-256 of its canonical form in hexadecimal."""
    from hashlib import sha256

    return f"{FORM}-{sha256(canonical(meaning(document))).hexdigest()}"


def canonical(value: Any) -> bytes:
    """The canonical JSON (RFC 8785) of texts, lists and objects with ASCII keys.

    Numbers, which make RFC 8785 hard, are texts here; for the rest sorted keys, no blanks and UTF-8 are all it asks.
    """
    from msgspec.json import encode

    return encode(value, order="sorted")


def evidence_rows(document: Document) -> tuple[str, ...]:
    """Every row of evidence as one text, `kind words`, with one blank for every run of blanks; each once."""
    return tuple(dict.fromkeys(evidence_row(row) for row in document.evidence))


def evidence_row(row: Evidence) -> str:
    """One row of evidence as one text."""
    text = ", ".join(" ".join(part.split()) for part in row.text.split(","))
    return f"{row.kind} {text.removeprefix(row.kind).strip()}"


def meaning(document: Document) -> dict[str, Any]:
    """What a formula means as texts, lists and objects; what is not written has no key."""
    return _said(
        adapts=document.adapts,
        product=document.product,
        finish=None if document.finish is None else _finish(document.finish),
        yields=None
        if document.yields is None
        else {**_range(document.yields.low, document.yields.high), "jar": _jar(document.yields.jar)},
        take=_sorted(_line(one) for one in document.take),
        make=[" ".join(step.text.split()) for step in document.make],
        pack=_packing(document.pack),
        process=_sorted(_process(one) for one in document.process),
        keep=_sorted(_keep(one) for one in document.keep),
    )


def _said(**pairs: Any) -> dict[str, Any]:
    return {key: value for key, value in pairs.items() if value not in (None, "", [], {}, False)}


def _sorted(values: Iterable[Any]) -> list[Any]:
    return sorted(values, key=canonical)


def _text(words: str) -> str:
    return " ".join(words.split()).casefold()


def _range(low: Fraction, high: Fraction) -> dict[str, str]:
    return {"low": str(low), "high": str(high)}


def _line(line: Line) -> dict[str, Any]:
    return _said(
        flags=sorted(line.flags),
        role=line.role,
        amount=None if line.amount is None else _amount(line.amount),
        item=_text(line.item),
        forms=sorted(_text(form) for form in line.forms),
        strength=None if line.strength is None else str(line.strength),
        any_mix="yes" if line.any_mix else "",
        other=[_line(one) for one in line.other],
        made_of=_sorted(_line(one) for one in line.made_of),
    )


def _amount(amount: Amount) -> dict[str, Any]:
    if amount.some:
        return {"some": "yes"}
    stated = [_sum(parts) for parts in (amount.parts, *amount.also)]
    return _said(stated=_sorted(stated), per=None if amount.per is None else _per(amount.per))


def _sum(parts: Iterable[Measure]) -> list[Any]:
    """The parts of a sum added up within each dimension, in the base of the unit list."""
    total: dict[tuple[str, str], tuple[Fraction, Fraction]] = {}
    for part in parts:
        name, factor = _unit(part.unit)
        pack = ""
        if part.pack is not None:
            pack_name, pack_factor = _unit(part.pack.unit)
            pack = f"{part.pack.number * pack_factor} {pack_name}"
        low, high = total.get((name, pack), (Fraction(0), Fraction(0)))
        total[name, pack] = (low + part.low * factor, high + part.high * factor)
    return _sorted(_said(of=name, pack=pack) | _range(low, high) for (name, pack), (low, high) in total.items())


def _unit(word: str) -> tuple[str, Fraction]:
    """The base a unit is counted in, and how many of it there are; pieces and packages are a base of their own."""
    unit = units.unit(word)
    if unit is None or unit.dimension in ("count", "package"):
        return word, Fraction(1)
    return unit.dimension, unit.factor


def _per(per: Per) -> dict[str, Any]:
    known = units.jar_named(per.unit) if per.number == 1 else None
    if per.of == "jar" and known is not None:
        return {"of": "jar", "jar": known.name}
    unit = units.unit(per.unit)
    sized = units.jar_sized(per.number, unit) if per.of == "jar" and unit is not None else None
    if sized is not None:
        return {"of": "jar", "jar": sized[0]}
    name, factor = _unit(per.unit)
    return _said(of=per.of, unit=name, number=str(per.number * factor))


def _jar(jar: Jar) -> str:
    return jar.name


def _jars(value: Prepare | Headspace | Times) -> list[str]:
    return sorted(_jar(one) for one in value.jars)


def _finish(finish: Finish) -> dict[str, Any]:
    ends = {} if finish.low is None or finish.high is None else _range(finish.low, finish.high)
    return _said(kind=finish.kind, text=_text(finish.text)) | ends


def _packing(pack: Packing) -> dict[str, Any]:
    return _said(
        jars=sorted(_jar(one) for one in pack.jars),
        prepare=_sorted(_said(kind=one.kind, jars=_jars(one)) for one in pack.prepare),
        fill="" if pack.fill is None else _text(pack.fill.value),
        headspace=_sorted({"inches": str(one.inches)} | _said(jars=_jars(one)) for one in pack.headspace),
        lid="" if pack.lid is None else _text(pack.lid.value),
    )


def _process(process: Process) -> dict[str, Any]:
    start = process.start
    return _said(
        method=process.method,
        start=None if start is None else {"water_f": str(start.water_f)} | _range(start.low, start.high),
        rows=_sorted(_times(row) for row in process.rows),
    )


def _times(row: Times) -> dict[str, Any]:
    bands = [
        _said(
            minutes=str(band.minutes),
            up_to_ft="" if band.up_to_ft is None else str(band.up_to_ft),
            gauge=band.gauge,
            psi="" if band.psi is None else str(band.psi),
        )
        for band in row.bands
    ]
    return _said(jars=_jars(row), fill=row.fill, bands=bands)


def _keep(keep: Keep) -> dict[str, Any]:
    ends = {} if keep.low_h is None or keep.high_h is None else _range(keep.low_h, keep.high_h)
    return _said(kind=keep.kind, where=sorted(_text(one) for one in keep.where)) | ends
