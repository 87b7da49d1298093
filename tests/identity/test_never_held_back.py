"""What a name promises is information: it holds nothing back, whatever else a collection holds back."""

from datetime import date
from pathlib import Path

import pytest

from brimline.review.engine import review_one
from brimline.shelf import Settings, shelf_of

CASE = Path(__file__).parents[1] / "cases" / "identity-fruit" / "flagged-strawberry-45-to-55.formula"


def test_a_collection_that_holds_back_form_does_not_hold_back_a_name() -> None:
    text = CASE.read_text(encoding="utf-8")
    for settings in (Settings(), Settings(hold_back=("quality", "form"))):
        shelf = shelf_of({"id-1.formula": text}, date(2026, 1, 15), settings, [])
        reviewed = review_one(shelf, shelf.formulas[0])
        assert [one.row for one in reviewed.findings] == ["identity-fruit"]
        assert not reviewed.held_back
    # Another finding of the same level is held back, so that the setting is seen to work.
    late = text.replace("evidence\n", "evidence\n  review-by  2025-01-01\n")
    shelf = shelf_of({"id-1.formula": late}, date(2026, 1, 15), Settings(hold_back=("form",)), [])
    assert review_one(shelf, shelf.formulas[0]).held_back


@pytest.mark.parametrize(
    ("chosen", "rows"), [((), ["identity-fruit"]), (("US",), ["identity-fruit"]), (("EU", "Codex"), [])]
)
def test_a_collection_chooses_whose_standards_are_computed(chosen: tuple[str, ...], rows: list[str]) -> None:
    text = CASE.read_text(encoding="utf-8")
    assert "sold-as" in text
    assert ", US" in text
    shelf = shelf_of({"id-1.formula": text}, date(2026, 1, 15), Settings(identity=chosen), [])
    assert [one.row for one in review_one(shelf, shelf.formulas[0]).findings] == rows
