"""What a litre of sugar solution and of finished product weighs."""

from brimline.batch.models.values import NoFigure, Range, constants, outside
from brimline.findings import Source

BRIX = Range("soluble solids", 0.0, 75.0, "Brix")
CELSIUS = Range("a temperature", 20.0, 100.0, "C")
PULP = Range("a share of pulp", 0.0, 1.0, "")
HOT_C = 90.0  # jars are filled at about this; common practice, no source

TABLE = Source(
    "sucrose-density", "CRC Handbook of Chemistry and Physics", "concentrative properties, our cubic fit", "read"
)
SOLUTION = Source("component-density", "component-property equations of 1986", "water, carbohydrate, fibre", "read")
_SUCROSE = constants(TABLE, one=998.329, brix=3.82516, square=0.0147488, cube=2.53578e-5)
_WATER = constants(SOLUTION, one=997.18, t=0.0031439, square=-0.0037574)
_SUGAR = constants(SOLUTION, one=1599.1, t=-0.31046)
_FIBRE = constants(SOLUTION, one=1311.5, t=-0.36589)


def sucrose_density(brix: float) -> float | NoFigure:
    """Density in kg/m3 of a sucrose solution at 20 C, of so many per cent sucrose by weight.

    Holds from 0 to 75 Brix within 0.3 kg/m3. Source: our cubic fit to the table of concentrative properties in the CRC
    Handbook of Chemistry and Physics; read.
    """
    if no := BRIX.outside(brix):
        return no
    return _SUCROSE["one"] + _SUCROSE["brix"] * brix + _SUCROSE["square"] * brix**2 + _SUCROSE["cube"] * brix**3


def product_density(brix: float, celsius: float = HOT_C, insoluble: float = 0) -> float | NoFigure:
    """Density in kg/m3 of fruit and sugar: per cent soluble solids of the liquid part, degrees C, share of pulp.

    Holds from 0 to 75 Brix and 20 to 100 C within 0.5 %, jam within 2.5 %. Source: component-property equations of
    1986 for water, carbohydrate and fibre; constants read.
    """
    if no := outside((BRIX, brix), (CELSIUS, celsius), (PULP, insoluble)):
        return no
    liquid = (1 - insoluble) * 1000
    return 1e6 / volume(liquid * (1 - brix / 100), liquid * brix / 100, insoluble * 1000, celsius)


def volume(water_g: float, sugar_g: float, fibre_g: float, celsius: float = HOT_C) -> float:
    """Millilitres of so many g of water, dissolved solids and fibre together, at degrees C.

    The same equations as `product_density`, without a range: volumes of the parts simply add, which is what lets a
    ceiling be drawn for a batch of any strength. Beyond 75 Brix the true volume is smaller.
    """
    water = _WATER["one"] + _WATER["t"] * celsius + _WATER["square"] * celsius**2
    sugar = _SUGAR["one"] + _SUGAR["t"] * celsius
    fibre = _FIBRE["one"] + _FIBRE["t"] * celsius
    return 1000 * (water_g / water + sugar_g / sugar + fibre_g / fibre)
