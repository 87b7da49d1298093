"""Matching the lines of two formulas: what an unknown food may weigh."""

import re
from fractions import Fraction

import pytest
from msgspec import Struct

from brimline.batch.add import add_up
from brimline.batch.values import Batch
from brimline.document import read
from brimline.figures.values import Interval
from brimline.moves.claim import Check, Claim
from brimline.moves.contrast import contrast
from brimline.moves.listing import moves
from brimline.moves.published import _short_of, tables
from brimline.moves.scale import Span2
from brimline.moves.times import Column
from brimline.moves.values import Case, Contrast, Gap, Move, Pair
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
        ("15 1000, 10 above", ()),
        ("15 500, 14 above", ((1, 500, 15),)),
        ("14 1000, 10 above", ((0, 0, 15),)),
        ("15 above", ()),
        ("14 above", ((0, 0, 15),)),
    ],
)
def test_a_table_that_ends_says_nothing_above_and_all_below(
    bands: str, short: tuple[tuple[int, int, int], ...]
) -> None:
    shape = tuple((Fraction(one.split()[0]), _edge(one.split()[1])) for one in bands.split(", "))
    assert _short_of(("lemon_curd_base",), "half-pint", "hot", shape) == short


def _edge(word: str) -> Fraction | None:
    return None if word == "above" else Fraction(word)


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
