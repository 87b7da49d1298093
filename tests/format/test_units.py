"""The closed lists against what the publications say, and the compiled list against the definition file."""

import json
import runpy
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from brimline.document import read, units

ROOT = Path(__file__).parents[2]

# NIST Handbook 44 Appendix C: the gallon is exactly 231 cubic inches, the inch exactly 25.4 mm, the cup 8 fluid ounces,
# the avoirdupois pound exactly 453.59237 g.
CUBIC_INCH_ML = Fraction("16.387064")
HANDBOOK_44 = {
    "gal": 231 * CUBIC_INCH_ML,
    "qt": Fraction("946.352946"),
    "pint": Fraction("473.176473"),
    "cup": Fraction("236.5882365"),
    "fl oz": Fraction("29.5735295625"),
    "tbsp": Fraction("14.78676478125"),
    "tsp": Fraction("4.92892159375"),
    "lb": Fraction("453.59237"),
    "oz": Fraction("28.349523125"),
    "in": Fraction("25.4"),
    "ft": Fraction("304.8"),
}
# NIST SP 430, household weights and measures, in ml, rounded as printed.
SP_430 = {
    "tsp": ("4.9", 1),
    "tbsp": ("15", 0),
    "fl oz": ("30", 0),
    "cup": ("237", 0),
    "pint": ("473", 0),
    "qt": ("946", 0),
}


@pytest.fixture(scope="module")
def registry() -> Any:
    from pint import UnitRegistry

    lines = (ROOT / "schema" / "units.txt").read_text(encoding="utf-8").splitlines()
    definitions = [line.partition("#")[0] for line in lines if line.strip() and not line.startswith("#")]
    return UnitRegistry(definitions, non_int_type=Fraction, on_redefinition="raise")


@pytest.mark.parametrize("name", HANDBOOK_44)
def test_us_customary_units_are_exact(name: str, registry: Any) -> None:
    unit = units.unit(name)
    assert unit is not None
    base = {"volume": "ml", "mass": "g", "length": "mm"}[unit.dimension]
    assert HANDBOOK_44[name] == unit.factor == registry.convert(Fraction(1), name.replace(" ", "_"), base)


@pytest.mark.parametrize("name", SP_430)
def test_household_units_agree_with_the_printed_table(name: str) -> None:
    printed, places = SP_430[name]
    unit = units.unit(name)
    assert unit is not None
    assert Fraction(printed) == round(unit.factor, places)


def test_every_factor_is_what_the_definition_file_gives(registry: Any) -> None:
    bases = {"mass": "g", "volume": "ml", "length": "mm", "time": "min", "temperature": "kelvin", "pressure": "psi"}
    for name, unit in units.units().items():
        base = bases.get(unit.dimension, name.replace(" ", "_"))
        nought = registry.convert(Fraction(0), name.replace(" ", "_"), base)
        assert (unit.offset, unit.offset + unit.factor) == (
            nought,
            registry.convert(Fraction(1), name.replace(" ", "_"), base),
        )


def test_mass_and_volume_never_meet(registry: Any) -> None:
    from pint import DimensionalityError

    with pytest.raises(DimensionalityError):
        registry.convert(Fraction(1), "g", "ml")


def test_what_is_compiled_is_what_the_maker_makes() -> None:
    maker = runpy.run_path(str(ROOT / "ci" / "making" / "units.py"))
    for path, content in maker["make"](ROOT).items():
        assert content == (ROOT / path).read_bytes()


def test_a_definition_without_a_source_is_refused() -> None:
    maker = runpy.run_path(str(ROOT / "ci" / "making" / "units.py"))
    with pytest.raises(ValueError, match=r"schema/units\.txt: gram has no source"):
        maker["_units"](["gram = [mass] = g"])


def test_no_spelling_is_read_in_two_ways() -> None:
    made = json.loads((ROOT / "linter" / "brimline" / "made" / "units.json").read_text(encoding="utf-8"))
    assert set() == set(units.DOUBTFUL) & (set(made["spellings"]) - {"C"})
    assert units.units()["C"].dimension == "temperature"


@pytest.mark.parametrize(
    ("value", "unit", "fahrenheit"), [("0", "C", "32"), ("100", "C", "212"), ("180", "F", "180"), ("40", "C", "104")]
)
def test_temperatures(value: str, unit: str, fahrenheit: str) -> None:
    assert Fraction(fahrenheit) == units.fahrenheit(Fraction(value), units.units()[unit])


# The trade names of the jars, in US fluid ounces, smallest first.
JARS = [
    ("quarter-pint", 4),
    ("half-pint", 8),
    ("12 oz", 12),
    ("pint", 16),
    ("pint-and-half", 24),
    ("28 oz", 28),
    ("quart", 32),
    ("half-gallon", 64),
]


def test_the_jar_table() -> None:
    assert [(name, ounces * Fraction("29.5735295625")) for name, ounces in JARS] == [
        (jar.name, jar.ml) for jar in units.jars()
    ]
    # Kansas State University Extension, canning in odd-sized jars: which listed time an odd size takes.
    assert {jar.name: jar.take for jar in units.jars() if jar.take} == {
        "quarter-pint": "half-pint",
        "12 oz": "pint",
        "pint-and-half": "quart",
        "28 oz": "quart",
    }


@pytest.mark.parametrize(
    ("written", "name", "millilitres"),
    [
        ("half-pint", "half-pint", "236.5882365"),
        ("half-pints", "half-pint", "236.5882365"),
        ("250 ml", "half-pint", "236.5882365"),
        ("125 ml", "quarter-pint", "118.29411825"),
        ("500 ml", "pint", "473.176473"),
        ("1 l", "quart", "946.352946"),
        ("8 oz", "half-pint", "236.5882365"),
        ("24 oz", "pint-and-half", "709.7647095"),
        ("300 ml", "300 ml", "300"),
        ("0.5 l", "0.5 l", "500"),
        ("6 oz", "6 oz", "177.441177375"),
        ("6 fl oz", "6 fl oz", "177.441177375"),
        ("quart", "quart", "946.352946"),
    ],
)
def test_jars_as_written(written: str, name: str, millilitres: str) -> None:
    document = read("x", f"formula KV-1 A\nstanding draft\npack\n  jar {written}\n".encode()).document
    assert document is not None
    (jar,) = document.pack.jars
    assert (name, Fraction(millilitres)) == (jar.name, jar.volume_ml)


@pytest.mark.parametrize(
    ("row", "hours"),
    [
        ("stand 12 h", "12"),
        ("stand 90 min", "1.5"),
        ("chilled 3 days", "72"),
        ("opened 4 weeks", "672"),
        ("sealed 12 months", "8766"),
        ("sealed 1 month", "730.5"),
        ("frozen 1 year", "8766"),
    ],
)
def test_times_to_keep(row: str, hours: str) -> None:
    document = read("x", f"formula KV-1 A\nstanding draft\nkeep\n  {row}\n".encode()).document
    assert document is not None
    assert (Fraction(hours), Fraction(hours)) == (document.keep[0].low_h, document.keep[0].high_h)


@pytest.mark.parametrize(
    ("altitude", "feet"),
    [
        ("1000 ft", Fraction(1000)),
        ("1,000 ft", Fraction(1000)),
        ("305 m", Fraction(305_000, 1) / Fraction("304.8")),
        ("1000 feet", Fraction(1000)),
    ],
)
def test_altitudes_are_exact_feet(altitude: str, feet: Fraction) -> None:
    row = f"half-pint: 5 min to {altitude}, 10 min above"
    document = read("x", f"formula KV-1 A\nstanding draft\nprocess steam\n  {row}\n".encode()).document
    assert document is not None
    assert feet == document.process[0].rows[0].bands[0].up_to_ft


@pytest.mark.parametrize(
    ("gap", "inches"),
    [("1/4 in", Fraction(1, 4)), ("1/8 in", Fraction(1, 8)), ("6 mm", Fraction(60, 254)), ("1 cm", Fraction(100, 254))],
)
def test_headspaces_are_exact_inches(gap: str, inches: Fraction) -> None:
    document = read("x", f"formula KV-1 A\nstanding draft\npack\n  headspace {gap}\n".encode()).document
    assert document is not None
    assert inches == document.pack.headspace[0].inches


def test_a_liquid_in_bare_ounces_is_read_with_a_note() -> None:
    text = "formula KV-1 A\nstanding draft\ntake\n  juice 46 oz pineapple juice, canned\n  fruit 24 oz cranberries\n"
    result = read("x", text.encode())
    (finding,) = result.findings
    assert (
        finding.level.word,
        finding.rule,
        finding.copy,
    ) == ("form", "writing/unit", "  juice 46 fl oz pineapple juice, canned")
    assert result.document is not None
    assert [line.amount.parts[0].unit for line in result.document.take if line.amount] == ["oz", "oz"]


@pytest.mark.parametrize(("written", "name"), [("bottle", "bottle"), ("pouches", "pouch"), ("crock", "crock")])
def test_a_container_not_made_for_canning_can_be_named_and_has_no_volume(written: str, name: str) -> None:
    rows = f"pack\n  jar {written}\nprocess boiling-water\n  {written}: 5 min to 1000 ft\n"
    result = read("x", f"formula KV-1 A\nstanding draft\n{rows}".encode())
    assert result.findings == ()
    assert result.document is not None
    (jar,) = result.document.pack.jars
    (timed,) = result.document.process[0].rows[0].jars
    assert (name, Fraction(0)) == (jar.name, jar.volume_ml) == (timed.name, timed.volume_ml)
    assert units.container_named(written) == name
    assert units.jar_named(written) is None


def test_every_spelling_of_a_jar_can_be_read() -> None:
    """A name that the table lists and the grammar cannot read would promise what no author can write."""
    table = YAML(typ="safe", pure=True).load((ROOT / "schema" / "jars.yaml").read_text(encoding="utf-8"))
    unread = [
        written
        for row in table["jars"]
        for written in (row["name"], *row["written"], *row["sizes"])
        if not _jars(written)
    ]
    assert unread == []


def _jars(written: str) -> tuple[str, ...]:
    text = f"formula T-1 Jam\nproduct jam\nstanding draft\n\npack\n  jar  {written}\n"
    document = read("a.formula", text.encode()).document
    return tuple(jar.name for jar in document.pack.jars) if document else ()
