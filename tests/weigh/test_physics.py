"""The published equations against tables and libraries that are not ours."""

from fractions import Fraction

import pytest

from brimline import figures
from brimline.batch import physics

# Pressure: US Standard Atmosphere 1976 by the library fluids 1.3.1, ambiance 1.3.1 agreeing. Boiling point: IAPWS-95
# by CoolProp 8.0.0, iapws 1.5.5 and chemicals 1.5.2 agreeing within 0.0003 C. Both computed.
AIR = [
    (0, 101325, 99.974, 211.95),
    (1000, 97717, 98.962, 210.13),
    (2000, 94214, 97.948, 208.31),
    (3000, 90813, 96.934, 206.48),
    (4000, 87513, 95.920, 204.66),
    (5000, 84311, 94.904, 202.83),
    (6000, 81205, 93.888, 201.00),
    (7000, 78192, 92.872, 199.17),
    (8000, 75271, 91.854, 197.34),
    (9000, 72439, 90.836, 195.50),
    (10000, 69695, 89.817, 193.67),
]
# USDA Complete Guide to Home Canning, Guide 7, temperature test: to 4,000 ft read in a reprint, above from memory.
GEL = [(0, 220), (1000, 218), (2000, 216), (3000, 214), (4000, 212), (5000, 211), (6000, 209), (7000, 207), (8000, 205)]
# CRC Handbook of Chemistry and Physics, 102nd edition (10 to 70 %) and an older one (62 to 72 %); read.
SUCROSE = [
    (10, 1038.1), (20, 1081.0), (30, 1127.0), (40, 1176.5), (50, 1229.5), (60, 1286.4), (62, 1298.3), (64, 1310.3),
    (66, 1322.4), (68, 1334.8), (70, 1347.2), (72, 1359.9),
]  # fmt: skip
# Component-property equations of 1986 as computed elsewhere from the constants read.
HOT = [
    (45, 20, 1198), (45, 90, 1169), (55, 20, 1254), (55, 90, 1226), (60, 20, 1285), (60, 90, 1257), (65, 20, 1317),
    (65, 90, 1289), (68, 20, 1336), (68, 90, 1309),
]  # fmt: skip
# IAPWS-95 saturation line, CoolProp 8.0.0.
STEAM = [(60000, 85.9260), (84311, 94.9043), (101325, 99.9743), (118900, 104.5181), (150000, 111.3494)]


@pytest.mark.parametrize(("feet", "pascal", "celsius", "fahrenheit"), AIR)
def test_pressure_and_boiling_point(feet: int, pascal: int, celsius: float, fahrenheit: float) -> None:
    assert physics.pressure(feet) == pytest.approx(pascal, abs=14)
    assert physics.boiling_at(physics.pressure(feet)) == pytest.approx(celsius, abs=0.02)
    assert physics.boiling_f(feet) == pytest.approx(fahrenheit, abs=0.036)


@pytest.mark.parametrize(("pascal", "celsius"), STEAM)
def test_the_saturation_line(pascal: int, celsius: float) -> None:
    assert physics.boiling_at(pascal) == pytest.approx(celsius, abs=0.001)


@pytest.mark.parametrize(("feet", "printed"), GEL)
def test_the_published_gel_point_and_the_model_beside_it(feet: int, printed: int) -> None:
    published = figures.gel_temperature(feet)
    assert published is not None
    assert (published.low, published.high) == (printed, printed)
    assert physics.gel_f(feet) == pytest.approx(printed, abs=1)


@pytest.mark.parametrize(("brix", "density"), SUCROSE)
def test_density_of_sucrose(brix: int, density: float) -> None:
    assert physics.sucrose_density(brix) == pytest.approx(density, abs=0.3)


@pytest.mark.parametrize(("brix", "celsius", "density"), HOT)
def test_density_of_hot_solutions(brix: int, celsius: int, density: int) -> None:
    assert physics.hot_density(brix, celsius) == pytest.approx(density, abs=0.6)


def test_marmalade_and_apple_butter_weigh_what_a_cup_of_them_does() -> None:
    # USDA SR28 household weights, 320 and 282 g a cup of 236.588 ml; solids from SR27; read.
    for grams, brix in ((320, 66.8), (282, 43.5)):
        assert physics.sucrose_density(brix) == pytest.approx(grams / 0.236588, rel=0.025)


@pytest.mark.parametrize(
    "outside",
    [
        lambda: physics.pressure(-400),
        lambda: physics.pressure(11_900),
        lambda: physics.boiling_at(59_000),
        lambda: physics.gel_f(12_000),
        lambda: physics.sucrose_density(75.1),
        lambda: physics.hot_density(-1),
        lambda: physics.hot_density(60, 101),
        lambda: physics.hot_density(60, 90, 1.1),
        lambda: physics.pressure(float("nan")),
    ],
)
def test_nothing_is_extrapolated(outside) -> None:
    with pytest.raises(physics.OutOfRange, match="is not from"):
        outside()


def test_acids_count_by_what_they_neutralise() -> None:
    # 1 g of anhydrous citric acid neutralises as much as 1.047 g malic, 1.172 g tartaric, 0.938 g acetic; computed.
    for acid, grams in (("citric", 1.0), ("malic", 1.047), ("tartaric", 1.172), ("acetic", 0.938)):
        assert float(physics.as_citric(Fraction(1), acid)) == pytest.approx(1 / grams, rel=0.001)
    assert physics.as_citric(Fraction(1), "unspecified") is None


# USDA National Nutrient Database SR28, household weights of one cup; read.
CUPS = [
    ("sugar, granulated", (), 200),
    ("honey", (), 339),
    ("lemon juice, bottled", (), 244),
    ("apple juice", (), 248),
    ("vinegar, white", (), 238),
    ("maple syrup", (), 315),
    ("strawberry", ("pureed",), 232),
]


@pytest.mark.parametrize(("name", "state", "grams"), CUPS)
def test_household_weights_lie_in_the_interval(name: str, state: tuple[str, ...], grams: int) -> None:
    found = figures.weigh(figures.entries()[name], state, "cup")
    assert found is not None
    assert found.low <= grams <= found.high
    assert found.high <= found.low * Fraction(5, 4)
