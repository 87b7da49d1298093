"""Edits that exchange peppers, onions and tomatoes among their kin."""

from fractions import Fraction
from random import Random

from msgspec.structs import replace

from brimline.document.values import Line
from edit_bench.judge import by_weight_or_volume
from edit_bench.kinds import Edit, Tested, edit, some
from edit_bench.pantry import sort, tags, times
from edit_bench.parts import Spot, at, changed, spots, swapped
from edit_bench.sheet import item, named


def _peppers(tested: Tested, wanted: frozenset[str]) -> list[Spot]:
    return spots(tested.sheet, lambda line: bool(tags(line) & wanted))


_SWEET, _HOT = frozenset({"pepper-sweet"}), frozenset({"pepper-hot"})


@edit("pepper-swap")
def pepper_swap(tested: Tested, dice: Random) -> Edit | None:
    """Hot for sweet or the reverse in salsa, colour for colour in pepper jelly, at equal or less volume or weight."""
    places = _peppers(tested, _SWEET | _HOT)
    places = [spot for spot in places if by_weight_or_volume(at(tested.sheet, spot))]
    if not places or tested.kind not in ("salsa", "jelly"):
        return None
    spot = dice.choice(places)
    line = at(tested.sheet, spot)
    cut = line.forms[-1] if line.forms else "chopped"
    hot = bool(tags(line) & _HOT)
    if tested.kind == "jelly":
        name = (
            some(dice, ("serrano peppers", "jalapeno peppers"))
            if hot
            else some(dice, ("bell peppers, red", "bell peppers, green"))
        )
    else:
        name = some(dice, ("bell peppers, green", "bell peppers, red", "jalapeno peppers", "serrano peppers"))
    by = dice.choice([Fraction(1), Fraction(1), Fraction(3, 4)])
    new = f"{name}, {cut}" if "chop" in cut or "dic" in cut else name
    sheet = swapped(tested.sheet, [spot], lambda old: replace(times(named(old, new), by), note=()), name.split(",")[0])
    level = "quality" if tested.kind == "jelly" and hot and "bell" in name else "silent"
    return Edit(sheet, "pepper-swap", level)


@edit("pepper-by-count")
def pepper_by_count(tested: Tested, dice: Random) -> Edit | None:
    """Large peppers for the same number of small ones."""
    places = [spot for spot in _peppers(tested, _HOT) if not by_weight_or_volume(at(tested.sheet, spot))]
    if not places:
        return None
    spot = dice.choice(places)
    name = some(dice, ("bell peppers, green", "bell peppers, red", "poblano peppers"))
    sheet = swapped(tested.sheet, [spot], lambda old: named(old, name), name.split(",")[0])
    return Edit(sheet, "pepper-by-count", "unsafe", rows=("lowacid-raised",), ban=frozenset({"scaled"}))


@edit("onion-colour")
def onion_colour(tested: Tested, dice: Random) -> Edit | None:
    """Another colour of onion."""
    places = spots(tested.sheet, lambda line: "onion" in tags(line) and sort(line) == "vegetable")
    if not places:
        return None
    colour = some(dice, ("red", "white", "yellow"))

    def recoloured(line: Line) -> Line:
        rest = [form for form in line.forms if form not in ("red", "white", "yellow")]
        return named(line, ", ".join(("onions", colour, *rest)))

    return Edit(changed(tested.sheet, places, recoloured), "onion-colour", "silent")


@edit("tomato-green")
def tomato_green(tested: Tested, dice: Random) -> Edit | None:
    """Green tomatoes or tomatillos for ripe ones in salsa."""
    ripe = spots(
        tested.sheet,
        lambda line: "tomato" in tags(line) and "tomato-product" not in tags(line) and sort(line) == "vegetable",
    )
    if tested.kind != "salsa" or not ripe:
        return None
    name = some(dice, ("tomatoes, green, chopped", "tomatillos, chopped"))
    line = at(tested.sheet, ripe[0])
    if "green" in item(line):
        return None
    sheet = swapped(
        tested.sheet, ripe[:1], lambda old: replace(named(old, name), other=(), note=()), name.split(",")[0]
    )
    return Edit(sheet, "tomato-green", "silent")
