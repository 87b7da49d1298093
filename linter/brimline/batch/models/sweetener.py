"""Honey and syrups in place of sugar: the same exchange in four measures, each named, because they are not one number.

A half by volume, cup for cup, is 63 % by mass and 58 % by solids. Published limits on honey are by volume.
"""

from msgspec import Struct

from brimline.batch.models.values import Estimate, NoFigure, constants
from brimline.findings import Source

SR28 = Source("SR28", "USDA National Nutrient Database for Standard Reference, Release 28", "weights and water", "read")
SWEET = Source("sweetness", "sweetness of fructose and glucose beside sugar, by their share of honey", "", "memory")
_CUP = constants(SR28, sugar=200, honey=339)
_SOLIDS = constants(SR28, sugar=1.0, honey=0.829)
MEASURES = ("volume", "mass", "solids", "sweetness")


class Sweetener(Struct, frozen=True):
    """A sweetener: grams in a cup, solids as a share of it, sweetness of a gram beside a gram of sugar."""

    name: str
    cup_g: float
    solids: float
    sweetness: Estimate


SUGAR = Sweetener("sugar", _CUP["sugar"], _SOLIDS["sugar"], Estimate(1, 1, 1))
HONEY = Sweetener("honey", _CUP["honey"], _SOLIDS["honey"], Estimate(0.756, 0.825, 0.894))


class Shares(Struct, frozen=True):
    """How large a part of all the sweetener one of them is, from 0 to 1, by each measure."""

    volume: float
    mass: float
    solids: float
    sweetness: Estimate


def shares(sugar_g: float, other_g: float, other: Sweetener = HONEY) -> Shares | NoFigure:
    """The part of the sweetening that another sweetener has beside so many g of sugar, by volume, mass, solids, sweetness.

    Holds for amounts from nothing up, some of either. Cup weights and solids: USDA SR28, read, within 0.5 %; sweetness
    from memory.
    """
    if not (sugar_g >= 0 and other_g >= 0 and sugar_g + other_g > 0):
        return NoFigure("no amount of sugar and sweetener")

    def part(ours: float, theirs: float) -> float:
        return other_g * ours / (other_g * ours + sugar_g * theirs)

    sweet = [part(one, 1) for one in (other.sweetness.low, other.sweetness.middle, other.sweetness.high)]
    return Shares(
        part(1 / other.cup_g, 1 / SUGAR.cup_g), part(1, 1), part(other.solids, SUGAR.solids), Estimate(*sweet)
    )


def in_place_of(sugar_g: float, measure: str, other: Sweetener = HONEY) -> Estimate | NoFigure:
    """Grams of another sweetener that equal so many g of sugar by `volume`, `mass`, `solids` or `sweetness`.

    Range, error and sources as for `shares`. It says what is equal and not what is tested.
    """
    if measure not in MEASURES or not sugar_g >= 0:
        return NoFigure(f"an amount of sugar and one of {', '.join(MEASURES)} are needed")
    if measure == "sweetness":
        sweet = other.sweetness
        return Estimate(sugar_g / sweet.high, sugar_g / sweet.middle, sugar_g / sweet.low)
    each = {"volume": other.cup_g / SUGAR.cup_g, "mass": 1.0, "solids": SUGAR.solids / other.solids}[measure]
    return Estimate(*[sugar_g * each] * 3)


def removed(kept_g: float, tested_g: float) -> float | NoFigure:
    """The share of the tested sugar that is gone; the same number by volume and by mass. Below 0 where more was put in."""
    if not (kept_g >= 0 and tested_g > 0):
        return NoFigure("no tested amount of sugar to compare with")
    return 1 - kept_g / tested_g
