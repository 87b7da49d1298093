"""The models against reference libraries: recomputes the rows of `check-values.csv` and prints the differences.

python3 ci/references.py

Run by hand only: it needs libraries that Brimline itself does not use, and says how to get them. Nothing else needs it;
the rows it recomputes are tested from the table by the suite.
"""

import csv
import re
import sys
from collections.abc import Callable
from dataclasses import dataclass
from importlib import import_module, metadata
from math import exp
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
sys.path[:0] = [str(ROOT / "linter")]

TABLE = ROOT / "tests" / "models" / "check-values.csv"
LIBRARIES = ("CoolProp", "iapws", "ambiance")
FOOT_M = 0.3048
STANDARD_PA = 101_325.0


@dataclass(frozen=True)
class Line:
    """One row recomputed: what it is, the table's figure, the library's, ours; `slack` is how far ours may be off."""

    what: str
    printed: float
    library: float
    ours: float
    slack: float


class Libraries:
    """The reference libraries behind one face each; every figure in SI units."""

    def __init__(self) -> None:
        """Import them. Raises ImportError where one is missing."""
        self.steam: Any = import_module("CoolProp.CoolProp")
        self.ice: Any = import_module("iapws._iapws")
        self.iapws: Any = import_module("iapws")
        self.air: Any = import_module("ambiance")

    def pressure(self, feet: float) -> float:
        """US Standard Atmosphere 1976 (the ICAO one below 32 km), Pa at a geometric altitude."""
        return float(self.air.Atmosphere(feet * FOOT_M).pressure[0])

    def boiling(self, pascal: float) -> float:
        """IAPWS-95 saturation line, C."""
        return float(self.steam.PropsSI("T", "P", pascal, "Q", 0, "Water")) - 273.15

    def boiling_again(self, pascal: float) -> float:
        """The saturation line of the industrial formulation IF97, C."""
        return float(self.iapws.IAPWS97(P=pascal / 1e6, x=0).T) - 273.15

    def vapour(self, celsius: float) -> float:
        """IAPWS-95 vapour pressure, Pa."""
        return float(self.steam.PropsSI("P", "T", celsius + 273.15, "Q", 0, "Water"))

    def water_density(self, celsius: float) -> float:
        """IAPWS-95 density of water at one atmosphere, kg/m3."""
        return float(self.steam.PropsSI("D", "T", celsius + 273.15, "P", STANDARD_PA, "Water"))

    def frozen(self, celsius: float) -> float:
        """Water activity of a solution in balance with ice: vapour pressure of ice over that of supercooled water."""
        kelvin = celsius + 273.15
        ice = float(self.ice._Sublimation_Pressure(kelvin)) * 1e6
        # Supercooled water: the fit published in the Quarterly Journal of the RMS, 2005; memory.
        return ice / exp(supercooled(kelvin))


def supercooled(kelvin: float) -> float:
    """Natural logarithm of the vapour pressure (Pa) of supercooled water, 123 to 332 K; published fit of 2005, memory."""
    from math import log, tanh

    first = 54.842763 - 6763.22 / kelvin - 4.210 * log(kelvin) + 0.000367 * kelvin
    turn = tanh(0.0415 * (kelvin - 218.8))
    return first + turn * (53.878 - 1331.22 / kelvin - 9.44523 * log(kelvin) + 0.014025 * kelvin)


def sucrose_activity(brix: float, celsius: float) -> float:
    """Water activity of sucrose by the fitted activity-coefficient equation; constants read, its form from memory."""
    sugar, water = brix / 342.297, (100 - brix) / 18.0153
    x = sugar / (sugar + water)
    return (1 - x) * exp(-17638 / (8.314462 * (celsius + 273.15)) * (1 - 1.0038 * x - 0.24653 * x * x) * x * x)


def root(gap: Callable[[float], float], low: float, high: float) -> float:
    """Where a rising function is nought."""
    while high - low > 1e-7:
        middle = (low + high) / 2
        low, high = (low, middle) if gap(middle) > 0 else (middle, high)
    return low


def number(text: str, pattern: str) -> float:
    """The number a pattern finds in the inputs of a row."""
    found = re.search(pattern, text)
    if found is None:
        raise ValueError(f"no number in {text!r}")
    return float(found[1])


def recomputed(row: dict[str, str], lib: Libraries) -> Line | None:
    """One row of the table by a library and by the models; None for a row no library speaks of."""
    from brimline.batch.models import air, boiling
    from brimline.batch.models.water_activity import water_activity

    what, text = row["quantity"], row["inputs"]
    if what == "pressure at altitude":
        feet = number(text, r"([\d.]+) ft")
        return _line(row, lib.pressure(feet), air.pressure(feet), 14)
    if what == "boiling point of water":
        feet = number(text, r"([\d.]+) ft")
        celsius, ours = lib.boiling(lib.pressure(feet)), air.water_boils(feet)
        in_f = row["unit"] == "degF"
        return _line(row, air.fahrenheit(celsius) if in_f else celsius,
                     air.fahrenheit(ours) if in_f and isinstance(ours, float) else ours, 0.036 if in_f else 0.02)  # fmt: skip
    if what == "saturation temperature of water":
        pascal = number(text, r"(\d+) Pa")
        return _line(row, lib.boiling(pascal), air.boiling_at(pascal), 0.001)
    if what == "model gel temperature (water + 8 F)":
        feet = number(text, r"([\d.]+) ft")
        pascal = air.pressure(feet)
        ours = boiling.gel_point(pascal) if isinstance(pascal, float) else pascal
        return _line(row, air.fahrenheit(lib.boiling(lib.pressure(feet))) + 8, ours, 0.036)
    if what == "boiling point sensitivity to weather":
        pascal = 1000 * number(text, r"at ([\d.]+) kPa")
        ends = [air.boiling_at(pascal + step) for step in (500, -500)]
        ours = ends[0] - ends[1] if isinstance(ends[0], float) and isinstance(ends[1], float) else ends[0]
        return _line(row, lib.boiling(pascal + 500) - lib.boiling(pascal - 500), ours, 0.002)
    if what == "boiling point elevation, sucrose, fitted activity equation":
        brix, water = number(text, r"([\d.]+) Brix"), lib.boiling(STANDARD_PA)
        up = root(lambda rise: sucrose_activity(brix, water + rise) * lib.vapour(water + rise) - STANDARD_PA, 0, 15)
        return _line(row, up, boiling.elevation(brix, 1.0), 0.1 if brix <= 70 else 0.16)
    if what == "water activity at freezing point":
        share, below = number(text, r"([\d.]+)%"), number(text, r"depression ([\d.]+)")
        kind = "sucrose" if text.startswith("sucrose") else "simple"
        return _line(row, lib.frozen(-below), water_activity(100 - share, {kind: share}, -below), 0.002)
    return None


def _line(row: dict[str, str], library: float, ours: object, slack: float) -> Line:
    if not isinstance(ours, float):
        raise TypeError(f"{row['quantity']}, {row['inputs']}: no figure where the table has one")
    return Line(row["quantity"] + (", F" if row["unit"] == "degF" else ""), float(row["value"]), library, ours, slack)


def more(lib: Libraries) -> list[Line]:
    """What the table does not hold: a second formulation of steam, and water by the density equation of the product."""
    from brimline.batch.models import air, density

    lines = []
    for pascal in range(60_000, 150_001, 2_500):
        ours = air.boiling_at(pascal)
        if isinstance(ours, float):
            first, second = lib.boiling(pascal), lib.boiling_again(pascal)
            lines.append(Line("saturation line every 2.5 kPa, IAPWS-95", first, first, ours, 0.001))
            lines.append(Line("saturation line every 2.5 kPa, IF97", first, second, ours, 0.001))
    for feet in range(-300, 11_801, 100):
        ours, theirs = air.water_boils(feet), lib.boiling(lib.pressure(feet))
        if isinstance(ours, float):
            lines.append(Line("boiling point every 100 ft to 11,800 ft", theirs, theirs, ours, 0.02))
    for celsius in range(20, 100, 5):
        ours, theirs = density.product_density(0, celsius), lib.water_density(celsius)
        if isinstance(ours, float):
            lines.append(Line("water by the product's density, 20 to 95 C", theirs, theirs, ours, 0.005 * theirs))
    return lines


def main() -> int:
    """Print one line a quantity: how far the table and the models are from the libraries; 1 if a model is too far."""
    try:
        lib = Libraries()
    except ImportError as missing:
        print(f"{missing.name} is not installed. In an environment of its own:", file=sys.stderr)
        print(f"  python -m pip install {' '.join(LIBRARIES)}", file=sys.stderr)
        print("and run this again with that Python. Brimline does not need these libraries.", file=sys.stderr)
        return 2
    with TABLE.open(encoding="utf-8", newline="") as file:
        found = [line for row in csv.DictReader(file) if (line := recomputed(row, lib)) is not None]
    groups: dict[str, list[Line]] = {}
    for line in [*found, *more(lib)]:
        groups.setdefault(line.what, []).append(line)
    print(", ".join(f"{name} {metadata.version(name)}" for name in LIBRARIES))
    print(f"{'':<60}{'rows':>5}{'table off':>12}{'ours off':>12}{'allowed':>10}")
    wrong = 0
    for what, lines in groups.items():
        table = max(abs(one.printed - one.library) for one in lines)
        ours = max(abs(one.ours - one.library) for one in lines)
        too_far = any(abs(one.ours - one.library) > one.slack for one in lines)
        wrong += too_far
        slack = max(one.slack for one in lines)
        print(f"{what:<60}{len(lines):>5}{table:>12.5f}{ours:>12.5f}{slack:>10.4g}{'  TOO FAR' if too_far else ''}")
    return int(wrong > 0)


if __name__ == "__main__":
    sys.exit(main())
