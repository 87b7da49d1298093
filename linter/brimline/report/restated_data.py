"""A restated formula as JSON."""

from collections.abc import Iterable
from fractions import Fraction

from brimline.document.values import Amount, Measure
from brimline.findings import Finding
from brimline.report.data import Value, as_text, source_values
from brimline.report.restated import BASIS, ROUNDED, said
from brimline.report.sink import visible
from brimline.report.words import NOTICE
from brimline.review.restate.values import Restated, RestatedLine

# Goes up when a key changes its meaning or goes away; new keys alone do not change it.
VERSION = 1


def restated_data(one: Restated, tool: str, root: str = "", notices: Iterable[str] = ()) -> str:
    """A restated formula as one JSON text in ASCII; exact numbers are strings (`17/4`), as in documents."""
    found = one.reviewed
    data: dict[str, Value] = {
        "report": "restated",
        "version": VERSION,
        "tool": tool,
        "root": root or ".",
        "path": one.path,
        "code": one.code,
        "title": visible(one.title),
        "standing": one.standing,
        "batch": str(one.by),
        "units": one.units,
        "lines": [_line(line) for line in one.lines],
        "jars": [{"jar": jar.jar.name, "metric": jar.metric} for jar in one.jars],
        "steps": [visible(step.text) for step in one.document.make],
        "steps_left": [visible(text) for text in one.left],
        "formula": one.text,
        "unwritten": one.unwritten,
        "caution": None
        if one.caution is None
        else {"row": one.caution.id, "why": one.caution.why, "instead": one.caution.advice},
        "held_back": None if found is None else found.held_back,
        "findings": [] if found is None else [brief(finding) for finding in found.findings],
        "notices": [BASIS, ROUNDED, NOTICE, *notices],
    }
    return as_text(data)


def brief(finding: Finding) -> Value:
    """What a finding says, without its place in a text that nobody has on disk."""
    return {
        "level": finding.level.word,
        "rule": finding.rule,
        "row": finding.row,
        "certain": finding.certain,
        "says": finding.says,
        "why": finding.why,
        "instead": finding.instead,
        "sources": source_values(finding.sources),
    }


def _line(line: RestatedLine) -> Value:
    return {
        "lead": line.lead,
        "item": visible(line.item),
        "depth": line.depth,
        "exact": line.exact,
        "rounded": line.way,
        "us": _amount(line.us),
        "metric": _amount(line.metric),
        "kept": line.kept,
        "written": said(line.written),
        "doses": [{"jar": jar, "us": _amount(us), "metric": _amount(metric)} for jar, us, metric in line.doses],
    }


def _amount(value: Amount | None) -> Value:
    if value is None:
        return None
    return {"text": said(value), "parts": [_measure(part) for part in value.parts]}


def _measure(part: Measure) -> Value:
    return {"low": _number(part.low), "high": _number(part.high), "unit": part.unit}


def _number(value: Fraction) -> str:
    return str(value)
