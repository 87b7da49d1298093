"""Each row of evidence beside the register: where it is told, and which rows vouch for a formula."""

import json

import pytest

from brimline.document.meaning import fingerprint

from .conftest import LESS, SALSA, Reviewing, parsed, rows, sealed

CHANGED = SALSA.replace("1 cup                vinegar", "3/4 cup              vinegar")
SOURCE = "  source     Kestrel Valley tested formulas, 3rd edition, p. 41\n"
SECOND = "  source     Kestrel Valley tested formulas, 4th edition, p. 43\n"
READING = "  reading    pH 3.9 on 2025-06-14, finished, 3 batches, meter\n"


# A fingerprint says only whether two formulas are one: so each of two is the older one once.
BOTH = pytest.mark.parametrize(("old", "new"), [(SALSA, CHANGED), (CHANGED, SALSA)])


def line(text: str, begins: str) -> int:
    return next(n for n, one in enumerate(text.splitlines(), 1) if one.strip().startswith(begins))


def told(reviewing: Reviewing, text: str, register: bytes) -> list[tuple[str, int]]:
    return sorted((one.row, one.line) for one in reviewing(text, register_json=register).formulas[0].findings)


def test_a_row_that_is_gone_is_told_at_the_row_of_its_kind_that_is_left(reviewing: Reviewing) -> None:
    register = sealed(SALSA.replace(SOURCE, SOURCE + SECOND))
    assert told(reviewing, SALSA, register) == [("evidence-changed", line(SALSA, "source"))]


def test_where_no_row_of_its_kind_is_left_it_is_told_of_the_section(reviewing: Reviewing) -> None:
    left = SALSA.replace(READING, "")
    assert told(reviewing, left, sealed(SALSA)) == [("evidence-changed", line(left, "evidence"))]


def test_every_row_that_is_gone_is_told_and_what_is_new_only_without_them(reviewing: Reviewing) -> None:
    now = SALSA.replace(READING, "").replace(SOURCE, SECOND)
    expected = [("evidence-changed", line(now, "evidence")), ("evidence-changed", line(now, "source"))]
    assert told(reviewing, now, sealed(SALSA)) == expected
    more = SALSA.replace(SOURCE, SOURCE + SECOND + "  reading    59 Brix on 2026-02-01\n")
    added = [
        ("evidence-unsealed", line(more, "reading    59")),
        ("evidence-unsealed", line(more, "source     Kestrel Valley tested formulas, 4th")),
    ]
    assert told(reviewing, more, sealed(SALSA)) == sorted(added)


@BOTH
@pytest.mark.parametrize(
    ("fresh", "level"),
    [("tested", "form"), ("source", "form"), ("reading", "untested"), ("review-by", "untested")],
)
def test_only_a_test_or_a_source_made_for_it_vouches_for_a_formula(
    reviewing: Reviewing, fresh: str, level: str, old: str, new: str
) -> None:
    before = fingerprint(parsed(old))
    register = json.loads(sealed(new))
    seal = register["KV-101"]
    seal["earlier"] = {row: before for row in seal["evidence"] if not row.startswith(fresh)}
    seal["evidence"] = [row for row in seal["evidence"] if row.startswith(fresh)]
    done = reviewing(new, register_json=json.dumps(register).encode())
    found = {(one.row, one.level.word) for one in done.formulas[0].findings}
    assert found == {("evidence-stale", level)}
    assert len(done.formulas[0].findings) == 3


@BOTH
def test_of_a_formula_that_was_changed_stale_evidence_is_not_told_apart(
    reviewing: Reviewing, old: str, new: str
) -> None:
    register = json.loads(sealed(old))
    seal = register["KV-101"]
    seal["earlier"] = dict.fromkeys(seal["evidence"], fingerprint(parsed(LESS)))
    seal["evidence"] = []
    assert rows(reviewing(new, register_json=json.dumps(register).encode())) == {"seal-broken": "untested"}


@BOTH
def test_a_tested_formula_that_is_not_what_was_sealed_is_told_in_its_adaptations(
    reviewing: Reviewing, old: str, new: str
) -> None:
    assert rows(reviewing(new, LESS, register_json=sealed(old)), 1).get("tested-changed") == "untested"


def test_a_draft_is_held_to_no_row_of_the_register(reviewing: Reviewing) -> None:
    draft = SALSA.replace("standing  tested", "standing  draft").replace(READING, "")
    assert "evidence-changed" not in rows(reviewing(draft, register_json=sealed(SALSA)))


def test_an_adaptation_of_what_is_in_no_register_is_judged_as_ever(reviewing: Reviewing) -> None:
    other = SALSA.replace("KV-101", "KV-109")
    assert rows(reviewing(SALSA, LESS, register_json=sealed(other)), 1) == {"acid-cut": "unsafe"}


def test_an_adaptation_of_a_changed_draft_is_held_to_no_seal(reviewing: Reviewing) -> None:
    draft = CHANGED.replace("standing  tested", "standing  draft")
    assert "tested-changed" not in rows(reviewing(draft, LESS, register_json=sealed(SALSA)), 1)
