"""Matching the lines of two formulas: what an unknown food may weigh."""

import re
from fractions import Fraction

import pytest
from msgspec import Struct

from brimline.batch.add import add_up
from brimline.batch.values import Batch, Item
from brimline.document import read
from brimline.figures.values import Interval
from brimline.moves.claim import Check, Claim
from brimline.moves.contrast import _stated_ratio, contrast
from brimline.moves.listing import moves
from brimline.moves.pair import CUP_ML, Unknowns, build, common, dimensions, pool
from brimline.moves.published import _short_of, tables
from brimline.moves.scale import Span2, spans
from brimline.moves.times import Column
from brimline.moves.values import Case, Contrast, Gap, Move, Pair, grams
from brimline.rules.contract import Rule
from brimline.rules.prose import Habit
from brimline.rules.spoken import ALTITUDE, feet

HEAD = "formula XX-1 Trial\nproduct jam\nstanding draft\nfinish full rolling boil 1 min\nyield 4 half-pint\n\ntake\n"


def batch(*lines: str) -> Batch:
    return batch_of("\n  ".join(lines), "\n")


def batch_of(lines: str, rest: str) -> Batch:
    document = read("t.formula", f"{HEAD}  {lines}{rest}".encode()).document
    assert document is not None
    return add_up(document)


def test_an_unknown_food_weighs_between_puffed_and_syrupy_and_a_piece_between_a_berry_and_a_melon() -> None:
    both = batch("fruit 2 cup wumpberries", "fruit 3 each zorkmelons")
    bounds = {name.rpartition("|")[2]: span for name, span in contrast(both, both).bounds.items()}
    # A cup of puffed rice weighs about 60 g, one of syrup 360 g at the most; the piece is anything (judgement).
    assert bounds == {"cup": Interval(Fraction(60), Fraction(360)), "each": Interval(Fraction(1), Fraction(2000))}


@pytest.mark.parametrize("kind", ["jelly", "jam", "preserves", "marmalade", "conserve"])
def test_a_spread_of_an_agency_without_a_page_has_the_tables_of_its_kind(kind: str) -> None:
    text = f"{HEAD.replace('product jam', f'product {kind}')}  fruit 2 cup peaches\n\nevidence\n"
    document = read(
        "t.formula", f"{text}  source National Center for Home Food Preservation, a page\n".encode()
    ).document
    assert document is not None
    assert {table.kind for table in tables(document)} == {kind}


@pytest.mark.parametrize(
    ("bands", "short"),
    [
        # The table of canned lemon curd is 15 minutes up to 1,000 ft and ends there (National Center, Lemon Curd, Canned).
        ("15 from 0 to 1000, 10 from 1000 to 10000", ()),
        ("15 from 0 to 500, 14 from 500 to 10000", ((1, 15),)),
        ("14 from 0 to 1000, 10 from 1000 to 10000", ((0, 15),)),
        ("15 from 0 to 10000", ()),
        ("14 from 0 to 10000", ((0, 15),)),
    ],
)
def test_a_table_that_ends_says_nothing_above_and_all_below(bands: str, short: tuple[tuple[int, int], ...]) -> None:
    numbers = [[Fraction(word) for word in one.split() if word.isdigit()] for one in bands.split(", ")]
    shape = tuple((minutes, low, high) for minutes, low, high in numbers)
    assert _short_of(("lemon_curd_base",), "half-pint", "hot", shape) == short


@pytest.mark.parametrize(
    ("line", "kind", "wanted"),
    [
        ("acid 2 tbsp lemon juice", "jam", "lemon or lime juice"),
        ("acid 2 tbsp lime juice, bottled", "salsa", "lemon or lime juice"),
        ("fruit 1 cup lemon, sliced", "marmalade", "lemon"),
        ("acid 1 tsp citric acid", "jam", "citric acid, anhydrous"),
        ("acid 1 cup vinegar, white, 5 %", "salsa", "vinegar"),
        ("vegetable 1 cup bell pepper, green", "jelly", "peppers"),
        ("vegetable 1 cup jalapeno pepper", "salsa", "peppers"),
        # A sauce that has peppers in it is no pepper, and neither is a ground spice.
        ("vegetable 1 cup chipotle in sauce", "salsa", "chipotle in sauce"),
        ("spice 1 tsp cayenne pepper", "salsa", "cayenne, ground"),
        ("vegetable 1 oz dried chile pepper", "salsa", "dried chile"),
        # Tomatoes and tomatillos count together in a salsa only, and what is made of tomatoes is another thing.
        ("vegetable 1 cup tomatoes, chopped", "salsa", "tomatoes"),
        ("vegetable 1 cup tomatillos, chopped", "salsa", "tomatoes"),
        ("vegetable 1 cup tomatoes, chopped", "relish", "tomato"),
        ("vegetable 1 cup tomatoes, chopped", "sauce", "tomato"),
        ("vegetable 1 cup tomatoes, chopped", "tomato", "tomato"),
        ("vegetable 12 oz tomato paste", "salsa", "tomato paste"),
        ("vegetable 1 cup tomato sauce", "salsa", "tomato sauce"),
        ("vegetable 1 oz tomatoes, dried", "salsa", "tomato, dried"),
        ("vegetable 1 lb onion, yellow", "salsa", "onion"),
        # A cup of brown or powdered sugar is not as strong as one of granulated.
        ("sweetener 1 cup sugar, granulated", "jam", "sugar"),
        ("sweetener 1 cup sugar, brown, packed", "jam", "sugar, brown"),
        ("sweetener 1 cup sugar, powdered", "jam", "sugar, powdered"),
        ("salt 1 tsp salt, canning", "salsa", "salt"),
        ("nut 1 cup walnuts, chopped", "conserve", "nuts"),
        ("fruit 2 cup strawberries, frozen", "jam", "strawberry"),
        ("fruit 2 cup cherries, tart", "jam", "cherry, sour"),
        ("fat 1 tbsp butter, unsalted", "jam", "butter"),
        ("fruit 2 cup wumpberries", "jam", "wumpberries"),
    ],
)
def test_what_counts_together(line: str, kind: str, wanted: str) -> None:
    assert pool(batch(line).items[0], kind) == wanted


def stated(*lines: str) -> tuple[Item, ...]:
    return batch(*lines).items


def test_two_sides_are_compared_in_every_measure_that_all_their_lines_state() -> None:
    both = stated("fruit 2 cup = 300 g plums, sliced")
    assert common(both, both, pooled=False) == [("mass", "mass"), ("volume:sliced", "volume:sliced")]
    assert common(both, stated("fruit 300 g plums"), pooled=False) == [("mass", "mass")]
    # Grams on one line and a cup on the next are no measure of both.
    assert common(both, stated("fruit 300 g plums", "fruit 1 cup plums, sliced"), pooled=False) == []
    assert common(both, stated("fruit 3 each plums"), pooled=False) == []
    # A cup that does not say how it is measured is measured as on the other side, on whichever it is.
    plain = stated("fruit 2 cup plums")
    assert common(plain, both, pooled=False) == [("volume:", "volume:sliced")]
    assert common(both, plain, pooled=False) == [("volume:sliced", "volume:")]
    # What is left to the cook states no measure; the other lines do.
    assert dimensions(stated("fruit some plums", "fruit 2 cup plums"), pooled=False) == ["volume:"]
    assert dimensions(stated("fruit some plums"), pooled=False) == []


def test_several_kinds_are_compared_by_weight_or_by_cups_and_never_by_pieces() -> None:
    kinds = stated("vegetable 2 each jalapeno pepper", "vegetable 3 each bell pepper")
    assert dimensions(kinds, pooled=False) == ["count:each"]
    assert dimensions(kinds, pooled=True) == []
    cups = stated("vegetable 2 cup = 9 oz jalapeno pepper, chopped", "vegetable 3 cup = 15 oz bell pepper, sliced")
    assert dimensions(cups, pooled=True) == ["mass", "volume:"]
    assert dimensions(cups, pooled=False) == ["mass"]


def test_how_much_more_there_is_is_told_in_a_measure_that_both_sides_state() -> None:
    # Two measures were tested, and one of them is stated here: three cups for two.
    was = stated("vegetable 2 cup = 9 oz bell pepper, chopped")
    assert _stated_ratio(was, stated("vegetable 3 cup bell pepper, chopped")) == Fraction(3, 2)
    assert _stated_ratio(was, stated("vegetable 3 cup = 18 oz bell pepper, chopped")) == 2
    assert _stated_ratio(was, stated("vegetable 3 each bell pepper")) is None


PEPPER = ("vegetable 1 to 2 cup bell pepper, chopped", "vegetable 3 cup jalapeno pepper, sliced")


@pytest.mark.parametrize(
    ("was", "now", "cups"),
    [
        (("fruit 2 to 3 cup plums",), ("fruit 4 to 6 cup plums",), [(2, 3, 4, 6)]),
        (PEPPER, PEPPER, [(4, 5, 4, 5)]),
        (PEPPER, ("vegetable 6 to 7 cup bell pepper, chopped",), [(4, 5, 6, 7)]),
        # From nothing on: of how much the amount is more cannot be said.
        (("fruit 0 to 3 cup plums",), ("fruit 1 to 6 cup plums",), []),
        (("fruit 1 to 3 cup plums",), ("fruit 0 to 6 cup plums",), []),
        (("fruit some plums",), ("fruit 1 cup plums",), []),
        (("fruit 1 cup plums",), ("fruit 1 cup plums", "fruit some plums"), []),
    ],
)
def test_the_ends_of_both_sides(was: tuple[str, ...], now: tuple[str, ...], cups: list[tuple[int, ...]]) -> None:
    pair, shared = build(("plum", "kept"), stated(*was), stated(*now), Unknowns())
    assert spans(pair, shared) == tuple(Span2(*(CUP_ML * one for one in row)) for row in cups)


# 2 % of 2 g are 0.04 g, of 3 g 0.06 g.
@pytest.mark.parametrize(
    ("was", "now", "least", "most", "snapped"),
    [
        (("2 g",), ("2 g",), 2, 2, True),
        (("2 g",), ("2.02 g",), 2, 2, True),
        (("2 g",), ("2.04 g",), 2, 2, True),
        (("2 g",), ("1.96 g",), 2, 2, True),
        (("2 g",), ("2.05 g",), "2.05", "2.05", False),
        (("2 g",), ("1.95 g",), "1.95", "1.95", False),
        (("2 to 3 g",), ("2.02 to 3.03 g",), 2, 3, True),
        # One end as tested, the other not.
        (("2 to 3 g",), ("2.02 to 5 g",), 2, 5, False),
        (("2 to 3 g",), ("1 to 3.03 g",), 1, 3, False),
        (("2 to 3 g",), ("1 to 5 g",), 1, 5, False),
        # What may be left out stays so; what was an option and is none any more is all in.
        (("2 g",), ("optional 2.02 g",), 0, 2, True),
        (("2 g",), ("1.01 g", "optional 1.01 g"), "1.01", 2, True),
        (("optional 2 g",), ("2.02 g",), 2, 2, True),
        (("1 g", "optional 1 g"), ("2.02 g",), 2, 2, True),
        (("optional 2 to 3 g",), ("2.02 to 5 g",), "2.02", 5, False),
        (("2 to 3 g",), ("1 g", "optional 1.02 to 4 g"), 1, 5, False),
    ],
)
def test_amounts_within_two_per_cent_are_as_tested(
    was: tuple[str, ...], now: tuple[str, ...], least: str, most: str, snapped: bool
) -> None:
    def side(amounts: tuple[str, ...]) -> Batch:
        lines = [("optional " if one.startswith("optional") else "") + "salt " for one in amounts]
        return batch(
            *(f"{line}{one.removeprefix('optional ')} salt, canning" for line, one in zip(lines, amounts, strict=True))
        )

    (pair,) = contrast(side(was), side(now), Fraction(1)).pairs
    found = [grams(some).get("", Fraction(0)) for some in (pair.now_least, pair.now_most)]
    assert (*found, pair.snapped) == (Fraction(least), Fraction(most), snapped)


@pytest.mark.parametrize(
    ("now", "chopped", "sliced"),
    [(("2 each", "3 each"), 2, 3), (("3 each", "2 each"), 3, 2), (("2.02 each", "3.03 each"), 2, 3)],
)
def test_pieces_cut_in_two_ways_are_as_tested_where_each_is(now: tuple[str, str], chopped: int, sliced: int) -> None:
    was = batch("vegetable 2 each onion, chopped", "vegetable 3 each onion, sliced")
    (pair,) = contrast(
        was, batch(f"vegetable {now[0]} onion, chopped", f"vegetable {now[1]} onion, sliced"), Fraction(1)
    ).pairs
    assert list(grams(pair.now_most).values()) == [chopped, sliced]


def test_a_side_alone_is_read_by_weight_before_volume_before_pieces() -> None:
    was = batch("fruit 2 cup = 300 g wumpberries", "fruit 2 cup plums", "fruit 3 each = 100 g wumpberries")
    pair = next(
        one for one in contrast(was, batch("sweetener 1 cup sugar, granulated")).pairs if one.name == "wumpberries"
    )
    # 300 g and 100 g, whatever the cups and the pieces hold.
    assert [dict(form) for _, form in pair.was_most] == [{"": Fraction(300)}, {"": Fraction(100)}]


def test_a_jar_that_went_is_pointed_at_where_the_first_one_stood() -> None:
    pack = "\n\npack\n  jar {}\n"
    ends = [batch_of("fruit 2 cup plums", pack.format(jars)) for jars in ("pint, quart", "half-pint")]
    tested, adapted = (one.document for one in ends)
    found = moves(tested, adapted, contrast(*ends))
    assert [(one.kind, one.was, one.before) for one in found] == [("jar", "pint and quart", tested.pack.jars[0].span)]


@pytest.mark.parametrize("value", [Check, Claim, Span2, Column, Pair, Contrast, Gap, Move, Case, Rule, Habit])
def test_what_is_handed_on_cannot_be_changed(value: type[Struct]) -> None:
    # Comparisons are remembered and handed to every rule; one that changed its value would change it for the others.
    assert value.__struct_config__.frozen


# The international foot is 0.3048 m.
@pytest.mark.parametrize(
    ("said", "there"), [("3048 m", 10000), ("3,048 metres", 10000), ("1,000 ft", 1000), ("1 foot", 1)]
)
def test_altitudes_said_in_a_step(said: str, there: int) -> None:
    found = re.fullmatch(ALTITUDE, said)
    assert found is not None
    assert feet(found) == there


def names(was: tuple[str, ...], now: tuple[str, ...]) -> set[str]:
    return {pair.name for pair in contrast(batch(*was), batch(*now)).pairs}


PEPPERS = ("vegetable 2 cup bell pepper, green", "vegetable 1 cup jalapeno pepper")
APART = {"bell pepper, green", "jalapeno pepper"}


@pytest.mark.parametrize(
    ("now", "wanted"),
    [
        (("vegetable 4 cup bell pepper, green", "vegetable 2 cup jalapeno pepper"), APART),
        (
            (
                "vegetable 3 cup bell pepper, green",
                "vegetable 1 cup bell pepper, green",
                "vegetable 2 cup jalapeno pepper",
            ),
            APART,
        ),
        # 2.04 of 1 is 2 % more than 4 of 2, which is one proportion; 2.05 of 1 is another.
        (("vegetable 4 cup bell pepper, green", "vegetable 2.04 cup jalapeno pepper"), APART),
        (("vegetable 4 cup bell pepper, green", "vegetable 2.05 cup jalapeno pepper"), {"peppers"}),
        (("vegetable 4 cup bell pepper, green", "vegetable 1.95 cup jalapeno pepper"), {"peppers"}),
        (("vegetable 4 cup bell pepper, green", "vegetable 2 cup cayenne pepper, fresh"), {"peppers"}),
        (("vegetable 4 cup bell pepper, green",), {"peppers"}),
        # Pounds beside cups tell no proportion.
        (("vegetable 1 lb bell pepper, green", "vegetable 2 cup jalapeno pepper"), {"peppers"}),
        (("vegetable 4 cup bell pepper, green", "vegetable 1 lb jalapeno pepper"), {"peppers"}),
    ],
)
def test_a_pool_is_taken_apart_where_its_kinds_keep_their_proportion(now: tuple[str, ...], wanted: set[str]) -> None:
    assert names(PEPPERS, now) == wanted
    assert names(now, PEPPERS) == wanted


def test_one_kind_stays_in_its_pool_and_the_next_pool_is_looked_at() -> None:
    one = ("vegetable 2 cup bell pepper, green",)
    assert names(one, one) == {"peppers"}
    acids = ("acid 1 tbsp lemon juice", "acid 1 tbsp lime juice")
    assert names((*one, *acids), (*one, *acids)) == {"peppers", "lemon juice", "lime juice"}


def test_a_proportion_is_read_in_the_measure_that_both_sides_have() -> None:
    was = ("vegetable 2 cup = 300 g bell pepper, green", "vegetable 100 g jalapeno pepper")
    now = ("vegetable 150 g bell pepper, green", "vegetable 50 g jalapeno pepper")
    assert names(was, now) == names(now, was) == APART


# Two cups on both sides; 306 g are 2 % more than 300, 307 g 2.3 %.
@pytest.mark.parametrize(
    ("was", "now", "apart"),
    [
        ("2 cup = 300 g", "2 cup = 306 g", ""),
        ("2 cup = 300 g", "2 cup = 307 g", "volume and mass"),
        ("2 cup = 306 g", "2 cup = 300 g", ""),
        ("2 cup = 307 g", "2 cup = 300 g", "mass and volume"),
        ("2 cup = 300 g", "4 cup = 600 g", ""),
    ],
)
def test_two_measures_disagree_beyond_two_per_cent(was: str, now: str, apart: str) -> None:
    (pair,) = contrast(batch(f"fruit {was} plums"), batch(f"fruit {now} plums")).pairs
    assert pair.disagree == apart


@pytest.mark.parametrize(
    ("now", "scale", "tied"),
    [
        # Fruit doubled and sugar not: the fruit decides, and a whole batch has as many votes.
        (("fruit 4 cup plums", "sweetener 1 cup sugar, granulated"), 2, True),
        (("fruit 1 cup plums", "sweetener 1 cup sugar, granulated"), Fraction(1, 2), True),
        (("fruit 2 cup plums", "sweetener 1 cup sugar, granulated"), 1, False),
        (("fruit 4 cup plums", "sweetener 2 cup sugar, granulated"), 2, False),
        (("fruit 2 cup plums", "sweetener 2 cup sugar, granulated"), 1, False),
    ],
)
def test_a_whole_batch_may_have_as_many_votes(now: tuple[str, ...], scale: Fraction, tied: bool) -> None:
    both = contrast(batch("fruit 2 cup plums", "sweetener 1 cup sugar, granulated"), batch(*now))
    assert (both.scale, both.tied) == (scale, tied)


def test_three_votes_against_one_are_no_tie() -> None:
    was = ("fruit 2 cup plums", "fruit 2 cup peaches", "sweetener 1 cup sugar, granulated", "salt 1 tsp salt, table")
    now = ("fruit 4 cup plums", "fruit 4 cup peaches", "sweetener 2 cup sugar, granulated", "salt 1 tsp salt, table")
    both = contrast(batch(*was), batch(*now))
    assert (both.scale, both.tied) == (2, False)
