"""A caller's words: many wordings of one question, numbers and units, and words that are not understood."""

import re
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from suppose.desk import answer

from brimline.figures.calls import asks, phrases
from brimline.review.suppose.asking import asked
from brimline.review.suppose.patterns import compiled
from brimline.review.suppose.values import AskError

ONE = {
    "half the sugar": ("amount", "sugar", Fraction(1, 2)),
    "HALF THE SUGAR?": ("amount", "sugar", Fraction(1, 2)),
    "Could I please cut the sugar in half": ("amount", "sugar", Fraction(1, 2)),
    "halve the sugar": ("amount", "sugar", Fraction(1, 2)),
    "½ the sugar": ("amount", "sugar", Fraction(1, 2)),
    "50 % of the sugar": ("amount", "sugar", Fraction(1, 2)),
    "a third less sugar": ("amount", "sugar", Fraction(2, 3)),
    "reduce the sugar by 25 percent": ("amount", "sugar", Fraction(3, 4)),
    "reduce the sugar to two thirds": ("amount", "sugar", Fraction(2, 3)),
    "three quarters of the sugar": ("amount", "sugar", Fraction(3, 4)),
    "twice the garlic": ("amount", "garlic", Fraction(2)),
    "honey for a third": ("sweeten", "honey", Fraction(1, 3)),
    "half the sugar as honey": ("sweeten", "honey", Fraction(1, 2)),
    "honey instead of the sugar": ("sweeten", "honey", Fraction(1)),
    "double it": ("batch", "", Fraction(2)),
    "1 1/2 batches": ("batch", "", Fraction(3, 2)),
    "one and a half times the recipe": ("batch", "", Fraction(3, 2)),
    "a third of the recipe": ("batch", "", Fraction(1, 3)),
    "no lemon": ("out", "lemon", None),
    "leave the vinegar out": ("out", "vinegar", None),
    "sugar-free": ("out", "sugar", None),
}
FEET = {
    "5,200 ft": (5200, 5200),
    "5200 feet": (5200, 5200),
    "at 5200ft": (5200, 5200),
    "I live at an altitude of 5,200 ft": (5200, 5200),
    "between 4,000 and 6,500 ft": (4000, 6500),
    "4000-6500 ft": (4000, 6500),
    "1600 m": (Fraction(1600) / Fraction("0.3048"),) * 2,
    "1,600 metres": (Fraction(1600) / Fraction("0.3048"),) * 2,
    "sea level": (0, 0),
    # How some write 1,600 m; read as 1.6 m it would give the shortest time.
    "1.600 m": None,
    "5200": None,
    "5 200 ft": None,
}
JARS = {
    "pint": "pint", "pints": "pint", "in half-pint jars": "half-pint", "quart mason jars": "quart",
    "half gallons": "half-gallon", "a smaller jar": "smaller", "pints instead of half-pints": "pint",
}  # fmt: skip


@pytest.mark.parametrize("words", ONE)
def test_wordings_of_a_share(words: str) -> None:
    (one,) = asked(words)
    assert (one.kind, one.what, one.share) == ONE[words]


@pytest.mark.parametrize("words", FEET)
def test_altitudes(words: str) -> None:
    if FEET[words] is None:
        with pytest.raises(AskError):
            asked(words)
        return
    (one,) = asked(words)
    assert (one.kind, one.number, one.high) == ("altitude", *FEET[words])


@pytest.mark.parametrize("words", JARS)
def test_jars(words: str) -> None:
    (one,) = asked(words)
    assert (one.kind, one.what) == ("jar", JARS[words])


@pytest.mark.parametrize("joint", [", ", "; ", " and ", " but ", ", and ", " and also ", " then "])
def test_several_at_once(joint: str) -> None:
    found = asked(f"half the sugar{joint}pint jars{joint}double")
    assert [one.kind for one in found] == ["amount", "jar", "batch"]


def test_words_between_that_join_nothing_else() -> None:
    assert [one.kind for one in asked("half the sugar in pint jars at 5,200 ft with fresh lemon")] == [
        "amount", "jar", "altitude", "fresh",
    ]  # fmt: skip


def test_a_name_goes_on_from_the_word_before_it() -> None:
    assert [(one.kind, one.what) for one in asked("no lemon, sugar or butter")] == [
        ("out", "lemon"), ("out", "sugar"), ("out", "butter"),
    ]  # fmt: skip


@pytest.mark.parametrize("example", [example for some in asks().values() for example in some])
def test_every_example_of_the_list_is_understood(example: str) -> None:
    assert len(asked(example)) == 1


def test_every_row_of_the_grammar_can_be_read() -> None:
    assert [row for *_, row in phrases() if not compiled(row)] == []
    assert len(phrases()) > 100


@pytest.mark.parametrize(
    ("words", "near"),
    [
        ("half the shugar", "sugar"),
        ("smaler jars", "smaller jars"),
        ("steem canner", "steam canner"),
        ("duoble", "double"),
    ],
)
def test_what_is_not_understood_is_answered_with_the_nearest(words: str, near: str) -> None:
    with pytest.raises(AskError, match=re.escape(near)):
        answer("KV-101", words)


def test_what_is_not_understood_lists_what_can_be_asked() -> None:
    with pytest.raises(AskError, match="What can be asked") as told:
        asked("frobnicate the wibble")
    assert "half the sugar" in str(told.value)


def test_an_ingredient_that_is_not_known_is_never_taken_for_another() -> None:
    with pytest.raises(AskError, match="not in the ingredient table"):
        answer("KV-101", "add 1 cup wibbleberries")


@pytest.mark.parametrize("words", ["", "   ", ",", "?", "and", "x" * 401, "double, " * 30])
def test_nothing_or_too_much_is_refused(words: str) -> None:
    with pytest.raises(AskError):
        asked(words)


@pytest.mark.parametrize(
    ("words", "verdict"),
    [
        ("extra garlic", "unsafe"),
        ("an extra cup of onions", "unsafe"),
        ("only 2 cups of onions", "unsafe"),
        ("twice the jalapenos", "unsafe"),
        ("half corn syrup", "matches"),
        ("all corn syrup", "untested"),
        ("add 1 tbsp lemon zest", "silent"),
    ],
)
def test_more_of_what_is_not_there_is_put_in(words: str, verdict: str) -> None:
    """Nothing to change would be the wrong answer; half the sugar as syrup is allowed with powdered pectin."""
    assert answer("KV-101", words).verdict == verdict


@settings(max_examples=150, deadline=None)
@given(
    st.lists(
        st.sampled_from(
            [
                "half",
                "the",
                "sugar",
                "no",
                "lemon",
                "honey",
                "for",
                "a",
                "third",
                "pint",
                "jars",
                "quart",
                "double",
                "5,200",
                "ft",
                "1/2",
                "2",
                "add",
                "jalapenos",
                ",",
                "and",
                "with",
                "of",
                "instead",
                "less",
                "more",
                "0",
                "1/0",
                "%",
                "tsp",
                "cup",
                "old",
                "recipe",
                "set",
                "it",
                "'",
                "\u202e",
                "½",
            ]
        ),
        max_size=14,
    )
)
def test_any_words_are_understood_or_refused(words: list[str]) -> None:
    """Whatever is said, there is an answer or a message; no other error, and no verdict that a review would not give."""
    try:
        found = answer("KV-101", " ".join(words))
    except AskError:
        return
    assert found.says[0].endswith(".")
