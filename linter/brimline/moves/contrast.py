"""An adaptation's batch and its tested formula's batch to one contrast."""

from fractions import Fraction

from msgspec.structs import replace

from brimline.batch.classes import acid_class, counts_in_base, is_gelled, pectin_kind
from brimline.batch.values import Batch, Item
from brimline.figures.values import Interval
from brimline.moves.pair import Unknowns, build, by_name, dimensions, parts, sides, weighed
from brimline.moves.scale import HIGH, Span2, snap, spans, vote
from brimline.moves.values import Contrast, Pair


def contrast(tested: Batch, adapted: Batch, at: Fraction | None = None) -> Contrast:
    """Match, scale and snap the groups of an adaptation and its tested formula; `at` sets the scale instead of voting."""
    unknowns = Unknowns()
    left, right = sides(tested, tested.kind), sides(adapted, tested.kind)
    built: list[Pair] = []
    ends: list[tuple[Span2, ...]] = []
    votes: list[tuple[Span2, ...]] = []
    _part_pools(left, right)
    for key in {**left, **right}:
        pair, shared = build(key, tuple(left.get(key, ())), tuple(right.get(key, ())), unknowns)
        found = spans(pair, shared)
        if found:
            pair, found = _worse(pair, shared, found, unknowns)
        built.append(pair)
        ends.append(found)
        # Infused and discarded things do not vote for the scale but are compared at it.
        votes.append(found if pair.kept else ())
    base = [_in_base(pair, tested, adapted) for pair in built]
    scale = vote(votes, base)[0] if at is None else at
    pairs = tuple(snap(pair, found, scale) for pair, found in zip(built, ends, strict=True))
    bounds = _settled(pairs, unknowns)
    return Contrast(tested, adapted, pairs, scale, bounds, tuple(sorted(unknowns.missing)), _tied(votes, scale))


def _settled(pairs: tuple[Pair, ...], unknowns: Unknowns) -> dict[str, Interval]:
    """The bounds, with the weight of a food that only one formula has taken at its middle.

    Where one food stands for another in the same measure, the same table is read on both sides; the spread of a cup
    matters where one food is measured in two ways.
    """
    both = {
        name
        for pair in pairs
        if pair.was and pair.now
        for side in (pair.was_most, pair.now_most, pair.was_least, pair.now_least)
        for _, form in side
        for name in form
    }
    return {
        name: span if name in both else Interval(span.middle, span.middle) for name, span in unknowns.bounds.items()
    }


def _tied(ends: list[tuple[Span2, ...]], scale: Fraction) -> bool:
    """Whether as many amounts agree on a whole batch as on the scale that won."""

    def behind(at: Fraction) -> int:
        return len([pair for pair in ends if pair and all(one.fits(at) for one in pair)])

    return scale != 1 and behind(Fraction(1)) >= behind(scale)


Sides = dict[tuple[str, str], list[Item]]


def _part_pools(left: Sides, right: Sides) -> None:
    """Take a pool apart where both formulas hold the same kinds in the same proportion: then nothing was exchanged."""
    for key in [key for key in left if key in right and _same_kinds(by_name(left[key]), by_name(right[key]))]:
        for side in (left, right):
            for name, items in by_name(side.pop(key)).items():
                side[name, key[1]] = items


def _same_kinds(was: dict[str, list[Item]], now: dict[str, list[Item]]) -> bool:
    """Whether two sides hold the same kinds, several of them, and as much more of each."""
    if set(was) != set(now) or len(was) == 1:
        return False
    ratios = [_stated_ratio(was[name], now[name]) for name in was]
    known = [ratio for ratio in ratios if ratio is not None]
    return None not in ratios and max(known) <= min(known) * HIGH


def _stated_ratio(was: list[Item], now: list[Item]) -> Fraction | None:
    """How much more there is of one kind, in a dimension both sides state."""
    for dim in dimensions(was, pooled=False):
        left = [one.quantity.get(dim) for one in was]
        right = [one.quantity.get(dim) for one in now]
        if all(left) and all(right):
            tested = sum((row[1] for row in left if row), Fraction(0))
            return sum((row[1] for row in right if row), Fraction(0)) / tested if tested else None
    return None


def _in_base(pair: Pair, tested: Batch, adapted: Batch) -> bool:
    """Whether a pair that stays in the jar is of the base on either side; nobody asks about another."""
    names = {one.name for one in (*pair.was, *pair.now)}
    return any(
        group.name in names and counts_in_base(group, batch) for batch in (tested, adapted) for group in batch.groups
    )


def _worse(
    pair: Pair, shared: list[tuple[str, str]], found: tuple[Span2, ...], unknowns: Unknowns
) -> tuple[Pair, tuple[Span2, ...]]:
    """Two shared dimensions: if they disagree, the least is read in the lower and the most in the higher one."""
    lows = [one.now_low / one.was_low for one in found]
    highs = [one.now_high / one.was_high for one in found]
    lowest, highest = lows.index(min(lows)), highs.index(max(highs))
    if max(lows) <= min(lows) * HIGH and max(highs) <= min(highs) * HIGH:
        return pair, found
    low_was, low_now = shared[lowest]
    high_was, high_now = shared[highest]
    word = f"{low_was.partition(':')[0]} and {high_was.partition(':')[0]}"
    return (
        replace(
            pair,
            was_least=parts(pair.was, low_was, True, unknowns, "", low_was),
            now_least=parts(pair.now, low_now, True, unknowns, "", low_was),
            was_most=parts(pair.was, high_was, False, unknowns, "", high_was),
            now_most=parts(pair.now, high_now, False, unknowns, "", high_was),
            disagree=word,
        ),
        found,
    )


def classes(tested: Batch, adapted: Batch) -> tuple[str, bool, str]:
    """The acid class (the graver of the two), whether the tested formula is gelled, and its pectin kind."""
    was, now = (acid_class(one, grams, known.bounds) for one in (tested, adapted) for grams, known in (weighed(one),))
    # The adaptation can only make its acid protect; that it no longer writes "bottled" does not lower the class.
    return now if now == "protects" else was, is_gelled(tested), pectin_kind(tested)
