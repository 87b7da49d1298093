"""The register in a review: what is held back, what is only said, and what goes stale."""

import json
from datetime import date

import pytest

from brimline.document.meaning import fingerprint
from brimline.shelf.register import read_register, write_register
from brimline.shelf.strict import Refused

from .conftest import LESS, SALSA, Reviewing, parsed, rows, sealed

CHANGED = SALSA.replace("1 cup                vinegar", "3/4 cup              vinegar")


def test_a_sealed_formula_is_clean_and_one_without_a_register_too(reviewing: Reviewing) -> None:
    assert rows(reviewing(SALSA, register_json=sealed(SALSA))) == {}
    assert rows(reviewing(SALSA)) == {}


def test_a_changed_tested_formula_is_held_back(reviewing: Reviewing) -> None:
    done = reviewing(CHANGED, register_json=sealed(SALSA))
    assert rows(done) == {"seal-broken": "untested"}
    assert done.formulas[0].held_back


def test_a_tested_formula_that_is_not_in_the_register_is_found(reviewing: Reviewing) -> None:
    assert rows(reviewing(SALSA, register_json=sealed())) == {"seal-missing": "untested"}


@pytest.mark.parametrize("standing", ["draft", "retired"])
def test_only_tested_formulas_are_held_to_a_seal(reviewing: Reviewing, standing: str) -> None:
    text = SALSA.replace("standing  tested", f"standing  {standing}")
    text = text.replace("yield ", "retired   2026-01-15, superseded\nyield ") if standing == "retired" else text
    assert not {"seal-missing", "seal-broken"} & set(rows(reviewing(text, register_json=sealed())))


def test_an_adaptation_of_a_changed_tested_formula_is_held_back_even_if_the_two_agree(reviewing: Reviewing) -> None:
    done = reviewing(CHANGED, LESS, register_json=sealed(SALSA))
    assert rows(done, 1) == {"tested-changed": "untested"}
    assert rows(reviewing(SALSA, LESS, register_json=sealed(SALSA)), 1) == {"acid-cut": "unsafe"}


@pytest.mark.parametrize(
    ("was", "now", "row", "level"),
    [
        ("pH 3.9", "pH 3.5", "evidence-changed", "untested"),
        ("review-by  2028-06-30", "review-by  2030-06-30", "evidence-changed", "untested"),
        ("  source     Kestrel Valley tested formulas, 3rd edition, p. 41\n", "", "evidence-changed", "untested"),
        (
            "  review-by",
            "  reading    59 Brix on 2026-02-01\n  review-by",
            "evidence-unsealed",
            "form",
        ),
    ],
)
def test_evidence_changes_only_with_the_register(
    reviewing: Reviewing, was: str, now: str, row: str, level: str
) -> None:
    assert rows(reviewing(SALSA.replace(was, now), register_json=sealed(SALSA))) == {row: level}


def entry(made_for: dict[str, str]) -> bytes:
    """The register of the changed formula, some of its evidence made for another version."""
    register = json.loads(sealed(CHANGED))
    seal = register["KV-101"]
    seal["earlier"] = {row: made_for[row] for row in seal["evidence"] if row in made_for}
    seal["evidence"] = [row for row in seal["evidence"] if row not in made_for]
    return json.dumps(register).encode()


def test_a_reading_made_for_an_earlier_version_is_stale(reviewing: Reviewing) -> None:
    old = fingerprint(parsed(SALSA))
    register = entry({"reading pH 3.9 on 2025-06-14, finished, 3 batches, meter": old})
    assert rows(reviewing(CHANGED, register_json=register)) == {"evidence-stale": "form"}


def test_where_every_test_and_source_is_stale_nothing_vouches_for_the_formula(reviewing: Reviewing) -> None:
    old = fingerprint(parsed(SALSA))
    rows_of = json.loads(sealed(SALSA))["KV-101"]["evidence"]
    done = reviewing(CHANGED, register_json=entry(dict.fromkeys(rows_of, old)))
    assert rows(done) == {"evidence-stale": "untested"}
    assert done.formulas[0].held_back


def test_a_seal_without_its_formula_is_a_finding_of_the_register(reviewing: Reviewing) -> None:
    other = SALSA.replace("KV-101 Chile", "KV-109 Other")
    (record,) = reviewing(SALSA, register_json=sealed(SALSA, other)).records
    assert record.path == "register.json"
    assert [one.row for one in record.findings] == ["seal-orphan"]
    assert "KV-109" in record.findings[0].says


def test_part_of_a_collection_says_nothing_about_the_rest(reviewing: Reviewing) -> None:
    assert (
        reviewing(SALSA, LESS, asked=(1,), register_json=sealed(SALSA, SALSA.replace("KV-101", "KV-109"))).records == ()
    )


def test_a_register_is_written_as_it_is_read_one_entry_a_formula_sorted_by_code() -> None:
    data = sealed(SALSA.replace("KV-101", "KV-9"), SALSA)
    assert write_register(read_register(data).values()) == data
    lines = data.decode().splitlines()
    assert [line for line in lines if line.startswith('  "')] == ['  "KV-101": {', '  "KV-9": {', '  "version": 1']


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "JSON"),
        (b"[]", "codes"),
        (b"{}", "version"),
        (b'{"version": true}', "version"),
        (b'{"version": 2}', "version"),
        (b'{"version": 1, "version": 1}', "twice"),
        (b'{"version": 1, "KV-1": {}}', "fingerprint"),
        (b'{"version": 1, "kv-1": {}}', "code"),
        (b'{"version": 1, "KV-1": {"fingerprnt": "x"}}', "write `fingerprint`"),
        (b'{"version": NaN}', "NaN"),
        (b"\xff", "UTF-8"),
        (b"[" * 100_000, "deep"),
        (b'{"version": 1' + b"0" * 10_000 + b"}", "number"),
        (b" " * (8 * 1024 * 1024 + 1), "8 MiB"),
    ],
)
def test_a_register_that_cannot_be_used_is_refused(data: bytes, words: str) -> None:
    with pytest.raises(Refused, match=words):
        read_register(data)


def test_a_broken_register_is_told_and_seals_nothing(reviewing: Reviewing) -> None:
    done = reviewing(SALSA, register_json=b"{")
    assert [one.path for one in done.refusals] == ["register.json"]


def test_a_tested_formula_changed_in_the_same_change_is_compared_with_as_it_was() -> None:
    from brimline.review.engine import review
    from brimline.shelf import shelf_from

    def shelf(tested: str):  # type: ignore[no-untyped-def]
        files = {"collection.yaml": b"", "t.formula": tested.encode(), "a.formula": LESS.encode()}
        return shelf_from(files, date(2026, 7, 1))

    done = review(shelf(CHANGED), base=shelf(SALSA))
    adapted = next(one for one in done.formulas if one.code == "KV-201")
    assert [(one.row, one.level.word) for one in adapted.findings] == [("acid-cut", "unsafe")]
    assert "as it was before this change" in adapted.findings[0].says
