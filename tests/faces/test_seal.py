"""`brimline seal`: what it writes, what it refuses, and that nothing is ever half written."""

import json
from pathlib import Path

import pytest

from .conftest import GOOSEBERRY, Run


def register(collection: Path) -> dict[str, dict[str, object]]:
    return json.loads((collection / "register.json").read_text(encoding="utf-8"))  # type: ignore[no-any-return]


def change(collection: Path, was: str, now: str) -> None:
    text = (collection / "kv-101.formula").read_text(encoding="utf-8")
    assert was in text
    (collection / "kv-101.formula").write_text(text.replace(was, now), "utf-8")


def test_tested_formulas_are_entered_and_others_are_not(collection: Path, adapted: Path, run: Run) -> None:
    assert adapted.exists()
    done = run("seal", collection)
    assert (done.status, done.out) == (0, "KV-101 sealed for the first time.\n")
    assert set(register(collection)) == {"KV-101", "notice", "version"}
    assert register(collection)["KV-101"]["evidence"] == [
        "tested 2025-06-14, a test kitchen, report 31",
        "source tested formulas, 3rd edition, p. 41",
        "review-by 2028-06-30",
    ]
    assert run("review", collection / "kv-101.formula").status == 0


def test_sealing_twice_changes_nothing(collection: Path, run: Run) -> None:
    run("seal", collection)
    before = (collection / "register.json").read_bytes()
    assert run("seal", collection).out == ""
    assert (collection / "register.json").read_bytes() == before


def test_only_say_writes_nothing(collection: Path, run: Run) -> None:
    done = run("seal", "--only-say", collection)
    assert (done.status, done.out) == (1, "KV-101 not sealed.\n")
    assert not (collection / "register.json").exists()
    run("seal", collection)
    assert run("seal", "--only-say", collection).status == 0
    change(collection, "2 tbsp               lemon", "1 tbsp               lemon")
    done = run("seal", "--only-say", collection)
    assert done.status == 1
    assert "KV-101 BROKEN: it is not what was sealed on" in done.out


def test_a_changed_formula_is_sealed_only_on_purpose_with_new_evidence_and_a_reason(collection: Path, run: Run) -> None:
    run("seal", collection)
    before = (collection / "register.json").read_bytes()
    change(collection, "2 tbsp               lemon", "3 tbsp               lemon")
    assert run("seal", collection).status == 1
    done = run("seal", "--anew", "tested anew with more lemon", collection)
    assert (done.status, "nothing vouches for it" in done.out) == (1, True)
    assert (collection / "register.json").read_bytes() == before
    change(collection, "  source ", "  tested     2026-06-14, a test kitchen, report 52\n  source ")
    done = run("seal", "--anew", "tested anew with more lemon", collection)
    assert (done.status, done.out) == (0, "KV-101 sealed anew.\n")
    seal = register(collection)["KV-101"]
    assert seal["reason"] == "tested anew with more lemon"
    assert seal["evidence"] == ["tested 2026-06-14, a test kitchen, report 52"]
    earlier = seal["earlier"]
    assert isinstance(earlier, dict)
    assert "review-by 2028-06-30" in earlier
    assert "evidence/fresh" in run("review", collection).out


def test_new_evidence_is_entered_without_more_ado(collection: Path, run: Run) -> None:
    run("seal", collection)
    change(collection, "  source ", "  reading    pH 3.1 on 2026-06-14, finished, 3 batches, meter\n  source ")
    assert run("seal", collection).out == "KV-101 sealed with its new evidence.\n"
    assert run("seal", "--only-say", collection).status == 0


def test_a_formula_that_is_held_back_is_not_sealed(collection: Path, run: Run) -> None:
    change(collection, "lid        two-piece", "lid        wax")
    done = run("seal", collection)
    assert done.status == 1
    assert "KV-101 cannot be sealed: it is held back (unsafe jar/lid)" in done.out
    assert not (collection / "register.json").exists()


@pytest.mark.parametrize("register_is", ["{", '{"version": 1, "KV-101": {}}'])
def test_a_register_that_cannot_be_read_is_never_written_over(collection: Path, run: Run, register_is: str) -> None:
    (collection / "register.json").write_text(register_is, "utf-8")
    assert run("seal", collection).status == 2
    assert (collection / "register.json").read_text("utf-8") == register_is


def test_seals_of_formulas_not_named_stay(collection: Path, run: Run) -> None:
    other = GOOSEBERRY.replace("KV-101 Gooseberry jam", "KV-102 Gooseberry jam two")
    (collection / "kv-102.formula").write_text(other, "utf-8")
    run("seal", collection)
    before = register(collection)
    (collection / "kv-101.formula").unlink()
    run("seal", collection / "kv-102.formula")
    assert register(collection) == before


def test_a_register_changed_meanwhile_is_kept(collection: Path, run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    from brimline.review import sealing

    judged = sealing.sealing

    def meanwhile(*words: object):  # type: ignore[no-untyped-def]
        (collection / "register.json").write_text('{"version": 1}\n', "utf-8")
        return judged(*words)  # type: ignore[arg-type]

    run("seal", collection)
    change(collection, "  source ", "  reading    pH 3.1 on 2026-06-14, finished, 3 batches, meter\n  source ")
    monkeypatch.setattr(sealing, "sealing", meanwhile)
    done = run("seal", collection)
    assert done.status == 2
    assert "Another program changed it meanwhile" in done.err
    assert (collection / "register.json").read_text("utf-8") == '{"version": 1}\n'
    assert [path.name for path in collection.iterdir() if path.name.startswith(".")] == []


@pytest.mark.parametrize(("words", "says"), [(("-",), "pipe"), (("--anew", "typo", "."), "reason")])
def test_misuse_is_answered_in_words(run: Run, words: tuple[str, ...], says: str) -> None:
    done = run("seal", *words)
    assert (done.status, says in done.err) == (2, True)


def test_a_formula_without_a_collection_and_one_that_is_not_tested_are_told(
    tmp_path: Path, adapted: Path, run: Run
) -> None:
    (tmp_path / "loose").mkdir()
    (tmp_path / "loose" / "x.formula").write_text(GOOSEBERRY, "utf-8")
    assert "belongs to no collection" in run("seal", tmp_path / "loose" / "x.formula").out
    done = run("seal", adapted)
    assert done.status == 2
    # A variance needs the fingerprint of an adaptation, and this is where a curator gets it.
    assert done.out.startswith("KV-201 cannot be sealed: it is adapted, not tested; its fingerprint is m1-")
