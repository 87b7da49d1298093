"""The terms of the decision table as tests on the pairs of a comparison: base, sour part, load, acid, sweetener."""

from collections.abc import Callable, Iterable
from fractions import Fraction

from brimline._patterns import pattern
from brimline.batch.classes import (
    counts_as_low_acid,
    counts_as_sour,
    counts_in_base,
)
from brimline.batch.values import Batch, Group, Item
from brimline.document.values import Line
from brimline.figures.values import Interval
from brimline.moves.printed import printed
from brimline.moves.values import Case, Contrast, Pair

_NAMED_STRENGTH = pattern(r"\b(\d+) % acid\b")


def full_strength() -> Fraction:
    """The per cent of acid in vinegar that formulas are tested with, as printed."""
    return printed("vinegar_strength", "at least").low


def only(pair: Pair) -> Callable[[Pair], bool]:
    """A test for one pair."""
    return lambda one: one is pair


def either(one: Callable[[Pair], bool], other: Callable[[Pair], bool]) -> Callable[[Pair], bool]:
    """A test that holds where one of two tests holds."""
    return lambda pair: one(pair) or other(pair)


def in_base(contrast: Contrast) -> Callable[[Pair], bool]:
    """A test whether a pair is part of the base on either side of a comparison."""
    return _either(contrast, "base", counts_in_base)


def in_load(contrast: Contrast) -> Callable[[Pair], bool]:
    """A test whether a pair is part of the low-acid load on either side of a comparison."""
    return _either(contrast, "load", counts_as_low_acid)


def in_sour(contrast: Contrast) -> Callable[[Pair], bool]:
    """A test whether a pair is of the sour part: high-acid fruit and juice, tomato, tomatillo."""
    return _either(contrast, "sour", lambda group, _: counts_as_sour(group))


def base_grams(contrast: Contrast) -> Fraction | None:
    """The middle estimate of the tested base in grams; None where the table has no weight for a part of it."""
    base = in_base(contrast)
    lines = [one for pair in contrast.pairs if base(pair) for one in pair.was]
    if any(one.line.item in contrast.missing for one in lines):
        return None
    return contrast.middle(contrast.sum("was_most", base)) or None


def _either(contrast: Contrast, part: str, test: Callable[[Group, Batch], bool]) -> Callable[[Pair], bool]:
    """The test for a part, made once for each comparison, so that the comparison can keep the part's sums."""
    if part not in contrast.parts:
        names = {
            (group.name, group.stay)
            for batch in (contrast.tested, contrast.adapted)
            for group in batch.groups
            if test(group, batch)
        }
        contrast.parts[part] = lambda pair: any((one.name, pair.stay) in names for one in (*pair.was, *pair.now))
    return contrast.parts[part]


def acid_pair(pair: Pair) -> bool:
    """Whether a pair is acid of the formula that stays in."""
    return pair.kept and pair.sort == "acid" and pair.has("lemon", "lime", "vinegar", "citric")


def kept(pair: Pair, contrast: Contrast) -> Interval | None:
    """How much of an acid is left per base, least against least; None if the tested formula does not require it."""
    return contrast.floor(only(pair), in_base(contrast), strength)


def strength(one: Item) -> Fraction:
    """What a line's acid counts: vinegar by its strength, at most the 5 % that formulas are tested with."""
    if "vinegar" not in one.tags:
        return Fraction(1)
    return min(one.strength if one.strength is not None else full_strength(), full_strength()) / full_strength()


def fallen(case: Case) -> list[tuple[Pair, Interval]]:
    """The acids of which less is left per base than tested, with how much is left."""
    if case.contrast is None:
        return []
    out = []
    for pair in case.contrast.pairs:
        if acid_pair(pair):
            left = kept(pair, case.contrast)
            if left is not None and left.low < case.same:
                out.append((pair, left))
    return out


def risen(case: Case) -> list[Pair]:
    """The acids that are new or more than tested at the scale, and the things taken for acid that are new."""
    contrast = case.contrast
    if contrast is None:
        return []
    out = []
    for pair in contrast.pairs:
        if not pair.kept or not pair.now:
            continue
        if acid_pair(pair):
            change = contrast.ceiling(only(pair), None)
            if change is None or change.high > case.more:
                out.append(pair)
        elif pair.added and (pair.sort in ("acid", "juice") or _called_acid(pair) or pair.has("wine")):
            out.append(pair)
    return out


def _called_acid(pair: Pair) -> bool:
    return any(one.line.role == "acid" for one in pair.now)


def required(pair: Pair) -> bool:
    """Whether the tested formula needs some of it: no option, no amount left open."""
    return any(any(form.values()) for _, form in pair.was_least)


def listed_alternative(case: Case, pair: Pair) -> bool:
    """Whether a risen acid is one the tested formula lists with `or`."""
    here = _words(one.line for one in pair.now)
    listed = _words(other for line in case.compared.tested.document.take for other in line.other)
    return bool(here & listed - {"juice", "acid"})


def _words(some: Iterable[Line]) -> set[str]:
    return {word for line in some for word in line.item.lower().split()}


def strength_of(one: Item) -> Fraction | None:
    """The stated strength of a vinegar line; a table entry named by its strength states it too."""
    if one.strength is not None:
        return one.strength
    named = _NAMED_STRENGTH.search(one.name)
    return Fraction(named[1]) if named else None


def _strength_or_full(one: Item) -> Fraction:
    return strength_of(one) or full_strength()


def stronger(pair: Pair, case: Case) -> bool:
    """Whether there is less vinegar, but one so strong that it holds as much acid."""
    if not pair.has("vinegar"):
        return False
    tested = min(map(_strength_or_full, pair.was), default=full_strength())
    if any(_strength_or_full(one) <= tested for one in pair.now):
        return False
    whole = case.compared.floor(only(pair), in_base(case.compared), _strength_or_full)
    return whole is not None and whole.low >= case.same
