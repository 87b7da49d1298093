"""Low-acid food that a formula leaves open, dry seasoning, and the peppers of a pepper jelly."""

from collections.abc import Iterator
from fractions import Fraction

from brimline._patterns import pattern
from brimline.batch.classes import TABLESPOON_ML
from brimline.batch.values import Item
from brimline.findings import Flag
from brimline.moves.listing import stated
from brimline.moves.values import Case, Contrast, Pair, grams
from brimline.rules.additive import notes
from brimline.rules.brought import low_food, more_of
from brimline.rules.contract import rule
from brimline.rules.low_acid import (
    ADDED_SORTS,
    ROUNDING,
    TWO_PERCENT,
    grew,
    is_low,
    is_needed,
    is_open,
    is_present,
    least_change,
    load_change,
    teaspoon,
    volume,
)
from brimline.rules.measured import above
from brimline.rules.say import before, figure
from brimline.rules.terms import in_base


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
        optional = pair.added and not is_needed(pair)
        ranged = (
            is_open(pair)
            and change is not None
            and change.high > case.more
            and (required is None or required <= case.more)
            and grew(pair, contrast, case)
        )
        if optional or ranged:
            yield _allowed(case, pair, pair.now[0])
    # What is left open in a measured mixture enters no sum.
    for pair in (pair for one in (contrast, *case.mixtures) for pair in one.pairs):
        loose = [one for one in pair.now if one.loose and not any(had.loose for had in pair.was)]
        if loose and is_present(pair) and is_low(pair) and not teaspoon(pair, case):
            yield _allowed(case, pair, loose[0])
    # What both speak of is told once, in the words of the first.
    yield from _steps(case)
    for named, aside in more_of(case, low_food):
        says = f"This adds more {named.entry.name} than the list names: {aside.reading.text}"
        yield Flag("lowacid-loosened", aside.span, says)
    for item, said in above(case, [one for one in contrast.tested.items if _is_low_line(one)]):
        says = f"The list has {stated((item,))}. This step says: {said.aside.reading.text}"
        yield Flag("lowacid-loosened", said.aside.span, says, (), before(case, [item]))


def _allowed(case: Case, pair: Pair, item: Item) -> Flag:
    says = f"This one allows {stated(pair.now)}; the tested formula has {stated(pair.was)}."
    return Flag("lowacid-loosened", item.line.span, says, (), before(case, pair.was))


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
LATER = ("serv", "open a jar", "opening", "when eating", "at the table")
NEGATION = pattern(r"\b(?:do not|don't|never|not|no|without)\b")


def _is_low_line(one: Item) -> bool:
    """Whether a line is low-acid food."""
    return one.sort in ADDED_SORTS and one.safety == "low-acid"


def _steps(case: Case) -> Iterator[Flag]:
    """A step or note that tells the cook to add food as they please; seasoning, sugar and acid may be to taste."""
    tested = " ".join(text for text, _ in notes(case.tested)) if case.tested else ""
    new = [(text, span) for text, span in notes(case.document) if text not in tested and _as_they_please(text)]
    for raw, span in new:
        text = raw.replace("ñ", "n")
        on_food = any(raw in [note.lower() for note in one.line.note] and _is_low_line(one) for one in case.batch.items)
        found = ADDS.search(text)
        if on_food or (found and not SEASONING.search(found.group())):
            what = found.group(1).strip() if found else "food"
            yield Flag("lowacid-loosened", span, f"This lets the cook add {what} as they please.")


def _as_they_please(text: str) -> bool:
    """Whether a sentence leaves an amount to the cook, now and not at the table."""
    forbidden = NEGATION.search(text) or any(later in text for later in LATER)
    return not forbidden and any(taste in text for taste in TASTE)


ADDS = pattern(r"\b(?:add|adding|use|stir in|put in|mix in)\b([^.;]{1,80}?)(?:to taste|as |if |until |, |$)")
SEASONING = pattern(
    r"\b(?:salt|sugar|honey|spices?|seasonings?|cinnamon|cloves?|nutmeg|allspice|mustard|cumin|oregano|flakes|powder|"
    r"ground|dried|black pepper|white pepper|vanilla|extract|zest|pectin|colou?r(?:ing)?|juice|vinegar|water|sweetener|it|them|this)\b"
)


def dry(pair: Pair) -> bool:
    """Whether a pair is dry seasoning that stays in: spice, dried herb, dried vegetable."""
    seasoning = pair.has("dehydrated", "spice-dry", "herb-dried") or pair.sort == "spice"
    return pair.kept and seasoning and not pair.has("ginger-fresh")


def _dried_pieces(case: Case, contrast: Contrast) -> Iterator[Flag]:
    """Dried vegetable or mushroom that is more than a spoonful: it is food, not seasoning."""
    for pair in contrast.pairs:
        pieces = pair.has("dehydrated") and pair.sort == "vegetable"
        much = volume(pair)
        little = much is not None and much <= TABLESPOON_ML * ROUNDING
        if pieces and not little and (pair.added or grew(pair, contrast, case)):
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
    grown = [pair for pair in contrast.pairs if known(pair) and (pair.added or grew(pair, contrast, case))]
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
    for pair in [one for one in contrast.pairs if one.kept]:
        yield from _sweeter(case, list(pair.now), list(pair.was))


def _tested_parts(contrast: Contrast) -> list[Item]:
    return [one for mixture in contrast.tested.mixtures for group in mixture.parts for one in group.items]


def _sweeter(case: Case, now: list[Item], was: list[Item]) -> Iterator[Flag]:
    """Hot peppers that were exchanged for sweet ones."""
    hot = [sum((_low(one) for one in side if "pepper-hot" in one.tags), Fraction(0)) for side in (was, now)]
    sweet = [one for one in now if "pepper-sweet" in one.tags]
    if hot[1] < hot[0] * case.same * case.compared.scale and sweet:
        text = f"Sweet pepper for hot: {stated(now)} here, {stated(was)} tested."
        had = {one.name for one in was}
        first = next((one for one in sweet if one.name not in had), sweet[0])
        yield Flag("pepper-swap", first.line.span, text, (), before(case, was), level="quality", harm="flavour")


def _low(one: Item) -> Fraction:
    return next((low for _, low, _ in one.quantity.dims), Fraction(0))
