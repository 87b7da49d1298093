"""Compiles the unit list and the jar table into `made/units.json`: exact factors, every spelling, every source."""

import json
from fractions import Fraction
from pathlib import Path
from typing import Any

MADE = "linter/brimline/made/units.json"


def make(root: Path) -> dict[str, bytes]:
    """The compiled lists: `units` by canonical name, `spellings` to those, `jars` by volume, other `containers`.

    A unit has its dimension, its factor to the dimension's base as an exact fraction (`473176473/2000000` ml), an
    offset if it is a temperature, and its source. Raises ValueError if a definition has no source, or if two units
    share a spelling.
    """
    lines = (root / "schema" / "units.txt").read_text(encoding="utf-8").splitlines()
    units = _units([line for line in lines if line.strip() and not line.startswith("#")])
    spellings: dict[str, str] = {}
    for name, unit in units.items():
        for spelling in unit.pop("spellings"):
            if spellings.setdefault(spelling, name) != name:
                raise ValueError(f"schema/units.txt: {spelling!r} is both {spellings[spelling]!r} and {name!r}")
    jars, containers = _jars(root, Fraction(units["fl oz"]["factor"]))
    compiled = {
        "units": units,
        "spellings": dict(sorted(spellings.items())),
        "jars": jars,
        "containers": containers,
    }
    return {MADE: (json.dumps(compiled, ensure_ascii=False, indent=1) + "\n").encode("utf-8")}


def _units(lines: list[str]) -> dict[str, dict[str, Any]]:
    """Every defined unit, with the factor to its base as the pint library computes it in exact fractions."""
    from pint import UnitRegistry

    definitions = [line.partition("#")[0].strip() for line in lines]
    registry: Any = UnitRegistry(definitions, non_int_type=Fraction, on_redefinition="raise")
    bases = {_dimension(registry, line): line.split()[0] for line in definitions if "[" in line or "offset: 0 " in line}
    units: dict[str, dict[str, Any]] = {}
    for line, definition in zip(lines, definitions, strict=True):
        # NAME = FACTOR [; offset: N] = SYMBOL = ALIAS ...: the factor is the library's business, the names are ours.
        name, _, *others = [part.strip() for part in definition.split("=")]
        source = line.partition("#")[2].strip()
        if not source:
            raise ValueError(f"schema/units.txt: {name} has no source")
        dimension = _dimension(registry, definition)
        nought = registry.convert(Fraction(0), name, bases[dimension])
        unit: dict[str, Any] = {
            "dimension": dimension,
            "factor": str(registry.convert(Fraction(1), name, bases[dimension]) - nought),
            "source": source,
            "spellings": sorted({word.replace("_", " ") for word in (name, *others) if word != "_"}),
        }
        if nought:
            unit["offset"] = str(nought)
        symbol = others[0] if others and others[0] != "_" else name
        units[symbol.replace("_", " ")] = unit
    return units


def _dimension(registry: Any, definition: str) -> str:
    """The one dimension of a unit: `mass`, `volume`, `length` and so on."""
    (dimension,) = registry.get_dimensionality(definition.split(maxsplit=1)[0])
    return str(dimension).strip("[]")


def _jars(root: Path, fluid_ounce: Fraction) -> tuple[list[dict[str, Any]], dict[str, str]]:
    """The jar table by volume in exact millilitres, and every spelling of a container that is no canning jar.

    Raises ValueError for a jar without a source.
    """
    from ruamel.yaml import YAML

    table = YAML(typ="safe", pure=True).load((root / "schema" / "jars.yaml").read_text(encoding="utf-8"))
    jars = []
    for row in table["jars"]:
        if row["source"] not in table["sources"]:
            raise ValueError(f"schema/jars.yaml: {row['name']} has no source")
        written = sorted({row["name"], *row["written"]})
        plurals = [f"{name}s" for name in written if name[0].isalpha()]
        jars.append(
            {
                "name": row["name"],
                "ml": str(Fraction(row["fl_oz"]) * fluid_ounce),
                "written": written + plurals,
                "sizes": row["sizes"],
                "take": row["take"],
                "source": table["sources"][row["source"]],
            }
        )
    containers = {spelling: name for name in table["containers"] for spelling in (name, _plural(name))}
    return sorted(jars, key=lambda jar: Fraction(jar["ml"])), dict(sorted(containers.items()))


def _plural(name: str) -> str:
    """More than one of a container: `bottles`, `pouches`."""
    return f"{name}es" if name.endswith(("ch", "x", "ss")) else f"{name}s"
