"""Low-acid food: vegetables, peppers, onions, garlic, herbs and fruit that is not sour enough by itself."""

from collections.abc import Iterator
from fractions import Fraction

from brimline.batch.classes import TABLESPOON_ML, TEASPOON_ML
from brimline.batch.values import Item
from brimline.batch.words import percent
from brimline.figures.values import Interval
from brimline.findings import Flag
from brimline.moves.listing import stated
from brimline.moves.values import Case, Contrast, Pair, grams
from brimline.rules.additive import notes
from brimline.rules.contract import rule
from brimline.rules.say import before, figure
from brimline.rules.terms import in_base, in_load, in_sour, only

TWO_PERCENT = Fraction(2, 100)
ROUNDING = Fraction(102, 100)
ADDED_SORTS = ("vegetable", "meat", "herb")
PRESENT_INFUSED = ("pepper-sweet", "pepper-hot", "onion", "garlic", "mushroom", "vegetable")


def is_present(pair: Pair) -> bool:
    """Whether a pair is in the jar: kept, or a vegetable that was infused and counts as present."""
    herb = pair.sort == "herb" or pair.has("herb-fresh", "ginger-fresh")
    return bool(pair.now) and (pair.stay == "kept" or (pair.stay == "infused" and (herb or pair.has(*PRESENT_INFUSED))))


def is_low(pair: Pair) -> bool:
    """Whether a pair is low-acid food of the rows about additions."""
    if pair.has("dehydrated", "tomato-paste") or pair.has("tomato", "tomatillo"):
        return False
    low = pair.safety in ("low-acid", "borderline", "unknown")
    return pair.has("meat", "fish", "nut-butter", "seaweed") or (low and pair.sort in ADDED_SORTS)


def teaspoon(pair: Pair, case: Case) -> bool:
    """Whether a fresh herb, ginger, zest or flower stays within a teaspoon a batch (a tablespoon infused)."""
    herb = pair.sort == "herb" or pair.has("herb-fresh", "ginger-fresh", "zest", "flower", "extract", "vanilla")
    if not herb:
        return False
    limit = TABLESPOON_ML if pair.stay == "infused" else TEASPOON_ML
    scale = case.contrast.scale if case.contrast else Fraction(1)
    volume = _volume(pair)
    return volume is not None and volume <= limit * min(Fraction(1), scale) * ROUNDING


def _volume(pair: Pair) -> Fraction | None:
    total = Fraction(0)
    for one in pair.now:
        rows = [high for dim, _, high in one.quantity.dims if dim.startswith("volume:")]
        if not rows:
            return None
        total += rows[0]
    return total


def load_change(contrast: Contrast) -> Interval | None:
    """The change of the low-acid load per sour part, most against most; per batch where there is no sour part."""
    load, sour = in_load(contrast), in_sour(contrast)
    was_sour, now_sour = contrast.sum("was_least", sour), contrast.sum("now_least", sour)
    if any(was_sour.values()) and any(now_sour.values()):
        return contrast.ceiling(load, sour)
    return contrast.ceiling(load, None)


def least_change(contrast: Contrast) -> Interval | None:
    """The same with optional lines left out, to tell what is allowed from what is required."""
    load = in_load(contrast)
    change = contrast.quotient(contrast.sum("now_least", load), contrast.sum("was_most", load))
    return None if change is None else Interval(change.low / contrast.scale, change.high / contrast.scale)


def total_kept(case: Case) -> bool:
    """Whether all low-acid food together is certainly no more than tested, beside the same sour part."""
    if case.contrast is None:
        return False
    change = load_change(case.contrast)
    return change is not None and change.high <= case.more


@rule("low-acid/added", decides=("lowacid-added", "lowacid-swap", "herb-teaspoon", "onion-colour", "tomato-green"))
def no_low_acid_food_is_added(case: Case) -> Iterator[Flag]:
    """No vegetable, pepper, onion, garlic, mushroom, meat, nut butter or fresh herb comes in that was not tested.

    Low-acid food raises the pH of the whole jar, and no extra acid has been tested to make up for it.
    """
    contrast = case.contrast
    if contrast is None:
        return
    for pair in contrast.pairs:
        if not (pair.added and is_present(pair) and is_low(pair)) or teaspoon(pair, case):
            continue
        if pair.stay == "infused" and any(other.name == pair.name and other.was for other in contrast.pairs):
            # What was kept is now only infused: there is no more of it than before.
            continue
        if not any(any(form.values()) for _, form in pair.now_least) and any(o.optional or o.loose for o in pair.now):
            continue
        gone = [other for other in contrast.pairs if other.was and is_low(other) and _fell(other, contrast, case)]
        swapped = bool(gone) and total_kept(case) and not pair.has("meat", "fish", "nut-butter")
        if gone and not swapped and not pair.has("meat", "fish", "nut-butter"):
            # An exchange at a larger total is more low-acid food: low-acid/raised.
            continue
        row = "lowacid-swap" if swapped else "lowacid-added"
        was = [one for other in gone for one in other.was]
        text = f" in place of {stated(was)}" if swapped else "; the tested formula has none of it"
        yield Flag(row, pair.now[0].line.span, f"This one adds {stated(pair.now)}{text}.", (), before(case, was))
    yield from _joined(case, contrast)
    yield from _exchanged(case, contrast)


def _fell(pair: Pair, contrast: Contrast, case: Case) -> bool:
    """Whether there is certainly less of a pair than tested."""
    if not pair.now:
        return True
    change = contrast.ceiling(only(pair), None)
    return change is not None and change.high < case.same


def _joined(case: Case, contrast: Contrast) -> Iterator[Flag]:
    """A new kind in a pool whose tested kinds are all still there: food added, not exchanged."""
    for pair in contrast.pairs:
        if not pair.was or not pair.now or not is_low(pair) or not _grew(pair, contrast, case):
            continue
        had = {one.name for one in pair.was}
        new = [one for one in pair.now if one.name not in had]
        if new and had <= {one.name for one in pair.now}:
            text = f"This one adds {stated(new)} to {stated(pair.was)}."
            yield Flag("lowacid-added", new[0].line.span, text, (), before(case, pair.was))


def _exchanged(case: Case, contrast: Contrast) -> Iterator[Flag]:
    """More of one tested low-acid food for less of another, at no larger total."""
    if not total_kept(case):
        return
    load = in_load(contrast)
    tested = [pair for pair in contrast.pairs if load(pair) and pair.was]
    gone = [pair for pair in tested if _fell(pair, contrast, case)]
    for pair in tested:
        change = contrast.ceiling(only(pair), None)
        if pair.now and gone and change is not None and change.low > case.more:
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
    change = load_change(contrast)
    if change is None or change.high <= case.more:
        return
    load = in_load(contrast)
    pairs = [pair for pair in contrast.pairs if pair.now and load(pair)]
    grown = [pair for pair in pairs if not pair.added and _grew(pair, contrast, case)]
    exchanged = any(pair.was and is_low(pair) and _fell(pair, contrast, case) for pair in contrast.pairs)
    if not grown and not exchanged and any(pair.added and is_low(pair) and not teaspoon(pair, case) for pair in pairs):
        # The new food is reported by low-acid/added; nothing else grew.
        if _without_new(case, contrast):
            return
    if not grown and any(pair.added and pair.sort in ("fruit", "juice") for pair in pairs):
        return
    required = least_change(contrast)
    if required is not None and required.high <= case.more and any(_open(pair) for pair in grown or pairs):
        return
    at, row = _where(contrast, grown, case)
    if at is None:
        return
    yield Flag(
        row,
        _newest(at).line.span,
        f"Low-acid food beside the same sour part: {percent(change)} ({stated([o for p in pairs for o in p.now])}; "
        f"tested {stated([o for p in contrast.pairs if load(p) for o in p.was])}).",
        (figure("low-acid load", percent(change)),),
        before(case, at.was),
        certain=change.low > case.more or (row == "pepper-by-count" and change.middle > case.more),
    )


def _newest(pair: Pair) -> Item:
    """The line of a pool that the tested formula has none of, else its first line."""
    had = {one.name for one in pair.was}
    return next((one for one in pair.now if one.name not in had), pair.now[0])


def _grew(pair: Pair, contrast: Contrast, case: Case) -> bool:
    change = contrast.ceiling(only(pair), None)
    return change is not None and change.high > case.more


def _without_new(case: Case, contrast: Contrast) -> bool:
    """Whether the food that was tested, taken alone, has not grown beside the sour part."""
    load, sour = in_load(contrast), in_sour(contrast)

    def old(pair: Pair) -> bool:
        return load(pair) and not pair.added

    per = (
        sour
        if any(contrast.sum("was_least", sour).values()) and any(contrast.sum("now_least", sour).values())
        else None
    )
    change = contrast.ceiling(old, per)
    return change is None or change.high <= case.more


def _where(contrast: Contrast, grown: list[Pair], case: Case) -> tuple[Pair | None, str]:
    """The line to point at: what grew most, else the sour part that shrank."""
    if grown:
        counted = [pair for pair in grown if pair.name == "peppers" and _by_count(pair)]
        return (counted or grown)[0], "pepper-by-count" if counted else "lowacid-raised"
    load = in_load(contrast)
    here = [pair for pair in contrast.pairs if load(pair) and pair.now]
    return next(iter([pair for pair in here if pair.added] or here), None), "lowacid-raised"


def _by_count(pair: Pair) -> bool:
    """Whether peppers of another kind were counted in place of tested ones, the same number of pieces."""
    names = {one.name for one in pair.now} != {one.name for one in pair.was}
    return names and all(any(d.startswith("count:") for d, _, _ in one.quantity.dims) for one in (*pair.now, *pair.was))


def _open(pair: Pair) -> bool:
    """Whether a pair is optional, ranged or left open here."""
    return any(one.optional or one.loose or any(lo != hi for _, lo, hi in one.quantity.dims) for one in pair.now)


@rule("low-acid/loosened", decides=("lowacid-loosened",))
def low_acid_food_is_not_left_open(case: Case) -> Iterator[Flag]:
    """No option, range, alternative or step lets more low-acid food in than was tested.

    What a formula allows, some cooks will do.
    """
    contrast = case.contrast
    if contrast is None:
        return
    change = load_change(contrast)
    required = least_change(contrast)
    for pair in contrast.pairs:
        if not is_present(pair) or not is_low(pair) or teaspoon(pair, case):
            continue
        loose = any(one.loose for one in pair.now) and not any(one.loose for one in pair.was)
        needed = any(any(form.values()) for _, form in pair.now_least)
        optional = pair.added and not needed
        ranged = (
            _open(pair)
            and not pair.added
            and change is not None
            and change.high > case.more
            and (required is None or required.high <= case.more)
            and _grew(pair, contrast, case)
        )
        if loose or optional or ranged:
            yield Flag(
                "lowacid-loosened",
                pair.now[0].line.span,
                f"This one allows {stated(pair.now)}; the tested formula has {stated(pair.was)}.",
                (),
                before(case, pair.was),
            )
    yield from _steps(case)


TASTE = (
    "use more if",
    "more if you",
    "as much as you",
    "until it is",
    "until you like",
    "to taste",
    "as you like",
    "if you like",
    "as desired",
    "if desired",
    "as needed",
    "optionally",
    "you may add",
    "can add",
    "feel free",
)
FOODS = {
    "pepper",
    "jalapeno",
    "jalapenos",
    "onion",
    "garlic",
    "carrot",
    "celery",
    "corn",
    "mushroom",
    "basil",
    "cilantro",
    "vegetable",
    "zucchini",
    "squash",
    "bean",
    "chile",
    "chili",
    "shallot",
}
LATER = ("serv", "open a jar", "opening", "when eating", "at the table")
NEGATIONS = ("do not", "don't", "never", "not ", "no ", "without")


def _is_low_line(one: Item) -> bool:
    """Whether a line is low-acid food."""
    return one.sort in ADDED_SORTS and one.safety == "low-acid"


def _steps(case: Case) -> Iterator[Flag]:
    """A step that tells the cook to add low-acid food as they please."""
    tested = " ".join(text for text, _ in notes(case.tested)) if case.tested else ""
    for raw, span in notes(case.document):
        text = raw.replace("ñ", "n")
        if raw in tested or any(later in text for later in LATER):
            continue
        words = {word.strip(".,;:()").removesuffix("s") for word in text.split()}
        if any(raw in [note.lower() for note in one.line.note] and _is_low_line(one) for one in case.batch.items):
            words.add("vegetable")
        named = sorted(words & {food.removesuffix("s") for food in FOODS})
        if named and any(taste in text for taste in TASTE) and not any(n in text for n in NEGATIONS):
            spice = "black pepper" in text or "ground" in text or "dried" in text or "flake" in text
            if not spice:
                yield Flag("lowacid-loosened", span, f"This lets the cook add {named[0]} as they please.")


def dry(pair: Pair) -> bool:
    """Whether a pair is dry seasoning that stays in: spice, dried herb, dried vegetable."""
    seasoning = pair.has("dehydrated", "spice-dry", "herb-dried") or pair.sort == "spice"
    return pair.stay == "kept" and seasoning and not pair.has("ginger-fresh")


def _dried_pieces(case: Case, contrast: Contrast) -> Iterator[Flag]:
    """Dried vegetable or mushroom that is more than a spoonful: it is food, not seasoning."""
    for pair in contrast.pairs:
        pieces = pair.has("dehydrated") and pair.sort == "vegetable" and not pair.has("spice-dry")
        if not pieces or not pair.now or not (pair.added or _grew(pair, contrast, case)):
            continue
        volume = _volume(pair)
        if volume is None or volume > TABLESPOON_ML * ROUNDING:
            yield Flag(
                "dehydrated-vegetable",
                pair.now[0].line.span,
                f"This one has {stated(pair.now)}; the tested formula {stated(pair.was)}.",
                (),
                before(case, pair.was),
            )


@rule("low-acid/dried", decides=("dehydrated-vegetable", "dry-spice"))
def dry_seasoning_stays_seasoning(case: Case) -> Iterator[Flag]:
    """Dried vegetables, mushrooms and spice stay seasoning: no more than 2 % of the base beyond the tested amount.

    Dry food takes up liquid and acid, and in larger amounts it changes how heat reaches the middle of the jar.
    """
    contrast = case.contrast
    if contrast is None:
        return

    def known(pair: Pair) -> bool:
        # A stick or a pod of unknown weight is seasoning whatever it weighs.
        return dry(pair) and not any(one.line.item in contrast.missing for one in (*pair.now, *pair.was))

    base = contrast.middle(contrast.sum("now_most", in_base(contrast)))
    was, now = contrast.middle(contrast.sum("was_most", known)), contrast.middle(contrast.sum("now_most", known))
    yield from _dried_pieces(case, contrast)
    if now <= was * contrast.scale * case.more or not base or now <= TWO_PERCENT * base:
        return
    grown = [
        pair for pair in contrast.pairs if known(pair) and pair.now and (pair.added or _grew(pair, contrast, case))
    ]
    if grown:
        worst = max(grown, key=lambda pair: contrast.middle(grams(pair.now_most)))
        yield Flag(
            "dehydrated-vegetable",
            worst.now[0].line.span,
            f"Dry spice and dried vegetable come to {float(now / base * 100):.1f} % of the base; seasoning is up to 2 %.",
            (figure("dry seasoning", f"{float(now / base * 100):.1f}", "%"),),
            before(case, worst.was),
        )


@rule("set/pepper", decides=("pepper-swap",))
def pepper_jelly_keeps_its_heat(case: Case) -> Iterator[Flag]:
    """In a pepper jelly sweet peppers do not take the place of hot ones.

    The jelly sets and keeps the same; it only no longer tastes as tested.
    """
    contrast = case.contrast
    if contrast is None or case.kind != "jelly":
        return
    for mixture in contrast.adapted.mixtures:
        yield from _sweeter(case, [one for group in mixture.parts for one in group.items], _tested_parts(contrast))
    pots = [pair for pair in contrast.pairs if pair.has("pepper-hot") and pair.stay == "kept"]
    for pair in pots:
        yield from _sweeter(case, list(pair.now), list(pair.was))


def _tested_parts(contrast: Contrast) -> list[Item]:
    return [one for mixture in contrast.tested.mixtures for group in mixture.parts for one in group.items]


def _sweeter(case: Case, now: list[Item], was: list[Item]) -> Iterator[Flag]:
    """Hot peppers that were exchanged for sweet ones."""
    hot = [sum((_low(one) for one in side if "pepper-hot" in one.tags), Fraction(0)) for side in (was, now)]
    sweet = [one for one in now if "pepper-sweet" in one.tags]
    if hot[0] and hot[1] < hot[0] * case.same * case.compared.scale and sweet:
        text = f"Sweet pepper for hot: {stated(now)} here, {stated(was)} tested."
        had = {one.name for one in was}
        first = next((one for one in sweet if one.name not in had), sweet[0])
        yield Flag("pepper-swap", first.line.span, text, (), before(case, was), level="quality", harm="flavour")


def _low(one: Item) -> Fraction:
    return next((low for _, low, _ in one.quantity.dims), Fraction(0))
