"""Edits of the sugar: cut, raised, exchanged for honey, syrup, other sugars or none."""

from fractions import Fraction
from random import Random

from msgspec.structs import replace

from brimline.document.values import Line
from edit_bench.judge import FLAVOUR_KINDS
from edit_bench.kinds import Edit, Tested, counts_as_cut, cut, edit, level_of, root, some
from edit_bench.pantry import cups, is_sugar, sort, tags, times
from edit_bench.parts import OWN, at, base, by_measure, changed, multiplied, required, spots, sugars
from edit_bench.sheet import Sheet, line_of, named
from edit_bench.steps import reworded

FIRM = ("fruit butter", "chutney", "fruit syrup", "fruit curd")
HONEY_NOTE = "made with honey, not for children under 12 months"


def cold(tested: Tested) -> bool:
    """Whether the formula is kept cold only."""
    return all(one.method in ("freezer", "refrigerator") for one in tested.sheet.process)


def firm(tested: Tested) -> bool:
    """Whether sugar is more than flavour: gelled, or a butter, chutney, syrup or curd."""
    return tested.terms.gelled or tested.kind in FIRM


def plain_sugar(tested: Tested) -> int | None:
    """The number of the one line of granulated sugar stated in cups; None if there is not exactly one."""
    found = [
        number
        for number, line in enumerate(tested.sheet.take)
        if is_sugar(line) and required(line) and "sugar" in tags(line) and cups(line) and _fixed(line)
    ]
    sweet = [line for line in tested.sheet.take if sort(line) == "sweetener"]
    return found[0] if len(found) == 1 and len(sweet) == 1 else None


def _fixed(line: Line) -> bool:
    return line.amount is not None and all(part.low == part.high for part in line.amount.parts)


def _row(tested: Tested) -> str:
    return "sugar-cut-gelled" if tested.terms.gelled else "sugar-cut-firm"


@edit("sugar-cut-gelled")
def sugar_cut(tested: Tested, dice: Random) -> Edit | None:
    """Less sugar in a gelled product."""
    return _cut(tested, dice) if tested.terms.gelled else None


@edit("sugar-cut-firm")
def sugar_cut_firm(tested: Tested, dice: Random) -> Edit | None:
    """Less sugar in a butter, chutney, syrup or curd."""
    return _cut(tested, dice) if tested.kind in FIRM else None


def _cut(tested: Tested, dice: Random) -> Edit | None:
    places = sugars(tested)
    if not places:
        return None
    factor, plain = cut(dice)
    level = level_of(counts_as_cut(factor), "quality" if cold(tested) else "untested")
    sheet = multiplied(tested.sheet, places, factor)
    half = multiplied(tested.sheet, places, root(factor))
    return Edit(sheet, _row(tested), level, factor=factor, plain=plain, half=half)


@edit("sugar-cut-gelled", "sugar-cut by more fruit")
def sugar_diluted(tested: Tested, dice: Random) -> Edit | None:
    """More fruit in place of less sugar."""
    if (
        not firm(tested)
        or tested.kind == "fruit curd"
        or cold(tested)
        or not sugars(tested)
        or not base(tested)
        or by_measure(tested.sheet)
    ):
        return None
    factor, plain = cut(dice)
    factor = max(factor, Fraction(1, 3))
    if factor == Fraction(98, 100):
        factor = Fraction(979, 1000)
    sheet = multiplied(tested.sheet, base(tested), 1 / factor)
    half = multiplied(tested.sheet, base(tested), 1 / root(factor))
    level = level_of(counts_as_cut(factor), "untested")
    rows = ("acid-cut", "sugar-cut-firm")
    return Edit(sheet, _row(tested), level, rows=rows, factor=factor, plain=plain, half=half)


@edit("sugar-cut-gelled", "sugar-cut with token honey")
def sugar_token_honey(tested: Tested, dice: Random) -> Edit | None:
    """Much of the sugar out and a spoonful of honey in its place."""
    place = plain_sugar(tested)
    if place is None or not firm(tested) or tested.kind == "fruit curd" or cold(tested):
        return None
    line = tested.sheet.take[place]
    by = dice.choice([Fraction(1, 2), Fraction(2, 3), Fraction(3, 4), Fraction(4, 5)])
    honey = line_of(f"sweetener {some(dice, ('1 tbsp', '2 tbsp', '1/4 cup'))} honey, light")
    if (cups(line) or 0) * (1 - by) < Fraction(3, 4):
        return None
    sheet = tested.sheet.with_line(place, times(line, by), replace(honey, note=(HONEY_NOTE,)))
    sheet = replace(sheet, steps=reworded(sheet.steps, line, "sugar and the honey"))
    rows = ("sugar-cut-firm", "honey-over-half", "honey-pectin-over", "honey-low-sugar-pectin")
    return Edit(sheet, _row(tested), "untested", rows=rows, factor=by)


@edit("sugar-cut-flavour")
def sugar_cut_flavour(tested: Tested, dice: Random) -> Edit | None:
    """Less sugar, or none, where it is flavour only."""
    places = sugars(tested)
    if not places or tested.kind not in FLAVOUR_KINDS:
        return None
    by = dice.choice([Fraction(n, 4) for n in range(4)])
    sheet = multiplied(tested.sheet, places, by) if by else changed(tested.sheet, places, lambda _: None)
    return Edit(sheet, "sugar-cut-flavour", "silent")


@edit("sugar-in-range")
def sugar_in_range(tested: Tested, dice: Random) -> Edit | None:
    """Sugar within the range or the option the tested formula prints, or below it."""
    for number, line in enumerate(tested.sheet.take):
        if not is_sugar(line) or line.amount is None or len(line.amount.parts) != 1 or line.amount.per is not None:
            continue
        part = line.amount.parts[0]
        optional = "optional" in line.flags
        if part.low == part.high and not optional:
            continue
        low = Fraction(0) if optional else part.low
        size = low + (part.high - low) * dice.choice([Fraction(1, 4), Fraction(1, 2), Fraction(3, 4), Fraction(1)])
        level = "silent"
        if low and dice.random() < 0.4:
            size, level = low * dice.choice([Fraction(19, 20), Fraction(3, 4), Fraction(1, 2)]), "untested"
        amount = replace(line.amount, parts=(replace(part, low=size, high=size),), also=())
        sheet = tested.sheet.with_line(number, replace(line, amount=amount, flags=()))
        return Edit(sheet, "sugar-in-range", level, rows=("sugar-cut-gelled",), ban=frozenset({"scaled"}))
    return None


@edit("sugar-cut-with-pectin-swap")
def sugar_and_pectin(tested: Tested, dice: Random) -> Edit | None:
    """Less sugar with a low-sugar pectin in place of the regular one."""
    pectin = spots(tested.sheet, lambda line: bool(tags(line) & {"pectin-powder", "pectin-liquid"}))
    if not tested.terms.gelled or not pectin or not sugars(tested) or cold(tested):
        return None
    sheet = multiplied(tested.sheet, sugars(tested), dice.choice([Fraction(1, 2), Fraction(2, 3), Fraction(9, 10)]))
    box = line_of("pectin 1 box of 1 3/4 oz pectin, low-sugar powdered")
    sheet = changed(sheet, pectin, lambda line: replace(box, note=line.note))
    rows = ("pectin-kind", "sugar-cut-gelled")
    return Edit(sheet, "sugar-cut-with-pectin-swap", "untested", rows=rows)


@edit("sugar-substitute")
def substitute(tested: Tested, dice: Random) -> Edit | None:
    """A sweetener without sugar, where sugar is more than flavour."""
    if not (tested.terms.gelled or tested.kind in ("fruit butter", "chutney", "fruit curd")) or cold(tested):
        return None
    names = (
        "sucralose, granular",
        "stevia extract powder",
        "erythritol",
        "xylitol",
        "monk fruit sweetener",
        "allulose",
    )
    return _swap(tested, dice, "sugar-substitute", "untested", names, (Fraction(1), Fraction(1, 2), Fraction(1, 4)))


@edit("sugar-substitute-flavour")
def substitute_flavour(tested: Tested, dice: Random) -> Edit | None:
    """Sucralose for sugar where sugar is flavour only."""
    if tested.kind not in ("canned fruit", "sauce", "pie filling", "pickle"):
        return None
    shares = (Fraction(1), Fraction(1, 2))
    return _swap(
        tested, dice, "sugar-substitute-flavour", "silent", ("sucralose, granular", "granulated sucralose"), shares
    )


def _swap(
    tested: Tested, dice: Random, row: str, level: str, names: tuple[str, ...], shares: tuple[Fraction, ...]
) -> Edit | None:
    places = [spot for spot in sugars(tested) if spot[1] == OWN and cups(at(tested.sheet, spot))]
    if not places:
        return None
    name, share = some(dice, names), dice.choice(shares)
    return Edit(
        _mixed(tested.sheet, places[0][0], name, share), row, level, rows=("sugar-cut-gelled", "sugar-cut-firm")
    )


def _mixed(sheet: Sheet, place: int, name: str, share: Fraction) -> Sheet:
    """Part of the sugar exchanged, measure for measure."""
    line = sheet.take[place]
    other = replace(times(named(line, name), share), note=(HONEY_NOTE,) if "honey" in name else ())
    if other.amount is not None:
        other = replace(other, amount=replace(other.amount, also=()))
    kept = [times(line, 1 - share)] if share < 1 else []
    word = f"sugar and the {other.item}" if kept else other.item
    return replace(sheet.with_line(place, *kept, other), steps=reworded(sheet.steps, line, word))


@edit("sugar-raised")
def sugar_raised(tested: Tested, dice: Random) -> Edit | None:
    """More sugar."""
    if not sugars(tested):
        return None
    by = dice.choice([Fraction(n, 100) for n in (105, 110, 125, 150)])
    level = "quality" if tested.terms.gelled else "silent"
    if not tested.terms.gelled and tested.kind not in FLAVOUR_KINDS:
        return None
    return Edit(multiplied(tested.sheet, sugars(tested), by), "sugar-raised", level, factor=by)


@edit("sugar-grain")
def sugar_grain(tested: Tested, dice: Random) -> Edit | None:
    """Another grain of white sugar at equal mass; uncertain where the mass is not stated."""
    places = [spot for spot in sugars(tested) if at(tested.sheet, spot).item.startswith("sugar")]
    places = [spot for spot in places if "sugar" in tags(at(tested.sheet, spot))]
    amount = at(tested.sheet, places[0]).amount if places else None
    if amount is None:
        return None
    name = some(dice, ("sugar, superfine", "sugar, raw", "sugar, organic cane"))
    stated = replace(amount, parts=amount.also[0] if amount.also else amount.parts, also=())
    sheet = changed(tested.sheet, places[:1], lambda line: replace(named(line, name), amount=stated))
    return Edit(sheet, "sugar-grain", "silent", unsure=not amount.also)


@edit("brown-for-white")
def brown_for_white(tested: Tested, dice: Random) -> Edit | None:
    """Brown for white sugar, mass for mass or cup for cup."""
    if tested.kind in FLAVOUR_KINDS:
        return None
    done = _swap(tested, dice, "brown-for-white", "quality", ("sugar, brown, packed",), (Fraction(1), Fraction(1, 2)))
    return done if done and plain_sugar(tested) is not None else None


@edit("sweetener-other")
def sweetener_other(tested: Tested, dice: Random) -> Edit | None:
    """Another sugar or syrup in a gelled product or a curd."""
    if not (tested.terms.gelled or tested.kind == "fruit curd") or cold(tested):
        return None
    names = (
        "agave syrup",
        "maple syrup",
        "molasses",
        "sorghum syrup",
        "date sugar",
        "coconut sugar",
        "sugar, powdered",
        "dextrose",
        "fructose, crystalline",
    )
    return _swap(tested, dice, "sweetener-other", "untested", names, (Fraction(1), Fraction(1, 2), Fraction(1, 4)))


@edit("gelling-sugar")
def gelling_sugar(tested: Tested, dice: Random) -> Edit | None:
    """Sugar that holds pectin."""
    if not tested.terms.gelled or cold(tested):
        return None
    names = ("sugar, gelling", "jam sugar", "gelling sugar")
    done = _swap(tested, dice, "gelling-sugar", "untested", names, (Fraction(1), Fraction(1, 2)))
    return replace(done, rows=("pectin-kind",)) if done else None
