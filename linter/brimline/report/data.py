"""A review and a comparison as JSON, in the shape that `schema/findings.schema.json` publishes."""

import json
from collections.abc import Iterable

from brimline.findings import Finding, Level, Place, Source, Variance
from brimline.report.escaping import whole_text
from brimline.report.handed import Handed
from brimline.report.words import gravest_first
from brimline.review.fingerprint import fingerprint
from brimline.review.values import Comparison, MoveRow, Refusal, Review, Reviewed

# Goes up when a key changes its meaning or goes away; new keys alone do not change it.
VERSION = 2

Value = str | int | bool | None | list["Value"] | dict[str, "Value"]


def as_json(handed: Handed) -> str:
    """A review on its way out as one JSON text."""
    return review_data(handed.review, handed.program, handed.start)


def review_data(review: Review, tool: str, root: str = "") -> str:
    """A review as one JSON text in ASCII, the gravest first.

    `tool` names program and version, `root` leads from the top of the repository to where paths start.
    """
    return as_text(
        {
            "report": "review",
            "version": VERSION,
            "tool": tool,
            "root": root or ".",
            "collections": list(review.collections),
            "notices": list(review.notices),
            "held_back": review.held_back,
            "counts": counts_data(review),
            "formulas": [reviewed_data(one) for one in gravest_first(review.formulas)],
            "records": [reviewed_data(one) for one in gravest_first(review.records)],
            "refusals": [refusal_data(one) for one in review.refusals],
        }
    )


def counts_data(review: Review) -> Value:
    """How many findings there are of each level, those let stand and those of the collection's own files included."""
    findings = [finding for one in (*review.formulas, *review.records) for finding in one.findings]
    return {level.word: sum(one.level is level for one in findings) for level in Level}


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
    return json.dumps(whole(value), indent=2, ensure_ascii=True) + "\n"


def whole(value: Value) -> Value:
    """The value without half characters, which come from file names that are not UTF-8 and which JSON cannot hold."""
    if isinstance(value, str):
        return whole_text(value)
    if isinstance(value, list):
        return [whole(one) for one in value]
    if isinstance(value, dict):
        return {key: whole(one) for key, one in value.items()}
    return value


def reviewed_data(one: Reviewed) -> Value:
    """A formula with its findings."""
    return {**formula_data(one), "findings": [finding_data(one.code, finding) for finding in one.findings]}


def formula_data(one: Reviewed) -> dict[str, Value]:
    """What is known of a formula besides its findings."""
    return {
        "path": one.path,
        "code": one.code,
        "title": one.title,
        "standing": one.standing,
        "departs_from": one.departs_from,
        "root": one.root,
        "scale": one.scale,
        "held_back": one.held_back,
    }


def finding_data(code: str, finding: Finding) -> Value:
    """A finding with all it knows."""
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


def refusal_data(one: Refusal) -> dict[str, Value]:
    """What could not be looked at."""
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
