"""Rounding to the safe side, whatever the amount; conversions against published tables.

The direction asked for: acid, times, strength never down; low-acid food, water, headspace never up; sugar within 2 %.
An amount within 2 % of the exact one is the same amount (decision table, `same`).
"""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimline.document.values import Amount, Measure, Pack, Per
from brimline.review.restate.amounts import Order, restated
from brimline.review.restate.formula import edge

# NIST Special Publication 811 (2008), Appendix B.8, factors to SI as printed with seven figures; from memory.
ML = {
    "tsp": Fraction("4.928922"),
    "tbsp": Fraction("14.78676"),
    "fl oz": Fraction("29.57353"),
    "cup": Fraction("236.5882"),
    "pint": Fraction("473.1765"),
    "qt": Fraction("946.3529"),
    "gal": Fraction("3785.412"),
    "ml": Fraction(1),
    "l": Fraction(1000),
}
G = {"oz": Fraction("28.34952"), "lb": Fraction("453.5924"), "g": Fraction(1), "kg": Fraction(1000)}
METRIC = {"ml", "l", "g", "kg"}
# The seven printed figures leave half a unit of the last open, which is at most this.
PRINTED = Fraction(1, 2_000_000)
SIDES = {"up": (1, Fraction(102, 100)), "down": (Fraction(98, 100), 1), "near": (Fraction(98, 100), Fraction(102, 100))}

numbers = st.builds(
    Fraction, st.integers(1, 400), st.sampled_from((1, 2, 3, 4, 8))
)  # up to 400 whole ones, in the fractions of a kitchen
shares = st.sampled_from(
    [Fraction(n, d) for n, d in ((1, 4), (1, 3), (1, 2), (2, 3), (3, 4), (1, 1), (3, 2), (2, 1), (5, 7))]
)
ways = st.sampled_from(sorted(SIDES))


def worth(parts: tuple[Measure, ...], table: dict[str, Fraction]) -> tuple[Fraction, Fraction]:
    return sum(p.low * table[p.unit] for p in parts), sum(p.high * table[p.unit] for p in parts)  # type: ignore[return-value]


def one(count: Fraction, unit: str) -> Amount:
    return Amount((Measure(count, count, unit),))


def inside(value: Fraction, exact: Fraction, way: str) -> bool:
    low, high = SIDES[way]
    return exact * low * (1 - 2 * PRINTED) <= value <= exact * high * (1 + 2 * PRINTED)


@given(numbers, st.sampled_from(sorted(ML)), shares, st.sampled_from(("us", "metric", "both")), ways)
def test_a_volume_stays_on_its_side(count: Fraction, unit: str, by: Fraction, units: str, way: str) -> None:
    made = restated(one(count, unit), Order(by, units, way))
    assert made is not None
    exact = count * by * ML[unit]
    for parts in (made.parts, *made.also):
        low, high = worth(parts, ML)
        assert low == high
        assert inside(low, exact, way)


@given(numbers, st.sampled_from(sorted(G)), shares, st.sampled_from(("us", "metric", "both")), ways)
def test_a_mass_stays_on_its_side(count: Fraction, unit: str, by: Fraction, units: str, way: str) -> None:
    made = restated(one(count, unit), Order(by, units, way))
    assert made is not None
    for parts in (made.parts, *made.also):
        assert inside(worth(parts, G)[0], count * by * G[unit], way)


@given(numbers, st.sampled_from(sorted(ML)), shares, ways)
def test_both_columns_are_the_same_amount(count: Fraction, unit: str, by: Fraction, way: str) -> None:
    us, metric = (restated(one(count, unit), Order(by, units, way)) for units in ("us", "metric"))
    assert us is not None
    assert metric is not None
    left, right = worth(us.parts, ML)[0], worth(metric.parts, ML)[0]
    assert max(left, right) <= min(left, right) * Fraction(102, 100) * (1 + 4 * PRINTED)
    assert not {part.unit for part in us.parts} & METRIC
    assert {part.unit for part in metric.parts} <= METRIC


@given(
    st.tuples(numbers, numbers).map(sorted),
    st.sampled_from(sorted(ML)),
    shares,
    st.sampled_from(("us", "metric")),
    ways,
)
def test_both_ends_of_a_range_stay_on_their_side(
    ends: list[Fraction], unit: str, by: Fraction, units: str, way: str
) -> None:
    made = restated(Amount((Measure(ends[0], ends[1], unit),)), Order(by, units, way))
    assert made is not None
    low, high = worth(made.parts, ML)
    assert low <= high
    assert inside(low, ends[0] * by * ML[unit], way)
    assert inside(high, ends[1] * by * ML[unit], way)


@given(
    numbers,
    st.sampled_from(("cup", "tbsp", "tsp", "lb", "oz")),
    st.sampled_from((Fraction(1, 2), Fraction(2), Fraction(1, 4))),
)
def test_us_amounts_are_those_of_cups_spoons_and_scales(count: Fraction, unit: str, by: Fraction) -> None:
    # Sets of measures are sold in these parts (common practice, no source); a printed amount keeps its own fraction.
    if count.denominator > 4 or count > 40:
        return
    made = restated(one(count, unit), Order(by, "us", "near"))
    assert made is not None
    assert len(made.parts) <= 3
    for part in made.parts:
        assert part.low.denominator in (1, 2, 3, 4, 8, 16), part
        assert not (part.unit == "cup" and part.low.denominator > 4), part
        assert not (part.unit == "tbsp" and part.low.denominator > 1), part


@given(numbers, st.sampled_from(sorted(ML)), ways, st.sampled_from(("pint", "quart", "half-pint")), shares)
def test_a_dose_for_a_jar_never_follows_the_batch(count: Fraction, unit: str, way: str, jar: str, by: Fraction) -> None:
    amount = Amount(one(count, unit).parts, (), Per(Fraction(1), jar, "jar"))
    for units in ("us", "metric", "both"):
        made = restated(amount, Order(by, units, way))
        whole = restated(amount, Order(Fraction(1), units, way))
        assert made == whole
        assert made is not None
        assert made.per == amount.per
        if way == "up":
            assert worth(made.parts, ML)[0] >= count * ML[unit] * (1 - 2 * PRINTED)


def test_a_metric_jar_gets_the_acid_for_what_it_holds() -> None:
    # 2 tbsp bottled lemon juice per quart (USDA Complete Guide, Guide 3, p. 3-5; read); a 1 l jar holds 1000/946.3529 of it.
    amount = Amount(one(Fraction(2), "tbsp").parts, (), Per(Fraction(1), "quart", "jar"))
    made = restated(amount, Order(Fraction(1), "metric", "up"))
    assert made is not None
    assert worth(made.parts, ML)[0] >= 2 * ML["tbsp"] * 1000 / ML["qt"]


@pytest.mark.parametrize(
    ("count", "unit", "printed"),
    [
        # NIST, Metric Kitchen: cooking measurement equivalencies, rounded for kitchens; from memory.
        ("1/4", "tsp", "1.25"),
        ("1/2", "tsp", "2.5"),
        ("1", "tsp", "5"),
        ("1", "tbsp", "15"),
        ("1/4", "cup", "60"),
        ("1/3", "cup", "80"),
        ("1/2", "cup", "120"),
        ("1", "cup", "240"),
        ("1", "qt", "950"),
    ],
)
def test_acid_in_metric_is_within_2_percent_of_the_printed_kitchen_table(count: str, unit: str, printed: str) -> None:
    made = restated(one(Fraction(count), unit), Order(Fraction(1), "metric", "up"))
    assert made is not None
    assert abs(worth(made.parts, ML)[0] / Fraction(printed) - 1) <= Fraction(2, 100)


@given(st.integers(1, 12_000))
def test_a_band_edge_is_never_raised(feet: int) -> None:
    # Lower edges give an altitude the longer time sooner. One foot is 0.3048 m (NIST SP 811, B.8; from memory).
    there = edge(Fraction(feet), "ft", "m")
    assert 0 <= feet - there < 10 / Fraction("0.3048")
    if there != feet:
        assert (there * Fraction("0.3048")).denominator == 1


def test_an_open_amount_stays_open_and_a_ratio_stays_a_ratio() -> None:
    assert restated(Amount((), some=True), Order(Fraction(1, 2), "metric", "near")) is None
    ratio = Amount(one(Fraction(1), "cup").parts, (), Per(Fraction(1), "cup", "juice"))
    assert restated(ratio, Order(Fraction(1, 2), "metric", "near")) is None


def test_a_package_keeps_its_size_and_is_counted_by_the_batch() -> None:
    box = Amount((Measure(Fraction(1), Fraction(1), "box", Pack(Fraction(7, 4), "oz")),))
    half = restated(box, Order(Fraction(1, 2), "us", "near"))
    assert half is not None
    assert half.parts == (Measure(Fraction(1, 2), Fraction(1, 2), "box", Pack(Fraction(7, 4), "oz")),)
    metric = restated(box, Order(Fraction(1, 2), "metric", "near"))
    assert metric is not None
    pack = metric.parts[0].pack
    assert pack is not None
    assert inside(pack.number * G[pack.unit], Fraction(7, 4) * G["oz"], "near")
