"""Thickness, fat, egg, nuts and spirits: what changes how heat reaches the middle of the jar."""

from collections.abc import Callable, Iterator
from fractions import Fraction

from brimline.batch.classes import GELLED_KINDS, TABLESPOON_ML, TEASPOON_ML
from brimline.batch.words import percent
from brimline.findings import Flag
from brimline.moves.listing import stated
from brimline.moves.values import Case, Contrast, Pair
from brimline.rules.contract import rule
from brimline.rules.pectin import is_pectin
from brimline.rules.say import before
from brimline.rules.terms import acid_pair, in_base, in_sour, only

THICKENERS = ("starch", "modified-starch", "instant-starch", "flour", "tapioca", "rice", "pasta", "oats", "gum", "chia")
HEAT_STABLE = "modified-starch"
FAT_TAGS = ("butter", "margarine", "oil", "cream", "milk", "cheese", "chocolate", "cocoa", "coconut-milk")
ROUNDING = Fraction(102, 100)
LOW = Fraction(98, 100)
# What is discarded is cooked with nothing.
IN_THE_POT = ("kept", "infused")


def grown(case: Case, pair: Pair, per_base: bool = True) -> bool:
    """Whether there may be more of a thing than tested, per base or at the scale; what is new is more."""
    contrast = case.compared
    if not pair.now:
        return False
    at_scale = contrast.ceiling(only(pair), None)
    if at_scale is None or at_scale.high > case.more or any(one.loose for one in pair.now):
        return True
    return per_base and _base_shrunk(case, pair)


def _base_shrunk(case: Case, pair: Pair) -> bool:
    """Whether an amount as tested stands for more because the base has certainly shrunk beside it.

    Fewer peppers and onions are permitted, so where there is a sour part (tomatoes, fruit) that one must have shrunk
    too.
    """
    contrast = case.compared
    changes = [contrast.ceiling(only(pair), part(contrast)) for part in (in_base, in_sour)]
    known = [change for change in changes if change is not None]
    return bool(known) and all(change.low > case.more for change in known)


def is_thickener(pair: Pair) -> bool:
    """Whether a pair is a starch, flour, grain or gum."""
    return pair.has(*THICKENERS) or pair.sort == "thickener"


@rule("heat/starch", decides=("starch-added", "starch-other", "starch-less"))
def nothing_thickens_the_jar(case: Case) -> Iterator[Flag]:
    """No starch, flour, grain, gum or extra tomato paste beyond the tested amount goes into the jar.

    A thickened food heats more slowly in the middle, and the tested time no longer reaches it.
    """
    contrast = case.contrast
    if contrast is None:
        return
    for pair in contrast.pairs:
        if not pair.kept:
            continue
        if is_thickener(pair) and grown(case, pair):
            gone = [other for other in contrast.pairs if is_thickener(other) and _less(contrast, other)]
            swapped = pair.added and bool(gone) and _not_more(contrast)
            was = [one for other in gone for one in other.was] or list(pair.was)
            row = "starch-other" if swapped else "starch-added"
            if swapped and pair.has(HEAT_STABLE):
                continue
            yield Flag(
                row,
                pair.now[0].line.span,
                words(pair, stated(was)),
                (),
                before(case, was),
                certain=_certain(case, pair),
            )
        elif pair.has("tomato-paste") and grown(case, pair):
            little = case.kind == "salsa" and _is_little(contrast, pair)
            yield Flag(
                "starch-added",
                pair.now[0].line.span,
                words(pair, stated(pair.was)),
                (),
                before(case, pair.was),
                level="untested" if little else "",
            )
        elif is_pectin(pair) and pair.added and case.kind not in (*GELLED_KINDS, "fruit syrup"):
            yield Flag("starch-added", pair.now[0].line.span, words(pair, "none"), (), None)


def _certain(case: Case, pair: Pair) -> bool:
    contrast = case.compared
    at_scale = contrast.ceiling(only(pair), None)
    if pair.added or at_scale is None or at_scale.low > case.more:
        return True
    return contrast.ceiling(only(pair), in_base(contrast)) is None or _base_shrunk(case, pair)


def _less(contrast: Contrast, pair: Pair) -> bool:
    """Whether there is less of a thickener, or none."""
    left = contrast.floor(only(pair), None)
    return not pair.now or (left is not None and left.high < LOW)


def _not_more(contrast: Contrast) -> bool:
    """Whether all thickeners together are no more than tested."""
    all_of_them = contrast.ceiling(is_thickener, None)
    return all_of_them is not None and all_of_them.low <= ROUNDING


def _is_little(contrast: Contrast, pair: Pair) -> bool:
    """Whether the growth of a pair is at most a twentieth of the base."""
    base = contrast.middle(contrast.sum("now_most", in_base(contrast)))
    now, was = (contrast.middle(contrast.sum(side, only(pair))) for side in ("now_most", "was_most"))
    return now - contrast.scale * was <= base / 20


def words(pair: Pair, tested: str) -> str:
    """What both formulas have of a thing, in a sentence."""
    return f"This one has {stated(pair.now)}; the tested formula {tested}."


@rule("heat/fat", decides=("fat-added", "fat-foam", "curd-fat"))
def no_fat_is_added(case: Case) -> Iterator[Flag]:
    """No butter, oil, cream, milk, cheese, chocolate or other fat beyond the tested amount goes in.

    Fat coats what grows in the jar, keeps the acid from it and slows the heat; half a teaspoon of butter against foam
    in a sweet spread is all that guidance allows.
    """
    contrast = case.contrast
    if contrast is None:
        return
    for pair in contrast.pairs:
        fat = pair.has(*FAT_TAGS) or pair.sort in ("fat", "dairy")
        if not (fat and pair.kept and grown(case, pair)):
            continue
        if case.kind == "fruit curd" and pair.has("margarine") and _butter_gone(contrast):
            gone = [one for other in contrast.pairs if other.has("butter") for one in other.was]
            yield Flag("curd-fat", pair.now[0].line.span, words(pair, stated(gone)), (), before(case, gone))
            continue
        if pair.has("butter", "margarine") and case.kind in (*GELLED_KINDS, "fruit butter") and _foam(pair, contrast):
            continue
        yield Flag(
            "fat-added",
            pair.now[0].line.span,
            words(pair, stated(pair.was)),
            (),
            before(case, pair.was),
            certain=_certain(case, pair),
        )


def _butter_gone(contrast: Contrast) -> bool:
    return any(other.has("butter") and _less(contrast, other) for other in contrast.pairs)


def _foam(pair: Pair, contrast: Contrast) -> bool:
    """Whether butter or margarine stays within half a teaspoon a batch, never more for a larger batch."""
    limit = TEASPOON_ML / 2 * min(Fraction(1), contrast.scale) * ROUNDING
    return _volume(pair, limit)


def _volume(pair: Pair, limit: Fraction) -> bool:
    total = Fraction(0)
    for one in pair.now:
        volume = next((high for dim, _, high in one.quantity.dims if dim.startswith("volume:")), None)
        mass = one.quantity.get("mass")
        if volume is None:
            if mass is None:
                return False
            # Butter, spirit and water weigh about a gram a millilitre; a fat a little less, which is the cautious side.
            volume = mass[1] / Fraction(9, 10)
        total += volume
    return total <= limit


def _rises(case: Case, wanted: Callable[[Pair], bool], per: Callable[[Pair], bool]) -> bool:
    """Whether there may be more of a thing than tested both at the scale and per another; what is new is more."""
    changes = [case.compared.ceiling(wanted, part) for part in (None, per)]
    return all(change is None or change.high > case.more for change in changes)


@rule("low-acid/egg", decides=("egg-added",))
def no_egg_is_added(case: Case) -> Iterator[Flag]:
    """No egg goes in beyond the tested amount.

    Egg is low-acid and thickens as it cooks, so both the pH and the heating change.
    """
    contrast = case.contrast
    if contrast is None:
        return
    for pair in contrast.pairs:
        if pair.sort == "egg" and pair.stay in IN_THE_POT and pair.now and _rises(case, only(pair), acid_pair):
            gone = [one for other in contrast.pairs if other.sort == "egg" for one in other.was]
            yield Flag("egg-added", pair.now[0].line.span, words(pair, stated(gone)), (), before(case, gone))


@rule("acid/curd", decides=("curd-juice",))
def curd_juice_is_lemon_or_lime(case: Case) -> Iterator[Flag]:
    """The juice of a curd is bottled lemon or lime juice.

    Egg and butter need the strong acid; orange or berry juice does not bring it.
    """
    contrast = case.contrast
    if contrast is None or case.kind != "fruit curd":
        return
    for pair in contrast.pairs:
        other = pair.sort in ("juice", "fruit") and pair.kept and not pair.has("zest", "peel")
        if other and grown(case, pair, per_base=False):
            was = [one for acid in contrast.pairs if acid.sort == "acid" for one in acid.was]
            yield Flag("curd-juice", pair.now[0].line.span, words(pair, stated(was)), (), before(case, was))


def nut_or_dried(pair: Pair) -> bool:
    """Whether a pair is nuts or dried fruit that stay in."""
    return pair.kept and pair.sort in ("nut", "dried-fruit")


@rule("heat/nuts", decides=("nut-dried-raised", "allergen-new"))
def nuts_and_dried_fruit_are_not_raised(case: Case) -> Iterator[Flag]:
    """Nuts and dried fruit stay within the tested amount, and a new allergen is pointed out.

    They take up liquid, thin the acid and make the food denser; a nut that was not there can make somebody ill.
    """
    contrast = case.contrast
    if contrast is None:
        return
    pairs = [pair for pair in contrast.pairs if nut_or_dried(pair) and pair.now]
    if pairs and _rises(case, nut_or_dried, in_base(contrast)):
        worst = next((pair for pair in pairs if grown(case, pair, per_base=False)), pairs[0])
        at_scale = contrast.ceiling(nut_or_dried, None)
        change = f" ({percent(at_scale)} in all)" if at_scale else ""
        yield Flag(
            "nut-dried-raised",
            worst.now[0].line.span,
            words(worst, f"{stated(worst.was)}{change}"),
            (),
            before(case, worst.was),
        )
    else:
        for pair in pairs:
            had_names = {one.name for one in pair.was}
            other = [one for one in pair.now if one.name not in had_names]
            if pair.was and other:
                text = f"{stated(other)} for {stated(pair.was)}: another allergen on the label."
                yield Flag(
                    "nut-dried-raised",
                    other[0].line.span,
                    text,
                    (),
                    before(case, pair.was),
                    level="form",
                    harm="record",
                )
    had = {name for pair in contrast.pairs for one in pair.was if one.entry for name in one.entry.allergens}
    for pair in contrast.pairs:
        new = sorted({name for one in pair.now if one.entry for name in one.entry.allergens} - had)
        if new and pair.stay in IN_THE_POT:
            yield Flag("allergen-new", pair.now[0].line.span, f"{stated(pair.now)} brings in {', '.join(new)}.", ())


@rule("set/spirit", decides=("spirit-added",))
def spirits_stay_a_flavour(case: Case) -> Iterator[Flag]:
    """Wine or spirit stays at the tested amount or within two tablespoons a batch.

    Alcohol and its water thin the sugar, and the spread may not set.
    """
    contrast = case.contrast
    if contrast is None:
        return
    for pair in contrast.pairs:
        if pair.sort == "spirit" and pair.kept and grown(case, pair, per_base=False) and not _a_flavour(pair, contrast):
            place = pair.now[0].line.span
            yield Flag("spirit-added", place, words(pair, stated(pair.was)), (), before(case, pair.was))


def _a_flavour(pair: Pair, contrast: Contrast) -> bool:
    """Whether wine or spirit stays within two tablespoons a batch, never more for a larger batch."""
    return _volume(pair, 2 * TABLESPOON_ML * min(Fraction(1), contrast.scale) * ROUNDING)
