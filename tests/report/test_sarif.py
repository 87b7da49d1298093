"""SARIF 2.1.0: held against the schema of the standard, read back by a reader that knows nothing of us."""

import json
import re
from pathlib import Path
from typing import Any
from urllib.parse import unquote_to_bytes, urlsplit

import pytest
import sarif_pydantic
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft4Validator, FormatChecker
from report_making import HOSTILE, handed, hostile_review, make_finding, make_reviewed, make_variance

from brimline.findings import Finding, Level, Place, Span
from brimline.report.escaping import address
from brimline.report.sarif import sarif
from brimline.review.values import Refusal, Review

SCHEMA: dict[str, Any] = json.loads(
    (Path(__file__).parent / "standards" / "sarif-schema-2.1.0.json").read_text(encoding="utf-8")
)
STANDARD = Draft4Validator(SCHEMA, format_checker=FormatChecker())


def log_of(review: Review, **changes: Any) -> dict[str, Any]:
    made: dict[str, Any] = json.loads(sarif(handed(review, **changes)))
    return made


def one(*findings: Finding, **changes: Any) -> Review:
    return Review((make_reviewed(*findings, **changes),))


def results(log: dict[str, Any]) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = log["runs"][0]["results"]
    return found


def test_the_checkers_of_the_formats_are_there() -> None:
    # Without a package for it a format is passed over in silence, and a blank in an address would go unseen.
    named = set(re.findall(r'"format": "([^"]+)"', json.dumps(SCHEMA)))
    assert named == {"date-time", "uri", "uri-reference"}
    assert {"uri", "uri-reference"} <= set(FormatChecker().checkers)
    log = log_of(one(make_finding()))
    STANDARD.validate(log)
    results(log)[0]["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] = "my formulas/a.formula"
    assert [error.validator for error in STANDARD.iter_errors(log)] == ["format"]


def test_no_moment_is_told_so_no_checker_of_moments_is_needed() -> None:
    assert not re.search(r'"\w*(?:Utc|Time)"', sarif(handed(one(make_finding()))))


def test_the_schema_is_the_one_the_log_names() -> None:
    assert log_of(Review(()))["$schema"] == SCHEMA["id"]


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_texts_fit_the_standard(text: str) -> None:
    printed = sarif(handed(hostile_review(text)))
    assert printed.isascii()
    STANDARD.validate(json.loads(printed))


@given(st.text(max_size=40), st.integers(0, 3), st.integers(0, 3), st.integers(0, 9), st.sampled_from(Level))
def test_any_text_and_place_fits_the_standard(text: str, line: int, column: int, length: int, level: Level) -> None:
    at = Place(text, Span(0, length))
    finding = make_finding(at=at, says=text, line=line, column=column, level=level, field=text, before=at)
    STANDARD.validate(log_of(one(finding, path=text, code=text), written=lambda *_: "sugar"))


def test_a_finding_without_a_line_has_no_region() -> None:
    place = results(log_of(one(make_finding(line=0, column=0))))[0]["locations"][0]["physicalLocation"]
    assert "region" not in place


def test_a_region_ends_on_its_own_line() -> None:
    finding = make_finding(at=Place("a.formula", Span(40, 90)), line=2, column=3)
    region = results(log_of(one(finding), written=lambda *_: "  sugar"))[0]["locations"][0]["physicalLocation"]
    # The end is exclusive (3.30.8 of the standard): one past the last of the seven characters.
    assert region["region"] == {"startLine": 2, "startColumn": 3, "endColumn": 8}


@pytest.mark.parametrize(
    ("path", "uri"),
    [
        ("adapted/kv-1.formula", "adapted/kv-1.formula"),
        ("my jam.formula", "my%20jam.formula"),
        ("c:1.formula", "c%3A1.formula"),
        ("a#b?c%.formula", "a%23b%3Fc%25.formula"),
        ("confiture de groseilles à maquereau.formula", "confiture%20de%20groseilles%20%C3%A0%20maquereau.formula"),
        ("odd\udcff.formula", "odd%FF.formula"),
        ("//host/x", "%2F%2Fhost/x"),
        ("a\\b", "a%5Cb"),
    ],
)
def test_paths_are_relative_references(path: str, uri: str) -> None:
    # RFC 3986, sections 2.1 and 4.2.
    assert address(path) == uri
    split = urlsplit(address(path))
    assert (split.scheme, split.netloc, split.query, split.fragment) == ("", "", "", "")


@given(st.text(max_size=30))
def test_a_path_can_be_had_back(path: str) -> None:
    assert unquote_to_bytes(address(path)).decode("utf-8", "surrogatepass") == path


def test_rules_have_help_and_results_point_at_them() -> None:
    log = log_of(one(make_finding()))
    rules = log["runs"][0]["tool"]["driver"]["rules"]
    result = results(log)[0]
    assert rules[result["ruleIndex"]]["id"] == result["ruleId"] == "acid/dropped"
    assert "brimline why acid/dropped" in rules[0]["help"]["text"]
    assert rules[0]["defaultConfiguration"] == {"level": "error"}
    assert results(log_of(one(make_finding(rule="writing/syntax"))))[0].get("ruleIndex") is None


def test_levels_are_the_words_of_the_standard() -> None:
    shown = {each: results(log_of(one(make_finding(level=each))))[0]["level"] for each in Level}
    assert {each for each, word in shown.items() if word == "error"} == {each for each in Level if each.holds_back}
    assert (shown[Level.QUALITY], shown[Level.FORM]) == ("warning", "note")


def test_a_fingerprint_outlives_a_moved_line_and_a_reworded_sentence() -> None:
    before, after = make_finding(), make_finding(line=30, column=9, says="Reworded.", at=Place("b", Span(9, 10)))
    prints = [results(log_of(one(each)))[0]["partialFingerprints"] for each in (before, after)]
    assert prints[0] == prints[1]
    assert all(prints[0].values())
    other = results(log_of(one(make_finding(row="acid-cut"))))[0]["partialFingerprints"]
    assert other != prints[0]


def test_a_variance_is_a_suppression_with_its_reason() -> None:
    log = log_of(one(make_finding(varied=make_variance()), make_finding(row="acid-cut")))
    varied = next(each for each in results(log) if "suppressions" in each)
    (suppression,) = varied["suppressions"]
    assert (suppression["kind"], suppression["status"]) == ("external", "accepted")
    for word in ("2027-03-31", "collection curator", "letter covers this batch"):
        assert word in suppression["justification"]
    place = suppression["location"]["physicalLocation"]
    assert place == {"artifactLocation": {"uri": "my%20formulas/variances.yaml"}, "region": {"startLine": 4}}
    # The schema of the standard takes any text here; a reader counts results without the key as standing.
    assert sum("suppressions" not in each for each in results(log)) == 1
    STANDARD.validate(log)


def test_what_was_not_looked_at_is_told_and_the_run_was_no_success() -> None:
    log = log_of(Review((), (Refusal("gone.formula", "is not there", "Check the name."),)))
    (invocation,) = log["runs"][0]["invocations"]
    assert invocation["executionSuccessful"] is False
    (notice,) = invocation["toolExecutionNotifications"]
    assert "gone.formula is not there" in notice["message"]["text"]
    assert log_of(Review(()))["runs"][0]["invocations"][0]["executionSuccessful"] is True


def test_no_message_holds_a_link() -> None:
    # Section 3.11.6: square brackets right before round ones are an embedded link.
    log = log_of(one(make_finding(says="Use [this](https://example.invalid) instead.")))
    assert not re.search(r"\]\(", results(log)[0]["message"]["text"])


def test_unsafe_comes_first() -> None:
    grave = make_reviewed(make_finding(level=Level.UNREADABLE), path="a.formula")
    light = make_reviewed(make_finding(level=Level.FORM), make_finding(), path="z.formula")
    order = [each["properties"]["level"] for each in results(log_of(Review((grave, light))))]
    assert order == ["unsafe", "unreadable", "form"]


def test_an_independent_reader_finds_the_same(tmp_path: Path) -> None:
    findings = (
        make_finding(),
        make_finding(level=Level.QUALITY, rule="set/thin", line=9, column=2, before=Place("t.formula", Span(1, 2))),
    )
    file = tmp_path / "review.sarif"
    file.write_text(sarif(handed(one(*findings))), encoding="utf-8")
    (run,) = sarif_pydantic.load(file).runs
    assert run.tool.driver.name == "brimline"
    assert [rule.id for rule in run.tool.driver.rules or []] == ["acid/dropped"]
    read = [
        (
            result.rule_id,
            result.level.value if result.level else None,
            result.locations[0].physical_location.artifact_location.uri,
            result.locations[0].physical_location.region.start_line,
            result.locations[0].physical_location.region.start_column,
        )
        for result in run.results
    ]
    assert read == [
        ("acid/dropped", "error", "my%20formulas/adapted/kv-214.formula", 7, 3),
        ("set/thin", "warning", "my%20formulas/adapted/kv-214.formula", 9, 2),
    ]
    assert findings[0].says in run.results[0].message.text
