"""A written name means what a cook means by it, or the tool says that it cannot tell."""

import csv
import itertools
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimline.figures import entries
from brimline.figures.names import find
from brimline.figures.values import Match

DATA = Path(__file__).parent / "data"

# What is written, and the entry it is. Each pair of a group would be a mistake, some of them a dangerous one.
APART = [
    {"rose hips": "rose hip", "rose water": "rose water", "rose petals": "rose petals"},
    {"mangoes, green": "mango, green", "mangoes, ripe": "mango, ripe", "mangoes, half-ripe": "mango, half-ripe"},
    {"peaches, white-flesh": "peach, white", "peaches, yellow": "peach, yellow"},
    {"white peaches": "peach, white", "peaches": "peach, yellow"},
    {"nectarines, white-flesh": "nectarine, white", "nectarines": "nectarine"},
    {"pepper, black, ground": "black pepper", "peppers, chopped": "pepper, fresh, kind unstated"},
    {"pepper, sweet, red": "bell pepper, red", "red pepper, ground": "cayenne, ground"},
    {"red pepper flakes": "red pepper flakes", "red peppers, crushed": "pepper, fresh, kind unstated"},
    {"limes": "lime", "lime, pickling": "pickling lime", "lime juice": "lime juice"},
    {"ginger, fresh, grated": "ginger, fresh", "ginger, ground": "ginger, ground", "ginger ale": "soft drink"},
    {"cider": "apple juice", "cider vinegar": "vinegar, cider", "hard cider": "cider, hard"},
    {"apples": "apple", "pineapples": "pineapple", "crab apples": "crabapple"},
    {"currants, red": "currant, red", "currants, dried": "currant, dried", "currants, black": "currant, black"},
    {"grapes": "grape", "grapefruit": "grapefruit", "grape leaves": "grape leaf"},
    {"coconut milk": "coconut milk", "milk": "milk, whole", "coconut, flaked": "coconut, sweetened flaked"},
    {"butter": "butter, unsalted", "apple butter": "apple butter", "peanut butter": "peanut butter"},
    {"oranges": "orange", "orange juice": "orange juice", "orange pepper": "bell pepper, yellow"},
    {"orange peel": "orange peel", "oranges, peeled": "orange", "orange flower water": "orange flower water"},
    {"corn": "corn, sweet", "corn syrup": "corn syrup", "corn starch": "cornstarch"},
    {"plums": "plum", "plum tomatoes": "tomato, plum type", "prunes": "prune"},
    {"cherries": "cherry", "cherry tomatoes": "cherry tomato", "ground cherries": "ground cherry"},
    {"cherries, ground": "cherry", "cherry peppers": "cherry pepper", "cherry pits": "stone-fruit pits"},
    {"tomatoes": "tomato", "tomato paste": "tomato paste", "paste tomatoes": "tomato, plum type"},
    {"tomatoes, green": "tomato, green", "tomatillos": "tomatillo", "tomato juice": "tomato juice"},
    {"lemon juice": "lemon juice", "lemon juice, fresh": "lemon juice, fresh", "lemons": "lemon"},
    {"lemon juice, bottled": "lemon juice, bottled", "lemonade": "lemonade concentrate"},
    {"lemon zest": "lemon peel", "lemon balm": "lemon balm", "lemongrass": "lemongrass"},
    {"elderberries": "elderberry", "elderberries, blue": "elderberry, blue", "elderflowers": "elderflower"},
    {"elderberries, unripe": "elderberry, unripe", "elderberries, dried": "elderberry, dried"},
    {"vinegar, white": "vinegar, white", "wine, white": "wine, white", "vinegar, white wine": "vinegar, white wine"},
    {"vinegar": "vinegar", "vinegar, home-made": "vinegar, home-made", "vinegar base": "pickling vinegar base"},
    {"baking soda": "baking soda", "baking powder": "baking powder", "washing soda": "washing soda"},
    {"citric acid": "citric acid, anhydrous", "sodium citrate": "sodium citrate", "ascorbic acid": "ascorbic acid"},
    {"sugar": "sugar, granulated", "jam sugar": "sugar, gelling", "sugar, powdered": "sugar, powdered"},
    {"honey": "honey", "honeydew": "honeydew", "honey, dark": "honey, dark"},
    {"pectin, powdered": "pectin, powdered", "pectin, liquid": "pectin, liquid", "pectin": "pectin"},
    {"pectin, low-sugar": "pectin, low-sugar powdered", "pectin, home-made": "pectin, home-made"},
    {"peaches, frozen, sweetened": "peach, frozen, sweetened", "peaches, canned": "peach, canned"},
    {"strawberries": "strawberry", "strawberries, frozen": "strawberry, frozen", "strawberry juice": "strawberry juice"},
    {"figs": "fig", "figs, dried": "fig, dried", "prickly pears": "prickly pear"},
    {"pears": "pear", "pears, Asian": "pear, Asian", "avocado pears": ""},
    {"onions": "onion", "onions, green": "scallion", "onions, dried": "dried onion"},
    {"potatoes": "potato", "sweet potatoes": "sweet potato", "potato starch": "potato starch"},
    {"garlic": "garlic", "garlic powder": "garlic powder", "cloves": "cloves, ground"},
    {"celery": "celery", "celery seed": "celery seed", "celery salt": "salt, seasoned"},
    {"cinnamon sticks": "cinnamon stick", "cinnamon candies": "cinnamon candies", "cinnamon oil": "essential oil"},
    {"almonds": "almond", "almond extract": "almond extract", "bitter almonds": "stone-fruit kernels"},
    {"watermelon": "watermelon", "watermelon rind": "watermelon rind", "water": "water"},
    {"rhubarb": "rhubarb", "rhubarb leaves": "rhubarb leaf", "berries": "berries"},
    {"wild berries": "wild berries, unidentified", "wild strawberries": "strawberry"},
]  # fmt: skip


def written(text: str, unit: str = "") -> Match:
    item, *forms = (part.strip() for part in text.split(","))
    return find(item, tuple(forms), unit)


def name(text: str, unit: str = "") -> str:
    entry = written(text, unit).entry
    return entry.name if entry else ""


@pytest.mark.parametrize(("text", "meant"), [pair for group in APART for pair in group.items()])
def test_near_names_do_not_cross(text: str, meant: str) -> None:
    assert name(text) == meant


def test_the_near_names_are_enough_and_each_group_holds_different_foods() -> None:
    assert len(APART) >= 30
    assert all(len(set(group.values())) == len(group) for group in APART[:-1] if "peaches" not in group)


@pytest.mark.parametrize(
    ("text", "could_be"),
    [
        ("pepper", {"black pepper", "pepper, fresh, kind unstated"}),
        ("ginger", {"ginger, fresh", "ginger, ground", "ginger, crystallized"}),
        ("mustard", {"mustard, prepared", "mustard seed"}),
        ("currants", {"currant, red", "currant, black", "currant, dried"}),
        ("thyme", {"thyme, fresh", "thyme, dried"}),
        ("sage", {"sage, fresh", "sage, ground"}),
        ("soda", {"soft drink", "baking soda", "washing soda"}),
    ],
)
def test_a_name_of_two_things_is_neither(text: str, could_be: set[str]) -> None:
    match = written(text)
    assert match.entry is None
    assert set(match.ambiguous) == could_be


@pytest.mark.parametrize(
    ("text", "could_be"),
    [
        ("peaches, white or yellow, sliced", {"peach, yellow", "peach, white"}),
        ("nectarines, white-flesh or yellow-flesh", {"nectarine", "nectarine, white"}),
        ("tomatoes, fresh or dried", {"tomato", "tomato, dried"}),
    ],
)
def test_a_choice_that_takes_in_a_worse_food_is_neither(text: str, could_be: set[str]) -> None:
    match = written(text)
    assert match.entry is None
    assert set(match.ambiguous) == could_be


def test_the_unit_settles_a_spice_by_the_teaspoon() -> None:
    assert name("pepper", "tsp") == "black pepper"
    assert name("pepper", "cup") == ""
    assert name("pepper", "each") == ""
    assert name("cinnamon", "stick") == "cinnamon stick"
    assert name("cinnamon", "tsp") == "cinnamon, ground"


def misspelt() -> list[tuple[str, str]]:
    with (DATA / "misspelt.csv").open(encoding="utf-8", newline="") as file:
        return [(row["written"], row["meant"]) for row in csv.DictReader(file)]


def test_misspelt_names_get_the_right_word_first() -> None:
    right = []
    for text, meant in misspelt():
        match = written(text)
        first = match.entry.name if match.entry else (match.nearest or ("",))[0]
        known = written(first)
        could_be = {known.entry.name} if known.entry else set(known.ambiguous)
        right.append(meant in could_be or any(meant in entries()[one].family for one in could_be))
    assert len(right) >= 40
    assert sum(right) >= len(right) * 36 / 40


@pytest.mark.parametrize("text", ["strawbery jam base", "gravel", "zzyzx", "eye of newt", ""])
def test_an_unknown_name_is_never_guessed(text: str) -> None:
    match = written(text)
    assert match.entry is None
    assert len(match.nearest) <= 3


@pytest.mark.parametrize(
    "text", ["gooseberries, dried", "gooseberries, frozen, sweetened", "cherries, in brandy", "quinces, candied"]
)
def test_a_form_that_makes_another_thing_is_not_dropped(text: str) -> None:
    match = written(text)
    assert match.entry is None
    assert match.nearest


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("lemons, peel removed", "lemon"),
        ("oranges, without peel", "orange"),
        ("apples, cooked in cider vinegar", ""),
        ("corn, in syrup", ""),
        ("garlic, minced, in oil", "garlic, in oil"),
        ("sugar, with pectin", "sugar, gelling"),
        ("peaches, in heavy syrup", "peach, canned"),
        ("blueberries, fresh or frozen", "blueberry"),
        ("mangoes, green or ripe", "mango, ripe"),
        ("lemon juice, fresh or bottled", "lemon juice"),
        ("juice of lemons", "lemon juice"),
    ],
)  # fmt: skip
def test_what_a_form_denies_or_leaves_open_decides_nothing(text: str, meant: str) -> None:
    assert name(text) == meant


def test_every_printed_item_of_the_published_formulas_is_known() -> None:
    with (DATA / "printed_items.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    unknown = []
    for row in rows:
        state = re.sub(r"\([^()]*\)", "", row["state"])
        forms = tuple(part.strip() for part in state.split(",") if part.strip())
        if find(row["item"], forms, row["unit"]).entry is None:
            unknown.append(row)
    assert len(rows) > 200
    assert unknown == []


# Several words that only describe; common practice, no source.
DESCRIBED = {
    "lemon juice, fresh, strained": "lemon juice, fresh",
    "lemon juice, bottled, strained": "lemon juice, bottled",
    "lemon juice, strained": "lemon juice",
    "strained lime juice, fresh": "lime juice, fresh",
    "caster sugar, white": "sugar, superfine",
    "brown sugar, organic": "sugar, brown",
    "pineapple, ripe, fresh": "pineapple, ripe",
    "raspberries, frozen, red": "raspberry, frozen",
    "yellow tomatoes, fresh": "tomato, yellow",
    "onions, sweet, white": "onion, sweet",
}


@pytest.mark.parametrize(("text", "meant"), DESCRIBED.items())
def test_two_describing_words_leave_what_one_leaves(text: str, meant: str) -> None:
    item, *forms = text.split(", ")
    match = find(item, tuple(forms))
    assert match.entry is not None, match.ambiguous
    assert match.entry.name == meant


def test_every_name_of_the_table_means_its_own_entry() -> None:
    astray = {
        (alias, entry.name)
        for entry in entries().values()
        for alias in (entry.name, *entry.aliases)
        if (found := find(alias).entry) is None or found.name != entry.name
    }
    assert astray == set()


words = st.sampled_from(["chopped", "peeled", "fresh", "large", "finely chopped", "ripe", "washed"])


@given(st.lists(words, max_size=3), st.sampled_from(["peaches", "onions", "tomatoes", "gooseberries", "carrots"]))
def test_describing_words_change_nothing_but_the_state(forms: list[str], item: str) -> None:
    plain, described = find(item), find(item, tuple(forms))
    assert plain.entry is not None
    assert described.entry == plain.entry


@pytest.mark.parametrize("words", list(itertools.permutations(["lemon", "juice", "bottled"])))
def test_the_order_of_words_does_not_matter(words: tuple[str, ...]) -> None:
    assert name(", ".join(words)) == "lemon juice, bottled"
    assert name(" ".join(words)) == "lemon juice, bottled"


@pytest.mark.parametrize(
    "text", ["JALAPEÑO PEPPERS", "jalapen\u0303os", "Jalapeño-peppers", "jalapenos (seeded, about 4)"]
)
def test_case_accents_hyphens_and_parentheses_do_not_matter(text: str) -> None:
    assert name(text) == "jalapeno pepper"


@given(st.text(max_size=60), st.lists(st.text(max_size=20), max_size=3))
def test_any_text_is_answered(item: str, forms: list[str]) -> None:
    match = find(item, tuple(forms))
    assert match.entry is None or not match.nearest
