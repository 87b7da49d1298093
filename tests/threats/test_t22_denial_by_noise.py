"""T22: ten thousand harmless findings hide the one that can make someone ill."""

import csv
import io
import json
import re
import xml.etree.ElementTree as ET

import pytest
from hostile_run import FORMS
from report_making import handed, make_finding, make_reviewed

from brimline.findings import Level, Place, Span
from brimline.report.handed import Handed
from brimline.review.values import Review, Reviewed

NOISE = 10_000
# Names the unsafe finding and no other.
SIGN = "the one that matters"


def noise(level: Level) -> list[Reviewed]:
    """The noise before and behind the formula in question, by path, a hundred findings in each file."""
    made = []
    for number in range(NOISE // 100):
        path = f"{'a' if number % 2 else 'z'}/{number:03}.formula"
        findings = [
            make_finding(at=Place(path, Span(n, n + 1)), level=level, says=f"Noise {number}-{n}.", line=n + 1)
            for n in range(100)
        ]
        made.append(make_reviewed(*findings, path=path, code=f"KV-{number}"))
    return made


def crowd(level: Level) -> Handed:
    at = Place("m/kv-900.formula", Span(1, 2))
    beside = make_finding(at=at, level=Level.FORM, says="A small thing.")
    unsafe = make_finding(at=at, says=f"Here is {SIGN}.")
    grave = make_reviewed(beside, unsafe, path="m/kv-900.formula", code="KV-900", title="Fig jam")
    return handed(Review((*noise(level), grave)))


@pytest.fixture(scope="module", params=[Level.FORM, Level.UNTESTED, Level.UNREADABLE], ids=lambda level: level.word)
def printed(request: pytest.FixtureRequest) -> dict[str, str]:
    review = crowd(request.param)
    return {form: made(review) for form, made in FORMS.items()}


@pytest.mark.parametrize("form", FORMS)
def test_the_unsafe_one_is_told_before_the_noise(printed: dict[str, str], form: str) -> None:
    text = printed[form]
    assert text.find(SIGN) >= 0
    first = text.find("Noise ")
    assert first == -1 or text.find(SIGN) < first


def test_no_machine_form_leaves_anything_out(printed: dict[str, str]) -> None:
    whole = NOISE + 2
    assert sum(len(one["findings"]) for one in json.loads(printed["json"])["formulas"]) == whole
    assert sum('"record": "finding"' in line for line in printed["jsonl"].splitlines()) == whole
    assert len(json.loads(printed["sarif"])["runs"][0]["results"]) == whole
    assert len(json.loads(printed["code-quality"])) == whole
    assert len(list(csv.reader(io.StringIO(printed["csv"], newline="")))) == whole + 1
    assert len(list(ET.fromstring(printed["junit"]).iter("testcase"))) == whole + NOISE // 100 + 1
    assert printed["html"].count('<div class="finding ') == whole
    assert len(printed["lines"].splitlines()) == whole
    assert sum(line.startswith("  > my formulas/") for line in printed["annotations"].splitlines()) == whole


def test_of_the_marks_the_host_shows_the_first_is_the_unsafe_one(printed: dict[str, str]) -> None:
    first = printed["annotations"].splitlines()[0]
    assert first.startswith("::error ")
    assert SIGN in first


def test_the_comment_says_how_many_it_does_not_show(printed: dict[str, str]) -> None:
    (left,) = re.findall(r"\*\*([\d,]+) more findings not shown", printed["markdown"])
    shown = len(re.findall(r"^- ", printed["markdown"], re.MULTILINE))
    assert int(left.replace(",", "")) + shown == NOISE + 2
