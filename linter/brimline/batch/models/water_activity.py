"""Water activity of sugars in water: the multi-solute Norrish equation.

Solutes of one kind are added before anything else, so that splitting or merging an ingredient changes nothing; the
product of single-solute values does not have that property (65 Brix sucrose in two halves would give 0.884, not 0.865).
"""

from collections.abc import Mapping
from math import exp, sqrt

from brimline.batch.models.values import NoFigure, Range, constants, outside
from brimline.findings import Source

BRIX = Range("soluble solids", 0.0, 72.0, "Brix")
CELSIUS = Range("a temperature", -5.0, 106.0, "C")

NORRISH = Source(
    "norrish", "Journal of Food Technology, 1966", "multi-solute water activity of sugar solutions, K at 25 C", "memory"
)
MOLAR = Source("molar-masses", "IUPAC standard atomic weights", "molar masses", "calc")
_K = constants(NORRISH, sucrose=6.47, simple=2.25, kelvin=298.15)
_MASS = constants(MOLAR, sucrose=342.297, simple=180.156, water=18.0153)
# Cane and beet sugar is sucrose; glucose, fructose, honey, corn syrup and the sugars of most fruit count as simple.
KINDS = ("sucrose", "simple")


def water_activity(water_g: float, solutes_g: Mapping[str, float], celsius: float = 25) -> float | NoFigure:
    """Water activity (0 to 1) of so many g of water with these g of `sucrose` and `simple` sugars, at degrees C.

    Holds from 0 to 72 Brix and -5 to 106 C: within 0.002 for one sugar, 0.02 for mixtures and jam, whose inversion,
    acid and pectin are not counted. Source: Norrish equation of 1966, K from memory, scaled by 298.15 K over T (ours).
    """
    solids = sum(solutes_g.values())
    wrong = [kind for kind in solutes_g if kind not in KINDS]
    if wrong or min(solutes_g.values(), default=0) < 0 or not water_g + solids > 0:
        return NoFigure(f"{wrong[0]} is none of {', '.join(KINDS)}" if wrong else "no amount of water and sugar")
    brix = 100 * solids / (water_g + solids)
    return outside((BRIX, brix), (CELSIUS, celsius)) or norrish(brix, _share(solutes_g), celsius)


def _share(solutes_g: Mapping[str, float]) -> float:
    """Sucrose as a share of the sugars by mass."""
    solids = sum(solutes_g.values())
    return solutes_g.get("sucrose", 0.0) / solids if solids else 1.0


def norrish(brix: float, sucrose_share: float, celsius: float) -> float:
    """The equation itself, without a range: for the solver of the boiling point, which keeps its own."""
    sucrose = brix * sucrose_share / _MASS["sucrose"]
    simple = brix * (1 - sucrose_share) / _MASS["simple"]
    water = (100 - brix) / _MASS["water"]
    moles = sucrose + simple + water
    pull = (sqrt(_K["sucrose"]) * sucrose + sqrt(_K["simple"]) * simple) / moles
    return water / moles * exp(-_K["kelvin"] / (celsius + 273.15) * pull * pull)
