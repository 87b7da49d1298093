"""Acid of the tested kind and strength: bottled stays bottled, vinegar stays strong, one acid is not another."""

from collections.abc import Iterator
from fractions import Fraction

from brimline.batch.values import Item
from brimline.findings import Flag
from brimline.moves.listing import stated
from brimline.moves.values import Case, Contrast, Pair
from brimline.rules.acid import acid_sentence
from brimline.rules.brought import squeezed, weak_vinegar
from brimline.rules.contract import rule
from brimline.rules.say import before, figure, line_of
from brimline.rules.terms import (
    acid_pair,
    fallen,
    full_strength,
    in_base,
    kept,
    listed_alternative,
    only,
    risen,
    strength_of,
    stronger,
)

WEAK = ("home-made", "pickling-base")


@rule("acid/strength", decides=("vinegar-weak", "vinegar-kind", "vinegar-stronger-less", "strength-unstated"))
def vinegar_is_strong_enough(case: Case) -> Iterator[Flag]:
    """Vinegar has a stated strength of at least 5 percent, and a stronger one is not a reason to use less.

    Weak or unknown vinegar leaves the food less acid than the tested formula, and the label is the only way to know.
    """
    contrast = case.contrast
    if contrast is None:
        yield from _unstated(case)
        return
    for aside in weak_vinegar(case, full_strength()):
        says = f"The tested formula uses vinegar of {float(full_strength()):g} %. This step says: {aside.reading.text}"
        yield Flag("vinegar-weak", aside.span, says, (), None, acid_class=case.acid_class)
    for pair in contrast.pairs:
        if not pair.has("vinegar") or not pair.kept:
            continue
        tested = [old for one in pair.was if (old := strength_of(one)) is not None]
        floor = min([full_strength(), *tested])
        for one in pair.now:
            known = strength_of(one)
            weak = not one.tags.isdisjoint(WEAK) or (known is not None and known < floor)
            unstated = bool(tested) and known is None
            if weak or unstated:
                what = "of unstated strength" if known is None else f"of {float(known):g} %"
                yield Flag(
                    "vinegar-weak",
                    one.line.span,
                    f"The tested formula uses {stated(pair.was) if pair.was else 'vinegar of 5 %'}. This one uses "
                    f"{one.line.item} {what}.",
                    (figure("strength", f"{float(known):g}" if known is not None else "not stated", "%"),),
                    before(case, pair.was),
                    acid_class=case.acid_class,
                )
        left = kept(pair, contrast)
        if left is not None and left.low < case.same and stronger(pair, case):
            yield Flag(
                "vinegar-stronger-less",
                line_of(case, pair),
                acid_sentence(case, pair, left),
                (),
                before(case, pair.was),
                certain=left.high < case.same,
            )


def _unstated(case: Case) -> Iterator[Flag]:
    """Vinegar of no stated strength in a formula read by itself: a note, since nothing there is weaker than tested."""
    for group in case.batch.groups:
        for one in group.items:
            if group.has("vinegar") and group.kept and strength_of(one) is None:
                yield Flag("strength-unstated", one.line.span, f"{one.line.item}: the strength is not stated.")


@rule("acid/fresh", decides=("fresh-for-bottled", "fresh-for-unstated"))
def bottled_stays_bottled(case: Case) -> Iterator[Flag]:
    """Where bottled lemon or lime juice was tested, bottled juice is used.

    Fresh juice varies in strength from fruit to fruit, so nobody can say how acid the jar will be.
    """
    contrast = case.contrast
    if contrast is None:
        return
    bottled = [one for pair in contrast.pairs for one in pair.was if acid_pair(pair) and "bottled" in one.tags]
    for aside in squeezed(case) if bottled else ():
        says = f"The tested formula says {stated(bottled)}. This step says: {aside.reading.text}"
        yield Flag("fresh-for-bottled", aside.span, says, (), before(case, bottled), acid_class=case.acid_class)
    for pair in contrast.pairs:
        if not acid_pair(pair) or not pair.has("lemon", "lime"):
            continue
        for row, enough in (("fresh-for-bottled", _bottled), ("fresh-for-unstated", _not_fresh)):
            worse = [one for one in pair.now if not enough(one)]
            change = contrast.floor(only(pair), in_base(contrast), enough)
            if not worse or change is None or change.low >= case.same:
                continue
            yield Flag(
                row,
                worse[0].line.span,
                f"The tested formula says {stated(pair.was)}. This one says {stated(worse)}"
                f"{', which need not be bottled.' if _not_fresh(worse[0]) else '.'}",
                (),
                before(case, pair.was),
                certain=change.high < case.same,
                acid_class=case.acid_class,
            )
            break


def _bottled(one: Item) -> Fraction:
    """1 for a line that says its juice is bottled, else 0."""
    return Fraction("bottled" in one.tags)


def _not_fresh(one: Item) -> Fraction:
    """1 for a line that does not say its juice is fresh, else 0."""
    return Fraction("bottled" in one.tags or "fresh" not in one.tags)


@rule(
    "acid/swapped",
    decides=(
        "vinegar-for-lemon",
        "lemon-for-vinegar",
        "acid-untested-swap",
        "acid-not-an-acid",
    ),
)
def acids_are_not_exchanged(case: Case) -> Iterator[Flag]:
    """One acid stands for another only where that exchange was tested.

    Acids differ in strength and in how they taste and bind, and equal spoonfuls are not equal acid; vinegar for lemon
    juice makes a salsa less acid, which is how botulism starts.
    """
    if case.contrast is None:
        return
    new = [pair for pair in risen(case) if not listed_alternative(case, pair)]
    for pair, left in fallen(case):
        others = [one for one in new if one is not pair]
        if not others:
            continue
        row, level = _swap(case, pair, others)
        yield Flag(
            row,
            others[0].now[0].line.span,
            f"{acid_sentence(case, pair, left)} In its place it adds {stated(others[0].now)}.",
            (),
            before(case, pair.was),
            certain=left.high < case.same,
            acid_class=case.acid_class,
            level=level,
        )


def _swap(case: Case, pair: Pair, others: list[Pair]) -> tuple[str, str]:
    """The row an exchange falls under, and a level of its own if its note gives one."""
    contrast = case.compared
    real = [one for one in others if acid_pair(one)]
    if not real:
        return "acid-not-an-acid", ""
    if pair.has("lemon", "lime") and any(one.has("vinegar") for one in real):
        return "vinegar-for-lemon", ""
    if pair.has("vinegar") and any(one.has("lemon", "lime") for one in real):
        lemon = next(one for one in real if one.has("lemon", "lime"))
        bottled = all(map(_bottled, lemon.now))
        if bottled and _volume_kept(pair, lemon, contrast):
            return "lemon-for-vinegar", "" if case.kind == "salsa" else "untested"
        return ("acid-cut" if bottled else "acid-untested-swap"), ""
    return "acid-untested-swap", ""


def _volume_kept(pair: Pair, lemon: Pair, contrast: Contrast) -> bool:
    """Whether vinegar and lemon juice together are at least the tested volume at the scale."""
    was = _millilitres(pair.was) + _millilitres(lemon.was)
    now = _millilitres(pair.now) + _millilitres(lemon.now)
    return now >= was * contrast.scale * Fraction(98, 100)


def _millilitres(items: tuple[Item, ...]) -> Fraction:
    out = Fraction(0)
    for one in items:
        volume = next((low for dim, low, _ in one.quantity.dims if dim.startswith("volume:")), None)
        mass = next((low for dim, low, _ in one.quantity.dims if dim == "mass"), None)
        # Juice and vinegar weigh a little over a gram a millilitre; dividing by that is the cautious side.
        out += volume if volume is not None else mass * Fraction(96, 100) if mass is not None else Fraction(0)
    return out
