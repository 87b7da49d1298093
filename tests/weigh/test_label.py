"""The facts for a label: ingredients by weight, the nine allergens, fruit and solids in 100 g.

The nine: Food Allergen Labeling and Consumer Protection Act of 2004, section 203 (milk, egg, fish, crustacean
shellfish, tree nuts, wheat, peanuts, soybeans), and the FASTER Act of 2021 (sesame, since 1 January 2023); memory.
Descending by weight: 21 CFR 101.4(a)(1); memory.
"""

import json
from pathlib import Path

import pytest

from brimline.figures import entries
from brimline.figures.allergens import allergens
from brimline.report.label import NO_LABEL, contains, ingredient_line, label_lines
from brimline.review.weighed import Holds

FRUIT = "fruit      1 kg   strawberries, hulled"
SUGAR = "sweetener  800 g  sugar, granulated"
NINE = {"milk", "egg", "fish", "crustacean shellfish", "tree nuts", "wheat", "peanuts", "soybeans", "sesame"}


def test_there_are_nine_and_sesame_is_of_the_second_act() -> None:
    assert {one.name for one in allergens()} == NINE
    assert [one.name for one in allergens() if "2023" in one.source.section] == ["sesame"]
    assert {one.source.how for one in allergens()} == {"memory"}


def test_every_allergen_of_an_ingredient_is_one_of_the_nine() -> None:
    assert {name for entry in entries().values() for name in entry.allergens} <= NINE


# What everybody knows holds an allergen; common practice, no source.
HOLDERS = [
    ("fat        1 tsp  butter", "milk"),
    ("egg        100 g  eggs, whole", "egg"),
    ("nut        100 g  walnuts, chopped", "tree nuts"),
    ("nut        100 g  peanuts, chopped", "peanuts"),
    ("condiment  1 tbsp Worcestershire sauce", "fish"),
    ("condiment  1 tbsp soy sauce", "soybeans"),
    ("condiment  1 tbsp soy sauce", "wheat"),
    ("vegetable  100 g  edamame", "soybeans"),
    ("nut        10 g   sesame seeds", "sesame"),
    ("thickener  10 g   flour", "wheat"),
]


@pytest.mark.parametrize(("line", "allergen"), HOLDERS)
def test_an_allergen_is_named_with_what_brings_it_in(weigh, line: str, allergen: str) -> None:
    label = weigh(FRUIT, SUGAR, line).label
    assert allergen in [one.allergen for one in label.holds]
    assert f"{allergen} (" in contains(label)


@pytest.mark.parametrize("bean", ["black beans", "chickpeas", "lentils", "kidney beans"])
def test_a_bean_that_is_no_soybean_brings_no_soybeans_in(weigh, bean: str) -> None:
    # FALCPA, section 203: soybeans are the only legume but the peanut among the major allergens (memory).
    assert (
        contains(weigh(FRUIT, SUGAR, f"vegetable 100 g {bean}").label) == "none that is known by the ingredient table"
    )


def test_none_is_never_said_without_saying_what_that_rests_on(weigh) -> None:
    label = weigh(FRUIT, SUGAR).label
    assert label.holds == ()
    assert contains(label) == "none that is known by the ingredient table"
    text = " ".join(line for _, line in label_lines(label))
    assert "what else is handled in the kitchen is not known" in text
    assert NO_LABEL in text


def test_ingredients_descend_by_weight_and_lines_of_one_are_added(weigh) -> None:
    label = weigh(
        FRUIT, "sweetener 600 g sugar, granulated", "sweetener 600 g sugar, granulated", "acid 50 g citric acid"
    ).label
    assert [one.name for one in label.ingredients] == ["granulated sugar", "strawberry", "anhydrous citric acid"]
    assert label.ingredients[0].grams is not None
    assert label.ingredients[0].grams.low == 1200
    assert not any(one.close for one in label.ingredients)


def test_an_order_that_a_cup_weight_leaves_open_is_said(weigh) -> None:
    # A cup of sugar weighs about 200 g, so five cups and 1 kg are too near to tell.
    label = weigh("fruit 1 kg strawberries, hulled", "sweetener 5 cup sugar, granulated").label
    assert [one.close for one in label.ingredients] == [False, True]
    assert any("not certain" in text for _, text in label_lines(label))


def test_unknown_weights_and_ingredients_are_said_and_not_guessed(weigh) -> None:
    label = weigh(FRUIT, SUGAR, "spice some cinnamon, ground", "flavouring 1 tsp zanthum drops").label
    assert "cinnamon" in label.unplaced[0].name
    assert label.unknown == ("zanthum drops",)
    assert "zanthum" not in ingredient_line(label)
    assert contains(label) == "none that is known"
    assert any("nobody can say what it holds: zanthum drops" in text for _, text in label_lines(label))


def test_bought_mixtures_point_to_their_package(weigh) -> None:
    assert "prepared mustard" in weigh(FRUIT, SUGAR, "condiment 1 tbsp mustard, prepared").label.ask


def test_what_is_taken_out_or_poured_away_or_chosen_instead_still_brings_its_allergen(weigh) -> None:
    label = weigh(FRUIT, SUGAR, "infused nut 50 g almonds, chopped", "optional fat 1/2 tsp butter").label
    assert label.holds == (
        Holds("milk", ("unsalted butter, if used",)),
        Holds("tree nuts", ("almond, infused",)),
    )
    other = weigh(FRUIT, SUGAR, "nut 50 g sunflower seeds", "  or 50 g pecans, chopped").label
    assert [one.allergen for one in other.holds] == ["tree nuts"]
    away = weigh(FRUIT, SUGAR, "discarded dairy 1 cup milk").label
    assert "milk" not in ingredient_line(away)
    assert [one.allergen for one in away.holds] == ["milk"]


def test_a_measured_mixture_names_what_it_was_made_of(weigh) -> None:
    label = weigh(
        "juice 2 cup pepper juice, strained", "  from vegetable 3 cup peppers, sweet, chopped",
        "  from acid 1 1/2 cup vinegar, white, 5 %", SUGAR, kind="jelly",
    ).label  # fmt: skip
    made = [one for one in (*label.ingredients, *label.unplaced) if one.made_of]
    assert [len(one.made_of) for one in made] == [2]


def test_a_reading_stands_before_an_estimate(weigh) -> None:
    estimated = weigh(FRUIT, SUGAR, finish="65 Brix").label
    assert estimated.solids is not None
    assert not estimated.read
    # 1 kg of fruit to 880 g of solids at 65 percent of the liquid part: about 73 g of fruit in 100 g.
    assert estimated.fruit is not None
    assert estimated.fruit.middle == pytest.approx(1000 / (880 / 0.65) * 100, rel=0.03)


def test_text_and_json_of_the_command_show_them(run, formulas: Path) -> None:
    status, text, _ = run("weigh", formulas / "tested" / "kv-120.formula")
    assert status == 0
    flat = " ".join(text.split())
    assert "contains tree nuts (pecan)" in flat
    assert NO_LABEL in flat
    assert "Food Allergen Labeling and Consumer Protection Act" in flat
    data = json.loads(run("weigh", formulas / "tested" / "kv-120.formula", "--as", "json")[1])
    assert data["label"]["contains"] == [{"allergen": "tree nuts", "of": ["pecan"]}]
    assert data["label"]["notice"] == NO_LABEL
    assert data["sold_as"] is None


def test_what_it_is_sold_as_is_shown_whether_met_or_not(run) -> None:
    case = Path(__file__).parents[1] / "cases" / "identity-fruit" / "flagged-strawberry-45-to-55.formula"
    status, text, _ = run("weigh", case)
    assert status == 0
    flat = " ".join(text.split())
    assert "not met: It counts 20.4 kg of fruit to 24.9 kg of sweetener solids" in flat
    assert "met: It is boiled to 65 %" in flat
    data = json.loads(run("weigh", case, "--as", "json")[1])
    assert [(one["about"], one["state"]) for one in data["sold_as"]["checks"]] == [
        ("fruit", "short"),
        ("solids", "met"),
    ]
    assert data["sold_as"]["checks"][0]["found"] == ["9/11", "9/11"]
