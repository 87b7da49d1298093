"""T1: a collection's own settings cannot loosen what the published tables and the three grave levels ask for."""

from datetime import date

import pytest

from brimline.review.engine import review
from brimline.shelf import shelf_from
from brimline.shelf.settings import read_settings
from brimline.shelf.strict import Refused

TODAY = date(2026, 7, 1)
# A tested formula with a wax seal and one band only: unsafe, and out of reach of readers who live high.
FORMULA = b"""\
formula KV-101 Plum jam
product   jam
standing  tested
finish    gel point
yield     3 half-pint

take
  fruit      4 cup     plums, crushed
  sweetener  3 cup     sugar, granulated

make
  - Boil to the gel point, fill hot, leaving 1/4 inch headspace, wipe the rims and process, starting the time when it boils.
  - Let stand 12 hours and check the seals.

pack
  jar        half-pint
  prepare    sterile
  fill       hot
  headspace  1/4 in
  lid        wax

process boiling-water
  half-pint: 5 min to 1000 ft

evidence
  tested     2025-06-14, a test kitchen, report 31
"""


def held(settings: bytes) -> dict[str, str]:
    (formula,) = review(shelf_from({"x.formula": FORMULA, "collection.yaml": settings}, TODAY)).formulas
    assert formula.held_back
    return {one.row: one.level.word for one in formula.findings}


@pytest.mark.parametrize(
    "settings",
    [
        b"",
        b"hold-back: []\n",
        b"hold-back: [form]\n",
        b"altitude: 0 ft\n",
        b"identity: [US]\n",
        b"review-interval: 1 month\n",
    ],
)
def test_what_is_unsafe_stays_unsafe_under_every_setting(settings: bytes) -> None:
    assert held(settings)["lid-none"] == "unsafe"


@pytest.mark.parametrize(
    "settings",
    [
        b"hold-back: [unsafe]\n",
        b"hold-back: none\n",
        b"hold_back: [quality]\n",
        b"levels: {unsafe: form}\n",
        b"lid-none: silent\n",
        b"review-interval: 61 months\n",
        b"review-interval: 100 years\n",
        b"extends: ../other/collection.yaml\n",
        b"variances: []\n",
        b"set-aside: ../tested\n",
        b"set-aside: .\n",
        b"set-aside: C:/formulas\n",
    ],
)
def test_settings_that_would_loosen_are_refused_and_the_run_counts_as_not_run(settings: bytes) -> None:
    with pytest.raises(Refused):
        read_settings(settings)
    assert [one.path for one in shelf_from({"collection.yaml": settings}, TODAY).refusals] == ["collection.yaml"]


def test_a_low_altitude_never_outweighs_a_high_place() -> None:
    low = held(b"altitude: 500 ft\n")
    high = held(b"altitude: 500 ft\nplaces: {High Terrace: 7000 ft}\n")
    assert low["band-missing"] == "form"
    assert high["band-missing"] == "untested"
