"""Servings and what is in one, rounded as labels round: FDA Food Labeling Guide, appendix H (read).

Servings in a container: 21 CFR 101.9(b)(8), from memory up to 5, read above. A half rounds up: the table is silent.
"""

import json
from fractions import Fraction
from pathlib import Path

import pytest

from brimline.figures.label import rounded, servings
from brimline.report.label import NO_PANEL, label_lines

SUGAR = "sweetener 1 kg sugar, granulated"
FRUIT = "fruit 1 kg strawberries, hulled"

ROUNDED = [
    ("calories", "47.6", "50"), ("calories", "52.4", "50"), ("calories", "4.9", "0"), ("calories", "5", "5"),
    ("calories", "56", "60"),
    ("added sugars", "0.4", "0 g"), ("added sugars", "0.7", "less than 1 g"), ("added sugars", "12.5", "13 g"),
    ("added sugars", "12.4", "12 g"), ("added sugars", "1", "1 g"),
    ("sodium", "3", "0 mg"), ("sodium", "12", "10 mg"), ("sodium", "148", "150 mg"), ("sodium", "13", "15 mg"),
    ("fat", "0.3", "0 g"), ("fat", "2.3", "2.5 g"), ("fat", "5.4", "5 g"), ("fat", "5.6", "6 g"),
]  # fmt: skip


@pytest.mark.parametrize(("nutrient", "amount", "label"), ROUNDED)
def test_amounts_are_rounded_as_the_table_says(nutrient: str, amount: str, label: str) -> None:
    assert rounded(nutrient, Fraction(amount)) == label


def test_servings_in_a_container() -> None:
    # A half-pint of 314 g at 20 g: 15.7, about 16. From 2 to 5 by halves. Below 2 nothing is said.
    assert servings(Fraction(314), Fraction(20)) == "16"
    assert [servings(Fraction(count), Fraction(1)) for count in ("2", "3.3", "4.8", "5.6")] == ["2", "3.5", "5", "6"]
    assert servings(Fraction("1.9"), Fraction(1)) == ""


def test_a_tablespoon_of_jam_and_a_half_pint_of_it(weigh) -> None:
    # 65 percent: 35 / 0.9957 + 65 / 1.5929 = 75.96 ml in 100 g at 20 C (component equations of 1986), 1.317 g/ml;
    # 15 ml weigh 19.7 g. Hot 35 / 0.9670 + 65 / 1.5712 = 77.56 ml, 1.289 g/ml; 236.59 ml weigh 305 g, 15.2 servings.
    # The example takes 1.33 g/ml and 314 g for a half-pint: 3 percent more, because its jam is cold.
    found = weigh(FRUIT, SUGAR, finish="65 Brix").label.served
    assert found.grams.middle == pytest.approx(19.7, abs=0.1)
    assert found.net.middle == pytest.approx(305, abs=1)
    assert found.net.middle == pytest.approx(314, rel=0.035)
    assert found.per_jar == ("15",)


def test_added_sugars_and_calories_of_a_serving(weigh) -> None:
    # 1,000 g of sugar and 1,000 g of strawberries (80 g of solids, about 3 percent of pulp) at 65 percent of the liquid:
    # 1,080 / 0.65 + 30 = 1,692 g; 1000 / 1692 x 20 = 11.8 g of added sugars; 20 x 0.65 x 4 = 52 calories.
    found = weigh(FRUIT, SUGAR, finish="65 Brix").label.served
    amounts = {one.name: one for one in found.amounts}
    assert amounts["added sugars"].found.middle == pytest.approx(11.8, abs=0.1)
    assert amounts["added sugars"].rounded == ("12 g",)
    assert amounts["calories"].found.middle == pytest.approx(52, abs=0.5)
    assert amounts["calories"].rounded == ("50",)
    assert set(amounts) == {"added sugars", "calories"}


def test_salt_brings_sodium(weigh) -> None:
    # 10 g of salt hold 3,934 mg of sodium (22.99 of 58.44 by molar mass). Beside 1,080 g of solids, half of the salt counts
    # as dissolved: 1,085 / 0.65 + 30 = 1,699 g, and 46 mg in 20 g, 45 on a label.
    found = weigh(FRUIT, SUGAR, "salt 10 g salt, canning", finish="65 Brix").label.served
    (sodium,) = [one for one in found.amounts if one.name == "sodium"]
    assert sodium.found.middle == pytest.approx(3934 / 1699 * 20, rel=0.01)
    assert sodium.rounded == ("45 mg",)
    none = weigh(FRUIT, SUGAR, "salt 10 g potassium chloride", finish="65 Brix").label.served
    assert "sodium" not in {one.name for one in none.amounts}


def test_butter_brings_fat_and_calories(weigh) -> None:
    # 60 g of butter of 81.11 percent hold 48.7 g of fat: in 1,692 g 0.58 g in 20 g, 0.5 on a label, and 9 calories a g.
    # Whether the butter's own 60 g stand in those 1,692 g or beside them is 3.5 percent of it.
    found = weigh(FRUIT, SUGAR, "fat 60 g butter", finish="65 Brix").label.served
    amounts = {one.name: one for one in found.amounts}
    assert amounts["fat"].found.middle == pytest.approx(0.58, rel=0.04)
    assert amounts["fat"].rounded == ("0.5 g",)
    assert amounts["calories"].found.middle == pytest.approx(52 + 9 * 0.58, abs=0.6)


def test_calories_are_not_said_where_something_has_no_figure(weigh) -> None:
    nuts = weigh(FRUIT, SUGAR, "nut 100 g walnuts, chopped", finish="65 Brix", kind="conserve").label
    assert {one.name for one in nuts.served.amounts} == {"added sugars"}
    assert "walnuts" in " ".join(text for _, text in label_lines(nuts))
    stevia = weigh(FRUIT, SUGAR, "sweetener 10 g sucralose", finish="65 Brix").label.served
    assert stevia.uncounted == ("sucralose",)


def test_no_serving_without_an_estimate_or_for_what_is_no_spread(weigh) -> None:
    assert weigh(FRUIT, SUGAR, finish="thick").label.served is None
    assert weigh("vegetable 1 kg onions, chopped", "acid 1 l vinegar, white, 5 %", kind="relish").label.served is None
    assert weigh("fruit some strawberries", SUGAR, finish="65 Brix").label.served is None


def test_text_page_and_json_show_the_same(run, formulas: Path) -> None:
    path = formulas / "tested" / "kv-102.formula"
    flat = " ".join(run("weigh", path)[1].split())
    page = run("weigh", path, "--as", "page")[1]
    data = json.loads(run("weigh", path, "--as", "json")[1])["label"]["serving"]
    assert (data["measure"], data["jar"]) == ("1 tablespoon", "half-pint")
    assert NO_PANEL in flat
    assert NO_PANEL[1:] in page
    assert data["notice"] == NO_PANEL
    for part in data["amounts"]:
        (low, high) = part["rounded"][0].removesuffix(" g"), part["rounded"][-1]
        text = f"{part['name']} {high if part['rounded'][0] == high else f'{low} to {high}'}"
        assert text in flat
        assert text.removeprefix("calories ") in page
