"""JUnit XML: well-formed, in the order and with the counts that the common readers check, read back by one of them.

There is no one standard. What is held here is what the published schema of a widely used server accepts (from memory):
`testsuites` of `testsuite` with `properties` first, then `testcase`; in a case at most one of `skipped`, `error` and
`failure`, then `system-out`; names and classes on every case; counts that agree.
"""

import xml.etree.ElementTree as ET
from typing import Any

import junitparser
import pytest
from hypothesis import given
from hypothesis import strategies as st
from report_making import HOSTILE, handed, hostile_review, make_finding, make_reviewed, make_variance

from brimline.findings import Level, Place, Span
from brimline.report.junit import junit
from brimline.review.values import Refusal, Review

ATTRIBUTES = {
    "testsuites": {"name", "tests", "failures", "errors", "skipped"},
    "testsuite": {"name", "tests", "failures", "errors", "skipped"},
    "properties": set(),
    "property": {"name", "value"},
    "testcase": {"name", "classname"},
    "failure": {"type", "message"},
    "error": {"type", "message"},
    "skipped": {"message"},
    "system-out": set(),
}
INSIDE = {
    "testsuites": ["testsuite"],
    "testsuite": ["properties", "testcase"],
    "properties": ["property"],
    "testcase": ["skipped", "error", "failure", "system-out"],
}


def checked(review: Review) -> ET.Element:
    printed = junit(handed(review))
    assert printed.isascii()
    root = ET.fromstring(printed)
    for element in root.iter():
        assert set(element.attrib) == ATTRIBUTES[element.tag]
        places = [INSIDE.get(element.tag, []).index(child.tag) for child in element]
        assert places == sorted(places)
    for suite in root:
        cases = suite.findall("testcase")
        assert cases
        names = [(case.get("classname"), case.get("name")) for case in cases]
        assert len(set(names)) == len(names)
        assert all(len([child for child in case if child.tag != "system-out"]) <= 1 for case in cases)
        assert counts(suite) == {"tests": len(cases), **outcomes(cases)}
    assert counts(root) == {"tests": len(list(root.iter("testcase"))), **outcomes(list(root.iter("testcase")))}
    return root


def counts(element: ET.Element) -> dict[str, int]:
    return {name: int(element.get(name, "")) for name in ("tests", "failures", "errors", "skipped")}


def outcomes(cases: list[ET.Element]) -> dict[str, int]:
    tags = [child.tag for case in cases for child in case]
    return {"failures": tags.count("failure"), "errors": tags.count("error"), "skipped": tags.count("skipped")}


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_texts_stay_texts(text: str) -> None:
    assert {each.tag for each in checked(hostile_review(text)).iter()} <= set(ATTRIBUTES)


@given(st.text(max_size=30), st.lists(st.sampled_from(Level), max_size=4))
def test_any_review_is_well_formed(text: str, levels: list[Level]) -> None:
    findings = [make_finding(level=level, says=text, section=text, rule="acid/dropped") for level in levels]
    checked(Review((make_reviewed(*findings, path=text, code=text, title=text),)))


def outcome(root: ET.Element, name: str) -> str:
    case = next(case for case in root.iter("testcase") if case.get("name", "").startswith(name))
    return next((child.tag for child in case if child.tag != "system-out"), "passed")


def test_each_formula_and_each_finding_is_a_case() -> None:
    bad = make_reviewed(make_finding(), make_finding(level=Level.QUALITY, rule="set/thin"))
    clean = make_reviewed(path="kv-1.formula", code="KV-1", title="Plum jam")
    root = checked(Review((bad, clean)))
    assert outcome(root, "KV-214") == "failure"
    assert outcome(root, "unsafe acid/dropped") == "failure"
    assert outcome(root, "quality set/thin") == "passed"
    assert outcome(root, "KV-1 Plum jam") == "passed"
    assert counts(root) == {"tests": 4, "failures": 2, "errors": 0, "skipped": 0}


def test_what_cannot_be_read_is_an_error() -> None:
    assert outcome(checked(Review((make_reviewed(make_finding(level=Level.UNREADABLE)),))), "unreadable") == "error"


def test_what_is_let_stand_is_skipped_with_its_reason() -> None:
    root = checked(Review((make_reviewed(make_finding(varied=make_variance())),)))
    assert outcome(root, "unsafe acid/dropped") == "skipped"
    assert outcome(root, "KV-214") == "passed"
    assert "letter covers this batch" in next(root.iter("skipped")).get("message", "")


def test_a_draft_fails_nothing() -> None:
    root = checked(Review((make_reviewed(make_finding(), standing="draft", held_back=False),)))
    assert counts(root) == {"tests": 2, "failures": 0, "errors": 0, "skipped": 1}


def test_an_empty_run_is_no_pass() -> None:
    # Some servers fail a build for a report without a case, others pass it; a case that errs is clear to all.
    assert counts(checked(Review(())))["errors"] == 1
    refused = checked(Review((), (Refusal("gone.formula", "is not there", "Check the name."),)))
    assert counts(refused)["errors"] == 1


def test_a_comparison_without_anything_new_passes() -> None:
    root = ET.fromstring(junit(handed(Review(()), compared="Compared with main.")))
    assert counts(root) == {"tests": 1, "failures": 0, "errors": 0, "skipped": 0}
    assert "Compared with main." in {each.get("value") for each in root.iter("property")}


def test_two_findings_alike_are_two_cases() -> None:
    pair = [make_finding(says=f"At {height} ft.", at=Place("x", Span(1, 2))) for height in ("1,000", "6,000")]
    root = checked(Review((make_reviewed(*pair),)))
    assert [case.get("name") for case in root.iter("testcase")][1:] == [
        "unsafe acid/dropped, take, line 7",
        "unsafe acid/dropped, take, line 7 (2)",
    ]


def test_an_independent_reader_finds_the_same() -> None:
    bad = make_reviewed(make_finding(), make_finding(level=Level.UNREADABLE, rule="writing/syntax"))
    read: Any = junitparser.JUnitXml.fromstring(junit(handed(Review((bad,)))))
    (suite,) = read
    assert (suite.name, suite.tests, suite.failures, suite.errors) == (
        "my formulas/adapted/kv-214.formula",
        *(3, 2, 1),
    )
    cases = {case.name: case for case in suite}
    (failure,) = cases["unsafe acid/dropped, take, line 7"].result
    assert isinstance(failure, junitparser.Failure)
    assert failure.message == make_finding().says
    assert make_finding().why in failure.text
    assert not cases["unsafe acid/dropped, take, line 7"].is_passed
