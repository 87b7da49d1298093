"""How far above water a sugar mixture boils, and how sweet it is when a thermometer says that it is done."""

from collections.abc import Callable

from brimline.batch.models import air
from brimline.batch.models.values import Estimate, NoFigure, Range, outside
from brimline.batch.models.water_activity import norrish
from brimline.findings import Source

SOLIDS = Range("soluble solids", 0.0, 75.0, "Brix")
SHARE = Range("a share of sucrose", 0.0, 1.0, "")
RISE = Range("degrees above boiling water", 0.0, 7.5, "C")
PASCAL = Range("an air pressure", 60_000.0, 108_000.0, "Pa")

GEL = Source("table_f", "USDA Complete Guide to Home Canning", "Guide 7, temperature test: 8 F above water", "read")
# Read in a source whose title was not kept, so it is told as remembered.
INVERSION = Source(
    "inversion",
    "statements on jam and on old jelly tests, publication not recorded",
    "30 to 50 % of the sugars inverted, 5 to 59 % reported",
    "memory",
)
# How much of the sucrose turns into glucose and fructose while a batch boils down.
INVERTED = Estimate(0.05, 0.40, 0.59)
GEL_ABOVE_F = 8.0


def elevation(brix: float, sucrose_share: float, pascal: float = 101_325) -> float | NoFigure:
    """Degrees C by which a mixture boils above water: per cent solids, sucrose as a share of them, air pressure in Pa.

    Holds from 0 to 75 Brix and 60 to 108 kPa: within 0.1 C for sucrose to 70 Brix and 0.15 C above, 0.3 C for mixtures.
    Source: activity of water by the Norrish equation against the IAPWS-95 saturation line. Acid and pectin are not
    counted (half a per cent of acid is 0.04 C).
    """
    no = outside((SOLIDS, brix), (SHARE, sucrose_share), (PASCAL, pascal))
    water = air.boiling_at(pascal)
    if no or isinstance(water, NoFigure):
        return no or water
    if brix == 0:
        return 0.0

    def gap(rise: float) -> float:
        steam = air.steam_pressure(water + rise)
        return pascal if isinstance(steam, NoFigure) else norrish(brix, sucrose_share, water + rise) * steam - pascal

    highest = air.STEAM_C.high - 1e-3 - water
    if gap(highest) < 0:
        return NoFigure(f"{brix:g} Brix boils above {air.STEAM_C.high:g} C, where the saturation line ends")
    return _root(gap, 0.0, highest)


def boiling_point(brix: float, sucrose_share: float, pascal: float = 101_325) -> float | NoFigure:
    """The boiling point of a mixture in degrees C; range, error and source as for `elevation`."""
    rise, water = elevation(brix, sucrose_share, pascal), air.boiling_at(pascal)
    if isinstance(rise, NoFigure) or isinstance(water, NoFigure):
        return rise if isinstance(rise, NoFigure) else water
    return water + rise


def solids_at(above_c: float, sucrose_share: float, pascal: float = 101_325) -> float | NoFigure:
    """Per cent solids of a mixture that boils so many degrees C above water; the reverse of `elevation`.

    Holds for 0 to 7.5 C above water within 3 Brix: a degree F on the thermometer is about 2 Brix, and the share of
    sucrose is never known well. NoFigure where the mixture would be beyond 75 Brix.
    """
    no = outside((RISE, above_c), (SHARE, sucrose_share), (PASCAL, pascal))
    if no:
        return no
    most = elevation(SOLIDS.high, sucrose_share, pascal)
    if isinstance(most, NoFigure) or most < above_c:
        return most if isinstance(most, NoFigure) else NoFigure(f"{above_c:g} C above water is beyond 75 Brix")

    water = air.boiling_at(pascal)
    steam = water if isinstance(water, NoFigure) else air.steam_pressure(water + above_c)
    if isinstance(water, NoFigure) or isinstance(steam, NoFigure):
        return water if isinstance(water, NoFigure) else steam
    # It boils at this temperature when so much of the pressure of steam is left; one equation, not one in another.
    left, celsius = pascal / steam, water + above_c
    return _root(lambda brix: left - norrish(brix, sucrose_share, celsius), 0.0, SOLIDS.high)


def solids_when_done(above_f: float, sucrose_share: float, pascal: float = 101_325) -> Estimate | NoFigure:
    """Per cent solids of a batch boiled to so many degrees F above water, of which sucrose was so large a share at first.

    The middle takes 40 % of the sucrose as inverted, the ends 59 and 5 %. Range and error as for `solids_at`.
    """
    found = [solids_at(above_f / 1.8, sucrose_share * (1 - part), pascal)
             for part in (INVERTED.high, INVERTED.middle, INVERTED.low)]  # fmt: skip
    numbers = [one for one in found if not isinstance(one, NoFigure)]
    if len(numbers) < len(found):
        return next(one for one in found if isinstance(one, NoFigure))
    return Estimate(*numbers)


def gel_point(pascal: float, above_f: float = GEL_ABOVE_F) -> float | NoFigure:
    """The temperature in degrees F at which a batch without added pectin is done, under an air pressure in Pa.

    Boiling water and 8 degrees, or as many as the formula states. Holds for 60 to 108 kPa; source of the 8 degrees:
    USDA Complete Guide to Home Canning, Guide 7, read. Within 1 F of its printed table to 8,000 ft.
    """
    water = PASCAL.outside(pascal) or air.boiling_at(pascal)
    return water if isinstance(water, NoFigure) else air.fahrenheit(water) + above_f


def _root(gap: Callable[[float], float], low: float, high: float) -> float:
    """Where a rising function is nought, by halving, to a millionth."""
    while high - low > 1e-6:
        middle = (low + high) / 2
        low, high = (low, middle) if gap(middle) > 0 else (middle, high)
    return (low + high) / 2
