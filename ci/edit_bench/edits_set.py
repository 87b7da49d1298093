"""Edits of what makes a spread set: pectin, batch size, boiling, and how long things cook before the jars are filled."""

import re
from fractions import Fraction
from random import Random

from msgspec.structs import replace

from edit_bench.edits_sugar import cold
from edit_bench.kinds import Edit, Tested, edit, some
from edit_bench.pantry import scaled, sort, tags
from edit_bench.parts import OWN, at, changed, multiplied, spots
from edit_bench.sheet import line_of

_REGULAR = frozenset({"pectin-powder", "pectin-liquid"})
_ANY = frozenset({"pectin-powder", "pectin-liquid", "pectin-low-sugar", "pectin-calcium"})
_MINUTES = re.compile(r"(\d+(?: \d/\d+)?|\d/\d+)(?: to (\d+))? min")


def _pectins(tested: Tested) -> list[tuple[int, int]]:
    return spots(tested.sheet, lambda line: bool(tags(line) & _ANY))


@edit("pectin-kind")
def pectin_kind(tested: Tested, dice: Random) -> Edit | None:
    """Another kind of pectin, or pectin where none was."""
    places = _pectins(tested)
    boxes = {
        "pectin-powder": "pectin 1 box of 1 3/4 oz pectin, regular powdered",
        "pectin-liquid": "pectin 1 pouch of 3 fl oz pectin, liquid",
        "pectin-low-sugar": "pectin 1 box of 1 3/4 oz pectin, low-sugar powdered",
        "pectin-home": "pectin 1 cup pectin, home-made",
    }
    if not places:
        if not tested.terms.gelled or cold(tested):
            return None
        new = line_of(boxes[some(dice, ("pectin-powder", "pectin-liquid"))])
        return Edit(tested.sheet.with_more(new).with_step("Stir in the pectin."), "pectin-kind", "untested")
    known = tags(at(tested.sheet, places[0]))
    name = some(dice, [key for key in boxes if key not in known])
    new = line_of(boxes[name])
    return Edit(changed(tested.sheet, places, lambda line: replace(new, note=line.note)), "pectin-kind", "untested")


@edit("pectin-dropped")
def pectin_dropped(tested: Tested, _: Random) -> Edit | None:
    """Pectin left out."""
    places = _pectins(tested)
    if not places:
        return None
    return Edit(changed(tested.sheet, places, lambda _: None), "pectin-dropped", "untested")


@edit("pectin-cut")
def pectin_cut(tested: Tested, dice: Random) -> Edit | None:
    """Pectin cut by more than 5 % or raised."""
    places = _pectins(tested)
    if not places:
        return None
    by = dice.choice([Fraction(1, 2), Fraction(3, 4), Fraction(9, 10), Fraction(5, 4), Fraction(3, 2)])
    return Edit(multiplied(tested.sheet, places, by), "pectin-cut", "quality", factor=by)


@edit("pectin-bulk")
def pectin_bulk(tested: Tested, dice: Random) -> Edit | None:
    """The same pectin by mass or volume instead of by package."""
    places = [spot for spot in _pectins(tested) if spot[1] == OWN]
    if not places:
        return None
    line = at(tested.sheet, places[0])
    amount = line.amount
    part = amount.parts[0] if amount and amount.parts else None
    if amount is None or part is None or part.pack is None:
        return None
    bulk = replace(
        part, low=part.low * part.pack.number, high=part.high * part.pack.number, unit=part.pack.unit, pack=None
    )
    if bulk.unit == "oz" and dice.random() < 0.5:
        grams = Fraction(round(bulk.low * Fraction(45359237, 1600000) * 10), 10)
        bulk = replace(bulk, low=grams, high=grams, unit="g")
    amount = replace(amount, parts=(bulk,), also=())
    return Edit(tested.sheet.with_line(places[0][0], replace(line, amount=amount)), "pectin-bulk", "silent")


@edit("pectin-order")
def pectin_order(tested: Tested, dice: Random) -> Edit | None:
    """Powder after the sugar, or liquid pectin before the boil."""
    if not tested.terms.gelled or not tested.terms.pectin & _REGULAR or cold(tested):
        return None
    every = [one for line in tested.sheet.take for one in (line, *line.made_of)]
    fruit = ", the ".join(one.item for one in every if sort(one) not in ("sweetener", "pectin"))
    end = tuple(step for step in tested.sheet.steps if re.match(r"(?:Fill|Process|Let|Take off)", step))
    if "pectin-powder" in tested.terms.pectin:
        words = some(dice, ("Add the pectin last", "Then stir in the pectin"))
        steps: tuple[str, ...] = (
            f"Bring the {fruit} and the sugar to a full rolling boil.",
            f"{words} and boil hard for 1 minute.",
        )
    else:
        steps = (
            f"Put the {fruit} and the pectin into the pot and bring to a full rolling boil.",
            "Add the sugar, return to a full rolling boil and boil hard for 1 minute.",
        )
    sheet = replace(tested.sheet, steps=(*steps, *end))
    return Edit(sheet, "pectin-order", "quality")


@edit("calcium-dropped")
def calcium_dropped(tested: Tested, dice: Random) -> Edit | None:
    """Low-methoxyl pectin and no calcium."""
    places = _pectins(tested)
    if not places:
        return None
    name = some(dice, ("pectin, calcium-activated", "low-methoxyl pectin"))
    new = line_of(f"pectin 4 tsp {name}")
    sheet = changed(tested.sheet, places, lambda line: replace(new, note=line.note))
    return Edit(sheet, "calcium-dropped", "quality")


@edit("batch-larger")
def batch_larger(tested: Tested, dice: Random) -> Edit | None:
    """A gelled formula or a curd made larger than 1.1 times."""
    if not tested.terms.gelled and tested.kind != "fruit curd":
        return None
    by = dice.choice([Fraction(5, 4), Fraction(3, 2), Fraction(2), Fraction(3)])
    return Edit(scaled(tested.sheet, by), "batch-larger", "quality", factor=by, ban=frozenset({"scaled"}))


@edit("batch-smaller")
def batch_smaller(tested: Tested, dice: Random) -> Edit | None:
    """Half a batch or more is fine, less is quality."""
    if not tested.terms.gelled:
        return None
    by = dice.choice([Fraction(1, 2), Fraction(3, 4), Fraction(2, 3), Fraction(1, 4), Fraction(1, 3)])
    level = "silent" if by >= Fraction(1, 2) else "quality"
    return Edit(scaled(tested.sheet, by), "batch-smaller", level, factor=by, ban=frozenset({"scaled"}))


@edit("whole-scaled")
def whole_scaled(tested: Tested, dice: Random) -> Edit | None:
    """Everything scaled alike where nothing has to set."""
    if tested.terms.gelled or tested.kind == "fruit curd":
        return None
    by = dice.choice([Fraction(1, 4), Fraction(1, 2), Fraction(3, 4), Fraction(3, 2), Fraction(2), Fraction(3)])
    return Edit(scaled(tested.sheet, by), "whole-scaled", "silent", factor=by, ban=frozenset({"scaled"}))


@edit("boil-shorter")
def boil_shorter(tested: Tested, dice: Random) -> Edit | None:
    """The boil or the end point of a gelled product lowered."""
    finish = tested.sheet.header("finish")
    if not tested.terms.gelled:
        return None
    if finish.startswith("full rolling boil"):
        new = some(dice, ("full rolling boil 1/4 min", "full rolling boil 20 s"))
        if "1/2" not in finish:
            new = some(dice, (new, "full rolling boil 1/2 min"))
    elif finish.startswith("gel point"):
        new = some(dice, ("gel point 5 F above", "gel point 6 F above"))
    else:
        return None
    return Edit(tested.sheet.with_header("finish", new), "boil-shorter", "quality")


@edit("cook-shorter")
def cook_shorter(tested: Tested, dice: Random) -> Edit | None:
    """Cooking before filling shortened, or a sauce reduced further than tested."""
    finish = tested.sheet.header("finish")
    if tested.terms.gelled or cold(tested):
        return None
    if finish.startswith("reduce to 1/2"):
        return Edit(
            tested.sheet.with_header("finish", some(dice, ("reduce to 1/3", "reduce to 1/4"))),
            "cook-shorter",
            "untested",
        )
    found = _MINUTES.search(finish)
    if not finish.startswith(("simmer", "boil")) or found is None or not found[1].isdigit() or int(found[1]) < 2:
        return None
    word = finish.split()[0]
    less = int(found[1]) * dice.choice([1, 2, 3]) // 4 or 1
    new = some(dice, (f"{word} {less} min", "none"))
    steps = tuple(
        re.sub(rf"\b{found[0].replace(' min', ' minutes')}", f"{less} minutes", step) for step in tested.sheet.steps
    )
    return Edit(replace(tested.sheet.with_header("finish", new), steps=steps), "cook-shorter", "untested")


@edit("ferment-shorter")
def ferment_shorter(tested: Tested, dice: Random) -> Edit | None:
    """Fermented for less time or at another temperature."""
    if tested.kind != "fermented pickle":
        return None
    new = some(dice, ("other fermented 1 week at 70 to 75 F", "other fermented 10 days at 70 to 75 F"))
    new = some(dice, (new, "other fermented 3 to 4 weeks at 50 F", "other fermented 3 to 4 weeks at 85 F"))
    return Edit(tested.sheet.with_header("finish", new), "ferment-shorter", "untested")
