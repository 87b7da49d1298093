"""The batch when cooking ends: how much is left, how sweet it is, how many jars it fills, and the most it can fill."""

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from brimline.batch import words
from brimline.batch.linear import Bounds, Linear, ratio, total
from brimline.batch.linear import times as scaled
from brimline.batch.models import balance, density, gel
from brimline.batch.models.balance import Done, Pot
from brimline.batch.models.values import Estimate, NoFigure
from brimline.batch.values import Batch, Item
from brimline.document.values import Document, Finish
from brimline.figures.values import Interval
from brimline.review.sums import Sums
from brimline.review.weighed import Fill, Finished

# How far the volume of hot jam may be from the equation: a yield within it is not called impossible.
SLACK = Fraction(1025, 1000)
ONE = Fraction(1)
# Which window a pectin works in; a low-sugar pectin may be of either kind, and other gelling things have none.
METHOXYL = {"": "high-methoxyl", "pectin-powder": "high-methoxyl", "pectin-liquid": "high-methoxyl",
            "pectin-home": "high-methoxyl", "pectin-calcium": "low-methoxyl"}  # fmt: skip


class Load(Struct, frozen=True):
    """What fills the jars, as sums over what is not known exactly: all of it, and solids, pulp, sugar, sucrose in it.

    `sucrose` is taken at its middle. `missing` are lines that fill jars and have no weight.
    """

    mass: Linear
    solids: Linear
    liquid: Linear
    sugar: Linear
    sucrose: Linear
    bounds: Bounds
    missing: tuple[str, ...]

    def pot(self) -> Pot:
        """Everything at its middle."""
        mass, solids, liquid, sucrose = (
            float(_ends(form, self.bounds).middle) for form in (self.mass, self.solids, self.liquid, self.sucrose)
        )
        return Pot(mass, solids, mass - liquid, sucrose)


def load(pot: Sequence[Item], sweet: Sequence[Item], missing: tuple[str, ...], sums: Sums) -> Load:
    """The lines of a pot added up."""

    def added(forms: Sequence[Linear | None]) -> Linear:
        return total(one for one in forms if one is not None)

    return Load(
        mass=added([sums.grams(one) for one in pot]),
        solids=added([sums.solids(one) for one in pot]),
        liquid=added([sums.liquid(one) for one in pot]),
        sugar=added([sums.solids(one) for one in sweet]),
        sucrose=added([sums.sucrose(one) for one in pot]),
        bounds=sums.bounds,
        missing=missing,
    )


def fill(document: Document, loaded: Load) -> Fill | None:
    """The stated yield beside the hard ceiling: everything in the pot, at its lightest, nothing boiled off."""
    stated = document.yields
    if stated is None or not stated.jar.volume_ml:
        return None
    range_ = Interval(stated.low, stated.high)
    if loaded.missing or not loaded.mass:
        return Fill(stated.jar.name, range_, None, False, _why_not(loaded))
    most = _ends(_volume(loaded, loaded.mass), loaded.bounds).high / stated.jar.volume_ml
    return Fill(stated.jar.name, range_, most, stated.low > most * SLACK, "")


def finished(batch: Batch, loaded: Load, gelled: bool, pectin: str) -> Finished | NoFigure:
    """One batch when cooking ends; a NoFigure where a weight is missing or nobody knows how much boils off."""
    finish = batch.document.finish
    if loaded.missing or not loaded.mass:
        return NoFigure(_why_not(loaded))
    if finish is None:
        return NoFigure("the formula does not say when cooking ends")
    way = _way(finish, loaded.pot(), gelled)
    if isinstance(way, NoFigure):
        return way
    word, assumes, target = way
    done = _boiled_to(loaded, target) if word in ("gel point", "solids") else _boiled_off(loaded, target)
    if isinstance(done, NoFigure):
        return done
    brix, ml = done.solids, done.ml
    jar = batch.document.yields.jar.volume_ml if batch.document.yields is not None else Fraction(0)
    kind = METHOXYL.get(pectin, "") if gelled or pectin == "pectin-calcium" else ""
    window = gel.window(kind) if kind else None
    known = window if isinstance(window, gel.Window) else None
    percent = Estimate(*(100 * one for one in (brix.low, brix.middle, brix.high)))
    return Finished(
        way=word,
        assumes=assumes,
        mass=done.mass,
        solids_share=brix,
        sugar_share=_sugar(loaded, done),
        ml=ml,
        jars=Estimate(*(one / float(jar) for one in (ml.low, ml.middle, ml.high))) if jar else None,
        unboiled=done.middle.unboiled,
        window=known,
        stands=gel.stands(percent, known) if known is not None else "",
    )


def _way(finish: Finish, pot: Pot, gelled: bool) -> tuple[str, str, Estimate] | NoFigure:
    """How the end of cooking is computed, in a word and in words, and the share boiled off or the solids at the end."""
    low, high = (None if end is None else float(end) for end in (finish.low, finish.high))
    low = high if low is None else low
    high = low if high is None else high
    if finish.kind == "rolling" and high is not None and balance.ROLLING.outside(high) is None:
        off = balance.BOILED_OFF
        return (
            "boiled briefly",
            f"{100 * off.low:g} to {100 * off.high:g} % of what goes in boils off, {100 * off.middle:g} in the middle",
            off,
        )
    if finish.kind == "none" and gelled:
        return "not boiled", "nothing boils off", Estimate(0.0, 0.0, 0.0)
    if finish.kind == "brix" and low is not None and high is not None:
        return "solids", "boiled down to the solids the formula states", Estimate(low, (low + high) / 2, high)
    if finish.kind in ("gel", "temperature"):
        sea = 212.0 if finish.kind == "temperature" else 0.0
        above = Estimate(*((end or 8.0) - sea for end in (low, ((low or 8.0) + (high or 8.0)) / 2, high)))
        return _gel_way(above, pot)
    return NoFigure("nobody says how much boils off until it is done")


def _gel_way(above: Estimate, pot: Pot) -> tuple[str, str, Estimate] | NoFigure:
    """The solids at the gel point, by the boiling point of the batch's own sugars."""
    first, middle, last = (balance.gel_brix(pot, one) for one in (above.low, above.middle, above.high))
    if isinstance(first, NoFigure):
        return first
    if isinstance(middle, NoFigure) or isinstance(last, NoFigure):
        return middle if isinstance(middle, NoFigure) else NoFigure("the end is beyond 75 Brix")
    degrees = f"{above.low:g}" if above.low == above.high else f"{above.low:g} to {above.high:g}"
    text = (
        f"at {degrees} F over boiling water a batch of these sugars holds {first.low:.0f} to {last.high:.0f} % solids"
    )
    return "gel point", text, Estimate(first.low, middle.middle, last.high)


class Run(Struct, frozen=True):
    """One way to the end: the middle run, the estimates, and what is left at the least and most as sums."""

    middle: Done
    mass: Estimate
    solids: Estimate
    ml: Estimate
    least: Linear
    most: Linear


def _boiled_off(loaded: Load, share: Estimate) -> Run | NoFigure:
    """Middle run, mass, solids, volume of a batch of which a share boils off."""
    middle = balance.boiled_off(loaded.pot(), share.middle)
    if isinstance(middle, NoFigure):
        return middle
    least, most = (scaled(loaded.mass, ONE - _exact(one)) for one in (share.high, share.low))
    mass = _around(_ends(least, loaded.bounds).low, middle.mass, _ends(most, loaded.bounds).high, share.high > 0)
    low, high = (_volume(loaded, left) for left in (least, most))
    ml = _around(_ends(low, loaded.bounds).low, middle.ml, _ends(high, loaded.bounds).high, share.high > 0)
    weak, strong = (_brix(loaded, left) for left in (most, least))
    solids = Estimate(float(weak.low), middle.brix / 100, float(strong.high))
    return Run(middle, mass, solids, ml, least, most)


def _boiled_to(loaded: Load, brix: Estimate) -> Run | NoFigure:
    """Middle run, mass, solids, volume of a batch boiled to per cent solids; it never takes water in."""
    middle = balance.boiled_to(loaded.pot(), brix.middle)
    if isinstance(middle, NoFigure):
        return middle
    least, most = (_left_at(loaded, one) for one in (brix.high, brix.low))
    mass_low, ml_low = (min(_ends(form, loaded.bounds).low for form in pair)
                        for pair in ((least, loaded.mass), (_volume(loaded, least), _volume(loaded, loaded.mass))))  # fmt: skip
    mass_high, ml_high = (min(_ends(form, loaded.bounds).high for form in pair)
                          for pair in ((most, loaded.mass), (_volume(loaded, most), _volume(loaded, loaded.mass))))  # fmt: skip
    start = _brix(loaded, loaded.mass)
    share = Estimate(max(brix.low / 100, float(start.low)), middle.brix / 100, max(brix.high / 100, float(start.high)))
    mass, ml = _around(mass_low, middle.mass, mass_high), _around(ml_low, middle.ml, ml_high)
    return Run(middle, mass, share, ml, least, most)


def _left_at(loaded: Load, brix: float) -> Linear:
    """Grams left when the liquid part has so many per cent solids: the solids, their water, and the pulp."""
    pulp = _less(loaded.mass, loaded.liquid)
    return total([scaled(loaded.solids, 100 / _exact(brix)), pulp])


def _volume(loaded: Load, left: Linear) -> Linear:
    """Millilitres, hot, of so many g left of the batch; the volumes of water, solids and pulp add."""
    water, solids, pulp = (_exact(density.volume(*one)) for one in ((1, 0, 0), (0, 1, 0), (0, 0, 1)))
    fibre = _less(loaded.mass, loaded.liquid)
    wet = _less(_less(left, loaded.solids), fibre)
    return total([scaled(wet, water), scaled(loaded.solids, solids), scaled(fibre, pulp)])


def _brix(loaded: Load, left: Linear) -> Interval:
    """Solids as a share of the liquid part of so many g left, from 0 to 1."""
    wet_mass = _less(left, _less(loaded.mass, loaded.liquid))
    if min(wet_mass.values(), default=0) >= 0 and _ends(wet_mass, loaded.bounds).low > 0:
        found = ratio(loaded.solids, wet_mass, loaded.bounds)
        if found is not None:
            return Interval(min(found.low, ONE), min(found.high, ONE))
    # A line that is nearly all pulp (nuts) counts against the liquid: then every corner of the two sums is taken.
    fibre = _ends(_less(loaded.mass, loaded.liquid), loaded.bounds)
    water = _ends(_less(left, loaded.solids), loaded.bounds)
    solids = _ends(loaded.solids, loaded.bounds)
    wet = Interval(max(water.low - fibre.high, Fraction(0)), max(water.high - fibre.low, Fraction(0)))

    def share(sugar: Fraction, other: Fraction) -> Fraction:
        return sugar / (sugar + other) if sugar + other else Fraction(0)

    return Interval(share(solids.low, wet.high), share(solids.high, wet.low))


def _sugar(loaded: Load, done: Run) -> Estimate:
    """The sweeteners' own solids as a share of all that is left; a batch that was not boiled down keeps its mass."""
    weak = [ratio(loaded.sugar, left, loaded.bounds) for left in (done.most, loaded.mass)]
    strong = [ratio(loaded.sugar, left, loaded.bounds) for left in (done.least, loaded.mass)]
    low, high = max(float(one.low) for one in weak if one), max(float(one.high) for one in strong if one)
    return Estimate(low, float(_ends(loaded.sugar, loaded.bounds).middle) / done.middle.mass, min(high, 1.0))


def _around(low: Fraction, middle: float, high: Fraction, lossy: bool = True) -> Estimate:
    """An estimate with what may stay in the pot taken off its lower end."""
    return Estimate(float(low) * (1 - (balance.LEFT_BEHIND if lossy else 0)), middle, float(high))


def _less(whole: Linear, part: Linear) -> Linear:
    """One sum less another."""
    return total([whole, scaled(part, -ONE)])


def _ends(form: Linear, bounds: Bounds) -> Interval:
    """The least and most of a sum in which some coefficients may be below nought."""
    low = high = form.get("", Fraction(0))
    for name, coefficient in form.items():
        if name:
            ends = sorted((coefficient * bounds[name].low, coefficient * bounds[name].high))
            low, high = low + ends[0], high + ends[1]
    return Interval(low, high)


def _exact(number: float) -> Fraction:
    return Fraction(number).limit_denominator(10**9)


def _why_not(loaded: Load) -> str:
    if loaded.missing:
        return f"no weight is known for {words.listed(list(loaded.missing))}"
    return "the masses are not known"
