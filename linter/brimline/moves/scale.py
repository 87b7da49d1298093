"""How much of the tested batch an adaptation makes, and amounts that are the same but for kitchen rounding.

The scale is voted for by the ingredients: the one that most amounts agree on within 2 % wins. Amounts within 2 % of
the winner are then set equal to the tested ones, so that two roundings in opposite directions do not add up to a
false cut. What can hide in this is about 4 %, once, because chains are measured to their root.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from brimline.batch.linear import times, total
from brimline.batch.values import Item
from brimline.moves.pair import _plain
from brimline.moves.values import Pair, Parts

KITCHEN = tuple(
    Fraction(n, d) for n, d in ((1, 4), (1, 3), (1, 2), (2, 3), (3, 4), (1, 1), (3, 2), (2, 1), (3, 1), (4, 1))
)
LOW, HIGH = Fraction(98, 100), Fraction(102, 100)


class Span2(Struct, frozen=True):
    """Both ends of one pair in one shared dimension, as stated: tested low and high, adapted low and high."""

    was_low: Fraction
    was_high: Fraction
    now_low: Fraction
    now_high: Fraction

    def fits(self, scale: Fraction) -> bool:
        """Whether the adaptation lies inside the tested range at a scale, give or take 2 %."""
        least, most = self.scales()
        return least <= scale <= most

    def scales(self) -> tuple[Fraction, Fraction]:
        """The least and the greatest scale at which the adaptation lies inside the tested range, give or take 2 %."""
        return self.now_high / (HIGH * self.was_high), self.now_low / (LOW * self.was_low)


def spans(pair: Pair, shared: Sequence[tuple[str, str]]) -> tuple[Span2, ...]:
    """The ends of a pair in every dimension both sides state; empty if one side is left to the cook."""
    if any(one.loose for one in (*pair.was, *pair.now)):
        return ()
    out = []
    for was_dim, now_dim in shared:
        was = _ends(pair.was, was_dim)
        now = _ends(pair.now, now_dim)
        if was[0] and now[0]:
            out.append(Span2(*was, *now))
    return tuple(out)


def _ends(items: Sequence[Item], dim: str) -> tuple[Fraction, Fraction]:
    """The least and the most that lines state in a dimension which all of them have."""
    rows = [next(row for row in one.quantity.dims if dim in (row[0], _plain(row[0], True))) for one in items]
    return sum((row[1] for row in rows), Fraction(0)), sum((row[2] for row in rows), Fraction(0))


def vote(ends: Sequence[Sequence[Span2]], base: Sequence[bool]) -> tuple[Fraction, int]:
    """The scale most ingredients agree on, and how many do.

    `ends` holds for each pair its ends per shared dimension, `base` whether it is part of the base. Ties go to the
    scale with more base ingredients behind it, then to the one nearest to the whole batch.
    """
    candidates = set(KITCHEN)
    for pair in ends:
        for one in pair:
            candidates.update((one.now_low / one.was_low, one.now_high / one.was_high))
    scales = sorted(candidates)
    votes = [0] * len(scales)
    in_base = votes.copy()
    for pair, is_base in zip(ends, base, strict=True):
        if pair:
            lows, highs = zip(*(one.scales() for one in pair), strict=True)
            for place in range(bisect_left(scales, max(lows)), bisect_right(scales, min(highs))):
                votes[place] += 1
                in_base[place] += is_base
    best = max(range(len(scales)), key=lambda place: (votes[place], in_base[place], -_distance(scales[place])))
    return scales[best], votes[best]


def _distance(scale: Fraction) -> Fraction:
    """How far a scale is from the whole batch, alike for halves and doubles."""
    return max(scale, 1 / scale)


def snap(pair: Pair, ends: Sequence[Span2], scale: Fraction) -> Pair:
    """The pair with ends that lie within 2 % of the tested ones set equal to them at the scale."""
    if not ends:
        return pair
    low = all(_near(one.now_low, scale * one.was_low) for one in ends)
    high = all(_near(one.now_high, scale * one.was_high) for one in ends)
    if not (low and high):
        return _half_snapped(pair, scale, low, high)
    most = _equal(pair.now_most, pair.was_most, scale)
    if any(one.optional for one in pair.now):
        return replace(pair, now_most=most, snapped=True)
    # Where the tested formula leaves it optional and the adaptation does not, all of the tested most is in.
    least = pair.was_most if any(one.optional for one in pair.was) else pair.was_least
    return replace(pair, now_least=_equal(pair.now_least, least, scale), now_most=most, snapped=True)


def _half_snapped(pair: Pair, scale: Fraction, low: bool, high: bool) -> Pair:
    """One end is as tested, the other is not: snap the end that is."""
    if any(one.optional for one in (*pair.now, *pair.was)):
        return pair
    least = _equal(pair.now_least, pair.was_least, scale) if low else pair.now_least
    most = _equal(pair.now_most, pair.was_most, scale) if high else pair.now_most
    return replace(pair, now_least=least, now_most=most)


def _near(now: Fraction, was: Fraction) -> bool:
    return LOW * was <= now <= HIGH * was


def _equal(now: Parts, was: Parts, scale: Fraction) -> Parts:
    """The adaptation's lines with their total set equal to the tested total at the scale."""
    here, tested = total(form for _, form in now), total(form for _, form in was)
    if set(here) != set(tested):
        return now
    factors = {scale * tested[name] / here[name] for name in here}
    return tuple((item, times(form, next(iter(factors)))) for item, form in now) if len(factors) == 1 else now
