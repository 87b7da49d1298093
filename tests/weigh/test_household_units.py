"""Worked examples of household units: NIST Handbook 44 (gallon of 231 cubic inches, pound of 453.59237 g) and others.

A formula takes the exact customary units. Label units (21 CFR 101.9(b)(5)(viii): cup of 240 ml, ounce of 28 g), metric
cups and imperial pints are no units of the format; what they would change is worked out beside the exact ones.
"""

import pytest

from brimline.document import units
from brimline.document.units import jar_sized, metric_jar

LABEL_CUP, LABEL_OUNCE, METRIC_CUP, LARGE_SPOON, IMPERIAL_PINT = 240, 28, 250, 20, 568.26125


def factor(name: str) -> float:
    found = units.unit(name)
    assert found is not None
    return float(found.factor)


def test_four_cups_are_exact_and_not_those_of_a_label() -> None:
    assert 4 * factor("cup") == pytest.approx(946.35, abs=0.005)
    assert 4 * LABEL_CUP / (4 * factor("cup")) - 1 == pytest.approx(0.0144, abs=0.0001)


def test_seven_cups_of_sugar(weigh) -> None:
    # 200 g a cup: 1,400 g, 0.8454 g/ml; seven cups of 250 ml would be 1,479 g, 5.7 percent more. Ours is 200 g (SR28,
    # 19335) give or take 3 percent, kept as an interval.
    (sugar,) = weigh("sweetener 7 cup sugar, granulated").lines
    assert sugar.grams.middle == 1400
    assert float(sugar.grams.high / sugar.grams.middle) == pytest.approx(1.03, abs=0.001)
    (metric,) = weigh(f"sweetener {7 * METRIC_CUP} ml sugar, granulated").lines
    assert float(metric.grams.middle) == pytest.approx(1479, abs=1)
    assert float(metric.grams.middle / sugar.grams.middle) - 1 == pytest.approx(0.057, abs=0.001)


def test_pounds_and_ounces_are_exact(weigh) -> None:
    pounds, ounces = weigh("fruit 3.5 lb strawberries, hulled", "fruit 8 oz plums, pitted").lines
    assert pounds.grams.exact
    assert float(pounds.grams.low) == pytest.approx(1587.57, abs=0.005)
    assert float(ounces.grams.low) == pytest.approx(226.80, abs=0.005)
    assert 1 - 8 * LABEL_OUNCE / float(ounces.grams.low) == pytest.approx(0.0123, abs=0.0001)


def test_a_jar_of_250_ml_is_larger_than_a_half_pint() -> None:
    # 236.59 ml and 250 / 236.59 = 1.0567. The format takes `250 ml` for the metric name of the half-pint (common practice,
    # schema/jars.yaml) and knows what such a jar holds, so that acid for each jar is restated for the larger one.
    half_pint = units.jar_named("half-pint")
    millilitre = units.unit("ml")
    assert half_pint is not None
    assert millilitre is not None
    assert float(half_pint.ml) == pytest.approx(236.59, abs=0.005)
    assert metric_jar("half-pint") == ("250 ml", 250)
    assert 250 / float(half_pint.ml) == pytest.approx(1.0567, abs=0.0001)
    named, other = jar_sized(millilitre.factor * 250, millilitre), jar_sized(millilitre.factor * 260, millilitre)
    assert named is not None
    assert other is not None
    assert (named[0], other[0]) == ("half-pint", "260 ml")


def test_an_imperial_pint_is_no_pint_here() -> None:
    assert IMPERIAL_PINT / factor("pint") == pytest.approx(1.2009, abs=0.0001)
    assert [units.unit(word) for word in ("imperial pint", "imperial pints", "UK pint")] == [None] * 3


def test_tablespoons_of_lemon_juice(weigh) -> None:
    # 6 x 14.787 = 88.7 ml and 6 x 20 = 120 ml: 35 percent more acid by the larger spoon.
    acid, larger = weigh(
        "fruit 1 kg strawberries, hulled",
        "acid 6 tbsp lemon juice, bottled",
        f"acid {6 * LARGE_SPOON} ml lemon juice, bottled",
    ).acids
    assert float(acid.ml.low) == pytest.approx(88.7, abs=0.05)
    assert float(larger.citric.middle / acid.citric.middle) - 1 == pytest.approx(0.35, abs=0.005)
