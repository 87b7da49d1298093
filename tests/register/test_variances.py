"""What a variance lets stand, what it needs for that, and what is wrong with one that lets nothing stand."""

from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimline.document.meaning import fingerprint
from brimline.report.lines import lines
from brimline.report.look import Look
from brimline.report.people import people
from brimline.review.values import Review
from brimline.shelf.strict import Refused
from brimline.shelf.variances import read_variances

from .conftest import LESS, QUARTS, SALSA, Reviewing, parsed

LETTER = "letter: process authority, letter 14 of 2026-05-02, kept in the office's evidence folder"
BATCHES = "\n".join(
    f"      - {{ph: {ph}, batch: {batch}, on: 2026-04-0{number}, of: 'finished, equilibrated', by: meter}}"
    for number, (ph, batch) in enumerate((("3.9", "A"), ("4.0", "B"), ("4.05", "C")), start=1)
)


def variance(text: str = LESS, rule: str = "acid/cut", evidence: str = "", **changes: str) -> bytes:
    document = parsed(text)
    keys = {
        "rule": rule,
        "formula": document.code,
        "fingerprint": fingerprint(document),
        "reason": "the program keeps this milder salsa for its classes",
        "role": "formula curator",
        "until": "2027-06-30",
        **changes,
    }
    body = "\n".join(f"  {key}: {value}" for key, value in keys.items()).lstrip()
    return f"- {body}\n  evidence:\n    {evidence or '{}'}\n".encode()


FULL = f"{LETTER}\n    readings:\n{BATCHES}"


def found(done: Review, code: str) -> dict[str, bool]:
    """The rules found in a formula, and whether each is varied."""
    formula = next(one for one in done.formulas if one.code == code)
    return {one.rule: one.varied is not None for one in formula.findings}


def held(done: Review, code: str) -> bool:
    return next(one.held_back for one in done.formulas if one.code == code)


def wrong(done: Review) -> list[tuple[str, int]]:
    """What is wrong with the variances: row and line."""
    return [(one.row, one.line) for record in done.records for one in record.findings]


def test_a_variance_with_its_evidence_lets_a_finding_stand_and_it_is_still_shown(reviewing: Reviewing) -> None:
    done = reviewing(SALSA, LESS, variances_yaml=variance(evidence=FULL))
    assert found(done, "KV-201") == {"acid/cut": True}
    assert not held(done, "KV-201")
    assert wrong(done) == []
    (finding,) = done.formulas[1].findings
    assert finding.varied is not None
    assert (finding.varied.until, finding.varied.role, finding.varied.line) == ("2027-06-30", "formula curator", 1)
    assert finding.level.word == "unsafe"


def test_reports_for_people_and_for_machines_say_that_a_finding_is_varied(reviewing: Reviewing) -> None:
    done = reviewing(SALSA, LESS, variances_yaml=variance(evidence=FULL))
    shown = " ".join(people(done, Look(80)).split())
    assert "until 2027-06-30" in shown
    assert "1 finding let stand by a variance" in shown
    (line,) = lines(done, Look(80)).splitlines()
    assert line.startswith("f1.formula:13:3: unsafe acid/cut")
    assert "2027-06-30" in line
    expired = reviewing(SALSA, LESS, variances_yaml=variance(evidence=FULL, until="2026-01-01"))
    assert "It ended on 2026-01-01." in people(expired, Look(80))
    assert "variances.yaml:1:1: form evidence/variance: " in lines(expired, Look(80))


@pytest.mark.parametrize(
    "evidence",
    [
        "",
        "record: a tasting in March",
        f"readings:\n{BATCHES}",
        LETTER,
        f"{LETTER}\n    readings:\n" + "\n".join(BATCHES.splitlines()[:2]),
        f"{LETTER}\n    readings:\n" + BATCHES.replace("batch: C", "batch: B"),
        f"{LETTER}\n    readings:\n" + BATCHES.replace("'finished, equilibrated'", "the mixture before filling"),
        # 4.6 is the line between acid and low-acid food: 21 CFR 114.3.
        f"{LETTER}\n    readings:\n" + BATCHES.replace("ph: 4.05", "ph: 4.7"),
    ],
    ids=[
        "nothing",
        "record",
        "readings alone",
        "letter alone",
        "two batches",
        "one batch twice",
        "unfinished",
        "pH 4.7",
    ],
)
def test_an_unsafe_finding_about_acid_needs_the_letter_and_three_batches(reviewing: Reviewing, evidence: str) -> None:
    done = reviewing(SALSA, LESS, variances_yaml=variance(evidence=evidence))
    assert found(done, "KV-201") == {"acid/cut": False}
    assert held(done, "KV-201")
    assert wrong(done) == [("variance-weak", 1)]


def test_an_unsafe_finding_about_the_jar_needs_the_letter_and_no_reading_lifts_it(reviewing: Reviewing) -> None:
    assert found(reviewing(SALSA, QUARTS), "KV-202") == {"jar/larger": False}
    only = reviewing(SALSA, QUARTS, variances_yaml=variance(QUARTS, "jar/larger", f"readings:\n{BATCHES}"))
    assert (found(only, "KV-202"), wrong(only)) == ({"jar/larger": False}, [("variance-weak", 1)])
    letter = reviewing(SALSA, QUARTS, variances_yaml=variance(QUARTS, "jar/larger", LETTER))
    assert (found(letter, "KV-202"), held(letter, "KV-202"), wrong(letter)) == ({"jar/larger": True}, False, [])


@pytest.mark.parametrize(
    ("changes", "row"),
    [
        ({"until": "2026-06-30"}, "variance-expired"),
        ({"until": "2027-07-02"}, "variance-broad"),
        ({"rule": "acid"}, "variance-broad"),
        ({"rule": "'*'"}, "variance-broad"),
        ({"rule": "[acid/cut, jar/larger]"}, "variance-broad"),
        ({"formula": "'*'"}, "variance-broad"),
        ({"formula": "[KV-201, KV-202]"}, "variance-broad"),
        ({"rule": "acid/cutt"}, "variance-unused"),
        ({"rule": "jar/larger"}, "variance-unused"),
        ({"formula": "KV-999"}, "variance-unused"),
        ({"fingerprint": fingerprint(parsed(SALSA))}, "variance-stale"),
        ({"role": "''"}, "variance-weak"),
        ({"reason": "''"}, "variance-weak"),
    ],
)
def test_a_variance_that_lifts_nothing_is_a_finding(reviewing: Reviewing, changes: dict[str, str], row: str) -> None:
    done = reviewing(SALSA, LESS, variances_yaml=variance(evidence=FULL, **changes))
    assert held(done, "KV-201")
    assert wrong(done) == [(row, 1)]


def test_the_last_day_counts_and_the_day_after_does_not(reviewing: Reviewing) -> None:
    data = variance(evidence=FULL, until="2026-07-01")
    assert not held(reviewing(SALSA, LESS, variances_yaml=data), "KV-201")
    assert held(reviewing(SALSA, LESS, variances_yaml=data, today=date(2026, 7, 2)), "KV-201")


def test_twelve_months_from_a_leap_day_end_with_february(reviewing: Reviewing) -> None:
    leap = date(2028, 2, 29)
    for until, lifts in (("2029-02-28", True), ("2029-03-01", False)):
        text = SALSA.replace("review-by  2028-06-30", "review-by  2030-06-30")
        done = reviewing(text, LESS, variances_yaml=variance(evidence=FULL, until=until), today=leap)
        assert held(done, "KV-201") is not lifts


def test_any_change_of_the_formula_ends_its_variance(reviewing: Reviewing) -> None:
    done = reviewing(SALSA, LESS.replace("3/4 cup", "5/8 cup"), variances_yaml=variance(evidence=FULL))
    assert held(done, "KV-201")
    assert wrong(done) == [("variance-stale", 1)]


@pytest.mark.parametrize("rule", ["evidence/sealed", "evidence/fresh"])
def test_nothing_lifts_a_broken_seal(reviewing: Reviewing, rule: str) -> None:
    done = reviewing(SALSA, register_json=b'{"version": 1}', variances_yaml=variance(SALSA, rule, FULL))
    assert held(done, "KV-101")
    assert wrong(done) == [("variance-broad", 1)]


def test_what_cannot_be_read_is_never_permitted(reviewing: Reviewing) -> None:
    orphan = LESS.replace("adapts    KV-101", "adapts    KV-777")
    done = reviewing(orphan, variances_yaml=variance(orphan, "evidence/tested", FULL))
    assert done.formulas[0].held_back


def test_a_variance_of_a_formula_not_reviewed_is_left_alone(reviewing: Reviewing) -> None:
    done = reviewing(SALSA, LESS, asked=(0,), variances_yaml=variance(until="2026-01-01"))
    assert wrong(done) == []


def test_a_telephone_number_in_a_variance_is_a_finding(reviewing: Reviewing) -> None:
    data = variance(evidence=FULL, reason="asked for by telephone, 555-010-0199")
    assert wrong(reviewing(SALSA, LESS, variances_yaml=data)) == [("private-data", 1)]


GOOD = variance(evidence=FULL).decode()


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("rule: acid/cut\n", "list"),
        ("- acid/cut\n", "keys"),
        (GOOD.replace("  role: formula curator\n", ""), "leaves out `role`"),
        (GOOD.replace("role:", "rolle:"), "write `role`"),
        (GOOD.replace("2027-06-30", "soon"), "date"),
        (GOOD.replace("2027-06-30", "2027-02-30"), "date"),
        (GOOD.replace("ph: 3.9", "ph: 39"), "pH"),
        (GOOD.replace("ph: 3.9", "ph: .inf"), "pH"),
        (GOOD.replace("ph: 3.9", "ph: true"), "pH"),
        (GOOD.replace("letter:", "file:"), "unknown key `file`"),
        (GOOD.replace("- rule", "- &a rule"), "anchor"),
        ("- " * 50 + "x\n", "deep"),
        ("- {}\n" * 3000, "more than 500"),
    ],
)
def test_variances_that_cannot_be_used_are_refused(text: str, words: str) -> None:
    with pytest.raises(Refused, match=words):
        read_variances(text.encode(), "variances.yaml")


@given(st.text(max_size=200) | st.binary(max_size=200).map(lambda data: data.decode("latin-1")))
def test_no_text_makes_anything_but_variances_or_a_refusal(text: str) -> None:
    try:
        read: Any = read_variances(text.encode("utf-8", "replace"), "variances.yaml")
    except Refused:
        return
    assert isinstance(read, tuple)


def test_an_empty_file_holds_no_variance() -> None:
    assert read_variances(b"", "variances.yaml") == ()
    assert read_variances(b"# none yet\n", "variances.yaml") == ()
