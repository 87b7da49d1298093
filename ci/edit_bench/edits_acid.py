"""Edits of the acid: left out, cut, loosened, exchanged, weakened."""

from fractions import Fraction
from random import Random

from msgspec.structs import replace

from brimline.document.values import Line
from edit_bench.kinds import Edit, Tested, by_class, counts_as_cut, cut, edit, level_of, root, some
from edit_bench.pantry import tags, times
from edit_bench.parts import OWN, Spot, acids, at, base, by_measure, changed, multiplied, one_acid
from edit_bench.sheet import Sheet, line_of
from edit_bench.steps import mentions, reworded, without


def graded(tested: Tested) -> str:
    """The level of most acid rows."""
    return by_class(tested, "unsafe", "untested", "untested")


def per_jar(sheet: Sheet, places: list[Spot]) -> bool:
    """Whether the acid at these spots is stated for a jar."""
    return any((amount := at(sheet, spot).amount) is not None and amount.per is not None for spot in places)


@edit("acid-dropped")
def acid_dropped(tested: Tested, dice: Random) -> Edit | None:
    """All acid left out, with or without the words about it in the steps."""
    places = acids(tested)
    if not places:
        return None
    sheet = changed(tested.sheet, places, lambda _: None)
    if dice.random() < 0.5:
        sheet = replace(sheet, steps=without(sheet.steps, at(tested.sheet, places[0])))
    return Edit(sheet, "acid-dropped", graded(tested), rows=("fruit-needs-acid", "acid-cut"))


@edit("acid-cut")
def acid_cut(tested: Tested, dice: Random) -> Edit | None:
    """Less of one acid."""
    places = one_acid(tested)
    if not places:
        return None
    factor, plain = cut(dice)
    level = level_of(counts_as_cut(factor), graded(tested))
    sheet = multiplied(tested.sheet, places, factor)
    half = multiplied(tested.sheet, places, root(factor))
    return Edit(sheet, "acid-cut", level, rows=("fruit-needs-acid",), factor=factor, plain=plain, half=half)


@edit("acid-cut", "acid-cut by more food")
def acid_diluted(tested: Tested, dice: Random) -> Edit | None:
    """More of everything the acid has to protect, the acid unchanged."""
    places = acids(tested)
    if not places or per_jar(tested.sheet, places) or any(spot[1] != OWN for spot in places):
        return None
    if tested.kind in ("fruit curd", "canned fruit") or not base(tested) or by_measure(tested.sheet):
        return None
    factor, plain = cut(dice)
    factor = max(factor, Fraction(1, 3))
    if factor == Fraction(98, 100):
        factor = Fraction(979, 1000)
    level = level_of(counts_as_cut(factor), graded(tested))
    sheet = multiplied(tested.sheet, base(tested), 1 / factor)
    half = multiplied(tested.sheet, base(tested), 1 / root(factor))
    rows = ("sugar-cut-gelled", "sugar-cut-firm")
    return Edit(
        sheet, "acid-cut", level, rows=rows, factor=factor, plain=plain, half=half, ban=frozenset({"relabelled"})
    )


def _ranged(line: Line, low: Fraction) -> Line:
    amount = line.amount
    assert amount is not None  # noqa: S101 - only stated lines come here
    parts = (replace(amount.parts[0], low=amount.parts[0].low * low), *amount.parts[1:])
    return replace(line, amount=replace(amount, parts=parts, also=()), other=())


def _looser(tested: Tested, places: list[Spot], way: str, dice: Random) -> Sheet | None:
    sheet, line = tested.sheet, at(tested.sheet, places[0])
    own = places[0][1] == OWN
    if way == "optional":
        return changed(sheet, places, lambda one: replace(one, flags=("optional",))) if own else None
    if way in ("infused", "discarded"):
        return changed(sheet, places, lambda one: replace(one, flags=(way,))) if own else None
    if way == "range":
        low = dice.choice([Fraction(n, 100) for n in (95, 80, 50, 25)])
        return changed(sheet, places, lambda one: _ranged(one, low))
    if way == "to taste":
        return changed(sheet, places, lambda one: replace(one, forms=(*one.forms, "to taste")))
    if way == "no step":
        return replace(sheet, steps=without(sheet.steps, line)) if mentions(sheet, line) and own else None
    if way == "or water" and own:
        words = line_of("acid 1 cup water\n    or liquid 1 cup water").other[0]
        return changed(sheet, places, lambda one: replace(one, other=(replace(words, amount=one.amount),)))
    if way == "under another" and own:
        moved = replace(line, other=(), note=())
        spice = line_of(f"{some(dice, ('liquid', 'flavouring', 'acid'))} 1 tbsp water")
        host = replace(spice, amount=moved.amount, other=(moved,))
        return changed(sheet, places, lambda one: host if one is line else None)
    return None


@edit("acid-loosened")
def acid_loosened(tested: Tested, dice: Random) -> Edit | None:
    """The acid still written, but no longer required."""
    places = one_acid(tested)
    if not places or any(at(tested.sheet, spot).other for spot in places):
        return None
    ways = ("optional", "infused", "discarded", "range", "to taste", "no step", "or water", "under another")
    sheet = _looser(tested, places, some(dice, ways), dice)
    if sheet is None:
        return None
    ban = frozenset({"alias", "ranged", "or-moved", "from-moved", "split"})
    rows = ("acid-dropped", "acid-cut", "fruit-needs-acid", "fruit-watered", "acid-untested-swap", "acid-not-an-acid")
    return Edit(sheet, "acid-loosened", graded(tested), rows=rows, ban=ban)


@edit("per-jar-to-batch")
def per_jar_to_batch(tested: Tested, dice: Random) -> Edit | None:
    """The dose of each jar stated once for the pot."""
    places = one_acid(tested)
    if not places or not per_jar(tested.sheet, places) or tested.sheet.yields is None:
        return None
    whole = tested.sheet.yields.low if dice.random() < 0.5 else Fraction(1)

    def one(line: Line) -> Line | None:
        if line is not at(tested.sheet, places[0]) or line.amount is None:
            return None
        return replace(times(line, whole), amount=replace(times(line, whole).amount or line.amount, per=None), other=())

    sheet = changed(tested.sheet, places, one)
    rows = ("acid-cut", "acid-dropped", "fruit-needs-acid")
    return Edit(sheet, "per-jar-to-batch", "unsafe", rows=rows, ban=frozenset({"scaled"}))


@edit("acid-tested-alternative")
def tested_alternative(tested: Tested, dice: Random) -> Edit | None:
    """An alternative that the tested formula lists."""
    places = [n for n, line in enumerate(tested.sheet.take) if line.other and not line.other[0].any_mix]
    if not places:
        return None
    place = dice.choice(places)
    line = tested.sheet.take[place]
    chosen = replace(dice.choice(line.other), flags=line.flags, note=line.note)
    sheet = tested.sheet.with_line(place, chosen)
    return Edit(replace(sheet, steps=reworded(sheet.steps, line, chosen.item)), "acid-tested-alternative", "silent")


@edit("acid-more")
def acid_more(tested: Tested, dice: Random) -> Edit | None:
    """More of the bottled juice or vinegar that is there."""
    places = one_acid(tested)
    if not places or not tags(at(tested.sheet, places[0])) & {"bottled", "vinegar"}:
        return None
    if tested.kind == "fruit curd":
        return None
    by = dice.choice([Fraction(n, 100) for n in (103, 105, 110, 125, 150, 175)])
    return Edit(multiplied(tested.sheet, places, by), "acid-more", "silent", factor=by)


@edit("acid-neutralised")
def neutralised(tested: Tested, dice: Random) -> Edit | None:
    """Something that takes acid away."""
    what = some(dice, ("baking soda", "baking powder", "pickling lime", "washing soda", "sodium citrate", "chalk"))
    role = some(dice, ("firming", "spice", "flavouring"))
    size = some(dice, ("1/8 tsp", "1/4 tsp", "1 tsp", "1 tbsp"))
    sheet = tested.sheet.with_more(line_of(f"{role} {size} {what}")).with_step(f"Stir in the {what}.")
    return Edit(sheet, "acid-neutralised", "unsafe")
