"""The findings of the head that the base did not have, by fingerprint; wording and lines play no part."""

import re
from collections.abc import Iterable

from msgspec import Struct
from msgspec.structs import replace

from brimline.findings import Figure, Finding, Level
from brimline.review.fingerprint import fingerprint
from brimline.review.holding import holds
from brimline.review.values import Reviewed

_CODE = re.compile(r"\b[A-Z0-9]+(?:-[A-Z0-9]+)+\b", re.ASCII)
_AMOUNT = re.compile(r"\d+(?:[.,/]\d+)*(?: ?[A-Za-z%]+)?", re.ASCII)
_OTHER_FIGURES = "This was found before the request too, with other figures."
_NOW_HELD = "This was there before the request, but did not hold the formula back."

Measure = tuple[Figure, ...] | tuple[str, ...]


class Old(Struct, frozen=True):
    """A finding of the base: whether it held its formula back, and with what figures."""

    holds: bool
    measure: Measure


class Known:
    """The findings of the base by fingerprint; each can be met once."""

    def __init__(self, formulas: Iterable[tuple[Reviewed, frozenset[Level]]]) -> None:
        self._left: dict[str, list[Old]] = {}
        self.met = 0
        for formula, levels in formulas:
            for one in formula.findings:
                old = Old(holds(one, formula.standing, levels), measure(one))
                self._left.setdefault(fingerprint(formula.code, one), []).append(old)

    @property
    def left(self) -> int:
        """How many have not been met: they are gone in the head."""
        return sum(len(several) for several in self._left.values())

    def new(self, formula: Reviewed, levels: frozenset[Level]) -> tuple[Finding, ...]:
        """The findings of a formula of the head that were not there before, or that now weigh more.

        A finding that holds the formula back counts as new, too, where it did not hold it back before (a draft, a
        variance) or stands there with other figures: whoever changes an amount that was found wrong has to set it right.
        """
        return tuple(one for one in (self._meet(found, formula, levels) for found in formula.findings) if one)

    def _meet(self, one: Finding, formula: Reviewed, levels: frozenset[Level]) -> Finding | None:
        olds = self._left.get(fingerprint(formula.code, one))
        if not olds:
            return one
        grave, said = holds(one, formula.standing, levels), measure(one)
        # The nearest of equals is met: that with the same figures, among those one that held back.
        old = max(olds, key=lambda old: (old.measure == said, old.holds))
        olds.remove(old)
        self.met += 1
        if not grave or (old.holds and old.measure == said):
            return None
        return replace(one, says=f"{one.says} {_OTHER_FIGURES if old.holds else _NOW_HELD}")


def measure(one: Finding) -> Measure:
    """What a finding rests on: its figures, else the amounts of its sentence; none where only the writing is at fault."""
    return one.figures or (tuple(_AMOUNT.findall(_CODE.sub("", one.says))) if one.row else ())
