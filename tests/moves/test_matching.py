"""Matching the lines of two formulas: what an unknown food may weigh."""

from fractions import Fraction

from brimline.batch.add import add_up
from brimline.document import read
from brimline.figures.values import Interval
from brimline.moves.contrast import contrast

HEAD = "formula XX-1 Trial\nproduct jam\nstanding draft\nfinish full rolling boil 1 min\nyield 4 half-pint\n\ntake\n"


def batch(*lines: str):
    text = HEAD + "".join(f"  {line}\n" for line in lines)
    return add_up(read("t.formula", text.encode()).document)


def test_an_unknown_food_weighs_between_puffed_and_syrupy_and_a_piece_between_a_berry_and_a_melon() -> None:
    both = batch("fruit 2 cup wumpberries", "fruit 3 each zorkmelons")
    bounds = {name.rpartition("|")[2]: span for name, span in contrast(both, both).bounds.items()}
    # A cup of puffed rice weighs about 60 g, one of syrup 360 g at the most; the piece is anything (judgement).
    assert bounds == {"cup": Interval(Fraction(60), Fraction(360)), "each": Interval(Fraction(1), Fraction(2000))}
