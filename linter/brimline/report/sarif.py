"""A review in the Static Analysis Results Interchange Format, version 2.1.0 of the OASIS standard."""

import json

from brimline.findings import Finding, Level
from brimline.report.escaping import address, prose, whole_text
from brimline.report.handed import Handed, Rule, called, everything, ranked, spoken, word
from brimline.report.sink import visible
from brimline.report.words import NOTICE, WHAT_IT_DOES, sentence, standing
from brimline.review.fingerprint import fingerprint
from brimline.review.values import Refusal, Review, Reviewed

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
# The standard's words: error for what is held back, warning for what may not set or keep, note for the writing.
LEVELS = {
    Level.UNREADABLE: "error",
    Level.UNSAFE: "error",
    Level.UNTESTED: "error",
    Level.QUALITY: "warning",
    Level.FORM: "note",
}
# Named for what is hashed and how; a later way of hashing gets a later number beside it.
FINGERPRINT = "brimlineFinding/v1"

Value = str | int | bool | None | list["Value"] | dict[str, "Value"]
Thing = dict[str, Value]


def sarif(handed: Handed) -> str:
    """The review as one SARIF log in ASCII, all findings in it, unsafe ones first."""
    names = {rule.name: number for number, rule in enumerate(handed.rules)}
    review = handed.review
    driver: Thing = {
        "name": "brimline",
        "fullName": handed.program,
        "version": handed.version or "0",
        "fullDescription": {"text": f"{WHAT_IT_DOES} {NOTICE}"},
        "rules": [_rule(rule) for rule in handed.rules],
    }
    run: Thing = {
        "tool": {"driver": driver},
        "columnKind": "unicodeCodePoints",
        "invocations": [
            {
                "executionSuccessful": not review.refusals,
                "toolExecutionNotifications": [_refusal(one) for one in review.refusals],
            }
        ],
        "artifacts": [{"location": _location(path, handed)} for path in _paths(review)],
        "results": [_result(one, finding, handed, names) for one, finding in ranked(review)],
        "properties": {
            "collections": [whole_text(one) for one in review.collections],
            "notices": [whole_text(one) for one in handed.notices],
            "formulas": len(review.formulas),
            "heldBack": review.held_back,
        },
    }
    log: Thing = {"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}
    return json.dumps(log, indent=2, ensure_ascii=True) + "\n"


def _paths(review: Review) -> list[str]:
    """Every file looked at, each once."""
    return list(dict.fromkeys(one.path for one in everything(review)))


def _rule(rule: Rule) -> Thing:
    paragraphs = [sentence(rule.must), sentence(rule.why)]
    paragraphs += [f"{'And' if number else 'Source'}: {sentence(one)}" for number, one in enumerate(rule.sources)]
    paragraphs.append(f"brimline why {rule.name} says more.")
    return {
        "id": rule.name,
        "shortDescription": {"text": prose(sentence(rule.must))},
        "fullDescription": {"text": prose(" ".join(filter(None, paragraphs[:2])))},
        "help": {"text": "\n".join(prose(one) for one in paragraphs)},
        "defaultConfiguration": {"level": LEVELS[rule.level]},
        "properties": {"tags": [rule.name.partition("/")[0]]},
    }


def _result(one: Reviewed, finding: Finding, handed: Handed, names: dict[str, int]) -> Thing:
    lead = f"{sentence(word(finding)).removesuffix('.')}, {called(one)}"
    result: Thing = {
        "ruleId": finding.rule,
        "level": LEVELS[finding.level],
        "message": {"text": prose(f"{lead}: {spoken(finding)}")},
        "locations": [_place(finding, handed)],
        "partialFingerprints": {FINGERPRINT: fingerprint(one.code, finding)},
        "properties": _properties(one, finding),
    }
    if finding.rule in names:
        result["ruleIndex"] = names[finding.rule]
    if finding.before is not None:
        result["relatedLocations"] = [_tested(finding, handed)]
    if finding.varied is not None:
        result["suppressions"] = [_suppression(one, finding, handed)]
    return result


def _place(finding: Finding, handed: Handed) -> Thing:
    physical: Thing = {"artifactLocation": _location(finding.at.path, handed)}
    if finding.line:
        physical["region"] = _region(finding, handed)
    place: Thing = {"physicalLocation": physical}
    if finding.field:
        part = visible(finding.field)
        place["logicalLocations"] = [
            {"name": part.rpartition("/")[2], "fullyQualifiedName": visible(finding.formula) + part, "kind": "member"}
        ]
    return place


def _region(finding: Finding, handed: Handed) -> Thing:
    """The place on its first line; a finding about several lines is shown at the first of them."""
    column = max(finding.column, 1)
    region: Thing = {"startLine": finding.line, "startColumn": column}
    length = finding.at.span.end - finding.at.span.start
    room = len(handed.written(finding.at.path, finding.line)) - column + 1
    if min(length, room) > 0:
        region["endColumn"] = column + min(length, room)
    return region


def _tested(finding: Finding, handed: Handed) -> Thing:
    assert finding.before is not None  # noqa: S101 - asked by the caller
    physical: Thing = {"artifactLocation": _location(finding.before.path, handed)}
    if finding.before_line:
        physical["region"] = {"startLine": finding.before_line}
    return {"id": 1, "physicalLocation": physical, "message": {"text": "The same in the tested formula."}}


def _suppression(one: Reviewed, finding: Finding, handed: Handed) -> Thing:
    suppression: Thing = {
        "kind": "external",
        "status": "accepted",
        "justification": visible(sentence(standing(one, finding))),
    }
    varied = finding.varied
    if varied is not None and varied.path:
        physical: Thing = {"artifactLocation": _location(varied.path, handed)}
        if varied.line:
            physical["region"] = {"startLine": varied.line}
        suppression["location"] = {"physicalLocation": physical}
    return suppression


def _properties(one: Reviewed, finding: Finding) -> Thing:
    return {
        "level": finding.level.word,
        "harm": finding.harm.value,
        "certain": finding.certain,
        "row": finding.row,
        "formula": whole_text(one.code),
        "heldBack": one.held_back,
        "figures": [
            {"name": whole_text(each.name), "value": whole_text(each.value), "unit": whole_text(each.unit)}
            for each in finding.figures
        ],
        "sources": [whole_text(each.id) for each in finding.sources],
    }


def _refusal(one: Refusal) -> Thing:
    text = " ".join(filter(None, [f"Not looked at: {one.path} {one.reason}.", one.do]))
    return {"level": "error", "message": {"text": prose(text)}}


def _location(path: str, handed: Handed) -> Thing:
    return {"uri": address(handed.path(path)) or "."}
