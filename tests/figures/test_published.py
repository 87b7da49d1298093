"""Published times and figures are as printed, each with its publication, and nothing lies between or beyond them."""

import csv
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimline.document.units import jar_named
from brimline.figures import conflicts, gel_temperature, process_tables, published, source

DATA = Path(__file__).parent / "data"


def printed() -> list[dict[str, str]]:
    with (DATA / "process_times.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize(
    "row", printed(), ids=lambda row: f"{row['table']}, {row['fill']}, {row['jars']}: {row['publication']}"
)
def test_a_row_of_times_is_as_printed(row: dict[str, str]) -> None:
    table = process_tables()[row["table"]]
    bands = zip(row["altitudes ft"].split(), map(int, row["minutes"].split()), strict=True)
    last = None
    for altitudes, minutes in bands:
        low, _, high = altitudes.removesuffix("+").partition("-")
        for jar in row["jars"].split():
            for altitude in (int(low), int(high or low)):
                assert table.minutes(jar, row["fill"], altitude) == minutes
        last = altitudes
    assert last is not None
    beyond = [table.minutes(jar, row["fill"], 20_000) for jar in row["jars"].split()]
    assert all((minutes is None) != last.endswith("+") for minutes in beyond)


def test_the_rows_are_all_the_rows() -> None:
    listed = {(row["table"], row["fill"], row["jars"]) for row in printed()}
    held = {(id_, row.fill, " ".join(row.jars)) for id_, table in process_tables().items() for row in table.rows}
    assert held == listed
    assert len(process_tables()) == 84


def test_a_jar_or_fill_that_is_not_listed_has_no_time() -> None:
    # USDA Complete Guide, Guide 2, p. 2-13: cranberry-orange chutney, half-pints only, hot.
    chutney = process_tables()["cranberry_orange_chutney"]
    assert chutney.minutes("half-pint", "hot", 500) == 10
    assert chutney.minutes("pint", "hot", 500) is None
    assert chutney.minutes("half-pint", "raw", 500) is None
    # Seen for sea level only.
    assert process_tables()["lemon_curd_base"].minutes("half-pint", "hot", 1001) is None


def test_jars_are_those_of_the_jar_table() -> None:
    jars = {jar for table in process_tables().values() for row in table.rows for jar in row.jars}
    assert all(found is not None and found.name == jar for jar in jars for found in [jar_named(jar)])


def test_tables_under_ten_minutes_name_their_sterile_jars() -> None:
    # USDA Complete Guide, Guide 1, p. 1-14.
    for table in process_tables().values():
        for row in table.rows:
            if row.bands[0][0] < 10:
                assert set(row.jars) <= set(table.sterile), table.id


def test_headspace_as_printed() -> None:
    # USDA Complete Guide, Guides 2, 3 and 7.
    inches = {
        "jam_jelly_added_pectin": "1/4",
        "berry_syrup": "1/2",
        "apple_pie_filling": "1",
        "tomato_ketchup": "1/8",
        "grapes_whole": "1",
    }
    assert {id_: process_tables()[id_].headspace for id_ in inches} == {
        id_: Fraction(text) for id_, text in inches.items()
    }


@pytest.mark.parametrize(
    ("id_", "name", "low", "high", "unit"),
    [
        # USDA Complete Guide, Guide 3, p. 3-5.
        ("tomato_acid", "bottled lemon juice, per quart", "2", "2", "tbsp"),
        ("tomato_acid", "citric acid, per quart", "1/2", "1/2", "tsp"),
        ("tomato_acid", "vinegar of 5 %, per quart", "4", "4", "tbsp"),
        # Guide 2, p. 2-14.
        ("fig_acid", "bottled lemon juice, per pint", "1", "1", "tbsp"),
        ("fig_acid", "citric acid, per pint", "1/4", "1/4", "tsp"),
        # Guide 1, p. 1-28.
        ("vinegar_strength", "at least", "5", "5", "%"),
        # Guide 1, p. 1-14.
        ("sterile_jars/rule", "process under", "10", "10", "min"),
        ("sterile_jars/time", "for each further 1000 ft", "1", "1", "min"),
        # Michigan State University Extension 01600540.
        ("honey_no_added_pectin", "share at most", "1/2", "1/2", ""),
        ("honey_added_pectin_2_cups", "at most", "2", "2", "cup"),
        ("honey_added_pectin_2_cups", "small batch", "5", "6", "half-pint"),
        ("corn_syrup_no_pectin", "share at most", "1/4", "1/4", ""),
        ("corn_syrup_liquid_pectin", "at most", "2", "2", "cup"),
        # Guide 7, p. 7-7.
        ("antifoam_butter", "at most in a batch", "1/2", "1/2", "tsp"),
        # Guide 1, p. 1-26; National Center, causes and solutions; Guide 7, p. 7-12.
        ("sealed_shelf", "best", "12", "12", "month"),
        ("jelly_do_not_move", "stand", "12", "12", "h"),
        ("gelatin_spread", "refrigerated", "4", "4", "week"),
        ("uncooked_jam_3_weeks", "refrigerated", "3", "3", "week"),
    ],
)
def test_a_figure_is_as_printed(id_: str, name: str, low: str, high: str, unit: str) -> None:
    number = published(id_).number(name)
    assert number is not None
    assert (number.low, number.high, number.unit) == (Fraction(low), Fraction(high), unit)
    assert source(id_) == published(id_).source
    assert published(id_).source.how in {"read", "memory"}


def test_the_gel_table_is_as_printed_and_ends_where_it_ends() -> None:
    # USDA Complete Guide, Guide 7, p. 7-5.
    table = {0: 220, 1000: 218, 2000: 216, 3000: 214, 4000: 212, 5000: 211, 6000: 209, 7000: 207, 8000: 205}
    for altitude, degrees in table.items():
        found = gel_temperature(altitude)
        assert found is not None
        assert found.exact
        assert found.low == degrees
    between = gel_temperature(5500)
    assert between is not None
    assert (between.low, between.high) == (209, 211)
    assert gel_temperature(8001) is None
    assert gel_temperature(-1) is None


@given(st.integers(0, 8000))
def test_jelly_is_done_cooler_higher_up(altitude: int) -> None:
    here, higher = gel_temperature(altitude), gel_temperature(min(altitude + 500, 8000))
    assert here is not None
    assert higher is not None
    assert higher.low <= here.low
    assert higher.high <= here.high


def test_where_publications_disagree_both_stay_and_one_is_marked() -> None:
    pairs = [
        ("uncooked_jam_3_weeks", "uncooked_jam_4_weeks"),
        ("corn_syrup_no_pectin", "corn_syrup_hg56"),
        ("elderberry_general", "elderberry_usda"),
    ]
    for cautious, other in pairs:
        assert published(cautious).cautious
        assert not published(other).cautious
        assert other in published(cautious).against
        assert cautious in published(other).against
    assert conflicts()["uncooked_jam_fridge"] == (("3 weeks (state bulletin)", "4 weeks (Michigan State)"), "3 weeks")
    assert len(conflicts()) == 22


def test_an_unknown_id_is_an_error() -> None:
    with pytest.raises(KeyError):
        published("no_such_figure")
    with pytest.raises(KeyError):
        source("no_such_source")


def test_a_source_names_its_publication_and_place() -> None:
    assert source("tomato_acid").title.startswith("USDA Complete Guide to Home Canning")
    assert source("tomato_acid").section == "Guide 3, pp. 3-5, 3-13"
    assert source("process_times/tomatoes_in_water").section == "Guide 3, pp. 3-9 to 3-10, 3-13"
    assert source("SR28 09316").section.endswith("09316")
    assert source("judgement").how == "judgement"
