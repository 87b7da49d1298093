"""T21: evidence is named and never enclosed, and holds nothing that points to a person."""

from datetime import date

import pytest

from brimline.document.private import private
from brimline.review.engine import review
from brimline.shelf import shelf_from
from brimline.shelf.strict import Refused
from brimline.shelf.variances import read_variances

ENTRY = """\
- rule: acid/cut
  formula: KV-201
  fingerprint: m1-{zeros}
  reason: kept for classes
  role: formula curator
  until: 2027-01-31
  evidence: {evidence}
"""


def test_a_variance_has_no_place_for_a_file() -> None:
    for evidence in ("{file: letter.pdf}", "{attachment: x}", "{letter: {file: letter.pdf}}", "!!binary aGVsbG8="):
        with pytest.raises(Refused):
            read_variances(ENTRY.format(zeros="0" * 64, evidence=evidence).encode(), "variances.yaml")


def test_a_letter_pasted_in_whole_is_refused() -> None:
    with pytest.raises(Refused, match="letters"):
        read_variances(
            ENTRY.format(zeros="0" * 64, evidence=f"{{letter: '{'word ' * 500}'}}").encode(), "variances.yaml"
        )


@pytest.mark.parametrize(
    ("text", "called"),
    [
        ("write to curator@example.org", "an e-mail address"),
        ("call 555-010-0199", "a telephone number"),
        ("call (555) 010-0199", "a telephone number"),
        ("call 1-555-010-0199", "a telephone number"),
        ("call +44 20 7946 0000", "a telephone number"),
        ("kept at 12 Orchard Lane", "a street address"),
        ("kept at 1200 Upper Mill Road, second floor", "a street address"),
    ],
)
def test_what_points_to_a_person_is_seen(text: str, called: str) -> None:
    assert private(text) == called


@pytest.mark.parametrize(
    "text",
    [
        "2025-06-14, Kestrel Valley test kitchen, report KV-T-031",
        "pH 3.1 on 2025-06-14, finished, 3 batches, meter",
        "USDA Complete Guide to Home Canning, AIB 539 (2015), Guide 7, p. 7-8",
        "SHA-256 9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08, kept in folder 12",
        "report 2025-001-0042",
        "21 CFR 114.80 (b) (5)",
        "drawer 3, cabinet 12, the office's evidence folder",
    ],
)
def test_reports_dates_and_publications_are_none(text: str) -> None:
    assert private(text) == ""


def test_evidence_of_a_formula_that_points_to_a_person_is_a_finding() -> None:
    text = (
        "formula KV-101 Plum jam\nproduct   jam\nstanding  tested\n\ntake\n  fruit 4 cup plums, crushed\n"
        "  sweetener 3 cup sugar, granulated\n\npack\n  jar half-pint\n\n"
        "evidence\n  tested     2025-06-14, a test kitchen, call 555-010-0199\n"
    )
    (formula,) = review(shelf_from({"x.formula": text.encode()}, date(2026, 7, 1))).formulas
    (found,) = [one for one in formula.findings if one.row == "private-data"]
    assert (found.rule, found.line, found.level.word) == ("evidence/private", 13, "form")
