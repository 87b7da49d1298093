"""Low-acid food: vegetables, peppers, onions, garlic and herbs are not added, and their load is not raised."""

from collections.abc import Callable, Iterator
from fractions import Fraction

from brimline.batch.classes import TABLESPOON_ML, TEASPOON_ML
from brimline.batch.values import Item
from brimline.batch.words import percent
from brimline.figures.values import Interval
from brimline.findings import Flag
from brimline.moves.listing import stated
from brimline.moves.values import Case, Contrast, Pair
from brimline.rules.contract import rule
from brimline.rules.say import before, figure
from brimline.rules.terms import in_load, in_sour, only

TWO_PERCENT = Fraction(2, 100)
ROUNDING = Fraction(102, 100)
ADDED_SORTS = ("vegetable", "meat", "herb")
PRESENT_INFUSED = ("pepper-sweet", "pepper-hot", "onion", "garlic", "mushroom", "vegetable")


def is_present(pair: Pair) -> bool:
    """Whether a pair is in the jar: kept, or a vegetable that was infused and counts as present."""
    herb = pair.sort == "herb" or pair.has("herb-fresh", "ginger-fresh")
    return bool(pair.now) and (pair.kept or (pair.stay == "infused" and (herb or pair.has(*PRESENT_INFUSED))))


def is_low(pair: Pair) -> bool:
    """Whether a pair is low-acid food of the rows about additions."""
    if pair.has("dehydrated", "tomato-paste", "tomato", "tomatillo"):
        return False
    low = pair.safety in ("low-acid", "borderline", "unknown")
    return pair.has("meat", "fish", "nut-butter", "seaweed") or (low and pair.sort in ADDED_SORTS)


def teaspoon(pair: Pair, case: Case) -> bool:
    """Whether a fresh herb, ginger, zest or flower stays within a teaspoon a batch (a tablespoon infused)."""
    herb = pair.sort == "herb" or pair.has("herb-fresh", "ginger-fresh", "zest", "flower", "extract", "vanilla")
    if not herb:
        return False
    limit = TEASPOON_ML if pair.kept else TABLESPOON_ML
    much = volume(pair)
    return much is not None and much <= limit * min(Fraction(1), case.compared.scale) * ROUNDING


def volume(pair: Pair) -> Fraction | None:
    """The most of a pair in ml; None if a line of it is not stated by volume."""
    total = Fraction(0)
    for one in pair.now:
        most = next((high for dim, _, high in one.quantity.dims if dim.startswith("volume:")), None)
        if most is None:
            return None
        total += most
    return total


def load_change(contrast: Contrast) -> Interval | None:
    """The change of the low-acid load per sour part, most against most; per batch where there is no sour part."""
    return contrast.ceiling(in_load(contrast), _beside(contrast))


def _beside(contrast: Contrast) -> Callable[[Pair], bool] | None:
    """The sour part, if both formulas require some of it."""
    sour = in_sour(contrast)
    return sour if all(any(contrast.sum(side, sour).values()) for side in ("was_least", "now_least")) else None


def least_change(contrast: Contrast) -> Fraction | None:
    """The most that is required may have changed, optional lines left out, to tell it from what is allowed."""
    load, sour = in_load(contrast), _beside(contrast)
    change = contrast.quotient(contrast.sum("now_least", load), contrast.sum("was_most", load))
    if change is None:
        return None
    less = contrast.quotient(contrast.sum("was_least", sour), contrast.sum("now_least", sour)) if sour else None
    return change.high * less.high if less else change.high / contrast.scale


def total_kept(case: Case) -> bool:
    """Whether all low-acid food together is certainly no more than tested, beside the same sour part."""
    change = load_change(case.compared)
    return change is not None and change.high <= case.more


@rule("low-acid/added", decides=("lowacid-added", "lowacid-swap", "herb-teaspoon", "onion-colour", "tomato-green"))
def no_low_acid_food_is_added(case: Case) -> Iterator[Flag]:
    """No vegetable, pepper, onion, garlic, mushroom, meat, nut butter or fresh herb comes in that was not tested.

    Low-acid food raises the pH of the whole jar, and no extra acid has been tested to make up for it.
    """
    contrast = case.contrast
    if contrast is None:
        return
    for pair in [one for one in contrast.pairs if _comes_in(one, case)]:
        gone = [other for other in contrast.pairs if is_low(other) and _fell(other, contrast, case)]
        exchanged = bool(gone) and not pair.has("meat", "fish", "nut-butter")
        row = "lowacid-swap" if exchanged else "lowacid-added"
        was = [one for other in gone for one in other.was]
        text = f" in place of {stated(was)}" if exchanged else "; the tested formula has none of it"
        # An exchange at a larger total is more low-acid food: low-acid/raised.
        if not exchanged or total_kept(case):
            yield Flag(row, pair.now[0].line.span, f"This one adds {stated(pair.now)}{text}.", (), before(case, was))
    yield from _joined(case, contrast)
    yield from _exchanged(case, contrast)


def _comes_in(pair: Pair, case: Case) -> bool:
    """Whether a pair is low-acid food that was not tested and that is not left to the cook (low-acid/loosened)."""
    if not (pair.added and is_present(pair) and is_low(pair)) or teaspoon(pair, case):
        return False
    if not pair.kept and any(other.name == pair.name and other.was for other in case.compared.pairs):
        # What was kept is now only infused: there is no more of it than before.
        return False
    return is_needed(pair) or not any(one.optional or one.loose for one in pair.now)


def is_needed(pair: Pair) -> bool:
    """Whether some of a pair must go in."""
    return any(any(form.values()) for _, form in pair.now_least)


def _fell(pair: Pair, contrast: Contrast, case: Case) -> bool:
    """Whether there is certainly less of a pair than tested."""
    if not pair.now:
        return True
    change = contrast.ceiling(only(pair), None)
    return change is not None and change.high < case.same


def _joined(case: Case, contrast: Contrast) -> Iterator[Flag]:
    """A new kind in a pool whose tested kinds are all still there: food added, not exchanged."""
    for pair in contrast.pairs:
        had = {one.name for one in pair.was}
        new = [one for one in pair.now if one.name not in had]
        if is_low(pair) and had < {one.name for one in pair.now} and grew(pair, contrast, case):
            text = f"This one adds {stated(new)} to {stated(pair.was)}."
            yield Flag("lowacid-added", new[0].line.span, text, (), before(case, pair.was))


def _exchanged(case: Case, contrast: Contrast) -> Iterator[Flag]:
    """More of one tested low-acid food for less of another, at no larger total."""
    if not total_kept(case):
        return
    load = in_load(contrast)
    food = [pair for pair in contrast.pairs if load(pair)]
    gone = [pair for pair in food if _fell(pair, contrast, case)]
    for pair in food:
        change = contrast.ceiling(only(pair), None)
        if gone and change is not None and change.low > case.more:
            text = f"More {pair.name} ({percent(change)}) for less {gone[0].name}."
            yield Flag("lowacid-swap", pair.now[0].line.span, text, (), before(case, pair.was))


@rule("low-acid/raised", decides=("lowacid-raised", "lowacid-less", "pepper-by-count"))
def low_acid_load_is_not_raised(case: Case) -> Iterator[Flag]:
    """All low-acid food together is no more than tested, beside the sour part that goes with it.

    More onion, pepper or other low-acid food, or less tomato or fruit beside it, raises the pH of every jar.
    """
    contrast = case.contrast
    if contrast is None:
        return
    yield from _in_mixtures(case)
    change = load_change(contrast)
    if change is None or change.high <= case.more:
        return
    load = in_load(contrast)
    pairs = [pair for pair in contrast.pairs if pair.now and load(pair)]
    grown = [pair for pair in pairs if grew(pair, contrast, case)]
    exchanged = any(is_low(pair) and _fell(pair, contrast, case) for pair in contrast.pairs)
    new = [pair for pair in pairs if pair.added]
    fruit = any(pair.sort in ("fruit", "juice") for pair in new)
    if new and not grown and (fruit or (not exchanged and _without_new(case, contrast))):
        # The new food is reported by low-acid/added, the new fruit by low-acid/fruit; nothing else grew.
        return
    required = least_change(contrast)
    if required is not None and required <= case.more and any(is_open(pair) for pair in grown or pairs):
        return
    counted = next((pair for pair in grown if pair.has("pepper-hot", "pepper-sweet") and _by_count(pair)), None)
    at = counted or (grown or new or pairs)[0]
    yield Flag(
        "pepper-by-count" if counted else "lowacid-raised",
        newest(at).line.span,
        f"Low-acid food beside the same sour part: {percent(change)} ({stated([o for p in pairs for o in p.now])}; "
        f"tested {stated([o for p in contrast.pairs if load(p) for o in p.was])}).",
        (figure("low-acid load", percent(change)),),
        before(case, at.was),
        certain=change.low > case.more or (counted is not None and change.middle > case.more),
    )


def _in_mixtures(case: Case) -> Iterator[Flag]:
    """More low-acid food for the rest of a measured juice or mixture than was tested."""
    for contrast in case.mixtures:
        load = in_load(contrast)
        change = contrast.ceiling(load, lambda pair, load=load: pair.kept and not load(pair))  # type: ignore[misc]
        here = [pair for pair in contrast.pairs if load(pair) and pair.now]
        if change is not None and change.high > case.more:
            grown = next((pair for pair in here if pair.added or grew(pair, contrast, case)), here[0])
            yield Flag(
                "lowacid-raised",
                newest(grown).line.span,
                f"Low-acid food for the rest of the measured mixture: {percent(change)}.",
                (figure("low-acid load", percent(change)),),
                before(case, grown.was),
                certain=change.low > case.more,
            )


def newest(pair: Pair) -> Item:
    """The line of a pool that the tested formula has none of, else the one that rose most, else its first line."""
    had = {one.name: one for one in pair.was}
    new = [one for one in pair.now if one.name not in had]
    return new[0] if new else max(pair.now, key=lambda one: _rise(one, had[one.name]))


def _rise(here: Item, tested: Item) -> Fraction:
    """How much more of one kind is stated than tested, in the first measure of both; nothing if they share none."""
    both = ((high, was[1]) for dim, _, high in here.quantity.dims if (was := tested.quantity.get(dim)))
    return next((high / was for high, was in both if was), Fraction(0))


def grew(pair: Pair, contrast: Contrast, case: Case) -> bool:
    """Whether there may be more of a pair than tested at the scale."""
    change = contrast.ceiling(only(pair), None)
    return change is not None and change.high > case.more


def _without_new(case: Case, contrast: Contrast) -> bool:
    """Whether the food that was tested, taken alone, has not grown beside the sour part."""
    load = in_load(contrast)

    def old(pair: Pair) -> bool:
        return load(pair) and not pair.added

    change = contrast.ceiling(old, _beside(contrast))
    return change is None or change.high <= case.more


def _by_count(pair: Pair) -> bool:
    """Whether peppers of another kind were counted in place of tested ones, the same number of pieces."""
    names = {one.name for one in pair.now} != {one.name for one in pair.was}
    return names and all(any(d.startswith("count:") for d, _, _ in one.quantity.dims) for one in (*pair.now, *pair.was))


def is_open(pair: Pair) -> bool:
    """Whether a pair is optional, ranged or left open here."""
    return any(one.optional or one.loose or any(lo != hi for _, lo, hi in one.quantity.dims) for one in pair.now)
