"""Air pressure by altitude, and the temperature at which water boils under it."""

from math import log10

from brimline.batch.models.values import NoFigure, Range, constants
from brimline.findings import Source

FOOT_M = 0.3048  # the international foot, exactly
ALTITUDE = Range("an altitude", -100.0, 3600.0, "m")
PRESSURE = Range("a pressure", 60_000.0, 150_000.0, "Pa")
# What a barometer can show where people cook: the lowest of the altitudes above to a strong high at sea level.
WEATHER = Range("an air pressure", 60_000.0, 108_000.0, "Pa")
STEAM_C = Range("a temperature", 85.92, 111.36, "C")

AIR = Source("standard-atmosphere", "ICAO standard atmosphere", "pressure by altitude", "memory")
STEAM = Source(
    "saturation-line", "IAPWS-95 saturation line of water", "three-constant fit of ours, 60 to 150 kPa", "calc"
)
_AIR = constants(AIR, sea_level=101325, lapse=2.25577e-5, power=5.25588)
_STEAM = constants(STEAM, slope=1646.668, offset=10.05792, shift=225.956)


def pressure(altitude_ft: float) -> float | NoFigure:
    """Air pressure in Pa at an altitude in feet (geometric), on a day of standard weather.

    Holds from -100 to 3,600 m (-328 to 11,811 ft), within 14 Pa of the reference atmosphere up to 10,000 ft.
    Source: ICAO standard atmosphere; constants from memory, checked against two reference libraries.
    """
    metres = altitude_ft * FOOT_M
    return ALTITUDE.outside(metres) or _AIR["sea_level"] * (1 - _AIR["lapse"] * metres) ** _AIR["power"]


def boiling_at(pascal: float) -> float | NoFigure:
    """The temperature in degrees C at which water boils under a pressure in Pa.

    Holds from 60 to 150 kPa within 0.001 C. Source: our fit of the Antoine form to IAPWS-95.
    """
    return PRESSURE.outside(pascal) or _STEAM["slope"] / (_STEAM["offset"] - log10(pascal)) - _STEAM["shift"]


def steam_pressure(celsius: float) -> float | NoFigure:
    """The pressure in Pa under which water boils at a temperature in degrees C; the reverse of `boiling_at`.

    Holds from 86 to 111 C within 4 Pa. Source: our fit of the Antoine form to IAPWS-95.
    """
    return STEAM_C.outside(celsius) or 10 ** (_STEAM["offset"] - _STEAM["slope"] / (celsius + _STEAM["shift"]))


def water_boils(altitude_ft: float) -> float | NoFigure:
    """The temperature in degrees C at which water boils at an altitude in feet, on a day of standard weather.

    Range and sources as for `pressure` and `boiling_at`. The weather counts: 1 kPa moves it by 0.28 C at sea level
    and by 0.32 C at 5,000 ft, so a reading on the day is better than any table.
    """
    found = pressure(altitude_ft)
    return found if isinstance(found, NoFigure) else boiling_at(found)


def pressure_of_reading(celsius: float) -> float | NoFigure:
    """The air pressure in Pa of a place and day, from what a thermometer shows in boiling water, in degrees C.

    Holds for 86 to 101.8 C; no weather boils water elsewhere, so a reading outside is the thermometer's fault.
    """
    found = steam_pressure(celsius)
    return found if isinstance(found, NoFigure) else WEATHER.outside(found) or found


def fahrenheit(celsius: float) -> float:
    """Degrees F from degrees C."""
    return celsius * 1.8 + 32


def celsius(degrees_f: float) -> float:
    """Degrees C from degrees F."""
    return (degrees_f - 32) / 1.8
