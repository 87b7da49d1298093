"""A change notice: what matters, in the order of harm, which way it went, and nothing else."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from small_formulas import TODAY, formula

from brimline.findings import Level
from brimline.report.look import Look
from brimline.report.noticed import JARS, NOTHING, notice_data, notice_text
from brimline.review.noticing import Notice, NoticeError, notice
from brimline.shelf import Book, Settings

OLD = formula("KV-1", evidence="  tested     2025-06-14, a test kitchen\n")


def changed(*pairs: tuple[str, str], old: str = OLD) -> str:
    new = old
    for was, now in pairs:
        assert was in new
        new = new.replace(was, now)
    return new


def noticed(new: str, old: str = OLD) -> Notice:
    first, second = Book("old.formula", data=old.encode()), Book("new.formula", data=new.encode())
    return notice(first, second, Settings(), TODAY.isoformat())


def said(made: Notice) -> dict[str, str]:
    return {one.subject: one.way for one in made.changes}


def test_the_same_again_has_nothing_to_say() -> None:
    made = noticed(OLD)
    assert made.changes == ()
    assert NOTHING in notice_text(made, Look(width=100))


@pytest.mark.parametrize(
    "pair",
    [
        ("Gooseberry jam", "Gooseberry jam, the valley way"),
        (
            "  sweetener  7 cup                sugar, granulated\n",
            "  sweetener  3 cup sugar, granulated\n  sweetener 4 cup sugar, granulated\n",
        ),
        ("2 tbsp               lemon juice", "30 ml lemon juice"),
        ("over high heat, stirring", "over high heat and stir"),
        ("1000 ft", "305 m"),
    ],
)
def test_layout_units_and_wording_are_nothing(pair: tuple[str, str]) -> None:
    assert noticed(changed(pair)).changes == ()


@pytest.mark.parametrize(
    ("pair", "subject", "way"),
    [
        (("acid       2 tbsp", "acid       1 tbsp"), "acid", "less"),
        (("acid       2 tbsp", "acid       3 tbsp"), "acid", "more"),
        (("  acid       2 tbsp               lemon juice, bottled\n", ""), "acid", "left out"),
        (("7 cup  ", "5 cup  "), "sugar", "less"),
        (("10 min to 6000", "8 min to 6000"), "process", "less"),
        (("10 min to 6000", "12 min to 6000"), "process", "more"),
        (("5 min to 1000 ft, 10 min to 6000", "10 min to 1000 ft, 8 min to 6000"), "process", "less in some places"),
        (("headspace  1/4", "headspace  1/2"), "headspace", "more"),
        (("headspace  1/4", "headspace  1/8"), "headspace", "less"),
        (("half-pint, pint", "half-pint, pint, quart"), "jar", "a larger jar"),
        (("prepare    sterile", "prepare    clean"), "prepare", "changed"),
        (("take\n", "take\n  vegetable 1 cup onions, chopped\n"), "low-acid", "added"),
    ],
)
def test_each_change_goes_its_way(pair: tuple[str, str], subject: str, way: str) -> None:
    assert said(noticed(changed(pair)))[subject].startswith(way)


def test_the_gravest_comes_first() -> None:
    # Times too short are unsafe, a sugar cut in a jam is untested (decision table: time-shorter, sugar-cut-gelled).
    made = noticed(changed(("7 cup  ", "5 cup  "), ("10 min to 6000", "8 min to 6000")))
    assert [one.subject for one in made.changes] == ["process", "sugar"]
    assert [one.level for one in made.changes] == [Level.UNSAFE, Level.UNTESTED]


def test_a_correction_says_what_the_old_sheet_lacks() -> None:
    """The new version is right: nothing is wrong with the change, and jars by the old sheet got too little heat."""
    made = noticed(changed(("10 min to 6000", "12 min to 6000")))
    (one,) = made.changes
    assert not any(found.level.holds_back for found in one.findings)
    assert [found.row for found in one.of_old] == ["time-shorter"]
    assert "old sheet" in notice_text(made, Look(width=100))


def test_evidence_that_went_is_told() -> None:
    made = noticed(changed(("  tested     2025-06-14, a test kitchen\n", "  source     a book, p. 3\n")))
    (one,) = made.changes
    assert (one.subject, one.level) == ("evidence", Level.UNTESTED)
    assert "2025-06-14" in one.was


def test_another_code_is_named() -> None:
    made = noticed(changed(("KV-1 ", "KV-2 ")))
    assert "KV-1" in notice_text(made, Look(width=100))


def test_the_office_has_the_last_word_on_jars_already_made() -> None:
    made = noticed(changed(("headspace  1/4", "headspace  1/2")))
    assert JARS.split("(")[0].strip() in notice_text(made, Look(width=100))
    text = notice_text(made, Look(width=100), "Bring them to the office.")
    assert "Jars already made: Bring them to the office." in text
    assert "When in doubt, do not eat it" in " ".join(text.split())


def test_json_holds_both_sides() -> None:
    data = json.loads(notice_data(noticed(changed(("10 min to 6000", "12 min to 6000"))), "tool"))
    assert data["changes"][0]["of_old"][0]["row"] == "time-shorter"
    assert data["changes"][0]["findings"] == []


def test_what_cannot_be_read_is_not_compared() -> None:
    with pytest.raises(NoticeError, match="cannot be read"):
        noticed(changed(("7 cup  ", "7 cupp  ")))


def test_the_command_takes_files_and_codes(run: Callable[..., tuple[int, str, str]], tmp_path: Path) -> None:
    old, new = tmp_path / "old.formula", tmp_path / "new.formula"
    old.write_text(OLD, "utf-8")
    new.write_text(changed(("acid       2 tbsp", "acid       1 tbsp")), "utf-8")
    status, out, _ = run("notice", old, new, "--on", "2027-02-01")
    assert status == 1
    assert "Acid" in out
    status, out, _ = run("notice", "KV-101", "KV-101", "--on", "2026-11-27")
    assert (status, NOTHING in " ".join(out.split())) == (0, True)
    assert run("notice", old)[0] == 2
    assert run("notice", old, tmp_path / "gone.formula")[0] == 2
