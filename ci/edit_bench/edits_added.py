"""Edits that add or exchange what is neither fruit, acid nor sugar: starch, fat, eggs, nuts, spices, salts, oddities."""

from fractions import Fraction
from random import Random

from msgspec.structs import replace

from edit_bench.judge import GELLING_KINDS
from edit_bench.kinds import Edit, Tested, edit, some
from edit_bench.pantry import entry, sort, tags
from edit_bench.parts import changed, multiplied, required, spots, swapped
from edit_bench.sheet import line_of, named
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


_THICK = (
    "cornstarch",
    "flour, all-purpose",
    "modified starch, instant",
    "tapioca, instant",
    "rice, cooked",
    "oats",
    "xanthan gum",
    "chia seed",
    "arrowroot",
)
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


_FATS = (
    "fat {} butter",
    "fat {} vegetable oil",
    "dairy {} cream, heavy",
    "dairy {} milk, whole",
    "dairy {} cheese",
    "dairy {} cream cheese",
    "flavouring {} chocolate, dark",
    "fat {} olive oil",
    "dairy {} coconut milk",
)


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
