"""The models against tables and libraries that are not ours: every row of `check-values.csv`, in the tolerance of its model.

Each row names its publication or library and how the value is known. Rows that say `worked out by other code` hold the same
equation computed before this code was written; they catch a slip of the pen, not a wrong equation. Those marked read, and
those of a reference library, are the outside world.
"""

import re
from collections.abc import Callable
from fractions import Fraction

import pytest
from check_rows import ROWS, STANDARD, activity, known, numbers, rows

from brimline import figures
from brimline.batch.models import acid, air, boiling, density, sweetener


def feet(text: str) -> float:
    found = re.search(r"(-?\d+) ft", text)
    assert found is not None
    return float(found[1])


def brix(text: str) -> float:
    found = re.search(r"([\d.]+) ?(?:Brix|%)", text)
    assert found is not None
    return float(found[1])


def boils(text: str, unit: str) -> float:
    celsius = known(air.water_boils(feet(text)))
    return celsius if unit == "degC" else air.fahrenheit(celsius)


def isothermal(text: str) -> float:
    """The printed table's own air: 20 C all the way up, as its note says."""
    pascal = STANDARD * 2.718281828 ** (-1.16e-4 * feet(text) * air.FOOT_M)
    return air.fahrenheit(known(air.boiling_at(pascal)))


def slope() -> float:
    heights = range(-100, 3601, 100)
    degrees = [known(air.water_boils(metres / air.FOOT_M)) for metres in heights]
    x, y = sum(heights) / len(degrees), sum(degrees) / len(degrees)
    above = sum((metres - x) * (one - y) for metres, one in zip(heights, degrees, strict=True))
    return 1000 * above / sum((metres - x) ** 2 for metres in heights)


def weather(text: str) -> float:
    pascal = float(numbers(text)[1]) * 1000
    return (known(air.boiling_at(pascal + 500)) - known(air.boiling_at(pascal - 500))) / 1


def rise(text: str, sucrose: float) -> float:
    found = re.search(r"(\d+) mbar", text)
    return known(boiling.elevation(brix(text), sucrose, 100 * float(found[1]) if found else STANDARD))


def gel_brix(text: str) -> float:
    share = float(re.findall(r"solids ([\d.]+)", text)[0])
    return known(boiling.solids_at(8 / 1.8, share, known(air.pressure(feet(text)))))


SHARES = {"half sucrose": 0.5, "70% sucrose": 0.7, "sucrose": 1.0, "honey": 0.0}


def mixed(text: str) -> float:
    return activity(brix(text), next(share for word, share in SHARES.items() if word in text))


def frozen(text: str) -> float:
    depression = float(re.findall(r"depression ([\d.]+)", text)[0])
    return activity(brix(text), 1.0 if text.startswith("sucrose") else 0.0, -depression)


def component(text: str) -> float:
    solids, celsius = numbers(text)
    return known(density.product_density(solids, celsius))


def water_in(text: str) -> float:
    entry = figures.entries()[{"strawberries raw": "strawberry"}.get(text, text)]
    assert entry.water is not None
    return float(entry.water)


# The names under which the regulation lists them.
STANDARD_NAMES = {
    "raspberry, red": "raspberry red",
    "blackberry": "blackberry other than dewberry",
    "plum": "plum other than damson greengage prune",
}


def standard_solids(text: str) -> float:
    fruit, factor = re.fullmatch(r"(\D+), factor ([\d.]+)", text).groups()  # type: ignore[union-attr]
    found = figures.factor("jelly", STANDARD_NAMES.get(fruit, fruit))
    assert found is not None, fruit
    assert found[0] == Fraction(factor)
    return float(100 / found[0])


def near(**by: float) -> Callable[[float, float], bool]:
    return lambda ours, theirs: ours == pytest.approx(theirs, **by)


# What each quantity is computed with, and how far it may be off: the tolerances of the published models, or half of the
# last printed place where the same equation is worked out.
COMPUTED: dict[str, tuple[Callable[[str, str], float], Callable[[float, float], bool]]] = {
    "pressure at altitude": (lambda t, _: known(air.pressure(feet(t))), near(abs=14)),
    "boiling point of water": (boils, lambda ours, theirs: abs(ours - theirs) <= (0.02 if theirs < 110 else 0.036)),
    # The table holds its air at 20 C; with that air our line gives its figures, and with the standard air it is 1.1 F off.
    "boiling point of water, printed table": (lambda t, _: isothermal(t), near(abs=0.15)),
    "boiling point slope, model": (lambda *_: slope(), near(abs=0.002)),
    "boiling point sensitivity to weather": (lambda t, _: weather(t), near(abs=0.002)),
    "published jelly gel temperature": (
        lambda t, _: known(boiling.gel_point(known(air.pressure(feet(t))))),
        near(abs=1.0),
    ),
    "model gel temperature (water + 8 F)": (
        lambda t, _: known(boiling.gel_point(known(air.pressure(feet(t))))),
        near(abs=0.06),
    ),
    "saturation temperature of water": (lambda t, _: known(air.boiling_at(numbers(t)[0])), near(abs=0.001)),
    # Printed in 1912; above 62 Brix it is contradicted by measured activities and not used.
    "boiling point elevation, sucrose, old handbook table": (lambda t, _: rise(t, 1), near(abs=0.4)),
    "boiling point of 65 Brix sucrose": (lambda *_: known(boiling.boiling_point(65, 1)), near(abs=0.2)),
    "boiling point elevation, sucrose, fitted activity equation": (
        lambda t, _: rise(t, 1),
        lambda ours, theirs: abs(ours - theirs) <= (0.1 if theirs < 6 else 0.16),
    ),
    "boiling point elevation, sucrose, same equation": (lambda t, _: rise(t, 1), near(abs=0.006)),
    "boiling point elevation, invert/honey sugars, same equation": (lambda t, _: rise(t, 0), near(abs=0.006)),
    "boiling point elevation, sucrose, 1988 fruit-juice correlation": (lambda t, _: rise(t, 1), near(abs=0.2)),
    "boiling point elevation, reducing sugars, 1988 fruit-juice correlation": (lambda t, _: rise(t, 0), near(abs=0.3)),
    "boiling point elevation, apple juice, 1988 fruit-juice correlation": (lambda t, _: rise(t, 0.13), near(abs=0.3)),
    "boiling point elevation at reduced pressure, 1988 correlation": (
        lambda t, _: rise(t, float("sucrose" in t)),
        near(abs=0.3),
    ),
    "Brix at water + 8 F (4.44 C)": (lambda t, _: gel_brix(t), near(abs=0.1)),
    "water activity": (lambda t, _: mixed(t), near(abs=0.0006)),
    "water activity of sucrose solution, published group limit": (lambda t, _: activity(brix(t), 1), near(abs=0.006)),
    "water activity of saturated sucrose, published": (lambda t, _: activity(brix(t), 1), near(abs=0.006)),
    "water activity of saturated sucrose, published group limit": (lambda *_: activity(67.89, 1), near(abs=0.01)),
    "water activity of 65% sucrose, published group": (lambda t, _: activity(brix(t), 1), near(abs=0.006)),
    "water activity of sucrose, isopiestic": (lambda t, _: activity(brix(t), 1), near(abs=0.002)),
    "water activity at freezing point": (lambda t, _: frozen(t), near(abs=0.002)),
    "density of sucrose solution": (lambda t, _: known(density.sucrose_density(brix(t))), near(abs=0.3)),
    "density, component equation": (lambda t, _: component(t), near(abs=0.6)),
    "density of marmalade from household weight": (lambda *_: known(density.sucrose_density(66.8)), near(rel=0.025)),
    "density of apple butter from household weight": (lambda *_: known(density.sucrose_density(43.55)), near(rel=0.025)),
    "water content": (lambda t, _: water_in(t), near(abs=0.01)),
    "fruit soluble solids implied by standard of identity factor": (lambda t, _: standard_solids(t), near(abs=0.01)),
    "milliequivalents per gram": (
        lambda t, _: float(acid.MEQ[t.removesuffix(" acid").removesuffix(" acid anhydrous").replace(" acid mono", " mono")]),
        near(rel=0.001),
    ),
    "honey arithmetic": (
        lambda t, _: {
            "1 cup honey: soluble solids (82.9%)": sweetener.HONEY.cup_g * sweetener.HONEY.solids,
            "1 cup honey: water": sweetener.HONEY.cup_g * (1 - sweetener.HONEY.solids),
            "1 cup sugar: solids": sweetener.SUGAR.cup_g * sweetener.SUGAR.solids,
        }[t],
        near(rel=0.005),
    ),
}  # fmt: skip

# What is not one number against one number has a test of its own below.
BY_THEMSELVES = {
    "water activity of jams and jellies, published group",
    "household weight",
    "yield, published",
    "yield, mass-balance model",
    "acid supplied by published alternative per quart of tomatoes",
    "gel window",
    "honey share by measure",
}


def test_every_row_is_checked() -> None:
    assert {row["quantity"] for row in ROWS} == {*COMPUTED, *BY_THEMSELVES}
    assert len(ROWS) == 275


@pytest.mark.parametrize("quantity", sorted(COMPUTED))
def test_rows_of(quantity: str) -> None:
    compute, agrees = COMPUTED[quantity]
    wrong = []
    for row in rows(quantity):
        ours, theirs = compute(row["inputs"], row["unit"]), float(row["value"])
        if not agrees(ours, theirs):
            wrong.append((row["inputs"], ours, theirs))
    assert wrong == []


def test_the_printed_gel_table_is_the_one_of_the_figures() -> None:
    for row in rows("published jelly gel temperature"):
        found = figures.gel_temperature(int(feet(row["inputs"])))
        assert found is not None
        assert found.low == found.high == Fraction(row["value"])


def test_the_printed_boiling_points_are_near_the_standard_day() -> None:
    # Up to 8,000 ft, where published gel tables end, within 1 F in spite of the other air.
    for row in rows("boiling point of water, printed table"):
        if feet(row["inputs"]) <= 8000:
            assert boils(row["inputs"], "degF") == pytest.approx(float(row["value"]), abs=1)
