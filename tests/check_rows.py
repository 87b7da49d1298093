"""The table of check values and what both of its test files read from it."""

import csv
import re
from pathlib import Path

from brimline.batch.models.values import NoFigure
from brimline.batch.models.water_activity import water_activity

with (Path(__file__).parent / "models" / "check-values.csv").open(encoding="utf-8", newline="") as _file:
    ROWS = list(csv.DictReader(_file))

TABLESPOON_ML = 14.78676478125
CUP_ML = 236.5882365
STANDARD = 101_325


def numbers(text: str) -> list[float]:
    return [float(one) for one in re.findall(r"(?<![\w.])-?\d+(?:\.\d+)?", text)]


def known(value: float | NoFigure) -> float:
    assert not isinstance(value, NoFigure), value
    return value


def rows(quantity: str) -> list[dict[str, str]]:
    found = [row for row in ROWS if row["quantity"] == quantity]
    assert found
    return found


def activity(solids: float, share: float, celsius: float = 25) -> float:
    return known(water_activity(100 - solids, {"sucrose": solids * share, "simple": solids * (1 - share)}, celsius))
