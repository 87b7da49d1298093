"""Amounts as a step speaks them, and the ingredients that a sentence names, word by word.

A cup is 236.588 ml, a tablespoon 14.787 ml, a pound 453.592 g (NIST Handbook 44, Appendix C).
"""

from fractions import Fraction

import pytest

from brimline.rules.foods import foods
from brimline.rules.meaning import TOKEN
from brimline.rules.measured import _amount, _amount_after

CUP, SPOON, POUND = Fraction("236.5882365"), Fraction("14.78676478125"), Fraction("453.59237")

BEFORE = {
    "vinegar": None,
    "cup vinegar": None,
    "a cup of vinegar": CUP,
    "one cup vinegar": CUP,
    "1 cup of vinegar": CUP,
    "4 cups vinegar": 4 * CUP,
    "1 1/2 cups of vinegar": CUP * 3 / 2,
    "1/2 cup vinegar": CUP / 2,
    "1/2 a cup of vinegar": CUP / 2,
    "half a cup of vinegar": CUP / 2,
    "a half cup of vinegar": CUP / 2,
    "a cup and a half of vinegar": CUP * 3 / 2,
    "two cups and a half of vinegar": CUP * 5 / 2,
    "two and a half cups of vinegar": CUP * 5 / 2,
    "a quarter cup of vinegar": CUP / 4,
    "a quarter of a cup of vinegar": CUP / 4,
    "three quarters of a cup of vinegar": CUP * 3 / 4,
    "two thirds of a cup of vinegar": CUP * 2 / 3,
    "one and a quarter cups of vinegar": CUP * 5 / 4,
    "1.5 cups of vinegar": CUP * 3 / 2,
    "three tablespoons of good white vinegar": 3 * SPOON,
    "two tablespoonfuls of vinegar": 2 * SPOON,
    "a pound of vinegar": POUND,
    "twelve cups of vinegar": 12 * CUP,
    "2 cups of the vinegar": None,
    "only 2 cups of the vinegar": 2 * CUP,
    "just a cup of the vinegar": CUP,
    "two jars of vinegar": None,
    "ten minutes of vinegar": None,
    "a few cups of vinegar": None,
    "1/0 cup of vinegar": None,
    # Only at most nine words before it.
    "only 1 and a half cups of the good vinegar": CUP * 3 / 2,
    "only now, then pour in 2 cups of the vinegar": None,
    "a third of a cup of vinegar": CUP / 3,
    "two halves of a cup of vinegar": CUP,
    "three eighths of a cup of vinegar": CUP * 3 / 8,
    "of vinegar": None,
    "and a half of vinegar": None,
    "0 cups of vinegar": None,
    "and cups of vinegar": None,
    "1,000 cups of vinegar": 1000 * CUP,
    "2 1/2 pounds of vinegar": POUND * 5 / 2,
    "three and three quarters cups of vinegar": CUP * 15 / 4,
    "one half a cup of vinegar": CUP / 2,
    "an eighth of a cup of vinegar": CUP / 8,
    "a cup, 2 tablespoons of vinegar": 2 * SPOON,
    "a few and 2 cups of vinegar": 2 * CUP,
    "a level cup and a half of cold vinegar": CUP * 3 / 2,
    "2 cups, and a half of vinegar": None,
}


@pytest.mark.parametrize(("text", "amount"), BEFORE.items())
def test_an_amount_before_what_it_measures(text: str, amount: Fraction | None) -> None:
    tokens = [*TOKEN.findall(text), "."]
    found = _amount(tokens, tokens.index("vinegar"), parted=True)
    assert (found and found[0]) == amount
    assert found is None or found[1] == ("mass" if "pound" in text else "volume")


WHOLE = {
    "2 cups of the vinegar": 2 * CUP,
    "a full pint of cold vinegar": 2 * CUP,
    "a good half cup of vinegar": CUP / 2,
    "one level tablespoon of vinegar": CUP / 16,
    "full cup of vinegar": None,
}


@pytest.mark.parametrize(("text", "amount"), WHOLE.items())
def test_an_amount_of_what_goes_in_at_one_time(text: str, amount: Fraction | None) -> None:
    """Where no sentence brings a rest, a part of it is all of it."""
    tokens = [*TOKEN.findall(text), "."]
    found = _amount(tokens, tokens.index("vinegar"), parted=False)
    assert (found and found[0]) == amount


AFTER = {
    "sugar at four cups": 4 * CUP,
    "sugar to a cup": CUP,
    "sugar down to 2 1/2 cups": CUP * 5 / 2,
    "sugar at half a cup": CUP / 2,
    "sugar at the table": None,
    "sugar to the pot": None,
    "sugar four cups": None,
    "sugar": None,
    "sugar to the boil and stir in 2 cups": None,
    "sugar to 1 and a half full cups": CUP * 3 / 2,
    "sugar down the sink, 2 cups": None,
    "2 cups sugar to a pound": POUND,
    "lower the sugar to a cup or two cups": CUP,
}


@pytest.mark.parametrize(("text", "amount"), AFTER.items())
def test_an_amount_behind_what_it_measures(text: str, amount: Fraction | None) -> None:
    tokens = [*TOKEN.findall(text), "."]
    found = _amount_after(tokens, tokens.index("sugar") + 1, parted=True)
    assert (found and found[0]) == amount


NAMED = {
    "add the beet sugar and the light corn syrup all at once.": [("sugar", "sugar, granulated"), ("light corn syrup", "corn syrup, light")],
    "stir in the hot red peppers and onion.": [("hot red peppers", "hot chili pepper, red"), ("onion", "onion")],
    "put a clove of garlic into each jar.": [("garlic", "garlic")],
    "red and green, chopped fine.": [],
    "fish the bag out, and fish out the onion.": [("onion", "onion")],
    "add fish.": [("fish", "fish")],
    "bring it to a boil.": [],
}  # fmt: skip


@pytest.mark.parametrize(("text", "named"), NAMED.items())
def test_the_ingredients_of_a_sentence(text: str, named: list[tuple[str, str]]) -> None:
    tokens = TOKEN.findall(text)
    assert [(" ".join(tokens[one.start : one.end]), one.entry.name) for one in foods(text)] == named
