"""A household measure weighs something between two ends, and the ends say how well it is known."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimline.document.units import units
from brimline.figures import entries, state_key, weigh
from brimline.figures.values import Interval

NAMES = sorted(entries())


def grams(name: str, unit: str, *state: str) -> Interval:
    found = weigh(entries()[name], state, unit)
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("name", "unit", "state", "low", "high"),
    [
        # One printed figure, poured or level: 3 % either way.
        ("sugar, granulated", "cup", (), "194", "206"),
        ("honey", "cup", (), "328.83", "349.17"),
        ("lemon juice, bottled", "cup", (), "236.68", "251.32"),
        # One printed figure, cut food: 10 % either way.
        ("strawberry", "cup", ("sliced",), "149.4", "182.6"),
        ("onion", "cup", ("finely chopped",), "144", "176"),
        ("sugar, brown", "cup", ("packed",), "198", "242"),
        # Several printed figures: the least and the most (peach slices 154 g in the database, 181 g in practice).
        ("peach, yellow", "cup", ("sliced",), "154", "181"),
        ("raspberry", "cup", ("whole",), "123", "151"),
        ("grape, slip-skin", "cup", ("whole",), "92", "151"),
        # A stated range: 567 to 680 g a quart, and the pint box at twice 357 g.
        ("strawberry", "qt", ("whole",), "567", "714"),
        # Sizes, and a piece of unstated size.
        ("peach, yellow", "medium", (), "135", "165"),
        ("peach, yellow", "each", (), "130", "224"),
        ("garlic", "clove", (), "2.7", "3.3"),
        ("cinnamon stick", "each", (), "2.34", "2.86"),
        ("pectin, powdered", "box", (), "49", "50"),
    ],
)
def test_the_interval(name: str, unit: str, state: tuple[str, ...], low: str, high: str) -> None:
    assert grams(name, unit, *state) == Interval(Fraction(low), Fraction(high))


def test_what_nobody_weighed_has_no_weight() -> None:
    assert weigh(entries()["dragon fruit"], (), "cup") is None
    assert weigh(entries()["sugar, granulated"], (), "bunch") is None
    assert weigh(entries()["garlic"], (), "each") is None


def test_a_crushed_cup_is_never_taken_for_a_loose_one() -> None:
    crushed, sliced = grams("apple", "cup", "pulp"), grams("apple", "cup", "sliced")
    assert crushed.low > sliced.high
    ground = grams("celery", "cup", "ground")
    assert ground.high >= Fraction("236.5882365")


def test_an_unstated_cut_is_not_crushed() -> None:
    assert grams("strawberry", "cup").high < grams("strawberry", "cup", "crushed").low


@given(st.sampled_from(NAMES), st.sampled_from([(), ("chopped",), ("crushed",), ("whole",), ("packed",)]))
def test_volumes_convert_exactly(name: str, state: tuple[str, ...]) -> None:
    cup, spoon = weigh(entries()[name], state, "cup"), weigh(entries()[name], state, "tbsp")
    assert (cup is None) == (spoon is None)
    if cup and spoon:
        assert Interval(spoon.low * 16, spoon.high * 16) == cup


@given(st.sampled_from(NAMES), st.sampled_from(["chopped", "whole", ""]), st.sampled_from(sorted(units())))
def test_the_ends_are_in_order(name: str, state: str, unit: str) -> None:
    found = weigh(entries()[name], (state,), unit)
    assert found is None or 0 < found.low <= found.high


@given(st.sampled_from(NAMES), st.sampled_from(["g", "kg", "lb", "oz"]))
def test_mass_is_exact(name: str, unit: str) -> None:
    found = weigh(entries()[name], (), unit)
    assert found is not None
    assert found.exact
    assert found.low == units()[unit].factor


@pytest.mark.parametrize(
    ("name", "forms", "key"),
    [
        ("strawberry", ("crushed",), "crushed"),
        ("strawberry", ("whole", "hulled"), "whole"),
        ("onion", ("finely chopped",), "chopped"),
        ("onion", ("diced",), "chopped"),
        ("peach, yellow", ("pulp", "cooked", "drained"), "pureed cooked drained"),
        ("sugar, brown", ("packed",), "packed"),
        ("spearmint, fresh", ("leaves", "packed"), "leaves packed"),
        ("lemon juice, bottled", ("strained",), ""),
        ("strawberry", (), ""),
    ],
)
def test_the_measuring_state(name: str, forms: tuple[str, ...], key: str) -> None:
    assert state_key(entries()[name], forms) == key


@given(
    st.sampled_from(NAMES),
    st.lists(
        st.sampled_from(["chopped", "cooked", "leaves", "halves", "cubes", "packed", "pulp", "sections", "shredded"]),
        max_size=3,
    ),
)
def test_the_state_of_a_state_is_itself(name: str, forms: list[str]) -> None:
    key = state_key(entries()[name], forms)
    assert state_key(entries()[name], [key]) == key
