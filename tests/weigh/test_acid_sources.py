"""Worked examples of acids, by milliequivalents and by what a weighing finds.

FDA CPG 525.825 (vinegar, 4 g of acetic acid in 100 ml at least), 21 CFR 146.114 (lemon juice, 4.5 % of anhydrous citric acid
by weight at least), both read; molar masses 60.05 and 192.12 / 3. The examples take the acid of vinegar for each 100 ml, a
formula by weight; a cup is 236.59 ml and 231 to 245 g, so the two are within 4 percent, and the middle within 1 percent.
"""

from fractions import Fraction
from typing import Any

import pytest

from brimline import figures
from brimline.batch.models.acid import milliequivalents

CITRIC, ACETIC = 192.12 / 3, 60.05


def acids(weigh: Any, *lines: str) -> list[Any]:
    return list(weigh("vegetable 1 kg cucumbers, sliced", *lines, kind="pickle").acids)


def test_a_cup_of_vinegar_of_5_and_of_4_percent(weigh) -> None:
    # 236.588 ml x 0.05 = 11.83 g of acetic acid, x 0.04 = 9.46 g: 20 percent less.
    five, four = acids(weigh, "acid 1 cup vinegar, white, 5 %", "acid 1 cup vinegar, white, 4 %")
    assert float(five.ml.low) == pytest.approx(236.588, abs=0.001)
    for found, grams in ((five, 11.83), (four, 9.46)):
        acetic = [float(end) * ACETIC / CITRIC for end in (found.citric.low, found.citric.high)]
        assert acetic[0] < grams < acetic[1]
        assert sum(acetic) / 2 == pytest.approx(grams, rel=0.01)
    assert four.citric.middle / five.citric.middle == Fraction(4, 5)


def test_cups_of_4_percent_that_hold_the_acid_of_two_of_5(weigh) -> None:
    # 2 x 5 / 4 = 2.5 cups. The half cup more is water, so it stands for nothing in a tested formula: the cases of the
    # decision table say so (tests/cases, vinegar below 5 %).
    two, more = acids(weigh, "acid 2 cup vinegar, white, 5 %", "acid 2 1/2 cup vinegar, white, 4 %")
    assert more.citric == two.citric


def test_two_tablespoons_of_lemon_juice_at_the_floor(weigh) -> None:
    # 29.57 ml x 1.03 g/ml x 0.045 = 1.371 g. Ours weighs 244 g a cup (SR28), 1.031 g/ml, give or take 3 percent.
    (lemon,) = acids(weigh, "acid 2 tbsp lemon juice, bottled")
    assert float(lemon.ml.low) == pytest.approx(29.57, abs=0.005)
    assert float(lemon.citric.middle) == pytest.approx(1.371, rel=0.002)


def test_equivalents_of_a_cup_of_vinegar_and_of_lemon_juice(weigh) -> None:
    # 11.83 / 60.05 = 0.1970 and 10.97 / 64.04 = 0.1712: 87 percent.
    acetic, citric = milliequivalents(Fraction("11.83"), "acetic"), milliequivalents(Fraction("10.97"), "citric")
    assert isinstance(acetic, Fraction)
    assert isinstance(citric, Fraction)
    assert float(acetic) == pytest.approx(197.0, abs=0.1)
    # The example rounds: 10.97 / 64.04 = 0.1713.
    assert float(citric) == pytest.approx(171.2, abs=0.15)
    assert float(citric / acetic) == pytest.approx(0.87, abs=0.005)
    vinegar, lemon = acids(weigh, "acid 1 cup vinegar, white, 5 %", "acid 1 cup lemon juice, bottled")
    assert float(lemon.citric.middle / vinegar.citric.middle) == pytest.approx(0.87, abs=0.01)


def test_fresh_lemons_of_6_percent_and_the_floor(weigh) -> None:
    # 6.0 / 4.5 = 1.33. Fresh juice has no floor: its strength in a formula is our figure, of bottled juice the standard's.
    strong, floor = acids(weigh, "acid 1 cup lemon juice, bottled, 6 %", "acid 1 cup lemon juice, bottled")
    assert strong.citric.middle / floor.citric.middle == Fraction(4, 3)
    bottled = figures.entries()["lemon juice, bottled"].acid
    assert bottled == Fraction("4.5")
