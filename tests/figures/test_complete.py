"""The tables hold every figure of the publications, by subject, as printed; what is outside a figure has no answer.

`data/published_figures.csv` lists subject by subject what the publications print, where we hold it, and how it is
known. Its numbers were copied from the publications, not from our tables.
"""

import csv
import re
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimline.batch.models import air
from brimline.batch.models.values import NoFigure
from brimline.document.units import jar_named
from brimline.figures import conflicts, entries, factor, gel_temperature, process_tables, published, source, weigh
from brimline.figures._made import made

DATA = Path(__file__).parent / "data"
PAGE = re.compile(r"\b\d-\d{1,2}\b")
TABLES = "acid altitude boiling_point faults fruit_acidity fruit_ph gel_point headspace jars not_recommended pectin safe_edits sterile_jars storage sugar"  # fmt: skip


def listed(name: str) -> list[dict[str, str]]:
    with (DATA / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


FIGURES = listed("published_figures.csv")
PROCESSES = listed("process_tables.csv")
NUMBERS = [row for row in FIGURES if row["figure"]]


@pytest.mark.parametrize("row", NUMBERS, ids=lambda row: f"{row['held in']}, {row['figure']}: {row['publication']}")
def test_a_number_is_as_printed(row: dict[str, str]) -> None:
    number = published(row["held in"]).number(row["figure"])
    assert number is not None
    assert (number.low, number.high, number.unit) == (Fraction(row["least"]), Fraction(row["most"]), row["unit"])


@pytest.mark.parametrize("held", sorted({row["held in"] for row in FIGURES}))
def test_a_subject_says_something_on_whose_word_and_how_it_is_known(held: str) -> None:
    figure = published(held)
    rows = [row for row in FIGURES if row["held in"] == held]
    assert figure.says or figure.numbers or figure.note or figure.inferred
    assert {figure.source.how} == {row["how"] for row in rows}
    for row in rows:
        guide = row["publication"].startswith("USDA Complete")
        assert guide == figure.source.title.startswith("USDA Complete")
        assert not guide or set(PAGE.findall(row["publication"])) <= set(PAGE.findall(figure.source.section))


def test_the_list_and_the_tables_are_the_same() -> None:
    held = made("published")["figures"]
    assert {key.partition("/")[0] for key in held} == set(TABLES.split())
    assert set(held) == {row["held in"] for row in FIGURES}
    for key in held:
        names = {number.name for number in published(key).numbers}
        assert names == {row["figure"] for row in FIGURES if row["held in"] == key} - {""}, key


@pytest.mark.parametrize("row", PROCESSES, ids=lambda row: f"{row['table']}: {row['publication']}")
def test_a_process_is_as_printed_beside_its_times(row: dict[str, str]) -> None:
    table = process_tables()[row["table"]]
    inches = Fraction(row["headspace in"]) if row["headspace in"] else None
    assert (table.method, table.headspace) == (row["method"], inches)
    assert (set(table.sterile), table.acid_required) == (set(row["sterile jars"].split()), bool(row["acid required"]))
    assert table.source.how == row["how"]
    assert set(PAGE.findall(row["publication"])) == set(PAGE.findall(table.source.section))


def test_all_process_tables_are_listed() -> None:
    assert set(process_tables()) == {row["table"] for row in PROCESSES}


def test_where_publications_disagree_every_side_is_kept_and_one_is_used() -> None:
    wanted = {row["subject"]: int(row["sides"]) for row in listed("disagreements.csv")}
    held = conflicts()
    assert {id_: len(sides) for id_, (sides, _) in held.items()} == wanted
    assert [id_ for id_, (_, used) in held.items() if not used] == []


def test_of_figures_that_disagree_one_is_the_cautious_one() -> None:
    # A publication that another one replaced needs no mark: the newer counts; so do a table and the text beside it.
    settled = {"steam_canner_2015", "steam_canner_now", "jam_text_rule", "rule_plus_8_osu", "rule_minus_2_per_1000"}
    for key in made("published")["figures"]:
        figure = published(key)
        if figure.against and figure.id not in settled:
            others = [published(other) for other in figure.against]
            assert figure.cautious != any(other.cautious for other in others), key


def test_jars_hold_what_the_guide_says() -> None:
    # Jar names of the USDA Complete Guide, Guide 1, p. 1-13, in US fluid ounces (memory).
    ounces = {"quarter-pint": 4, "half-pint": 8, "12 oz": 12, "pint": 16, "pint-and-half": 24, "quart": 32, "half-gallon": 64}  # fmt: skip
    for name, volume in ounces.items():
        jar = jar_named(name)
        assert jar is not None
        assert jar.ml == Fraction("29.5735295625") * volume


# Outside its range a figure has no answer: each look-up says None or refuses, and none of them stretches a figure.


@given(st.sampled_from(sorted(process_tables())), st.integers(0, 12_000), st.sampled_from(["hot", "raw"]))
def test_no_tested_time_outside_the_rows_of_a_table(name: str, altitude: int, fill: str) -> None:
    table = process_tables()[name]
    for jar in ("quarter-pint", "half-pint", "12 oz", "pint", "pint-and-half", "quart", "half-gallon"):
        rows = [row for row in table.rows if row.fill == fill and jar in row.jars]
        reaches = [row for row in rows if row.bands[-1][1] is None or altitude <= row.bands[-1][1]]
        minutes = table.minutes(jar, fill, altitude)
        assert (minutes is None) == (not reaches)
        assert minutes is None or minutes in {tested for row in rows for tested, _ in row.bands}


@pytest.mark.parametrize("altitude", [-1, 8001, 9000, 30_000])
def test_no_gel_point_outside_the_printed_altitudes(altitude: int) -> None:
    assert gel_temperature(altitude) is None


def test_the_gel_table_is_read_up_to_4000_ft_and_remembered_above() -> None:
    assert published("table_f").source.how == "read"
    assert published("table_f_higher").source.how == "memory"
    lower, higher = published("table_f").numbers, published("table_f_higher").numbers
    assert [number.name for number in (*lower, *higher)] == [f"at {feet} ft" for feet in range(0, 9000, 1000)]


@pytest.mark.parametrize("altitude", [-1000, 12_000, 40_000])
def test_no_boiling_point_outside_the_range_of_the_equation(altitude: int) -> None:
    assert isinstance(air.water_boils(altitude), NoFigure)
    assert isinstance(air.pressure(altitude), NoFigure)


@pytest.mark.parametrize(
    ("kind", "fruit"), [("jelly", "rhubarb"), ("fruit butter", "strawberry"), ("chutney", "apple")]
)
def test_no_factor_for_a_fruit_the_standard_does_not_list(kind: str, fruit: str) -> None:
    # 21 CFR 150.140(b)(1) and 150.110(b)(1).
    assert factor(kind, fruit) is None


@pytest.mark.parametrize("unit", ["each", "sprig", "box", "no such unit"])
def test_no_weight_in_a_measure_nobody_weighed(unit: str) -> None:
    assert weigh(entries()["sugar, granulated"], [], unit) is None


@pytest.mark.parametrize(("id_", "name"), [("fig_acid", "vinegar of 5 %, per quart"), ("tomato_acid", "per half-pint")])
def test_no_dose_that_is_not_printed(id_: str, name: str) -> None:
    # USDA Complete Guide, Guide 2, p. 2-14 lists no vinegar for figs; Guide 3, p. 3-5 no dose for half-pints.
    assert published(id_).number(name) is None


@pytest.mark.parametrize("id_", ["no_such_figure", "sugar/tomato_acid", "table_g", ""])
def test_no_figure_and_no_source_under_an_unknown_id(id_: str) -> None:
    with pytest.raises(KeyError):
        published(id_)
    with pytest.raises(KeyError):
        source(id_)
