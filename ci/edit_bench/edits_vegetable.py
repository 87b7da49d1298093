"""Edits of low-acid food: vegetables, peppers, onions, herbs; more of them, others, fewer."""

from fractions import Fraction
from random import Random

from msgspec.structs import replace

from edit_bench.judge import by_weight_or_volume, in_base
from edit_bench.kinds import Edit, Tested, counts_as_raised, edit, level_of, raised, root, some
from edit_bench.pantry import entry, grams, is_acid, sort, tags, times
from edit_bench.parts import OWN, acids, at, changed, low_acid, multiplied, sour, swapped
from edit_bench.sheet import item, line_of, named

VEGETABLES = (
    "onions, chopped",
    "carrots, grated",
    "garlic, minced",
    "celery, chopped",
    "bell peppers, red, chopped",
    "jalapeno peppers, chopped",
    "mushrooms, sliced",
    "zucchini, grated",
    "corn kernels",
    "sweet potatoes, cubed",
    "green beans, cut",
    "butternut squash, cubed",
    "beets, grated",
)
OTHER_FOOD = ("meat bacon, chopped", "nut peanut butter", "herb basil, fresh, chopped", "vegetable seaweed")
FRUIT_KINDS = ("jam", "jelly", "preserves", "marmalade", "conserve", "fruit butter", "fruit syrup", "spread")


def families(tested: Tested) -> set[str]:
    """The food families already in the formula."""
    lines = [one for line in tested.sheet.take for one in (line, *line.made_of, *line.other)]
    return {found.family for line in lines if (found := entry(line)) is not None}


def with_vegetables(tested: Tested) -> bool:
    """Whether the formula has vegetables or tomatoes."""
    return any(sort(one) == "vegetable" for line in tested.sheet.take for one in (line, *line.made_of))


def _new(tested: Tested, dice: Random) -> str:
    known = families(tested)
    fitting = [
        name
        for name in VEGETABLES
        if (found := entry(line_of(f"vegetable 1 cup {name}"))) and found.family not in known
    ]
    return some(dice, fitting)


@edit("lowacid-added")
def low_acid_added(tested: Tested, dice: Random) -> Edit | None:
    """A vegetable, meat or fresh herb that the tested formula does not have."""
    size = some(dice, ("1/4 cup", "1/2 cup", "1 cup", "2 cup"))
    draw = dice.random()
    if draw < 0.2:
        role, _, name = some(dice, OTHER_FOOD).partition(" ")
        line = line_of(f"{role} {size} {name}")
    elif draw < 0.4:
        wrong = some(dice, ("spice", "flavouring", "herb", "condiment", "colour"))
        line = line_of(f"{wrong} {size} {_new(tested, dice)}")
    elif draw < 0.5:
        line = line_of(f"spice {some(dice, ('1/2 cup', '1 cup'))} pepper, chopped")
        if "pepper" in families(tested):
            return None
    elif draw < 0.6:
        line = line_of(f"infused vegetable {size} {_new(tested, dice)}")
    else:
        line = line_of(f"vegetable {size} {_new(tested, dice)}")
    known = families(tested)
    found = entry(line)
    if found is not None and found.family in known:
        return None
    sheet = tested.sheet.with_more(line).with_step(f"Stir in the {line.item}.")
    return Edit(
        sheet, "lowacid-added", "unsafe", rows=("lowacid-raised", "fruit-no-process"), ban=frozenset({"role-wrong"})
    )


def guarded(tested: Tested) -> bool:
    """Whether something of a fixed amount keeps low-acid food sour; a dose per jar grows with the jars filled."""
    doses = [at(tested.sheet, spot).amount for spot in acids(tested)]
    salted = tested.kind == "fermented pickle"
    return salted or bool(sour(tested)) or any(one is not None and one.per is None for one in doses)


@edit("lowacid-raised")
def low_acid_raised(tested: Tested, dice: Random) -> Edit | None:
    """More of all low-acid food, or less of the sour part beside it."""
    places = low_acid(tested)
    if not places or any(spot[1] != OWN for spot in places) or not guarded(tested):
        return None
    by, plain = raised(dice)
    level = level_of(counts_as_raised(by), "unsafe")
    less = [spot for spot in sour(tested) if spot[1] == OWN]
    if less and dice.random() < 0.4 and tested.kind == "salsa":
        sheet, half = multiplied(tested.sheet, less, 1 / by), multiplied(tested.sheet, less, 1 / root(by))
        rows: tuple[str, ...] = ("fruit-watered",)
    else:
        sheet, half = multiplied(tested.sheet, places, by), multiplied(tested.sheet, places, root(by))
        rows = ("acid-cut",)
    if not sour(tested) and by < Fraction(103, 100):
        return None
    return Edit(sheet, "lowacid-raised", level, rows=rows, factor=by, plain=plain, half=half)


@edit("lowacid-raised", "lowacid-raised in the pot of a jelly")
def low_acid_raised_in_mixture(tested: Tested, dice: Random) -> Edit | None:
    """More vegetable in the pot from which a juice is measured."""
    places = [spot for spot in low_acid(tested) if spot[1] != OWN]
    if not places or len({tested.sheet.take[spot[0]].item for spot in places}) != 1:
        return None
    host = tested.sheet.take[places[0][0]]
    if not any(is_acid(child) for child in host.made_of):
        return None  # a shopping list of what is measured above it
    by, plain = raised(dice)
    sheet = multiplied(tested.sheet, places, by)
    half = multiplied(tested.sheet, places, root(by))
    level = level_of(counts_as_raised(by), "unsafe")
    return Edit(sheet, "lowacid-raised", level, rows=("acid-cut",), factor=by, plain=plain, half=half)


@edit("lowacid-loosened")
def low_acid_loosened(tested: Tested, dice: Random) -> Edit | None:
    """Low-acid food that is only allowed: optional, an alternative, a range, a note, a step."""
    places = [spot for spot in low_acid(tested) if spot[1] == OWN]
    draw = dice.random()
    sheet, name = tested.sheet, _new(tested, dice)
    if draw < 0.25:
        line = line_of(f"optional vegetable {some(dice, ('1/2 cup', '1 cup'))} {name}")
        sheet = sheet.with_more(line).with_step(f"Stir in the {line.item}, if you use it.")
    elif draw < 0.5 and places and guarded(tested):
        line = at(sheet, places[0])
        more = dice.choice([Fraction(5, 4), Fraction(2)])
        amount = line.amount
        if amount is None or len(amount.parts) != 1:
            return None
        amount = replace(amount, parts=(replace(amount.parts[0], high=amount.parts[0].high * more),), also=())
        sheet = sheet.with_line(places[0][0], replace(line, amount=amount))
    elif draw < 0.7:
        kept = [n for n, line in enumerate(sheet.take) if not line.other and "discarded" not in line.flags]
        spices = [n for n in kept if sort(sheet.take[n]) in ("spice", "salt", "colour")]
        if not spices:
            return None
        place = dice.choice(spices)
        other = line_of(f"vegetable 1 cup water\n    or vegetable 1 cup {name}").other[0]
        sheet = sheet.with_line(place, replace(sheet.take[place], other=(other,)))
    elif draw < 0.85:
        plain = item(line_of(f"vegetable 1 cup {name}")).split(",")[0]
        sheet = sheet.with_step(f"Add {plain} to taste.")
    else:
        if not sheet.take:
            return None
        plain = name.split(",")[0]
        line = sheet.take[0]
        sheet = sheet.with_line(0, replace(line, note=(*line.note, f"add {plain} to taste")))
    rows = ("lowacid-added", "lowacid-raised", "acid-cut")
    return Edit(sheet, "lowacid-loosened", "unsafe", rows=rows, ban=frozenset({"ranged", "split"}))


@edit("lowacid-swap")
def low_acid_swap(tested: Tested, dice: Random) -> Edit | None:
    """One low-acid kind for another at a smaller total."""
    skip = frozenset({"pepper-sweet", "pepper-hot", "onion", "garlic", "ginger-fresh"})
    found = low_acid(tested)
    places = [spot for spot in found if spot[1] == OWN and by_weight_or_volume(at(tested.sheet, spot))]
    places = [
        spot
        for spot in places
        if sort(at(tested.sheet, spot)) == "vegetable" and not tags(at(tested.sheet, spot)) & skip
    ]
    if not places or tested.kind == "fermented pickle":
        return None
    name, spot = _new(tested, dice), dice.choice(places)
    by = dice.choice([Fraction(1, 2), Fraction(2, 5)])
    sheet = swapped(
        tested.sheet, [spot], lambda line: replace(times(named(line, name), by), other=(), note=()), name.split(",")[0]
    )
    return Edit(sheet, "lowacid-swap", "untested", rows=("lowacid-added", "base-mismatch", "fruit-no-process"))


@edit("lowacid-less")
def low_acid_less(tested: Tested, dice: Random) -> Edit | None:
    """Less low-acid food; out altogether where it is not the main thing."""
    places = low_acid(tested)
    if not places or tested.kind in ("fermented pickle", "fruit curd") or not sour(tested):
        return None
    spot = dice.choice(places)
    if dice.random() < 0.4 and len(places) > 1:
        return Edit(changed(tested.sheet, [spot], lambda _: None), "lowacid-less", "silent")
    by = dice.choice([Fraction(3, 4), Fraction(1, 2), Fraction(9, 10)])
    return Edit(multiplied(tested.sheet, [spot], by), "lowacid-less", "silent")


def whole_base(tested: Tested) -> Fraction:
    """The grams of the base at most; a great many where nothing tells."""
    lines = [line for line in tested.sheet.take if in_base(line, tested.kind, tested.terms.fixed_boil)]
    known = [grams(line) for line in lines]
    return sum((one.high if one else Fraction(10_000) for one in known), Fraction(0))


@edit("dehydrated-vegetable")
def dehydrated(tested: Tested, dice: Random) -> Edit | None:
    """Dried vegetables by the cup, or spice by the half cup."""
    names = ("vegetable 1 cup dried onion", "vegetable 2 cup dried vegetables", "vegetable 2 cup dried mushroom")
    line = line_of(some(dice, (*names, "spice 1 1/2 cup dried onion")))
    if whole_base(tested) > 2500:
        return None
    sheet = tested.sheet.with_more(line).with_step(f"Stir in the {line.item}.")
    return Edit(sheet, "dehydrated-vegetable", "untested", rows=("lowacid-added", "lowacid-raised"))


@edit("dehydrated-vegetable", "dry spice by the cup")
def much_spice(tested: Tested, dice: Random) -> Edit | None:
    """Dry spice far above 2 % of the base."""
    line = line_of(
        f"spice {some(dice, ('1 cup', '1 1/2 cup'))} {some(dice, ('paprika', 'curry powder', 'chili powder'))}"
    )
    if whole_base(tested) > 3000:
        return None
    sheet = tested.sheet.with_more(line).with_step(f"Stir in the {line.item}.")
    return Edit(sheet, "dehydrated-vegetable", "untested", rows=("dry-spice",))


@edit("herb-teaspoon")
def herb_teaspoon(tested: Tested, dice: Random) -> Edit | None:
    """A teaspoon of fresh herb, ginger, zest or vanilla in a fruit formula; a tablespoon if it is taken out."""
    if tested.kind not in FRUIT_KINDS or with_vegetables(tested):
        return None
    names = (
        "herb basil, fresh, chopped",
        "herb thyme, fresh",
        "flavouring vanilla extract",
        "herb mint, fresh, chopped",
        "spice ginger, fresh, grated",
        "peel lemon zest, grated",
        "flavouring almond extract",
    )
    role, _, name = some(dice, names).partition(" ")
    size = some(dice, ("1 tsp", "1/2 tsp"))
    if dice.random() < 0.3 and role == "herb":
        role, size = f"infused {role}", some(dice, ("1 tbsp", "2 tsp"))
    line = line_of(f"{role} {size} {name}")
    sheet = tested.sheet.with_more(line).with_step(f"Stir in the {line.item}.")
    return Edit(sheet, "herb-teaspoon", "silent", rows=(), ban=frozenset({"metric", "scaled", "ranged", "restated"}))
