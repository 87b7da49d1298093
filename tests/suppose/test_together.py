"""Several edits at once: all of them are in the formula that is judged, and the gravest decides."""

import pytest
from suppose.desk import answer, call

ORDER = ("matches", "silent", "quality", "untested", "unsafe", "unreadable")
PAIRS = [
    ("KV-101", "half the sugar", "pint jars"),
    ("KV-102", "honey for half the sugar", "pint jars"),
    ("KV-102", "honey for half the sugar", "half the sugar"),
    ("KV-114", "no lemon", "4 oz jars"),
    ("KV-128", "double", "add 2 jalapenos"),
    ("KV-101", "other pectin", "double"),
    ("KV-119", "half a batch", "add 1 tsp basil"),
    ("KV-130", "pint jars", "citric acid for the lemon juice"),
]


@pytest.mark.parametrize(("code", "one", "other"), PAIRS)
@pytest.mark.parametrize("joint", [", ", " and ", "; ", " but also "])
def test_together_they_are_no_better_than_each_alone(code: str, one: str, other: str, joint: str) -> None:
    alone = [ORDER.index(answer(code, words).verdict) for words in (one, other)]
    both = answer(code, f"{one}{joint}{other}")
    assert len(both.asked) == 2
    assert ORDER.index(both.verdict) >= max(alone)


def test_what_no_rule_explains_is_no_lighter_than_the_gravest_change_alone() -> None:
    """Two jalapenos beside the peppers of two batches are less than the 2 % that count as equal; added they are still."""
    given = answer("KV-128", "double and add 2 jalapenos")
    assert (given.verdict, given.held_back) == ("unsafe", True)


def test_the_order_of_the_words_changes_nothing() -> None:
    there, back = answer("KV-101", "double, add 2 jalapenos"), answer("KV-101", "add 2 jalapenos, double")
    assert (there.verdict, there.row) == (back.verdict, back.row)
    assert "2 each" in there.text
    assert "2 each" in back.text


def test_what_the_other_edit_comes_to_is_said_too() -> None:
    given = answer("KV-101", "pint jars and double")
    assert given.row == "jar-larger"
    assert [level for level, says in given.also if "double batch" in says] == ["quality"]


def test_a_cut_that_only_both_together_make_is_seen() -> None:
    """Half the vinegar for half the food is the tested ratio; half the vinegar alone is a cut of acid."""
    assert answer("KV-128", "half a batch").verdict == "matches"
    assert answer("KV-128", "half a batch and half the vinegar").row == "acid-cut"


def test_a_time_is_given_for_the_tested_formula_only() -> None:
    given = answer("KV-101", "half the sugar at 5,200 ft")
    assert given.verdict == "untested"
    note = next(says for _, says in given.also if "At that altitude" in says)
    assert "10 minutes" in note
    assert "does not carry the time over" in note
    assert "10 minutes" not in " ".join(given.says)


def test_a_jar_and_an_altitude_give_the_time_of_that_jar() -> None:
    """USDA Complete Guide, Guide 3, crushed tomatoes: pints 45 minutes from 3,001 to 6,000 ft; read."""
    assert "45 minutes" in answer("KV-130", "pint jars at 5,000 ft").says[0]


def test_no_time_between_two_bands_is_made_up() -> None:
    """USDA Complete Guide, Guide 7, p. 7-6: 10 and 15 minutes on either side of 6,000 ft, nothing between; read."""
    said = [answer("KV-102", f"{feet} ft").says[0] for feet in (5999, 6000, 6001, 6500)]
    assert ["10 minutes" in said[0], "10 minutes" in said[1], "15 minutes" in said[2], "15 minutes" in said[3]] == [
        True
    ] * 4


def test_a_question_beside_an_edit_is_answered_too() -> None:
    verdicts = [one.verdict for one in call("KV-101", "half the sugar, and may I sell it?").answers]
    assert verdicts == ["untested", "talk"]


def test_two_sugars_are_both_cut_and_alternatives_too() -> None:
    """The chutney has white and brown sugar (1 1/2 cups each), the tomatoes a choice of two acids."""
    text = answer("KV-121", "half the sugar").text
    assert text.count("3/4 cup") == 2
    halved = answer("KV-130", "half the lemon juice").text
    assert "1 tbsp per quart jar" in halved
    assert "1/4 tsp per quart jar" in halved
