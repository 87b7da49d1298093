"""An answer is what a review says of the same adaptation written by hand: the lessons and adaptations that are shipped."""

import pytest
from suppose.desk import answer, found

from brimline.findings import Level
from brimline.review.engine import review_one

# An adaptation that somebody wrote, the tested formula it departs from, and the same change as a caller asks for it.
PAIRS = {
    "KV-301": ("KV-102", "half the sugar"),
    "KV-302": ("KV-114", "no lemon"),
    "KV-303": ("KV-123", "fresh lemon"),
    "KV-304": ("KV-128", "5 minutes less"),
    "KV-305": ("KV-121", "pint jars"),
    "KV-306": ("KV-104", "liquid pectin"),
    "KV-308": ("KV-128", "double the onions"),
    "KV-310": ("KV-105", "turn the jars upside down"),
    "KV-311": ("KV-124", "vinegar for the lemon juice"),
    "KV-312": ("KV-109", "honey for 3/4 of the sugar"),
    "KV-313": ("KV-127", "half the lemon juice"),
    "KV-316": ("KV-129", "4 % vinegar for the vinegar"),
    "KV-318": ("KV-107", "add 1 tsp baking soda"),
    "KV-320": ("KV-126", "thicken with cornstarch"),
    "KV-321": ("KV-122", "add 1/4 cup butter"),
    "KV-323": ("KV-101", "clean jars"),
    "KV-324": ("KV-130", "1/8 inch headspace"),
    "KV-201": ("KV-102", "honey for half the sugar"),
    "KV-203": ("KV-110", "half a batch"),
    "KV-204": ("KV-123", "lime juice for the lemon juice"),
    "KV-206": ("KV-111", "quarter-pint jars"),
    "KV-207": ("KV-121", "half the onions"),
    "KV-212": ("KV-119", "no nuts"),
}


@pytest.mark.parametrize("code", PAIRS)
def test_the_level_is_that_of_the_formula_written_by_hand(code: str) -> None:
    by_hand = review_one(*found(code))
    given = answer(*PAIRS[code])
    gravest = min((one.level for one in by_hand.findings if one.level < Level.FORM), default=None)
    asked = given.reviewed
    assert asked is not None
    assert min((one.level for one in asked.findings if one.level < Level.FORM), default=None) == gravest
    assert given.held_back is by_hand.held_back
    if gravest is not None and gravest.holds_back:
        rows = {one.row for one in by_hand.findings if one.level is gravest}
        assert given.row in rows


def test_the_reviewed_text_stands_in_the_answer_and_names_what_it_adapts() -> None:
    text = answer("KV-101", "half the sugar").text
    assert "standing  adapted" in text
    assert "adapts    KV-101" in text
    assert "4 1/4 cup" in text


def test_an_adaptation_is_judged_back_to_its_root() -> None:
    """KV-201 has half its sugar as honey already; honey for the other half is honey for all of it."""
    given = answer("KV-201", "honey instead of sugar")
    assert given.reviewed is not None
    assert given.reviewed.root == "KV-102"
    assert given.verdict == "untested"
