"""The figures of a label are as printed: 21 CFR 101.30(h)(1) from a copy (read), row by row."""

import csv
from fractions import Fraction
from pathlib import Path

from brimline.figures import label
from brimline.figures._made import made

LISTED = Path(__file__).parent / "data" / "least_brix.csv"


def test_the_table_of_least_brix_is_the_printed_one() -> None:
    with LISTED.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    # 53 rows, lemon and lime by their acid.
    assert len(rows) == 53
    table = made("label")["juice"]
    held = {(name, "solids"): value for name, value in table["brix"].items()}
    held |= {(name, "acid"): value for name, value in table["acid"].items()}
    assert {key: Fraction(value) for key, value in held.items()} == {
        (row["held as"], row["basis"]): Fraction(row["percent"]) for row in rows
    }
    assert {row["held as"] for row in rows if row["basis"] == "acid"} == {"lemon", "lime"}


def test_how_each_figure_is_known_is_said() -> None:
    # Read: the table, the rounding, the tablespoon of 15 ml. From memory: the computation, servings, energy, one tablespoon.
    juice, percent = label.juice_sources()
    rounding, servings = label.rounding_sources()
    spread = label.serving("jam")
    assert spread is not None
    assert [one.how for one in (juice, percent, rounding, servings, *spread.sources, label.energy()[2])] == [
        "read", "memory", "read", "memory", "memory", "read", "memory"
    ]  # fmt: skip
    assert label.serving("salsa") is None


def test_sodium_of_salt_is_that_of_its_molar_masses() -> None:
    assert abs(label.sodium()[0] - 1000 * Fraction("22.99") / Fraction("58.44")) < Fraction("0.1")
