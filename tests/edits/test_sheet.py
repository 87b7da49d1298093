import random
from fractions import Fraction
from pathlib import Path

import pytest
from edit_bench import amounts, kinds
from edit_bench.cases import pool
from edit_bench.pantry import scaled
from edit_bench.sheet import line_of, number, write
from edit_bench.steps import without

from brimline.document import read, to_json
from brimline.document.units import units

CHECKOUT = Path(__file__).resolve().parents[2]
POOL = pool(CHECKOUT)


def said(text: str) -> dict[str, object]:
    """What a formula says, its evidence by words alone."""
    document = read("sheet", text.encode("utf-8")).document
    assert document is not None
    found = to_json(document)
    found["evidence"] = [" ".join(one["text"].split()) for one in found.get("evidence", [])]
    return found


@pytest.mark.parametrize("tested", POOL, ids=lambda one: Path(one.path).stem)
def test_a_sheet_written_out_says_what_the_formula_says(tested: kinds.Tested) -> None:
    assert said(write(tested.sheet)) == said(tested.text)


@pytest.mark.parametrize(
    ("value", "text"),
    [("1/2", "1/2"), ("11/2", "5 1/2"), ("3", "3"), ("147/25", "5.88"), ("1/7", "0.1429"), ("5/16", "5/16")],
)
def test_a_number_is_written_as_a_kitchen_fraction_or_a_decimal(value: str, text: str) -> None:
    assert number(Fraction(value)) == text


def grams_or_ml(text: str) -> Fraction:
    amount = line_of(text).amount
    assert amount is not None
    return sum((part.low * units()[part.unit].factor for part in amount.parts), Fraction(0))


@pytest.mark.parametrize("text", ["acid 2 tbsp lemon juice, bottled", "fruit 3 1/2 lb figs", "spice 1/8 tsp nutmeg"])
@pytest.mark.parametrize("seed", range(20))
def test_metric_rounds_each_amount_by_half_a_percent_at_most(text: str, seed: int) -> None:
    line = amounts.metric(line_of(text), random.Random(seed))
    assert line.amount is not None
    assert line.amount.parts[0].unit in ("ml", "l", "g", "kg")
    new = sum((part.low * units()[part.unit].factor for part in line.amount.parts), Fraction(0))
    assert abs(new / grams_or_ml(text) - 1) <= Fraction(1, 200)


@pytest.mark.parametrize("seed", range(20))
def test_a_split_line_adds_up(seed: int) -> None:
    parts = amounts.split(line_of("sweetener 5 1/3 cup sugar, granulated"), random.Random(seed))
    stated = [part.amount.parts[0].low for part in parts if part.amount]
    assert len(stated) == 2
    assert sum(stated) == Fraction(16, 3)


def test_a_bag_of_spice_by_the_teaspoon_is_not_turned_into_something_else() -> None:
    line = line_of("spice 1/2 tsp pepper")
    assert amounts.metric(line, random.Random(1)).amount == line.amount


def test_scaling_leaves_what_is_stated_for_a_jar() -> None:
    tested = next(one for one in POOL if one.sheet.code == "KV-130")
    doubled = scaled(tested.sheet, Fraction(2))
    assert doubled.take[1].amount == tested.sheet.take[1].amount
    assert doubled.take[0].amount != tested.sheet.take[0].amount
    assert doubled.yields is not None
    assert doubled.yields.low == 14


def test_taking_a_lemon_out_of_the_steps_leaves_the_lemon_juice() -> None:
    steps = ("Add the lemon juice and the lemon, and boil.",)
    assert without(steps, line_of("fruit 1 each lemon, sliced")) == ("Add the lemon juice, and boil.",)
