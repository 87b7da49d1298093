"""The ingredient table holds what the publications print, says where each figure is from, and errs on the safe side."""

from fractions import Fraction

import pytest

from brimline.document.units import units
from brimline.figures import entries, factor, source

# USDA National Nutrient Database for Standard Reference, Release 28: grams in a household measure.
PRINTED_WEIGHTS = [
    ("sugar, granulated", "cup", "", 200),
    ("honey", "cup", "", 339),
    ("lemon juice, bottled", "cup", "", 244),
    ("apple juice", "cup", "", 248),
    ("grape juice", "cup", "", 253),
    ("strawberry", "cup", "pureed", 232),
    ("strawberry", "cup", "sliced", 166),
    ("applesauce", "cup", "", 244),
    ("vinegar, white", "cup", "", 238),
    ("maple syrup", "cup", "", 315),
    ("blackberry", "cup", "whole", 144),
    ("bell pepper, green", "cup", "chopped", 149),
    ("egg yolk", "large", "large", 17),
    # Consumer pages on pectin packages agree on 1.75 oz, 49 to 50 g.
    ("pectin, powdered", "package", "powder", 49),
    # Weights and Approximate Processed Yields for Fruits (extension table), where kitchen practice is heavier.
    ("grape, slip-skin", "cup", "whole, stemmed", 151),
    ("raspberry", "cup", "whole", 151),
    ("plum", "cup", "halves", 151),
]
# 21 CFR 150.140(b)(1): soluble solids are 100 divided by the factor.
JELLY_FACTORS = {
    "strawberry": "12.5",
    "raspberry": "9.5",
    "blackberry": "10",
    "apple": "7.5",
    "grape, slip-skin": "7",
    "crabapple": "6.5",
    "cherry, sour": "7",
    "peach, yellow": "8.5",
    "apricot": "7",
    "plum": "7",
    "orange": "8",
    "pineapple": "7",
    "cranberry": "9.5",
    "guava": "13",
    "quince": "7.5",
    "gooseberry": "12",
    "fig": "5.5",
    "loganberry": "9.5",
    "currant, red": "9.5",
}
# Fruit whose printed pH passes 4.6 and which guidance yet treats as acid, with the reason.
ACID_ALL_THE_SAME = {
    "apricot": "USDA Complete Guide, Guide 2, p. 2-9, cans apricots without acid",
}


def test_there_are_as_many_entries_as_were_collected_and_more() -> None:
    assert len(entries()) >= 322 + 60
    assert all(name == entry.name for name, entry in entries().items())


@pytest.mark.parametrize(("name", "unit", "state", "grams"), PRINTED_WEIGHTS)
def test_a_printed_weight_is_in_the_table(name: str, unit: str, state: str, grams: int) -> None:
    weights = [weight for weight in entries()[name].weights if weight.unit == unit and state in weight.state]
    assert Fraction(grams) in {weight.low for weight in weights}
    assert all(weight.how == "read" for weight in weights if weight.low == grams)


@pytest.mark.parametrize(("name", "factor"), JELLY_FACTORS.items())
def test_soluble_solids_follow_the_standard_of_identity(name: str, factor: str) -> None:
    solids = entries()[name].solids
    assert solids is not None
    assert abs(solids - 100 / Fraction(factor)) <= Fraction(5, 100)


def test_the_factor_tables_are_whole() -> None:
    assert factor("jelly", "strawberry") == (Fraction("12.5"), source("factors/jelly"))
    found = factor("fruit butter", "pear")
    assert found is not None
    assert found[0] == Fraction("6.5")
    assert factor("jelly", "banana") is None


def test_honey_arithmetic() -> None:
    # USDA SR28: a cup of honey is 281.0 g soluble solids and 58.0 g water; a cup of sugar is all solids.
    honey, sugar = entries()["honey"], entries()["sugar, granulated"]
    assert honey.solids is not None
    assert honey.water is not None
    assert round(float(339 * honey.solids / 100), 1) == 281.0
    assert round(float(339 * honey.water / 100), 1) == 58.0
    assert sugar.solids == 100


def test_the_doubtful_figures_are_corrected() -> None:
    agave = entries()["agave syrup"].weights
    assert {(weight.unit, weight.low) for weight in agave} == {("tsp", Fraction("6.9"))}
    cranberry = entries()["cranberry juice, unsweetened"]
    assert cranberry.solids == Fraction("7.5")
    assert cranberry.sugars is None
    assert cranberry.water is None
    assert entries()["blackberry"].solids == 10
    assert all(weight.low != 83 for weight in entries()["maple syrup"].weights)
    assert entries()["lemon juice, bottled"].acid == Fraction("4.5")


def test_the_unsafe_end_decides_the_class() -> None:
    low = [
        "fig",
        "fig, dried",
        "date",
        "mango, ripe",
        "mango, half-ripe",
        "persimmon, Japanese",
        "elderberry",
        "carrot",
    ]
    assert {name: entries()[name].safety for name in low} == dict.fromkeys(low, "low-acid")
    assert entries()["pineapple, ripe"].safety == "borderline"
    assert entries()["elderberry, blue"].safety == "high-acid"
    for name, entry in entries().items():
        if entry.ph is not None and entry.ph[1] > Fraction("4.6"):
            assert entry.safety != "high-acid" or name in ACID_ALL_THE_SAME


def test_every_figure_has_a_source_that_is_listed() -> None:
    figures = ("solids", "sugars", "sucrose", "water", "insoluble", "ph", "acid", "refuse")
    for entry in entries().values():
        cited = dict(entry.sources)
        given = {figure for figure in figures if getattr(entry, figure) is not None}
        assert given <= set(cited), entry.name
        assert "safety" in cited
        for how, _, id_ in (text.partition(" ") for text in cited.values()):
            assert how in {"read", "calc", "memory", "assumed", "judgement"}
            assert source(id_).title
        for weight in entry.weights:
            assert weight.how in {"read", "calc", "memory", "assumed", "judgement"}
            assert source(weight.source).title


def test_figures_are_possible() -> None:
    for entry in entries().values():
        for value in (
            entry.solids,
            entry.sugars,
            entry.sucrose,
            entry.water,
            entry.insoluble,
            entry.acid,
            entry.refuse,
        ):
            assert value is None or 0 <= value <= 100
        if entry.sugars is not None and entry.sucrose is not None:
            assert entry.sucrose <= entry.sugars
        if entry.ph is not None:
            assert 1 < entry.ph[0] <= entry.ph[1] < 10
        for weight in entry.weights:
            assert 0 < weight.low <= weight.high
            assert weight.unit in units()


def test_what_must_be_told_apart_is() -> None:
    tagged = {
        "no-process": {"peach, white", "nectarine, white", "elderberry", "banana", "mango, ripe", "papaya", "cantaloupe", "pumpkin", "butternut squash"},
        "base": {"baking soda", "baking powder", "washing soda", "pickling lime", "chalk", "lye", "sodium citrate", "potassium citrate"},
        "add-acid": {"fig", "pear, Asian", "tomato", "tomatillo"},
        "poison": {"stone-fruit kernels", "stone-fruit pits", "rhubarb leaf", "elder leaf or stem", "elderberry, unripe", "wild berries, unidentified"},
        "not-acid": {"ascorbic acid", "anti-browning powder", "cream of tartar", "wine, red"},
        "preservative": {"potassium sorbate", "sodium benzoate", "sulfite", "aspirin", "canning powder"},
    }  # fmt: skip
    for tag, names in tagged.items():
        assert all(tag in entries()[name].tags for name in names), tag
    for name in (
        "coconut, sweetened flaked",
        "calcium chloride",
        "elderberry, blue",
        "mango, green",
        "citric acid, anhydrous",
    ):
        assert not entries()[name].tags & {"no-process", "base", "poison", "not-acid"}


def test_families_name_the_food() -> None:
    families = {
        "pepper": {"bell pepper, green", "jalapeno pepper", "long green chile", "pepper, fresh, kind unstated"},
        "peach": {"peach, yellow", "peach, white", "peach, frozen, sweetened", "peach, canned"},
        "lemon": {"lemon", "lemon juice, bottled", "lemon juice", "lemon peel"},
        "onion": {"onion", "scallion", "shallot"},
        "tomato": {"tomato", "tomato, green", "tomato, plum type", "tomato paste"},
    }
    for family, names in families.items():
        assert {entries()[name].family for name in names} == {family}


def test_allergens_are_those_that_us_law_names() -> None:
    nine = {"milk", "egg", "fish", "crustacean shellfish", "tree nuts", "peanuts", "wheat", "soybeans", "sesame"}
    assert {allergen for entry in entries().values() for allergen in entry.allergens} == nine
    assert entries()["walnut"].allergens == ("tree nuts",)
    assert entries()["butter, unsalted"].allergens == ("milk",)
