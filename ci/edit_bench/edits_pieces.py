"""Edits of how fruit is cut, peeled, drained and covered, and of the juice of a curd."""

from fractions import Fraction
from random import Random

from msgspec.structs import replace

from brimline.document.values import Line
from edit_bench.judge import GELLING_KINDS
from edit_bench.kinds import Edit, Tested, edit, some
from edit_bench.pantry import sort, tags, times
from edit_bench.parts import acids, at, changed, required, spots, swapped
from edit_bench.sheet import named
from edit_bench.steps import reworded

_HOUSE = frozenset({"water"})


def _recut(tested: Tested, old: tuple[str, ...], new: str) -> tuple[int, Line] | None:
    for place, line in enumerate(tested.sheet.take):
        food = sort(line) in ("fruit", "vegetable") and required(line)
        if food and any(word in form for form in line.forms for word in old):
            forms = tuple(form for form in line.forms if not any(word in form for word in old))
            return place, replace(line, forms=(*forms, new), other=())
    return None


def _gelled_or(tested: Tested, level: str) -> str:
    return "quality" if tested.kind in GELLING_KINDS else level


@edit("piece-larger")
def piece_larger(tested: Tested, dice: Random) -> Edit | None:
    """Whole or halved where slices or smaller pieces were tested."""
    found = _recut(
        tested,
        ("sliced", "chopped", "diced", "crushed", "cubed", "grated", "shredded"),
        some(dice, ("whole", "halves")),
    )
    if found is None or tested.kind in ("fruit butter", "fermented pickle"):
        return None
    sheet = tested.sheet.with_line(found[0], found[1])
    return Edit(sheet, "piece-larger", _gelled_or(tested, "untested"), ban=frozenset({"alias"}))


@edit("fruit-thicker")
def fruit_thicker(tested: Tested, dice: Random) -> Edit | None:
    """Puree or mash where pieces were tested."""
    words = ("sliced", "chopped", "diced", "cubed", "halves", "whole", "firm")
    found = _recut(tested, words, some(dice, ("pureed", "mashed")))
    levels = {"canned fruit": "unsafe", "pickle": "unsafe", "pie filling": "unsafe"}
    levels |= {"salsa": "untested", "relish": "untested", "chutney": "untested"}
    if found is None or (tested.kind not in levels and tested.kind not in GELLING_KINDS):
        return None
    level = _gelled_or(tested, levels.get(tested.kind, "quality"))
    return Edit(tested.sheet.with_line(found[0], found[1]), "fruit-thicker", level, ban=frozenset({"alias"}))


@edit("unpeeled")
def unpeeled(tested: Tested, _dice: Random) -> Edit | None:
    """Left unpeeled where peeled was tested."""
    for place, line in enumerate(tested.sheet.take):
        if any(form == "peeled" for form in line.forms) and sort(line) in ("fruit", "vegetable"):
            if "ginger-fresh" in tags(line):
                continue
            forms = tuple("unpeeled" if form == "peeled" else form for form in line.forms)
            sheet = tested.sheet.with_line(place, replace(line, forms=forms))
            return Edit(sheet, "unpeeled", _gelled_or(tested, "untested"), ban=frozenset({"alias"}))
    return None


@edit("cover-thicker")
def cover_thicker(tested: Tested, dice: Random) -> Edit | None:
    """Tomato juice, puree or nothing where water or syrup covers the pieces."""
    covers = spots(tested.sheet, lambda line: bool(tags(line) & _HOUSE) and required(line))
    if tested.kind not in ("tomato", "canned fruit") or not covers:
        return None
    to = some(dice, ("tomato juice", "tomato sauce", "tomato puree", ""))
    if not to:
        sheet = changed(tested.sheet, covers, lambda _: None)
    else:
        sheet = swapped(
            tested.sheet, covers, lambda line: named(line, to, "liquid" if "juice" in to else "vegetable"), to
        )
    return Edit(sheet, "cover-thicker", "unsafe", rows=("lowacid-added", "fruit-low-acid-other", "fruit-watered"))


@edit("cover-thin")
def cover_thin(tested: Tested, dice: Random) -> Edit | None:
    """Fruit juice for water or syrup over canned fruit, or the sugar of the syrup left out."""
    covers = spots(tested.sheet, lambda line: bool(tags(line) & _HOUSE) and required(line))
    if tested.kind != "canned fruit" or not covers or any(sort(line) == "vegetable" for line in tested.sheet.take):
        return None
    to = some(dice, ("apple juice", "white grape juice", "pineapple juice"))
    sheet = swapped(tested.sheet, covers, lambda line: named(line, to, "juice"), to)
    if dice.random() < 0.5:
        sheet = replace(sheet, take=tuple(line for line in sheet.take if sort(line) != "sweetener"))
    return Edit(sheet, "cover-thin", "silent")


@edit("tomato-drained")
def tomato_drained(tested: Tested, dice: Random) -> Edit | None:
    """Tomatoes drained or seeded where the tested formula does not."""
    places = [n for n, line in enumerate(tested.sheet.take) if "tomato" in tags(line) and sort(line) == "vegetable"]
    if not places or tags(tested.sheet.take[places[0]]) & {"tomato-paste"}:
        return None
    drained = any("drain" in step.lower() for step in tested.sheet.steps)
    if drained or any("discarded" in one.flags for one in tested.sheet.take):
        return None
    place = places[0]
    line = tested.sheet.take[place]
    draw = dice.random()
    if draw < 0.7:
        words = some(dice, ("drained", "seeded", "seeded and drained", "salted and drained"))
        forms = tuple(form for form in line.forms if form != "undrained")
        sheet = tested.sheet.with_line(place, replace(line, forms=(*forms, words)))
    else:
        sheet = replace(tested.sheet, steps=("Drain the chopped tomatoes and discard the juice.", *tested.sheet.steps))
    return Edit(sheet, "tomato-drained", "unsafe", ban=frozenset({"alias"}))


@edit("tomato-vine")
def tomato_vine(tested: Tested, dice: Random) -> Edit | None:
    """Tomatoes from dead or frost-killed vines."""
    places = [n for n, line in enumerate(tested.sheet.take) if "tomato" in tags(line) and sort(line) == "vegetable"]
    if not places:
        return None
    place = places[0]
    line = tested.sheet.take[place]
    words = some(dice, ("from frost-killed vines", "from dead vines", "from vines killed by frost"))
    if dice.random() < 0.5:
        sheet = tested.sheet.with_line(place, replace(line, forms=(*line.forms, words)))
    else:
        sheet = replace(tested.sheet, steps=(f"Pick the tomatoes {words}.", *tested.sheet.steps))
    return Edit(sheet, "tomato-vine", "unsafe", ban=frozenset({"alias"}))


@edit("curd-juice")
def curd_juice(tested: Tested, dice: Random) -> Edit | None:
    """Another juice for lemon or lime in a curd."""
    places = acids(tested)
    if tested.kind != "fruit curd" or not places:
        return None
    to = some(dice, ("orange juice", "raspberry juice", "pineapple juice", "passion fruit juice", "grapefruit juice"))
    share = dice.choice([Fraction(1), Fraction(1, 2), Fraction(1, 4)])
    line = at(tested.sheet, places[0])
    other = times(named(line, to, "juice"), share)
    kept = [times(line, 1 - share)] if share < 1 else []
    sheet = tested.sheet.with_line(places[0][0], *kept, other)
    word = f"lemon juice and the {to}" if kept else to
    sheet = replace(sheet, steps=reworded(sheet.steps, line, word))
    return Edit(sheet, "curd-juice", "unsafe", rows=("acid-cut", "acid-dropped", "acid-not-an-acid"))
