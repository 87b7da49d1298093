"""Edits of a formula's own record: what it calls itself and what stands under `evidence`, against its own earlier text."""

from random import Random

from msgspec.structs import replace

from edit_bench.kinds import Edit, Tested, edit
from edit_bench.sheet import Sheet

TEST = "2025-06-14, Kestrel Valley test kitchen, report KV-T-900"
SECOND = "2024-08-20, Kestrel Valley test kitchen, report KV-T-901"
READING = "pH 3.4, 2025-06-20, 3 batches, calibrated meter"
DUE = "2028-06-30"


def _whole(tested: Tested) -> Sheet:
    """The sheet with every kind of evidence there is: source, two tests, a reading, a date of review."""
    sources = tuple(row for row in tested.sheet.evidence if row[0] == "source")
    tests = (("tested", TEST), ("tested", SECOND))
    return replace(tested.sheet, evidence=(*sources, *tests, ("reading", READING), ("review-by", DUE)))


def _standing(sheet: Sheet, word: str) -> Sheet:
    return replace(sheet, headers=tuple((key, word if key == "standing" else said) for key, said in sheet.headers))


def _evidence(sheet: Sheet, old: str, new: str) -> Sheet:
    """The sheet with one text of its evidence said otherwise, or left out where the new one is empty."""
    rows = tuple((word, new if text == old else text) for word, text in sheet.evidence)
    return replace(sheet, evidence=tuple(row for row in rows if row[1]))


@edit("standing-raised", "draft-called-tested")
def draft_called_tested(tested: Tested, _: Random) -> Edit | None:
    """A draft that calls itself tested beside the evidence it had before."""
    now = _whole(tested)
    return Edit(now, "standing-raised", "untested", alone=True, before=_standing(now, "draft"))


@edit("standing-raised", "review-date-moved")
def review_date_moved(tested: Tested, dice: Random) -> Edit | None:
    """A date of review put off, and no new test."""
    was = _whole(tested)
    now = _evidence(was, DUE, dice.choice(["2029-06-30", "2031-12-31", "2028-07-31"]))
    return Edit(now, "standing-raised", "untested", alone=True, before=was)


@edit("standing-raised", "reading-changed")
def reading_changed(tested: Tested, dice: Random) -> Edit | None:
    """Another value for the reading of the same day."""
    was = _whole(tested)
    now = _evidence(was, READING, READING.replace("3.4", dice.choice(["3.2", "3.0", "3.9", "4.1"])))
    return Edit(now, "standing-raised", "untested", rows=("source-gone",), alone=True, before=was)


@edit("standing-raised", "source-changed")
def source_changed(tested: Tested, _: Random) -> Edit | None:
    """Another publication in the place of the one it came from."""
    was = _whole(tested)
    old = next((text for word, text in was.evidence if word == "source"), "")
    if not old:
        return None
    now = _evidence(was, old, "Home Preserving for the County Fair (1974), p. 12")
    return Edit(now, "standing-raised", "untested", rows=("source-gone",), alone=True, before=was)


@edit("source-gone", "evidence-taken-out")
def evidence_taken_out(tested: Tested, dice: Random) -> Edit | None:
    """A test, a reading or the source that is no longer there."""
    was = _whole(tested)
    sources = [text for word, text in was.evidence if word == "source"]
    gone = dice.choice([SECOND, READING, *sources])
    return Edit(_evidence(was, gone, ""), "source-gone", "untested", alone=True, before=was)


@edit("source-gone", "reading-of-fewer-batches")
def reading_of_fewer_batches(tested: Tested, dice: Random) -> Edit | None:
    """The same value of the same day, from fewer batches than before."""
    was = _whole(tested)
    now = _evidence(was, READING, READING.replace("3 batches", dice.choice(["1 batch", "2 batches"])))
    return Edit(now, "source-gone", "untested", rows=("standing-raised",), alone=True, before=was)


@edit("standing-raised", "new-test-beside")
def new_test_beside(tested: Tested, dice: Random) -> Edit | None:
    """A draft called tested with a new test beside it, or one more test, or a later review after a new test: harmless."""
    now = _whole(tested)
    before = replace(now, evidence=tuple(row for row in now.evidence if row[1] != TEST))
    if dice.random() < 0.5:
        before = _standing(before, "draft")
    return Edit(now, "standing-raised", "silent", alone=True, before=before)


@edit("source-gone", "standing-lowered")
def standing_lowered(tested: Tested, _: Random) -> Edit | None:
    """A tested formula called a draft again, and one whose evidence only stands in another order: harmless."""
    was = _whole(tested)
    now = replace(was, evidence=(*was.evidence[1:], was.evidence[0]))
    return Edit(now, "source-gone", "silent", alone=True, before=was)
