"""The scale that most amounts agree on, and how published numbers and end points are put in words."""

from fractions import Fraction

import pytest

from brimline.batch.words import finish_words
from brimline.document.values import Finish
from brimline.figures.values import Interval
from brimline.findings import Span
from brimline.moves.claim import least_of
from brimline.moves.printed import cup_grams, printed, printed_words, prints
from brimline.moves.scale import Span2, vote
from brimline.rules.sugar_swap import cups_words

NOWHERE = Span(0, 0)


def went(was: str, now: str) -> tuple[Span2, ...]:
    """One amount in one dimension: `5`, or `4 5` for a range."""
    left, right = ([Fraction(part) for part in side.split()] for side in (was, now))
    return (Span2(left[0], left[-1], right[0], right[-1]),)


@pytest.mark.parametrize(
    ("amounts", "scale", "votes"),
    [
        # Two of three doubled.
        ((("5", "10"), ("3", "6"), ("2", "2")), "2", 2),
        # Two against two: base ingredients decide (the first two are), then the whole batch.
        ((("5", "10"), ("3", "6"), ("2", "2"), ("7", "7")), "2", 2),
        ((("5", "5"), ("3", "6")), "1", 1),
        ((("5", "5/2"), ("3", "9")), "1/2", 1),
        ((("5", "20"), ("3", "1")), "1/3", 1),
        # A double batch is nearer to the whole one than a third of it, and as near as half of it: the less is taken.
        ((("3", "1"), ("5", "10")), "2", 1),
        ((("5", "10"), ("3", "3/2")), "1/2", 1),
        # Four thirds are nearer to the whole batch than two thirds (3/2 the other way).
        ((("3", "4"), ("3", "2")), "4/3", 1),
        # No kitchen scale: 1.7 of both. A range inside the tested one: from 1.961 to 2.551 of it, two is there.
        ((("10", "17"), ("20", "34")), "17/10", 2),
        ((("4 6", "10 12"), ("3", "6")), "2", 2),
        # A range of which both ends are 1.7 of the tested ones (3.4 of 2, 5.1 of 3).
        ((("2 3", "17/5 51/10"), ("10", "17")), "17/10", 2),
        # From 1.569 to 1.735 and from 1.686 to 1.939 meet where 1.7 (3.4 of 2) and 1.72 (3.44 of 2) lie; the less is taken.
        ((("2 3", "3.4 4.8"), ("1 2", "1.9 3.44")), "17/10", 2),
        # From 1.569 to 1.776: 1.74 (3.48 of 2) and 1.72.
        ((("2 3", "3.48 4.8"), ("1 2", "1.9 3.44")), "43/25", 2),
        # Within 2 % either way is agreement, 2.5 % is not.
        ((("100", "102"), ("50", "50"), ("30", "29.4")), "1", 3),
        ((("100", "102.5"), ("50", "50"), ("30", "29.2")), "1", 1),
        # A range agrees where it lies inside the tested one.
        ((("4 5", "4 4"), ("3", "3")), "1", 2),
        ((("4 5", "3 5"), ("3", "3")), "1", 1),
    ],
)
def test_the_scale_with_most_votes_wins(amounts, scale: str, votes: int) -> None:
    ends = [went(*one) for one in amounts]
    assert vote(ends, [place < 2 for place in range(len(ends))]) == (Fraction(scale), votes)


@pytest.mark.parametrize("scale", ["1/4", "1/3", "1/2", "2/3", "3/4", "1", "3/2", "2", "3", "4"])
def test_roundings_on_both_sides_of_a_kitchen_scale_agree_on_it(scale: str) -> None:
    at = Fraction(scale)
    ends = [went("1000", str(1000 * at * Fraction(part, 1000))) for part in (1015, 985)]
    assert vote(ends, [True, True]) == (at, 2)


def test_an_amount_without_a_shared_measure_does_not_vote() -> None:
    assert vote([(), went("3", "6")], [True, True]) == (2, 1)


def test_an_amount_in_two_measures_votes_only_where_both_agree() -> None:
    both = (*went("2", "4"), *went("100", "200"))
    apart = (*went("2", "4"), *went("100", "100"))
    assert vote([both, went("3", "6")], [True, True]) == (2, 2)
    assert vote([apart, went("3", "6")], [True, True]) == (2, 1)


# 2 % of 100 either way, for a range from its own ends.
@pytest.mark.parametrize(
    ("was", "now", "fits"),
    [
        ("100", "100", True),
        ("100", "102", True),
        ("100", "102.1", False),
        ("100", "98", True),
        ("100", "97.9", False),
        ("100 200", "98 204", True),
        ("100 200", "97 200", False),
        ("100 200", "100 205", False),
        ("100 200", "150 150", True),
    ],
)
def test_within_two_per_cent_of_the_tested_range(was: str, now: str, fits: bool) -> None:
    assert went(was, now)[0].fits(Fraction(1)) is fits


# The words and numbers are those of the published notes (Michigan State University Extension 01600540).
def test_printed_numbers() -> None:
    honey = "honey_added_pectin_2_cups"
    cup = Fraction("236.5882365")
    assert printed_words(honey, "at most") == "2 cups"
    assert printed_words(honey, "at most in a small batch") == "3/4 to 1 cup"
    assert printed_words(honey, "no such number") == ""
    assert (printed(honey, "at most").low, printed(honey, "at most").high) == (2 * cup, 2 * cup)
    assert printed(honey, "at most in a small batch").low == cup * 3 / 4
    # A count of jars is no volume.
    assert (printed(honey, "small batch").low, printed(honey, "small batch").high) == (5, 6)
    assert (prints(honey, "at most"), prints(honey, "no such number")) == (True, False)
    with pytest.raises(KeyError):
        printed(honey, "no such number")
    assert printed_words("tomato_acid", "citric acid, per quart") == "1/2 tsp"
    # USDA Complete Guide, Guide 2: a very light syrup for nine pints has three quarters of a cup of sugar.
    assert printed_words("syrup_strengths", "very light, sugar for 9 pints") == "3/4 cup"


# Household weights of the USDA: a cup of honey 339 g, of packed brown sugar 220 g.
def test_cups_in_grams() -> None:
    assert cup_grams("honey") == 339
    assert cup_grams("sugar, brown", "packed") == 220
    with pytest.raises(KeyError):
        cup_grams("no such food")


@pytest.mark.parametrize(
    ("cups", "words"),
    [("1/2", "1/2 cup"), ("1", "1 cup"), ("2", "2 cups"), ("2 1/4", "2 1/4 cups"), ("229/100", "2.29 cups")],
)
def test_cups_in_words(cups: str, words: str) -> None:
    assert cups_words(sum(map(Fraction, cups.split()), Fraction(0))) == words


@pytest.mark.parametrize(
    ("kind", "low", "high", "text", "words"),
    [
        ("rolling", 1, 1, "", "a full rolling boil of 1 min"),
        ("gel", 8, 8, "", "the gel point, 8 F over boiling water"),
        ("gel", None, None, "", "the gel point, 8 F over boiling water"),
        ("simmer", 60, 75, "", "simmering 60 to 75 min"),
        ("boil", 5, None, "", "boiling 5 min"),
        ("brix", 65, 65, "", "65 Brix"),
        ("temperature", 218, 220, "", "218 to 220 F"),
        ("reduce", Fraction(1, 2), None, "", "reduced to 1/2"),
        ("thick", None, None, "", "thick"),
        ("none", None, None, "", "no cooking"),
        ("other", None, None, "heated to the first boil", "heated to the first boil"),
        ("other", 3, 4, "fermented 3 to 4 weeks", "fermented 3 to 4 weeks"),
    ],
)
def test_end_points_in_words(kind: str, low, high, text: str, words: str) -> None:
    ends = [None if one is None else Fraction(one) for one in (low, high)]
    assert finish_words(Finish(kind, NOWHERE, ends[0], ends[1], text)) == words


def test_no_end_point_in_words() -> None:
    assert finish_words(None) == "nothing stated"


@pytest.mark.parametrize(
    ("found", "asked", "wanted"),
    [
        ((45, 50), (45, 45), "met"),
        ((44, 50), (45, 45), "may"),
        ((40, 45), (45, 45), "may"),
        ((40, 44), (45, 45), "short"),
        ((46, 50), (45, 48), "may"),
        ((48, 50), (45, 48), "met"),
        ((40, 45), (45, 48), "may"),
    ],
)
def test_a_measured_interval_beside_a_floor(found: tuple[int, int], asked: tuple[int, int], wanted: str) -> None:
    ends = [Interval(Fraction(low), Fraction(high)) for low, high in (found, asked)]
    assert least_of(*ends) == wanted
