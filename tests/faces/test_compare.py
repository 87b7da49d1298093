"""`brimline compare` as its users run it."""

import json
from pathlib import Path

DAY = ("--on", "2026-07-01")


def flat(text: str) -> str:
    return " ".join(text.split())


def test_the_table_shows_the_dropped_acid(run, adapted: Path) -> None:
    ran = run("compare", adapted, *DAY)
    assert (ran.status, ran.err) == (1, "")
    text = flat(ran.out)
    for part in ("KV-201", "KV-101", "read at 1.00", "acid", "Held back"):
        assert part in text


def test_json_holds_the_moves(run, adapted: Path) -> None:
    read = json.loads(run("compare", adapted, "--as", "json", *DAY).out)
    assert (read["report"], read["against"]) == ("comparison", "KV-101")
    assert ["lemon juice" in move["tested"] for move in read["moves"]] == [True]


def test_what_has_no_tested_formula_cannot_be_compared(run, collection: Path) -> None:
    ran = run("compare", collection / "kv-101.formula", *DAY)
    assert (ran.status, ran.out) == (2, "")
    assert "nothing to compare" in flat(ran.err)


def test_a_folder_of_several_is_too_much(run, adapted: Path, collection: Path) -> None:
    ran = run("compare", collection)
    assert (ran.status, ran.out) == (2, "")
    assert "one formula" in flat(ran.err)
    assert adapted.exists()


def test_a_missing_path_ends_with_2(run, tmp_path: Path) -> None:
    ran = run("compare", tmp_path / "gone.formula")
    assert (ran.status, ran.out) == (2, "")
    assert "is not there" in flat(ran.err)
