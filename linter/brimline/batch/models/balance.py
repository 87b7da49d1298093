"""What is left of a batch when cooking ends: mass, solids, volume, and never more than the ingredients can fill.

The choices, the same for every formula and none of them fitted to a yield:
- with a full rolling boil of up to two minutes 4 % of what went in boils off (2 to 8 %: 27 to 53 g a minute, by a burner
  of 1 to 2 kW, over 2 to 4 minutes at or near the boil);
- boiled to the gel point, the solids are those of a mixture that boils so many degrees above water, of its own sugars
  with 40 % of the sucrose inverted (5 to 59 %);
- up to 3 % may stay behind as skimmings and in the pot, which only the lower end counts;
- jars are filled at 90 C, where the product is about 2 % larger than cold.
"""

from msgspec import Struct

from brimline.batch.models import boiling, density
from brimline.batch.models.values import Estimate, NoFigure, Range, outside
from brimline.findings import Source

BOILED_OFF = Estimate(0.02, 0.04, 0.08)
LEFT_BEHIND = 0.03
SEA_LEVEL_PA = 101_325.0
ROLLING = Range("a full rolling boil", 0.0, 2.0, "min")
MASS = Range("a batch", 1.0, 100_000.0, "g")
STOVE = Source("stove-power", "heat of vaporisation of water, 2257 kJ/kg, and burners of 1 to 2 kW",
               "how much boils off in a minute", "judgement")  # fmt: skip


class Pot(Struct, frozen=True):
    """What goes in, in g: everything, the soluble solids of it, what does not dissolve, and the sucrose of the solids."""

    mass: float
    solids: float
    insoluble: float
    sucrose: float

    @property
    def sucrose_share(self) -> float:
        """Sucrose as a share of the soluble solids, from 0 to 1."""
        return min(max(self.sucrose / self.solids, 0.0), 1.0) if self.solids > 0 else 0.0


class Done(Struct, frozen=True):
    """One run to the end of cooking: g left, per cent solids of the liquid part, ml hot; `unboiled` if it had enough at first."""

    mass: float
    brix: float
    ml: float
    unboiled: bool = False


def start_brix(pot: Pot) -> float | NoFigure:
    """Per cent soluble solids of the liquid part before boiling; exact arithmetic, for any batch with water in it."""
    liquid = pot.mass - pot.insoluble
    if no := outside((MASS, pot.mass)):
        return no
    if not 0 <= pot.solids <= liquid:
        return NoFigure("the solids are more than the batch")
    return 100 * pot.solids / liquid


def ceiling_ml(pot: Pot) -> float | NoFigure:
    """The most that the ingredients can fill, in ml at 90 C with nothing boiled off; true of every way of cooking.

    Holds for 1 g to 100 kg within 2.5 %; beyond 75 Brix the true volume is smaller, so that the ceiling stays one.
    """
    no = start_brix(pot)
    if isinstance(no, NoFigure):
        return no
    return density.volume(pot.mass - pot.solids - pot.insoluble, pot.solids, pot.insoluble)


def boiled_off(pot: Pot, share: float) -> Done | NoFigure:
    """A batch of which a share (0 to below 1) of the mass has boiled off: the way of formulas with added pectin.

    Holds to 75 Brix; within 15 % of published yields. NoFigure where there is less water than that.
    """
    left = pot.mass * (1 - share)
    start = start_brix(pot)
    if isinstance(start, NoFigure):
        return start
    if not 0 <= share < 1 or left - pot.insoluble <= pot.solids:
        return NoFigure("there is not so much water in the batch")
    return _filled(pot, left)


def boiled_to(pot: Pot, brix: float) -> Done | NoFigure:
    """A batch boiled until the liquid part has so many per cent solids; one that starts above them stays as it is.

    Holds from 1 to 75 Brix; within 25 % of published yields.
    """
    start = start_brix(pot)
    no = outside((density.BRIX, brix))
    if isinstance(start, NoFigure) or no or brix < 1:
        return start if isinstance(start, NoFigure) else no or NoFigure("nothing is boiled to so few solids")
    if start >= brix:
        found = _filled(pot, pot.mass)
        return found if isinstance(found, NoFigure) else Done(found.mass, found.brix, found.ml, unboiled=True)
    return _filled(pot, 100 * pot.solids / brix + pot.insoluble)


def gel_brix(pot: Pot, above_f: float) -> Estimate | NoFigure:
    """Per cent solids at which this batch boils so many degrees F above water, at sea level; see `solids_when_done`.

    At 10,000 ft it is about 1 Brix more.
    """
    start = start_brix(pot)
    return start if isinstance(start, NoFigure) else boiling.solids_when_done(above_f, pot.sucrose_share, SEA_LEVEL_PA)


def _filled(pot: Pot, left: float) -> Done | NoFigure:
    """So many g left of a batch, with all its solids and pulp, as volume."""
    brix = 100 * pot.solids / (left - pot.insoluble)
    if no := density.BRIX.outside(brix):
        return no
    return Done(left, brix, density.volume(left - pot.solids - pot.insoluble, pot.solids, pot.insoluble))
