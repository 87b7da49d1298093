"""Worked examples of what is left when a batch is boiled to so many per cent of solids; lb as in the examples.

The standards (21 CFR 150.110, 150.140, 150.160) read soluble solids with a refractometer, so what does not dissolve comes
on top of them. The examples leave it out: the model is checked without pulp, the weighing with that of our table.
"""

import pytest

from brimline import figures
from brimline.batch.models import balance
from brimline.batch.models.balance import Done, Pot
from brimline.batch.models.density import product_density
from brimline.document import units

LB = 453.59237

# In lb: what goes in, solids in it, per cent at the end, what is left, what boils off.
WEIGHTS = [
    # 47 lb of strawberries at 8 percent and 55 lb of sugar: 58.76 / 0.65 = 90.40.
    ("jam", 102, 47 * 0.08 + 55, 65, 90.40, 11.60),
    # 20 lb of apple juice at 11.5 percent and 20 lb of sugar: 22.30 / 0.65 = 34.31.
    ("jelly", 40, 20 * 0.115 + 20, 65, 34.31, 5.69),
    # 100 lb of apple pulp at 12 percent and 36 lb of sugar: 48 / 0.43 = 111.63.
    ("butter", 136, 12 + 36, 43, 111.63, 24.37),
    # The same pulp alone: 12 / 0.43 = 27.91.
    ("butter without sugar", 100, 12, 43, 27.91, 72.09),
]


@pytest.mark.parametrize(
    ("goes_in", "solids", "brix", "left", "off"), [row[1:] for row in WEIGHTS], ids=[r[0] for r in WEIGHTS]
)
def test_the_model_without_pulp(goes_in: float, solids: float, brix: float, left: float, off: float) -> None:
    done = balance.boiled_to(Pot(goes_in * LB, solids * LB, 0, solids * LB), brix)
    assert isinstance(done, Done)
    assert done.mass / LB == pytest.approx(left, abs=0.006)
    assert goes_in - done.mass / LB == pytest.approx(off, abs=0.006)


def test_jam_drawn_off_too_early() -> None:
    # At 93 lb 58.76 / 93 = 63.18 percent: 9 of 102 lb have boiled off.
    done = balance.boiled_off(Pot(102 * LB, 58.76 * LB, 0, 55 * LB), 9 / 102)
    assert isinstance(done, Done)
    assert done.brix == pytest.approx(63.18, abs=0.01)


TAKEN = [
    (["fruit 47 lb strawberries, hulled", "sweetener 55 lb sugar, granulated"], "jam", 65, 90.40, 47, "strawberry"),
    (
        ["juice 20 lb apple juice, 11.5 Brix", "sweetener 20 lb sugar, granulated"],
        "jelly",
        65,
        34.31,
        20,
        "apple juice",
    ),
    (
        ["fruit 100 lb apples, pulp, 12 Brix", "sweetener 36 lb sugar, granulated"],
        "fruit butter",
        43,
        111.63,
        100,
        "apple",
    ),
    (["fruit 100 lb apples, pulp, 12 Brix"], "fruit butter", 43, 27.91, 100, "apple"),
]


@pytest.mark.parametrize(("take", "kind", "brix", "left", "fruit", "entry"), TAKEN)
def test_a_weighing_adds_the_pulp(
    weigh, take: list[str], kind: str, brix: int, left: float, fruit: int, entry: str
) -> None:
    # Pulp by our table: strawberry about 3 percent, apple about 3, juice half a per cent or none.
    insoluble = float(figures.entries()[entry].insoluble or 0) / 100
    done = weigh(*take, kind=kind, finish=f"{brix} Brix").finished
    assert insoluble < 0.035
    assert done.mass.middle / LB == pytest.approx(left + fruit * insoluble, rel=0.001)


def test_half_pints_of_that_jam(weigh) -> None:
    # 90.40 lb are 41,005 g; at 1.33 g/ml 30,831 ml, 130.3 half-pints of 236.59 ml. Ours is filled hot: 1.289 g/ml at 90 C
    # (component equations), and has 650 g of pulp more: 41,655 / 1.30 / 236.59. Both together are 5 percent.
    done = weigh("fruit 47 lb strawberries, hulled", "sweetener 55 lb sugar, granulated", finish="65 Brix",
                 jars="130 half-pint").finished  # fmt: skip
    assert done.jars.middle == pytest.approx(130.3, rel=0.05)
    cold = product_density(65, 20)
    assert isinstance(cold, float)
    # Cold jam without pulp: 1.317 g/ml, one percent from the 1.33 that the example assumes.
    assert cold / 1000 == pytest.approx(1.33, rel=0.012)
    half_pint = units.jar_named("half-pint")
    assert half_pint is not None
    assert 90.40 * LB / (cold / 1000) / float(half_pint.ml) == pytest.approx(130.3, rel=0.012)
