"""What the lines of one batch weigh, line by line and in total, with everything left open kept as an interval.

Lines that share a cup weight share its unknown, so that it cancels in a share of the batch. A written range, an
optional line and a missing figure are unknowns of their own.
"""

import re
from collections.abc import Iterable
from fractions import Fraction

from msgspec import Struct, field

from brimline._patterns import pattern
from brimline.batch.linear import Linear, ratio, total, value
from brimline.batch.linear import times as scaled
from brimline.batch.values import Item
from brimline.figures.values import Interval
from brimline.moves.pair import Unknowns, dimensions, form

WHOLE = Fraction(100)
_BRIX = pattern(r"(\d{1,2}(?:\.\d{1,4})?) brix", re.ASCII)
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
        low, high = (form(one, found[0], least, alone, "", found[0]) for least in (True, False))
        if alone.missing:
            return None
        if low == high and not one.optional:
            return form(one, found[0], False, self.unknowns, "", found[0])
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
        if one.sort == "nut":
            # Oil, starch and fibre of a nut do not dissolve; its sugars do.
            return scaled(grams, (entry.sugars or ZERO) / WHOLE) if entry is not None else {}
        if (stated := brix_of(one)) is not None:
            return scaled(grams, stated / WHOLE)
        if entry is not None and entry.solids is not None:
            return scaled(grams, entry.solids / WHOLE)
        if one.sort == "liquid" and entry is not None and entry.water is not None:
            return scaled(grams, (WHOLE - entry.water) / WHOLE)
        if entry is not None and "citric" in entry.tags and entry.acid is not None:
            return scaled(grams, entry.acid / WHOLE)
        self.no_solids[one.line.item] = None
        low, high = _dissolved(one)
        span = value(grams, self.bounds)
        return self._open(f"solids {one.line.span.start}", span.low * low, span.high * high)

    def sucrose(self, one: Item) -> Linear | None:
        """Grams of sucrose of a line; sugars of which nobody says how much is sucrose count as simple ones."""
        grams, entry = self.grams(one), one.entry
        if grams is None or entry is None:
            return grams if grams is None else {}
        if entry.sucrose is None:
            cane = one.sort == "sweetener" and entry.tags & {"sugar", "brown", "powdered"}
            return scaled(grams, entry.solids / WHOLE) if cane and entry.solids is not None else {}
        # The sugars of a food and its soluble solids are from different figures; a part is never more than the whole.
        most = entry.sucrose if entry.solids is None else min(entry.sucrose, entry.solids)
        return scaled(grams, most / WHOLE)

    def liquid(self, one: Item) -> Linear | None:
        """Grams of a line without its seeds, skin and fibre."""
        grams = self.grams(one)
        insoluble = one.entry.insoluble if one.entry is not None else None
        if grams is not None and one.sort == "nut":
            wet = (one.entry.water or ZERO) + (one.entry.sugars or ZERO) if one.entry is not None else ZERO
            return scaled(grams, wet / WHOLE)
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


def _dissolved(one: Item) -> tuple[Fraction, Fraction]:
    """The least and the most of a food that may be dissolved solids, as shares, where no figure says.

    Anything up to its dry matter; juice or pulp made of other lines lies between the least and the most of those.
    """
    entry = one.entry
    if one.made_of and (entry is None or (entry.solids is None and entry.water is None)):
        parts = [_dissolved(part) for part in one.made_of if part.stay == "kept"]
        if parts:
            return min(low for low, _ in parts), max(high for _, high in parts)
    if entry is not None and entry.solids is not None:
        return entry.solids / WHOLE, entry.solids / WHOLE
    dry = WHOLE - entry.water if entry is not None and entry.water is not None else WHOLE
    return ZERO, dry / WHOLE


def brix_of(one: Item) -> Fraction | None:
    """The soluble solids in per cent that a line states as a form (`12.5 Brix`), if it does."""
    found = [_BRIX.fullmatch(form.strip().lower()) for form in one.line.forms]
    return next((Fraction(match.group(1)) for match in found if match), None)
