"""Water, air and sugar solutions as published equations, each with its units, its range and its source.

None of these judges a formula. A value outside an equation's range raises OutOfRange and is never extrapolated.
"""

from fractions import Fraction
from math import log10

from brimline.findings import Source

LOWEST_M, HIGHEST_M = -100.0, 3600.0
FOOT_M = 0.3048
# Milliequivalents in a gram of acid (from molar masses): how much citric acid another acid counts as.
MEQ = {
    "citric": Fraction("15.615"),
    "malic": Fraction("14.916"),
    "tartaric": Fraction("13.326"),
    "acetic": Fraction("16.652"),
    "lactic": Fraction("11.101"),
}

AIR = Source("standard-atmosphere", "ICAO standard atmosphere", "pressure by altitude", "memory")
STEAM = Source(
    "saturation-line", "IAPWS-95 saturation line of water", "three-constant fit of ours, 60 to 150 kPa", "calc"
)
SOLUTION = Source("component-density", "component-property equations of 1986", "water, carbohydrate, fibre", "read")


class OutOfRange(ValueError):
    """A value outside the range an equation was checked for; the message names the range."""


def pressure(altitude_ft: float) -> float:
    """Air pressure in Pa at an altitude in feet, on a day of standard weather.

    Holds from -100 to 3,600 m (-328 to 11,811 ft) within 20 Pa; raises OutOfRange beyond. Source: ICAO standard
    atmosphere, constants from memory, checked against a reference library.
    """
    metres = altitude_ft * FOOT_M
    _within(metres, LOWEST_M, HIGHEST_M, "altitude", "m")
    return float(101325 * (1 - 2.25577e-5 * metres) ** 5.25588)


def boiling_at(pascal: float) -> float:
    """The temperature in degrees C at which water boils under a pressure in Pa.

    Holds from 60 to 150 kPa within 0.001 C; raises OutOfRange beyond. Source: our fit of the Antoine form to IAPWS-95.
    """
    _within(pascal, 60_000, 150_000, "pressure", "Pa")
    return 1646.668 / (10.05792 - log10(pascal)) - 225.956


def boiling_f(altitude_ft: float) -> float:
    """The temperature in degrees F at which water boils at an altitude in feet, on a day of standard weather.

    Range and sources as for `pressure` and `boiling_at`; a kilopascal of weather moves it by half a degree.
    """
    return boiling_at(pressure(altitude_ft)) * 1.8 + 32


def gel_f(altitude_ft: float, above_f: float = 8) -> float:
    """The gel point in degrees F at an altitude in feet: boiling water and 8 degrees, or as many as a formula states.

    Range as for `pressure`. Source of the 8 degrees: USDA Complete Guide to Home Canning, Guide 7; read.
    """
    return boiling_f(altitude_ft) + above_f


def sucrose_density(brix: float) -> float:
    """Density in kg/m3 of a sucrose solution at 20 C, of so many per cent sucrose by weight.

    Holds from 0 to 75 Brix within 0.3 kg/m3; raises OutOfRange beyond. Source: our cubic fit to the table of
    concentrative properties in the CRC Handbook of Chemistry and Physics; read.
    """
    _within(brix, 0, 75, "soluble solids", "Brix")
    return 998.329 + 3.82516 * brix + 0.0147488 * brix**2 + 2.53578e-5 * brix**3


def hot_density(brix: float, celsius: float = 90, insoluble: float = 0) -> float:
    """Density in kg/m3 of hot fruit and sugar: per cent soluble solids of the liquid part, degrees C, share of pulp.

    Holds from 0 to 75 Brix and 20 to 100 C within 0.5 %, jam within 2.5 %; raises OutOfRange beyond. Source:
    component-property equations of 1986 for water, carbohydrate and fibre; constants read.
    """
    _within(brix, 0, 75, "soluble solids", "Brix")
    _within(celsius, 20, 100, "temperature", "C")
    _within(insoluble, 0, 1, "share of pulp", "")
    water = 997.18 + 0.0031439 * celsius - 0.0037574 * celsius**2
    sugar = 1599.1 - 0.31046 * celsius
    fibre = 1311.5 - 0.36589 * celsius
    liquid = (1 - brix / 100) / water + brix / 100 / sugar
    return 1 / ((1 - insoluble) * liquid + insoluble / fibre)


def as_citric(share: Fraction, acid: str) -> Fraction | None:
    """The per cent of citric acid that so many per cent of another acid neutralise like; None for an unnamed acid."""
    return share * MEQ[acid] / MEQ["citric"] if acid in MEQ else None


def _within(value: float, low: float, high: float, what: str, unit: str) -> None:
    if not low <= value <= high:
        raise OutOfRange(f"{what} {value:g} {unit}".rstrip() + f" is not from {low:g} to {high:g} {unit}".rstrip())
