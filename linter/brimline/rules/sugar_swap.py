"""Honey and syrup that stand for sugar, in cups: how much of each came in, and how much sugar went out."""

from collections.abc import Iterable
from fractions import Fraction

from msgspec import Struct

from brimline.batch.values import Item
from brimline.batch.words import decimal, number
from brimline.moves.printed import CUP_ML, cup_grams
from brimline.moves.values import Case, Contrast, Pair
from brimline.rules.sugar import is_plain_sugar, is_sweetener

# Whose cup stands for a sweetener of which tag, where an author weighs it; any other is weighed as granulated sugar.
CUP_OF = {"honey": ("honey", ""), "corn-syrup": ("corn syrup, light", ""), "brown": ("sugar, brown", "packed")}
PLAIN = ("sugar, granulated", "")


class Swap(Struct, frozen=True):
    """How the sweetener changed, at the scale of the batch.

    `removed` is the share of the plain sugar taken out, `honey` and `syrup` the cups of each beyond the tested ones
    for a whole batch, `sugar_cups` the cups of sugar removed.
    """

    removed: Fraction
    honey: Fraction
    syrup: Fraction
    sugar_cups: Fraction
    honey_pairs: tuple[Pair, ...]
    syrup_pairs: tuple[Pair, ...]
    rounding: Fraction

    @property
    def fits(self) -> bool:
        """Whether no more honey and syrup came in than sugar went out, cup for cup."""
        return self.honey + self.syrup <= self.sugar_cups * Fraction(102, 100) + self.rounding


def swap(case: Case) -> Swap | None:
    """The sweetener swap of an adaptation; None without a tested formula."""
    contrast = case.contrast
    if contrast is None:
        return None
    was, now = contrast.sum("was_least", is_plain_sugar), contrast.sum("now_least", is_plain_sugar)
    kept = contrast.quotient(now, was)
    removed = max(Fraction(0), 1 - kept.low / contrast.scale) if kept else Fraction(0)
    honey = tuple(pair for pair in contrast.pairs if is_sweetener(pair) and pair.has("honey"))
    syrup = tuple(pair for pair in contrast.pairs if is_sweetener(pair) and pair.has("corn-syrup"))
    plain = [pair for pair in contrast.pairs if is_plain_sugar(pair)]
    sugar = sum((_cups(pair.was) for pair in plain), Fraction(0))
    left = sum((_cups_now(pair, contrast) for pair in plain), Fraction(0))
    return Swap(
        removed=removed,
        honey=_more(honey, contrast),
        syrup=_more(syrup, contrast),
        sugar_cups=max(Fraction(0), sugar - left / contrast.scale),
        honey_pairs=tuple(pair for pair in honey if pair.now),
        syrup_pairs=tuple(pair for pair in syrup if pair.now),
        # The sugar that stays is measured to about a hundredth, and what was removed is told from it.
        rounding=sugar / 100,
    )


def _more(pairs: tuple[Pair, ...], contrast: Contrast) -> Fraction:
    was = sum((_cups(pair.was) for pair in pairs), Fraction(0))
    now = sum((_cups_now(pair, contrast) for pair in pairs), Fraction(0))
    return max(Fraction(0), now / contrast.scale - was)


def _cups_now(pair: Pair, contrast: Contrast) -> Fraction:
    return _cups(pair.was) * contrast.scale if pair.snapped else _cups(pair.now)


def _cups(items: Iterable[Item]) -> Fraction:
    """The cups of sweetener that some lines state, a range at its middle; grams through the table's cup weight."""
    total = Fraction(0)
    for one in items:
        volume = next(((low + high) / 2 for dim, low, high in one.quantity.dims if dim.startswith("volume:")), None)
        mass = one.quantity.get("mass")
        if volume is not None:
            total += volume / CUP_ML
        elif mass is not None:
            low, high = mass
            total += (
                (low + high) / 2 / cup_grams(*next((name for tag, name in CUP_OF.items() if tag in one.tags), PLAIN))
            )
    return total


def cups_words(value: Fraction) -> str:
    """`2 cups`, `1 cup`, `0.75 cup`."""
    text = number(value) if value.denominator in (2, 3, 4, 8) else decimal(value)
    return f"{text} cup" + ("" if value <= 1 else "s")
