"""What must hold of the models whatever is put in: splitting changes nothing, more sugar is never less solids."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from brimline.batch.models import air, balance, boiling, density, sweetener
from brimline.batch.models.balance import Pot
from brimline.batch.models.values import Estimate, NoFigure
from brimline.batch.models.water_activity import water_activity
from brimline.review.weighed import Finished, Weighing
from brimline.review.weighing import weighing
from brimline.shelf import Book

FRUITS = [
    "strawberries, crushed",
    "gooseberries, crushed",
    "apricots, crushed",
    "plums, crushed",
    "blackberries, crushed",
]
SWEETENERS = ["sugar, granulated", "honey", "corn syrup, light", "brown sugar, packed"]
FINISHES = ["full rolling boil 1 min", "gel point", "gel point 9 F above", "65 Brix", "none", "221 F at sea level"]
HEAD = "formula XX-1 Something\nproduct   jam\nstanding  draft\nfinish    {finish}\nyield     8 half-pint\n\ntake\n{take}\n"

quarters = st.integers(1, 40).map(lambda n: Fraction(n, 4))
altitudes = st.floats(-300, 11_800, allow_nan=False)
shares = st.floats(0, 1, allow_nan=False)


def written(cups: Fraction) -> str:
    whole, rest = divmod(cups, 1)
    return " ".join(filter(None, [str(whole) if whole else "", f"{rest.numerator}/{rest.denominator}" if rest else ""]))


def weighed(lines: list[tuple[str, Fraction, str]], finish: str) -> Weighing:
    take = "\n".join(f"  {role}  {written(cups)} cup  {item}" for role, cups, item in lines)
    found = weighing(Book("xx-1.formula", data=HEAD.format(finish=finish, take=take).encode()))
    assert found is not None
    assert found.unread == 0
    return found


def figures_of(found: Weighing) -> object:
    fill = found.fill
    return found.total, found.sugar, found.solids, found.solids_share, found.finished, fill and fill.most


@given(st.sampled_from(FRUITS), quarters, quarters, st.sampled_from(SWEETENERS), quarters, quarters,
       st.sampled_from(FINISHES), st.booleans())  # fmt: skip
def test_splitting_or_merging_lines_changes_nothing(fruit, one, two, sweet, three, four, finish, fruit_first) -> None:
    lines = [("fruit", one, fruit), ("fruit", two, fruit), ("sweetener", three, sweet), ("sweetener", four, sweet)]
    whole = weighed([("fruit", one + two, fruit), ("sweetener", three + four, sweet)], finish)
    parts = weighed(lines if fruit_first else [lines[2], lines[0], lines[3], lines[1]], finish)
    assert figures_of(whole) == figures_of(parts)


@given(st.sampled_from(FRUITS), quarters, st.sampled_from(SWEETENERS), quarters, st.sampled_from(FINISHES))
def test_every_estimate_holds_its_own_middle_run_and_stays_under_the_ceiling(fruit, cups, sweet, more, finish) -> None:
    found = weighed([("fruit", cups, fruit), ("sweetener", more, sweet)], finish)
    done = found.finished
    if isinstance(done, NoFigure):
        return
    assert found.fill is not None
    assert found.fill.most is not None
    assert done.jars is not None
    for one in (done.mass, done.solids_share, done.sugar_share, done.ml, done.jars):
        assert one.low <= one.middle * (1 + 1e-9)
        assert one.middle <= one.high * (1 + 1e-9)
    assert done.jars.high <= float(found.fill.most) * (1 + 1e-6)
    assert done.mass.high <= float(found.total.high) * (1 + 1e-6)
    assert done.solids_share.low >= 0
    assert done.solids_share.high <= 1


@given(st.sampled_from(FRUITS), quarters, quarters, quarters, st.sampled_from(FINISHES[:1]))
def test_more_sugar_never_lowers_the_solids(fruit, cups, sugar, more, finish) -> None:
    less = weighed([("fruit", cups, fruit), ("sweetener", sugar, "sugar, granulated")], finish)
    extra = weighed([("fruit", cups, fruit), ("sweetener", sugar + more, "sugar, granulated")], finish)
    assert less.solids_share is not None
    assert extra.solids_share is not None
    assert extra.solids_share.low >= less.solids_share.low
    assert extra.solids_share.high >= less.solids_share.high
    if isinstance(less.finished, Finished) and isinstance(extra.finished, Finished):
        assert extra.finished.solids_share.middle >= less.finished.solids_share.middle
        assert extra.finished.ml.middle > less.finished.ml.middle


@given(altitudes, altitudes, st.floats(0, 12, allow_nan=False))
def test_higher_altitude_never_raises_the_gel_temperature(one, other, above) -> None:
    ends = []
    for feet in sorted((one, other)):
        pascal = air.pressure(feet)
        assert not isinstance(pascal, NoFigure)
        ends.append(boiling.gel_point(pascal, above))
    low, high = ends
    # The lowest pressure of the altitude range lies above the least for which the saturation line holds.
    assert not isinstance(low, NoFigure)
    assert not isinstance(high, NoFigure)
    assert high <= low


@given(altitudes)
def test_a_reading_on_a_standard_day_is_that_of_the_altitude(feet) -> None:
    water = air.water_boils(feet)
    assert not isinstance(water, NoFigure)
    pascal = air.pressure_of_reading(water)
    assert not isinstance(pascal, NoFigure)
    assert abs(pascal - air.pressure(feet)) < 1e-3


@given(st.floats(1, 74, allow_nan=False), shares, st.floats(65_000, 104_000, allow_nan=False))
def test_the_boiling_point_and_its_reverse_agree(brix, share, pascal) -> None:
    rise = boiling.elevation(brix, share, pascal)
    assert not isinstance(rise, NoFigure)
    back = boiling.solids_at(rise, share, pascal)
    if not isinstance(back, NoFigure):
        assert abs(back - brix) < 1e-3
    more = boiling.elevation(brix + 1, share, pascal)
    assert not isinstance(more, NoFigure)
    assert more > rise


@given(st.floats(30, 900), st.lists(st.floats(0, 300), min_size=1, max_size=6), st.floats(0, 300))
def test_water_activity_does_not_care_how_a_sugar_is_divided(water, pieces, simple) -> None:
    once = water_activity(water, {"sucrose": sum(pieces), "simple": simple})
    total = 0.0
    for piece in reversed(pieces):
        total += piece
    again = water_activity(water, {"simple": simple, "sucrose": total})
    if isinstance(once, NoFigure) or isinstance(again, NoFigure):
        return
    assert abs(once - again) < 1e-9
    assert 0 < once <= 1


@given(st.floats(1, 75), st.floats(20, 100), st.floats(0, 0.5))
def test_density_lies_between_that_of_water_and_of_its_sugar_and_pulp(brix, celsius, pulp) -> None:
    found = density.product_density(brix, celsius, pulp)
    assert not isinstance(found, NoFigure)
    # Water at 100 C weighs 958 kg/m3 (IAPWS-95), crystal sugar 1587 (CRC Handbook); read.
    assert 955 < found < 1590


@given(st.floats(500, 5000), st.floats(0.3, 0.65), st.floats(0, 0.04), st.floats(0, 0.08), st.floats(0, 0.08))
def test_what_boils_off_leaves_less_and_stronger(mass, solids, pulp, one, other) -> None:
    pot = Pot(mass, mass * solids, mass * pulp, mass * solids * 0.9)
    less, more = sorted((one, other))
    first, second = balance.boiled_off(pot, less), balance.boiled_off(pot, more)
    if isinstance(first, NoFigure) or isinstance(second, NoFigure):
        return
    assert second.mass <= first.mass
    assert second.brix >= first.brix
    ceiling = balance.ceiling_ml(pot)
    assert not isinstance(ceiling, NoFigure)
    assert second.ml <= first.ml <= ceiling * (1 + 1e-12)


@given(st.floats(0, 2000), st.floats(1, 2000))
def test_honey_is_a_larger_part_by_mass_than_by_solids_than_by_volume(sugar, honey) -> None:
    found = sweetener.shares(sugar, honey)
    assert not isinstance(found, NoFigure)
    # A cup of honey is heavier than one of sugar, and a sixth of it is water (USDA SR28 and SR27, read).
    assert found.volume <= found.solids <= found.mass
    assert found.sweetness.low <= found.sweetness.middle <= found.sweetness.high


@given(st.floats(1, 2000), st.sampled_from(sweetener.MEASURES))
def test_what_is_put_in_place_of_half_is_half_by_its_own_measure(sugar, measure) -> None:
    grams = sweetener.in_place_of(sugar, measure)
    assert not isinstance(grams, NoFigure)
    found = sweetener.shares(sugar, grams.middle)
    assert not isinstance(found, NoFigure)
    part = getattr(found, measure)
    part = part.middle if isinstance(part, Estimate) else part
    assert abs(part - 0.5) < 1e-9
