"""A review and a comparison as JSON, in the shape that `schema/findings.schema.json` publishes."""

import json
from collections.abc import Iterable

from brimline.findings import Finding, Level, Place, Source, Variance
from brimline.review.fingerprint import fingerprint
from brimline.review.values import Comparison, MoveRow, Refusal, Review, Reviewed

# Goes up when a key changes its meaning or goes away; new keys alone do not change it.
VERSION = 1

Value = str | int | bool | None | list["Value"] | dict[str, "Value"]


def review_data(review: Review, tool: str, root: str = "") -> str:
    """A review as one JSON text in ASCII; `tool` names program and version, `root` leads to where paths start."""
    findings = [finding for one in review.formulas for finding in one.findings]
    return as_text(
        {
            "report": "review",
            "version": VERSION,
            "tool": tool,
            "root": root or ".",
            "collections": list(review.collections),
            "notices": list(review.notices),
            "held_back": review.held_back,
            "counts": {level.word: sum(one.level is level for one in findings) for level in Level},
            "formulas": [reviewed_data(one) for one in review.formulas],
            "refusals": [refusal_data(one) for one in review.refusals],
        }
    )


def comparison_data(comparison: Comparison, tool: str, root: str = "") -> str:
    """A comparison as one JSON text in ASCII."""
    return as_text(
        {
            "report": "comparison",
            "version": VERSION,
            "tool": tool,
            "root": root or ".",
            "against": comparison.against,
            "against_title": comparison.against_title,
            "scale": comparison.scale,
            "acid_class": comparison.acid_class,
            "moves": [_move(one) for one in comparison.moves],
            "formula": reviewed_data(comparison.reviewed),
        }
    )


def as_text(value: Value) -> str:
    """A value as one JSON text in ASCII."""
    return json.dumps(_whole(value), indent=2, ensure_ascii=True) + "\n"


def _whole(value: Value) -> Value:
    """The value without half characters, which come from file names that are not UTF-8 and which JSON cannot hold."""
    if isinstance(value, str):
        return value if value.isascii() else value.encode("utf-8", "replace").decode("utf-8")
    if isinstance(value, list):
        return [_whole(one) for one in value]
    if isinstance(value, dict):
        return {key: _whole(one) for key, one in value.items()}
    return value


def reviewed_data(one: Reviewed) -> Value:
    """A formula with its findings."""
    return {
        "path": one.path,
        "code": one.code,
        "title": one.title,
        "standing": one.standing,
        "departs_from": one.departs_from,
        "root": one.root,
        "scale": one.scale,
        "held_back": one.held_back,
        "findings": [_finding(one.code, finding) for finding in one.findings],
    }


def _finding(code: str, finding: Finding) -> Value:
    return {
        "fingerprint": fingerprint(code, finding),
        "level": finding.level.word,
        "rule": finding.rule,
        "row": finding.row,
        "harm": finding.harm.value,
        "certain": finding.certain,
        "field": finding.field,
        "at": {**_place(finding.at), "line": finding.line, "column": finding.column, "section": finding.section},
        "before": {**_place(finding.before), "line": finding.before_line} if finding.before else None,
        "says": finding.says,
        "why": finding.why,
        "instead": finding.instead,
        "write": finding.copy,
        "figures": [{"name": one.name, "value": one.value, "unit": one.unit} for one in finding.figures],
        "sources": source_values(finding.sources),
        "varied": _varied(finding.varied) if finding.varied else None,
    }


def _varied(one: Variance) -> Value:
    return {
        "reason": one.reason,
        "role": one.role,
        "until": one.until,
        "letter": one.letter,
        "readings": [
            {"ph": each.ph, "batch": each.batch, "on": each.on, "of": each.of, "by": each.by} for each in one.readings
        ],
        "records": list(one.records),
        "fingerprint": one.fingerprint,
        "path": one.path,
        "line": one.line,
    }


def _place(place: Place) -> dict[str, Value]:
    return {"path": place.path, "start": place.span.start, "end": place.span.end}


def source_values(sources: Iterable[Source]) -> Value:
    """Sources, in their order."""
    return [{"id": one.id, "title": one.title, "section": one.section, "how": one.how} for one in sources]


def refusal_data(one: Refusal) -> Value:
    """Something that could not be looked at."""
    return {"path": one.path, "reason": one.reason, "do": one.do}


def _move(one: MoveRow) -> Value:
    return {
        "subject": one.subject,
        "tested": one.tested,
        "here": one.here,
        "change": one.change,
        "meaning": one.meaning,
        "declared": one.declared,
        "line": one.line,
        "tested_line": one.tested_line,
    }
