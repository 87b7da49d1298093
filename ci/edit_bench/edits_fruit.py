"""Edits of the fruit and the juice: other fruit, water for juice, other cuts, drained, thicker."""

from fractions import Fraction
from random import Random

from msgspec.structs import replace

from brimline.figures import entries
from edit_bench.edits_acid import graded
from edit_bench.edits_sugar import cold, firm
from edit_bench.edits_vegetable import families
from edit_bench.judge import in_base
from edit_bench.kinds import Edit, Tested, edit, some
from edit_bench.pantry import cups, entry, grams, match, safety, sort, tags, times
from edit_bench.parts import (
    OWN,
    acids,
    at,
    base,
    by_measure,
    changed,
    main_fruits,
    multiplied,
    required,
    sour,
    spots,
    sugars,
    swapped,
)
from edit_bench.sheet import line_of, named, number
from edit_bench.steps import reworded

_NO_PROCESS = (
    "white peaches",
    "white nectarines",
    "bananas",
    "papaya",
    "cantaloupe",
    "watermelon",
    "honeydew",
    "elderberries",
    "pumpkin",
    "butternut squash",
    "mangoes, ripe",
    "donut peaches",
)
_LACKED = ("moonberries", "velvet apples of the valley", "glimmerfruit")
_OTHER = ("raspberries", "apricots", "pineapple", "cranberries", "gooseberries", "quinces", "kiwifruit", "blueberries")
_HOUSE = frozenset({"water"})


def fruit_of(tested: Tested, dice: Random) -> int | None:
    """The number of one line of required high-acid fruit or juice."""
    found = [n for n in main_fruits(tested) if safety(tested.sheet.take[n]) == "high-acid"]
    return dice.choice(found) if found else None


def _put(tested: Tested, _dice: Random, place: int, name: str, share: Fraction) -> Edit:
    """The fruit of one line replaced, wholly or in part, by another."""
    line = tested.sheet.take[place]
    juice = sort(line) == "juice"
    cut = [
        form for form in line.forms if form in ("crushed", "chopped", "finely chopped", "sliced", "whole", "strained")
    ]
    shown = ", ".join([f"{name} juice" if juice else name, *cut])
    other = replace(times(named(line, shown), share), other=(), made_of=(), note=())
    kept = [times(line, 1 - share)] if share < 1 else []
    word = f"{line.item} and the {other.item}" if kept else other.item
    sheet = replace(tested.sheet.with_line(place, *kept, other), steps=reworded(tested.sheet.steps, line, word))
    rows = (
        "fruit-low-acid-other",
        "fruit-no-process",
        "base-mismatch",
        "lowacid-added",
        "fruit-watered",
        "fruit-other",
    )
    return Edit(sheet, "fruit-other", "untested", rows=rows)


@edit("fruit-no-process")
def fruit_no_process(tested: Tested, dice: Random) -> Edit | None:
    """Fruit for which no tested process is known, alone or mixed in."""
    place = fruit_of(tested, dice)
    name = some(dice, _NO_PROCESS)
    found = entry(line_of(f"fruit 1 cup {name}"))
    if (
        place is None
        or sort(tested.sheet.take[place]) != "fruit"
        or found is None
        or found.family in families(tested) - {"peach"}
    ):
        return None
    share = dice.choice([Fraction(1), Fraction(1, 2), Fraction(1, 4), Fraction(1, 10)])
    return replace(_put(tested, dice, place, name, share), row="fruit-no-process", level="unsafe")


@edit("fruit-low-acid-other")
def fruit_low_acid(tested: Tested, dice: Random) -> Edit | None:
    """Fruit that is not high-acid, or that no table knows."""
    place = fruit_of(tested, dice)
    if place is None or sort(tested.sheet.take[place]) != "fruit":
        return None
    known = families(tested)
    names = [
        one.name
        for one in entries().values()
        if one.sort == "fruit" and one.safety in ("low-acid", "borderline") and one.family not in known
        if not one.tags & {"no-process", "mixture", "vegetable", "poison", "canned-fruit", "half-ripe-mango"}
        and "fruit" in one.roles
        if one.weights
    ]
    name = some(dice, (*names, *_LACKED))
    share = dice.choice([Fraction(1), Fraction(1, 2), Fraction(1, 4)])
    return replace(
        _put(tested, dice, place, name, share), row="fruit-low-acid-other", level="unsafe", ban=frozenset({"alias"})
    )


@edit("fruit-other")
def fruit_other(tested: Tested, dice: Random) -> Edit | None:
    """Another high-acid fruit in place of the tested one."""
    place = fruit_of(tested, dice)
    if place is None or sort(tested.sheet.take[place]) != "fruit" or tested.sheet.take[place].other:
        return None
    known = families(tested)
    fitting = [
        name for name in _OTHER if (found := entry(line_of(f"fruit 1 cup {name}"))) and found.family not in known
    ]
    share = dice.choice([Fraction(1), Fraction(1), Fraction(1, 2)])
    return _put(tested, dice, place, some(dice, fitting), share)


@edit("fruit-needs-acid")
def fruit_needs_acid(tested: Tested, dice: Random) -> Edit | None:
    """Plain canned tomato or fig without its dose; figs or Asian pears canned like peaches."""
    places = acids(tested)
    per_jar = any((amount := at(tested.sheet, spot).amount) and amount.per for spot in places)
    if tested.kind in ("tomato", "canned fruit") and per_jar:
        sheet = changed(tested.sheet, places, lambda _: None)
        return Edit(sheet, "fruit-needs-acid", "unsafe", rows=("acid-dropped",))
    place = fruit_of(tested, dice)
    if tested.kind != "canned fruit" or places or place is None:
        return None
    name = some(dice, ("figs, whole", "Asian pears, peeled"))
    sheet = swapped(tested.sheet, [(place, OWN)], lambda old: replace(named(old, name), note=()), name.split(",")[0])
    return Edit(sheet, "fruit-needs-acid", "unsafe", rows=("fruit-low-acid-other",))


@edit("fruit-mix-more")
def fruit_more(tested: Tested, dice: Random) -> Edit | None:
    """More fruit with the rest unchanged: what the acid and the sugar rows say."""
    places = [spot for spot in base(tested) if sort(at(tested.sheet, spot)) in ("fruit", "juice")]
    whole = list(base(tested))
    if not places or len(places) != len(whole) or tested.kind in ("canned fruit", "juice"):
        return None
    if by_measure(tested.sheet) or any(spot[1] != OWN for spot in acids(tested)):
        return None
    by = dice.choice([Fraction(n, 100) for n in (105, 110, 125, 150)])
    level = "silent"
    if firm(tested) and sugars(tested):
        level = "quality" if cold(tested) else "untested"
    if acids(tested) and graded(tested) == "unsafe":
        level = "unsafe"
    elif acids(tested):
        level = "untested"
    if level == "silent":
        return None
    sheet = multiplied(tested.sheet, places, by)
    rows = ("acid-cut", "sugar-cut-gelled", "sugar-cut-firm")
    return Edit(sheet, "fruit-mix-more", level, rows=rows, factor=by, ban=frozenset({"relabelled"}))


@edit("fruit-watered")
def fruit_watered(tested: Tested, dice: Random) -> Edit | None:
    """Part of the fruit or juice replaced by water."""
    places = [spot for spot in sour(tested) if spot[1] == OWN and cups(at(tested.sheet, spot))]
    if not places or tested.kind in ("canned fruit", "tomato", "fruit curd", "fermented pickle"):
        return None
    spot = max(places, key=lambda one: cups(at(tested.sheet, one)) or 0)
    line = at(tested.sheet, spot)
    share = dice.choice([Fraction(1, 2), Fraction(1, 3), Fraction(1, 4), Fraction(1, 5), Fraction(1, 10)])
    own, whole = grams(line), [grams(at(tested.sheet, one)) for one in sour(tested) if one[1] == OWN]
    if own is None or own.low * share < sum((one.high if one else Fraction(10_000) for one in whole), Fraction(0)) / 20:
        return None  # less than 5 % of the sour part
    water = line_of(f"liquid {number((cups(line) or Fraction(0)) * share)} cup water")
    less = times(line, 1 - share)
    if dice.random() < 0.5:
        less = replace(less, made_of=line.made_of)
    sheet = tested.sheet.with_line(spot[0], less, water)
    sheet = replace(sheet, steps=reworded(sheet.steps, line, f"{line.item} and the water"))
    rows = ("water-raised", "acid-cut", "lowacid-raised", "sugar-cut-gelled")
    return Edit(sheet, "fruit-watered", graded(tested), rows=rows, factor=1 - share)


@edit("water-raised")
def water_raised(tested: Tested, dice: Random) -> Edit | None:
    """More water; quality where the batch boils to an end point."""
    if tested.kind in ("canned fruit", "tomato", "juice", "puree", "fruit curd", "fermented pickle", "pickle") or cold(
        tested
    ):
        return None
    finish = tested.sheet.header("finish")
    if not tested.terms.fixed_boil and not finish.startswith(("gel", "thick", "reduce")):
        return None
    level = graded(tested) if tested.terms.fixed_boil else "quality"
    lines = spots(tested.sheet, lambda line: bool(tags(line) & _HOUSE) and required(line))
    own = [spot for spot in lines if spot[1] == OWN]
    if own and dice.random() < 0.6:
        sheet = multiplied(tested.sheet, own, dice.choice([Fraction(3, 2), Fraction(2), Fraction(5, 4)]))
    elif own:
        return None
    else:
        water = line_of(f"liquid {some(dice, ('1 cup', '2 cup', '3/4 cup'))} water")
        if any(in_base(one, tested.kind, True) and (cups(one) or Fraction(99)) > 12 for one in tested.sheet.take):
            return None
        sheet = tested.sheet.with_more(water).with_step("Stir in the water.")
    return Edit(sheet, "water-raised", level, rows=("fruit-watered", "acid-cut"))


@edit("fruit-frozen")
def fruit_frozen(tested: Tested, dice: Random) -> Edit | None:
    """The same fruit frozen without sugar."""
    place = fruit_of(tested, dice)
    if place is None or sort(tested.sheet.take[place]) != "fruit" or tested.kind == "canned fruit":
        return None
    line = tested.sheet.take[place]
    if tags(line) & {"frozen", "canned-fruit", "citrus"}:
        return None
    forms = tuple(form for form in line.forms if form not in ("fresh", "raw"))
    frozen = replace(line, forms=(*forms, "frozen", some(dice, ("unsweetened", "thawed"))))
    return Edit(tested.sheet.with_line(place, frozen), "fruit-frozen", "silent", ban=frozenset({"alias"}))


@edit("fruit-canned-no-pectin")
def juice_canned(tested: Tested, dice: Random) -> Edit | None:
    """Bottled juice in a jelly without added pectin."""
    if tested.terms.pectin or tested.kind != "jelly":
        return None
    for place, line in enumerate(tested.sheet.take):
        if sort(line) == "juice" and required(line):
            bought = replace(line, forms=(some(dice, ("bottled", "canned")), "unsweetened"), made_of=(), note=())
            known = match(bought)
            if known.entry is None and not known.ambiguous:
                return None
            return Edit(
                tested.sheet.with_line(place, bought), "fruit-canned-no-pectin", "quality", ban=frozenset({"alias"})
            )
    return None
