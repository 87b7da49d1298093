"""Edits that add or exchange what is neither fruit, acid nor sugar: starch, fat, eggs, nuts, spices, salts, oddities."""

from dataclasses import replace
from fractions import Fraction
from random import Random

from brimline.document.values import Line
from edit_bench.judge import GELLING_KINDS
from edit_bench.kinds import Edit, Tested, edit, some
from edit_bench.pantry import entry, sort, tags, times
from edit_bench.parts import changed, multiplied, required, spots, swapped
from edit_bench.sheet import Sheet, line_of, named
from edit_bench.steps import without

_EXTRA = frozenset({"role-wrong"})


def added(tested: Tested, text: str, row: str, level: str, rows: tuple[str, ...] = ()) -> Edit:
    """The formula with one more line, stirred in before the jars are filled."""
    line = line_of(text)
    sheet = tested.sheet.with_more(line).with_step(f"Stir in the {line.item}.")
    return Edit(sheet, row, level, rows=rows, ban=_EXTRA)


def _has(tested: Tested, wanted: frozenset[str]) -> bool:
    return any(tags(one) & wanted for line in tested.sheet.take for one in (line, *line.made_of, *line.other))


def _with(tested: Tested, wanted: frozenset[str]) -> list[tuple[int, int]]:
    return spots(tested.sheet, lambda line: bool(tags(line) & wanted))


_THICK = ("cornstarch", "flour, all-purpose", "modified starch, instant", "tapioca, instant", "rice, cooked", "oats")
_THICK = (*_THICK, "xanthan gum", "chia seed", "arrowroot")
_STARCHES = frozenset({"starch", "modified-starch", "flour", "instant-starch"})


@edit("starch-added")
def starch_added(tested: Tested, dice: Random) -> Edit | None:
    """Starch, flour, grain or gum that the tested formula does not have."""
    if _has(tested, _STARCHES):
        return None
    size = some(dice, ("1 tbsp", "2 tbsp", "1/4 cup", "1/2 cup"))
    role = some(dice, ("thickener", "thickener", "spice", "flavouring"))
    return added(tested, f"{role} {size} {some(dice, _THICK)}", "starch-added", "unsafe")


@edit("starch-added", "starch raised")
def starch_raised(tested: Tested, dice: Random) -> Edit | None:
    """More of the thickener that is there."""
    places = [spot for spot in _with(tested, _STARCHES) if sort(tested.sheet.take[spot[0]]) == "thickener"]
    if not places or "optional" in tested.sheet.take[places[0][0]].flags:
        return None
    by = dice.choice([Fraction(105, 100), Fraction(5, 4), Fraction(3, 2), Fraction(2)])
    return Edit(multiplied(tested.sheet, places, by), "starch-added", "unsafe", factor=by)


@edit("starch-added", "pectin in a product that does not gel")
def pectin_as_thickener(tested: Tested, dice: Random) -> Edit | None:
    """Pectin where nothing gels."""
    if tested.kind in (*GELLING_KINDS, "fruit butter", "fruit syrup", "fruit curd") or tested.terms.pectin:
        return None
    size = some(dice, ("2 tbsp", "1/4 cup"))
    return added(tested, f"pectin {size} pectin, regular powdered", "starch-added", "unsafe", ("pectin-kind",))


@edit("starch-added", "a little tomato paste in salsa")
def paste_in_salsa(tested: Tested, dice: Random) -> Edit | None:
    """A little tomato paste is untested in salsa, unsafe elsewhere."""
    if not _has(tested, frozenset({"tomato"})) or _has(tested, frozenset({"tomato-paste"})):
        return None
    size = some(dice, ("1/4 cup", "1/2 cup"))
    level = "untested" if tested.kind == "salsa" else "unsafe"
    return added(tested, f"vegetable {size} tomato paste", "starch-added", level, ("cover-thicker",))


@edit("starch-other")
def starch_other(tested: Tested, dice: Random) -> Edit | None:
    """Ordinary or instant starch for heat-stable modified starch."""
    places = _with(tested, frozenset({"modified-starch"}))
    if not places:
        return None
    name = some(dice, ("cornstarch", "modified starch, instant", "flour, all-purpose", "tapioca, instant"))
    sheet = swapped(tested.sheet, places, lambda line: replace(named(line, name), note=()), name.split(",")[0])
    return Edit(sheet, "starch-other", "untested", rows=("starch-added",))


@edit("starch-less")
def starch_less(tested: Tested, dice: Random) -> Edit | None:
    """Less thickener, or none."""
    places = [spot for spot in _with(tested, _STARCHES) if sort(tested.sheet.take[spot[0]]) == "thickener"]
    if not places:
        return None
    line = tested.sheet.take[places[0][0]]
    if dice.random() < 0.4:
        sheet = changed(tested.sheet, places, lambda _: None)
        return Edit(replace(sheet, steps=without(sheet.steps, line)), "starch-less", "silent")
    return Edit(
        multiplied(tested.sheet, places, dice.choice([Fraction(1, 2), Fraction(3, 4)])), "starch-less", "silent"
    )


_FATS = ("fat {} butter", "fat {} vegetable oil", "dairy {} cream, heavy", "dairy {} milk, whole", "dairy {} cheese")
_FATS = (*_FATS, "dairy {} cream cheese", "flavouring {} chocolate, dark", "fat {} olive oil", "dairy {} coconut milk")


@edit("fat-added")
def fat_added(tested: Tested, dice: Random) -> Edit | None:
    """Fat or dairy beyond the tested amount."""
    size = some(dice, ("1 tbsp", "2 tbsp", "1/4 cup", "1/2 cup"))
    text = some(dice, _FATS).format(size)
    if tested.kind == "fruit curd" and "butter" in text:
        places = _with(tested, frozenset({"butter"}))
        by = dice.choice([Fraction(105, 100), Fraction(4, 3), Fraction(2)])
        return Edit(multiplied(tested.sheet, places, by), "fat-added", "unsafe", rows=("acid-cut",), factor=by)
    return added(tested, text, "fat-added", "unsafe", ("egg-added",))


@edit("fat-foam")
def fat_foam(tested: Tested, dice: Random) -> Edit | None:
    """Half a teaspoon of butter against foam."""
    fits = tested.terms.gelled or tested.kind == "fruit butter"
    if not fits or _has(tested, frozenset({"butter", "margarine"})):
        return None
    text = f"{some(dice, ('fat', 'optional fat'))} {some(dice, ('1/2 tsp', '1/4 tsp'))} {some(dice, ('butter', 'margarine'))}"
    done = added(tested, text, "fat-foam", "silent")
    return replace(done, ban=frozenset({"role-wrong", "scaled", "metric"}))


@edit("egg-added")
def egg_added(tested: Tested, dice: Random) -> Edit | None:
    """Egg where there is none, or more of it."""
    places = spots(tested.sheet, lambda line: sort(line) == "egg")
    if places:
        by = dice.choice([Fraction(5, 4), Fraction(3, 2), Fraction(2)])
        return Edit(multiplied(tested.sheet, places, by), "egg-added", "unsafe", rows=("acid-cut",), factor=by)
    return added(tested, f"egg {some(dice, ('1 large', '2 large'))} eggs, whole", "egg-added", "unsafe")


@edit("curd-fat")
def curd_fat(tested: Tested, dice: Random) -> Edit | None:
    """Margarine for butter in a curd."""
    places = _with(tested, frozenset({"butter"}))
    if tested.kind != "fruit curd" or not places:
        return None
    name = some(dice, ("margarine", "vegetable margarine"))
    return Edit(
        swapped(tested.sheet, places, lambda line: named(line, name), name), "curd-fat", "untested", rows=("fat-added",)
    )


@edit("nut-dried-raised")
def nuts_raised(tested: Tested, dice: Random) -> Edit | None:
    """Nuts or dried fruit added or raised."""
    places = spots(tested.sheet, lambda line: sort(line) in ("nut", "dried-fruit") and required(line))
    if places and dice.random() < 0.5:
        by = dice.choice([Fraction(105, 100), Fraction(5, 4), Fraction(3, 2), Fraction(2)])
        return Edit(
            multiplied(tested.sheet, places[:1], by), "nut-dried-raised", "untested", rows=("acid-cut",), factor=by
        )
    name = some(
        dice,
        (
            "nut {} walnuts, chopped",
            "nut {} almonds, sliced",
            "dried-fruit {} raisins",
            "dried-fruit {} apricots, dried",
        ),
    )
    line = line_of(name.format(some(dice, ("1/4 cup", "1/2 cup", "1 cup"))))
    known = {found.name for one in tested.sheet.take if (found := entry(one)) is not None}
    found = entry(line)
    if found is None or found.name in known:
        return None
    sheet = tested.sheet.with_more(line).with_step(f"Stir in the {line.item}.")
    return Edit(sheet, "nut-dried-raised", "untested", rows=("lowacid-added", "allergen-new"), ban=_EXTRA)


@edit("allergen-new")
def allergen(tested: Tested, dice: Random) -> Edit | None:
    """Another nut at the same amount."""
    places = spots(tested.sheet, lambda line: sort(line) == "nut" and "nut" in tags(line))
    if not places:
        return None
    line = tested.sheet.take[places[0][0]]
    fitting = [name for name in ("almonds", "pecans", "hazelnuts", "cashews") if name.rstrip("s") not in line.item]
    name = some(dice, fitting)
    sheet = swapped(tested.sheet, places[:1], lambda old: replace(named(old, f"{name}, chopped"), other=()), name)
    return Edit(sheet, "allergen-new", "form", rows=("nut-dried-raised",))


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


_POISON = ("flavouring {} peach kernels", "flavouring {} apricot kernels, crushed", "vegetable {} rhubarb leaves")
_POISON = (*_POISON, "flavouring {} elder stems", "fruit {} unripe elderberries", "fruit {} wild berries, unidentified")


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
