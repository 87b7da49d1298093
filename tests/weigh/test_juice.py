"""How much of a drink is juice: 21 CFR 101.30(h)(1), table of least Brix (read); the way to compute from memory."""

from fractions import Fraction

import pytest

from brimline.figures.label import full_strength
from brimline.report.label import juice_words

APPLE = "juice 200 g apple juice concentrate, 70 Brix"


def test_concentrate_made_up_with_water(weigh) -> None:
    # 200 g x 70 / 1400 g = 10.0 Brix, and 10.0 / 11.5 = 87.0 percent.
    found = weigh(APPLE, "liquid 1200 g water", kind="juice", finish="none").label.juice
    assert float(found.percent.low) == pytest.approx(87.0, abs=0.05)
    assert found.percent.exact
    # 200 x 70 / 11.5 = 1217.4 g of juice of 100 percent, so with 1017.4 g of water it is just that.
    assert float(found.full.low) == pytest.approx(1217.4, abs=0.05)
    full = weigh(APPLE, "liquid 1017.3 g water", kind="juice", finish="none").label.juice
    assert full.percent.low == 100
    thin = weigh(APPLE, "liquid 1018 g water", kind="juice", finish="none").label.juice
    assert 99.9 < thin.percent.low < 100
    assert "87 %" in juice_words(found)


def test_juices_of_a_blend_add(weigh) -> None:
    # 200 g of apple at 11.5 and 250 g of grape at 16.0 in 1,000 g: 2.3 Brix from apple, 4.0 from grape: 20 + 25 percent.
    found = weigh("juice 200 g apple juice, 11.5 Brix", "juice 250 g grape juice, 16 Brix", "liquid 550 g water",
                  kind="juice", finish="none").label.juice  # fmt: skip
    assert (found.percent.low, found.percent.high) == (45, 45)
    # Weaker juice counts for less: 9.2 of 11.5 is 80 percent of 200 g, 16 percent of the blend.
    weak = weigh("juice 200 g apple juice, 9.2 Brix", "juice 250 g grape juice, 16 Brix", "liquid 550 g water",
                 kind="juice", finish="none").label.juice  # fmt: skip
    assert weak.percent.low == 41


def test_lemon_counts_by_its_acid(weigh) -> None:
    # Bottled juice of 4.5 percent (21 CFR 146.114), 100 g in 1,000 g: 0.45 percent of citric acid, 0.45 / 4.5 = 10.
    found = weigh("acid 100 g lemon juice, bottled", "liquid 800 g water", "sweetener 100 g sugar, granulated",
                  kind="juice", finish="none").label.juice  # fmt: skip
    assert (found.percent.low, found.percent.high) == (10, 10)
    lemon = full_strength("lemon juice, bottled")
    assert lemon is not None
    assert (lemon.basis, lemon.percent) == ("acid", Fraction("4.5"))


# From the printed table, and an entry of ours that is none of its fruits.
FIGURES = [("strawberry juice", "8"), ("apple juice concentrate", "11.5"), ("grape juice", "16"), ("black currant juice", "11"),
           ("red currant juice", "10.5"), ("raspberry juice", "9.2"), ("sour cherry juice", "14"), ("rhubarb juice", "5.7"),
           ("prune juice", "18.5"), ("acerola juice", "6")]  # fmt: skip


@pytest.mark.parametrize(("entry", "brix"), FIGURES)
def test_least_brix_is_as_printed(entry: str, brix: str) -> None:
    found = full_strength(entry)
    assert found is not None
    assert (found.basis, found.percent) == ("solids", Fraction(brix))


def test_cherry_of_unknown_kind_has_no_figure() -> None:
    # Dark sweet 20.0 and red sour 14.0 are both in the table; which a plain name means cannot be told.
    assert full_strength("cherry juice") is None
    assert full_strength("dragon fruit juice") is None


UNTOLD = [
    (["juice 200 g apple juice concentrate", "liquid 1 l water"], "soluble solids are not written"),
    (["juice 300 g apple juice", "fruit 100 g strawberries, crushed"], "strawberries"),
    (["juice 300 g cherry juice"], "no figure for its fruit"),
    (["juice some apple juice"], "apple juice"),
    (["juice 3 cup apple juice", "  from fruit 3 lb apples", "  from liquid 3 cup water"], "drawn with water"),
    (["juice 300 g zanthum juice"], "not known"),
]


@pytest.mark.parametrize(("take", "why"), UNTOLD)
def test_what_cannot_be_told_says_why(weigh, take: list[str], why: str) -> None:
    found = weigh(*take, kind="juice", finish="none").label.juice
    assert found.percent is None
    assert why in juice_words(found)


def test_pressed_juice_is_juice_whatever_its_strength(weigh) -> None:
    # A cup of juice is an interval of weight on both sides of the share; juice alone is all juice.
    assert weigh("juice 4 cup apple juice", kind="juice", finish="none").label.juice.percent.low == 100
    strong = weigh("juice 500 g apple juice, 15 Brix", "liquid 500 g water", kind="juice", finish="none").label.juice
    assert strong.percent.low == 50


def test_only_drinks_are_asked(weigh) -> None:
    assert weigh("juice 500 g apple juice", "sweetener 500 g sugar, granulated", kind="jelly").label.juice is None
    assert weigh("fruit 1 kg apples, chopped", kind="juice", finish="none").label.juice is None


def test_strawberries_hold_the_solids_of_the_table(weigh) -> None:
    # 500 g x 8.0 / 100 = 40 g.
    assert weigh("fruit 500 g strawberries, hulled").solids.low == 40
