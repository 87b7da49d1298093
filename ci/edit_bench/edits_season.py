"""Edits of seasoning and of what does not belong: spirits, spices, salt, colour, poison, oils, preservatives."""

from fractions import Fraction
from random import Random

from msgspec.structs import replace

from brimline.document.values import Line
from edit_bench.edits_added import added
from edit_bench.kinds import Edit, Tested, edit, some
from edit_bench.pantry import sort, tags, times
from edit_bench.parts import changed, multiplied, spots
from edit_bench.sheet import Sheet, named
from edit_bench.steps import without


@edit("spirit-added")
def spirit(tested: Tested, dice: Random) -> Edit | None:
    """Wine or spirit beyond two tablespoons."""
    name = some(dice, ("rum", "whiskey", "wine, red", "liqueur", "gin"))
    return added(tested, f"spirit {some(dice, ('1/4 cup', '1/2 cup', '3 tbsp'))} {name}", "spirit-added", "untested")


@edit("dry-spice")
def dry_spice(tested: Tested, dice: Random) -> Edit | None:
    """Dry spice added, changed or left out."""
    places = [n for n, line in enumerate(tested.sheet.take) if sort(line) == "spice" and "dehydrated" not in tags(line)]
    names = (
        "cinnamon, ground",
        "cloves, ground",
        "nutmeg, ground",
        "allspice, ground",
        "coriander seed",
        "black pepper",
    )
    draw = dice.random()
    if places and draw < 0.3:
        line = tested.sheet.take[dice.choice(places)]
        sheet = replace(tested.sheet, take=tuple(one for one in tested.sheet.take if one is not line))
        return Edit(replace(sheet, steps=without(sheet.steps, line)), "dry-spice", "silent")
    if places and draw < 0.6:
        place = dice.choice(places)
        line = tested.sheet.take[place]
        by = dice.choice([Fraction(1, 2), Fraction(3, 2), Fraction(2)])
        return Edit(tested.sheet.with_line(place, times(line, by)), "dry-spice", "silent")
    text = f"{some(dice, ('spice', 'infused spice', 'optional spice'))} {some(dice, ('1/4 tsp', '1/2 tsp', '1 tsp'))}"
    return added(tested, f"{text} {some(dice, names)}", "dry-spice", "silent")


@edit("salt-unfermented")
def salt_changed(tested: Tested, dice: Random) -> Edit | None:
    """Salt cut, left out or of another kind, in what is not fermented."""
    places = spots(tested.sheet, lambda line: sort(line) == "salt" and "discarded" not in line.flags)
    if not places or tested.kind == "fermented pickle":
        return None
    line = tested.sheet.take[places[0][0]]
    draw = dice.random()
    if draw < 0.35:
        sheet = changed(tested.sheet, places, lambda _: None)
        sheet = replace(sheet, steps=without(sheet.steps, line))
    elif draw < 0.7:
        sheet = multiplied(tested.sheet, places, dice.choice([Fraction(1, 2), Fraction(1, 4), Fraction(5, 4)]))
    else:
        name = some(dice, ("salt, table", "salt, kosher", "salt, canning"))
        sheet = changed(tested.sheet, places, lambda old: named(old, name))
    return Edit(sheet, "salt-unfermented", "silent")


@edit("salt-fermented")
def salt_fermented(tested: Tested, dice: Random) -> Edit | None:
    """Salt cut or changed in a fermented product."""
    places = spots(tested.sheet, lambda line: sort(line) == "salt")
    if tested.kind != "fermented pickle" or not places:
        return None
    if dice.random() < 0.6:
        by = dice.choice([Fraction(95, 100), Fraction(9, 10), Fraction(3, 4), Fraction(1, 2)])
        return Edit(multiplied(tested.sheet, places, by), "salt-fermented", "unsafe", factor=by)
    name = some(dice, ("salt, reduced-sodium", "salt, kosher", "salt, seasoned"))
    return Edit(changed(tested.sheet, places, lambda old: named(old, name)), "salt-fermented", "unsafe")


@edit("colour")
def colour(tested: Tested, dice: Random) -> Edit | None:
    """Colouring left out or of another colour."""
    places = spots(tested.sheet, lambda line: sort(line) == "colour")
    if not places:
        return None
    if dice.random() < 0.5:
        return Edit(changed(tested.sheet, places, lambda _: None), "colour", "silent")
    name = some(dice, ("food coloring, red", "food coloring, green"))
    return Edit(changed(tested.sheet, places, lambda old: named(old, name)), "colour", "silent")


@edit("optional-dropped")
def optional_dropped(tested: Tested, dice: Random) -> Edit | None:
    """What the tested formula marks optional, left out."""
    places = [n for n, line in enumerate(tested.sheet.take) if "optional" in line.flags]
    if not places:
        return None
    line: Line = tested.sheet.take[dice.choice(places)]
    sheet: Sheet = replace(tested.sheet, take=tuple(one for one in tested.sheet.take if one is not line))
    return Edit(replace(sheet, steps=without(sheet.steps, line)), "optional-dropped", "silent")


_POISON = (
    "flavouring {} peach kernels",
    "flavouring {} apricot kernels, crushed",
    "vegetable {} rhubarb leaves",
    "flavouring {} elder stems",
    "fruit {} unripe elderberries",
    "fruit {} wild berries, unidentified",
)


@edit("poison-part")
def poison(tested: Tested, dice: Random) -> Edit | None:
    """Plant parts that poison, as an ingredient or in a step."""
    if dice.random() < 0.25 and any(tags(line) & {"rhubarb"} or "peach" in line.item for line in tested.sheet.take):
        sheet = tested.sheet.with_step("Crack some of the pits and add the kernels for flavour.")
        return Edit(sheet, "poison-part", "unsafe")
    text = some(dice, _POISON).format(some(dice, ("1/4 cup", "1 tbsp", "1/2 cup")))
    if dice.random() < 0.3:
        text = f"infused {text}"
    return added(tested, text, "poison-part", "unsafe", ("lowacid-added", "fruit-no-process"))


@edit("essential-oil")
def essential_oil(tested: Tested, dice: Random) -> Edit | None:
    """Essential oil."""
    names = ("essential oil", "lavender essential oil", "orange essential oil", "food-grade essential oil")
    return added(
        tested,
        f"flavouring {some(dice, ('2 drop', '1/4 tsp', '5 drop'))} {some(dice, names)}",
        "essential-oil",
        "untested",
    )


@edit("preservative")
def preservative(tested: Tested, dice: Random) -> Edit | None:
    """A preservative relied on."""
    names = ("potassium sorbate", "sodium benzoate", "sulfite", "aspirin", "canning powder")
    role = some(dice, ("firming", "flavouring"))
    return added(tested, f"{role} {some(dice, ('1/4 tsp', '1 tsp'))} {some(dice, names)}", "preservative", "untested")
