"""What the lines of one batch weigh, line by line and in total, with everything left open kept as an interval.

Lines that share a cup weight share its unknown, so that it cancels in a share of the batch. A written range, an
optional line and a missing figure are unknowns of their own.
"""

from collections.abc import Iterable
from fractions import Fraction

from msgspec import Struct, field

from brimline.batch.linear import Linear, ratio, total, value
from brimline.batch.linear import times as scaled
from brimline.batch.values import Item
from brimline.figures.values import Interval
from brimline.moves.pair import Unknowns, dimensions, form

WHOLE = Fraction(100)
ZERO = Fraction(0)


class Sums(Struct):
    """The forms of a batch's lines; `bounds` are the ends of every unknown met so far."""

    unknowns: Unknowns = field(default_factory=Unknowns)
    no_solids: dict[str, None] = field(default_factory=dict)

    @property
    def bounds(self) -> dict[str, Interval]:
        """The ends of the unknowns."""
        return self.unknowns.bounds

    def grams(self, one: Item) -> Linear | None:
        """Grams of a line as a form; None where no amount is written or nobody says what its measure weighs."""
        found = dimensions([one], False)
        if one.loose or not found or " per " in found[0]:
            return None
        alone = Unknowns()
        low, high = (form(one, found[0], end, alone, "", found[0]) for end in (1, 2))
        if alone.missing:
            return None
        if low == high and not one.optional:
            return form(one, found[0], 2, self.unknowns, "", found[0])
        least = ZERO if one.optional else value(low, alone.bounds).low
        return self._open(f"line {one.line.span.start}", least, value(high, alone.bounds).high)

    def solids(self, one: Item) -> Linear | None:
        """Grams of soluble solids of a line before boiling; without a figure, anything up to its dry matter."""
        grams = self.grams(one)
        if grams is None:
            return None
        entry = one.entry
        if one.sort == "fat":
            return {}
        if entry is not None and entry.solids is not None:
            return scaled(grams, entry.solids / WHOLE)
        if one.sort == "liquid" and entry is not None and entry.water is not None:
            return scaled(grams, (WHOLE - entry.water) / WHOLE)
        if entry is not None and "citric" in entry.tags and entry.acid is not None:
            return scaled(grams, entry.acid / WHOLE)
        self.no_solids[one.line.item] = None
        dry = WHOLE - entry.water if entry is not None and entry.water is not None else WHOLE
        return self._open(f"solids {one.line.span.start}", ZERO, value(grams, self.bounds).high * dry / WHOLE)

    def liquid(self, one: Item) -> Linear | None:
        """Grams of a line without its seeds, skin and fibre."""
        grams = self.grams(one)
        insoluble = one.entry.insoluble if one.entry is not None else None
        return grams if grams is None or not insoluble else scaled(grams, (WHOLE - insoluble) / WHOLE)

    def added(self, forms: Iterable[Linear | None]) -> Interval:
        """The sum of those forms that are known."""
        return value(total(one for one in forms if one is not None), self.bounds)

    def share(self, part: Iterable[Linear | None], whole: Iterable[Linear | None]) -> Interval | None:
        """One sum as a share of another; None if the other may come to nothing."""
        below = total(one for one in whole if one is not None)
        if not value(below, self.bounds).low:
            return None
        found = ratio(total(one for one in part if one is not None), below, self.bounds)
        # The two sums know their foods from different figures; a part is never more than the whole.
        return None if found is None else Interval(min(found.low, Fraction(1)), min(found.high, Fraction(1)))

    def _open(self, name: str, low: Fraction, high: Fraction) -> Linear:
        self.bounds[name] = Interval(low, high)
        return {name: Fraction(1)}
