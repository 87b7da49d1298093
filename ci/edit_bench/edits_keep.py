"""Edits of lids, containers, headspace, keeping; of what a formula is called; and of the writing alone."""

import re
from fractions import Fraction
from random import Random

from msgspec.structs import replace

from brimline.document.values import Band, Line, Process, Times
from edit_bench.edits_fruit import fruit_of
from edit_bench.edits_jars import boiling
from edit_bench.edits_sugar import cold
from edit_bench.edits_vegetable import families
from edit_bench.judge import GELLING_KINDS
from edit_bench.kinds import Edit, Tested, edit, some
from edit_bench.pantry import entry, factor, is_acid, sort
from edit_bench.parts import acids, multiplied, required, spots
from edit_bench.sheet import Sheet, jar, named


@edit("headspace")
def headspace(tested: Tested, dice: Random) -> Edit | None:
    """Another headspace than the tested one."""
    now = tested.sheet.packed("headspace")
    if not now:
        return None
    new = some(dice, [one for one in ("1/8 in", "1/4 in", "1/2 in", "1 in", "3/4 in") if one != now])
    steps = tuple(step.replace(now[:-3], new[:-3]) if "nch" in step else step for step in tested.sheet.steps)
    return Edit(replace(tested.sheet, steps=steps).with_pack("headspace", new), "headspace", "untested")


@edit("lid-none")
def lid_none(tested: Tested, dice: Random) -> Edit | None:
    """Wax, or no lid."""
    if cold(tested):
        return None
    if dice.random() < 0.6:
        word = some(dice, ("paraffin", "wax", "none", "paper and string", "cellophane"))
        return Edit(tested.sheet.with_pack("lid", word), "lid-none", "unsafe", rows=("lid-other",))
    step = some(dice, ("Seal the jars with a layer of melted paraffin.", "Pour melted wax over the top of each jar."))
    return Edit(replace(tested.sheet, steps=(*tested.sheet.steps, step)), "lid-none", "unsafe")


@edit("lid-other")
def lid_other(tested: Tested, dice: Random) -> Edit | None:
    """Used flat lids, wire-bail, zinc or lug caps; the reusable plastic lid is quality."""
    if cold(tested):
        return None
    word = some(
        dice, ("two-piece, used", "wire-bail with rubber ring", "zinc cap", "lug cap", "glass lid with wire bail")
    )
    level = "untested"
    if dice.random() < 0.2:
        word, level = "reusable plastic with ring", "quality"
    return Edit(tested.sheet.with_pack("lid", word), "lid-other", level, rows=("lid-none",))


@edit("container-other")
def container(tested: Tested, dice: Random) -> Edit | None:
    """Something not made for canning filled in place of the jars."""
    if cold(tested) or not tested.sheet.steps:
        return None
    what = some(
        dice, ("clean wine bottles", "plastic containers", "clean soup tins", "stoneware crocks", "foil pouches")
    )
    steps = tuple(step for step in tested.sheet.steps if not step.startswith("Fill"))
    place = next((n for n, step in enumerate(steps) if step.startswith(("Process", "Let", "Put the jars"))), len(steps))
    steps = (*steps[:place], f"Fill into {what} and close them.", *steps[place:])
    return Edit(replace(tested.sheet, steps=steps), "container-other", "unsafe")


@edit("stand-shorter")
def stand_shorter(tested: Tested, dice: Random) -> Edit | None:
    """Jars moved before twelve hours have passed."""
    if "stand" not in dict(tested.sheet.keep):
        return None
    hours = some(dice, ("2 h", "6 h", "30 min"))
    steps = tuple(
        re.sub(r"stand 12(?: to 24)? hours", f"stand {hours.split()[0]} hours", step) for step in tested.sheet.steps
    )
    return Edit(replace(tested.sheet, steps=steps).with_keep("stand", hours), "stand-shorter", "quality")


@edit("life-longer-cold")
def life_cold(tested: Tested, dice: Random) -> Edit | None:
    """A longer life in the cold than guidance gives."""
    keep = dict(tested.sheet.keep)
    if "chilled" in keep:
        sheet = tested.sheet.with_keep("chilled", some(dice, ("8 weeks, refrigerated", "6 months, refrigerated")))
    elif "uncooked" in keep:
        sheet = tested.sheet.with_keep("uncooked", some(dice, ("8 weeks, refrigerated", "3 months, refrigerated")))
    elif tested.kind == "fruit curd":
        sheet = tested.sheet.with_keep("chilled", some(dice, ("4 weeks, refrigerated", "3 months, refrigerated")))
    else:
        return None
    return Edit(sheet, "life-longer-cold", "untested")


@edit("life-longer-sealed")
def life_sealed(tested: Tested, dice: Random) -> Edit | None:
    """A longer shelf life than twelve months."""
    if "sealed" not in dict(tested.sheet.keep) or tested.kind == "fruit curd":
        return None
    life = some(dice, ("18 months", "24 months", "3 years"))
    return Edit(tested.sheet.with_keep("sealed", f"{life}, cool, dark, dry"), "life-longer-sealed", "quality")


@edit("method-cold")
def method_cold(tested: Tested, dice: Random) -> Edit | None:
    """A canned formula kept in the refrigerator for a week, or in the freezer."""
    process = boiling(tested)
    if process is None or tested.kind in (
        "tomato",
        "canned fruit",
        "juice",
        "fermented pickle",
        "pie filling",
        "puree",
    ):
        return None
    frozen = dice.random() < 0.3 and tested.kind not in ("fruit curd", "relish", "pickle", "salsa", "chutney", "sauce")
    word, keep, text = (
        ("freezer", "frozen", "12 months, frozen") if frozen else ("refrigerator", "chilled", "1 week, refrigerated")
    )
    steps = tuple(
        step for step in tested.sheet.steps if not re.match(r"Process|Let the jars|Put the jars into the canner", step)
    )
    steps = (*steps, "Cool, close and freeze." if frozen else "Cool, close and refrigerate.")
    sheet = replace(tested.sheet, process=(replace(process, method=word, rows=(), start=None),), steps=steps)
    sheet = replace(sheet, keep=((keep, text),))
    return Edit(sheet, "method-cold", "silent", ban=frozenset({"bands", "jar-metric"}))


@edit("shelf-uncooked")
def shelf_uncooked(tested: Tested, dice: Random) -> Edit | None:
    """A spread made for the cold, kept at room temperature."""
    if not cold(tested) or tested.kind not in GELLING_KINDS:
        return None
    keep = (
        ("stand", "12 h"),
        ("sealed", some(dice, ("12 months, cool, dark, dry", "6 months, cupboard", "3 months, cool, dark"))),
    )
    steps = tuple(step for step in tested.sheet.steps if "refrigerat" not in step.lower() and "freez" not in step)
    # Some also invent a time in a canner.
    there = tested.sheet.process[0].span
    bands = (Band(Fraction(10), Fraction(1000), there), Band(Fraction(15), Fraction(6000), there))
    row = Times((jar("half-pint"),), "", (*bands, Band(Fraction(20), None, there)), there)
    canned = (Process("boiling-water", there, (row,)),)
    sheet = replace(tested.sheet, keep=keep, process=some(dice, ((), canned)), steps=steps)
    return Edit(sheet, "shelf-uncooked", "unsafe", rows=("method-weaker",))


@edit("kind-changed")
def kind_changed(tested: Tested, dice: Random) -> Edit | None:
    """Called another product."""
    others = (
        "jam",
        "preserves",
        "spread",
        "fruit butter",
        "chutney",
        "relish",
        "salsa",
        "sauce",
        "pie filling",
        "pickle",
    )
    new = some(dice, [one for one in others if one != tested.kind])
    return Edit(tested.sheet.with_header("product", new), "kind-changed", "untested", ban=frozenset({"relabelled"}))


@edit("role-contradicted")
def role_contradicted(tested: Tested, dice: Random) -> Edit | None:
    """A role the table contradicts, nothing else changed."""
    places = [
        n for n, line in enumerate(tested.sheet.take) if (found := entry(line)) and found.roles and not line.other
    ]
    place = dice.choice(places)
    line = tested.sheet.take[place]
    found = entry(line)
    words = [one for one in ("spice", "colour", "nut", "egg", "salt", "meat") if found and one not in found.roles]
    sheet = tested.sheet.with_line(place, replace(line, role=some(dice, words)))
    return Edit(sheet, "role-contradicted", "form", ban=frozenset({"role-wrong", "alias"}))


@edit("undeclared")
def undeclared(tested: Tested, dice: Random) -> Edit | None:
    """A move that the changes section does not own up to."""
    draw = dice.random()
    if draw < 0.4 and acids(tested):
        line = tested.sheet.take[acids(tested)[0][0]]
        role = line.role if is_acid(line) else "acid"
        sheet = multiplied(tested.sheet, acids(tested), Fraction(4, 5))
    elif draw < 0.7 and tested.sheet.packed("headspace"):
        role, sheet = "headspace", tested.sheet.with_pack("headspace", "3/4 in")
    else:
        places = spots(tested.sheet, lambda line: sort(line) == "sweetener" and required(line))
        role, sheet = "sweetener", multiplied(tested.sheet, places[:1], Fraction(3, 4))
        if not places:
            return None
    ban = frozenset({"relabelled", "role-wrong", "lenient-parent", "two-generations"})
    return Edit(sheet, "undeclared", "form", undeclared=role, ban=ban)


@edit("measures-disagree")
def measures_disagree(tested: Tested, dice: Random) -> Edit | None:
    """Two stated measures of one line that cannot both be right."""
    units = {
        "cup": ("ml", Fraction(1)),
        "lb": ("g", Fraction(1)),
        "qt": ("l", Fraction(1)),
        "tbsp": ("ml", Fraction(1)),
    }
    for place, line in enumerate(tested.sheet.take):
        amount = line.amount
        if amount is None or amount.also or amount.per or len(amount.parts) != 1 or amount.parts[0].pack:
            continue
        part = amount.parts[0]
        if part.unit not in units or part.low != part.high or dice.random() < 0.3:
            continue
        unit, _ = units[part.unit]
        size = (
            part.low
            * factor(part.unit)
            / factor(unit)
            * dice.choice([Fraction(7, 10), Fraction(13, 10), Fraction(1, 2)])
        )
        rounded = Fraction(round(size * 100), 100) if unit == "l" else Fraction(max(round(size), 1))
        also = (replace(part, low=rounded, high=rounded, unit=unit),)
        sheet = tested.sheet.with_line(place, replace(line, amount=replace(amount, also=(also,)), other=()))
        return Edit(
            sheet,
            "measures-disagree",
            "form",
            ban=frozenset({"metric", "units", "split", "equal", "ranged", "restated"}),
        )
    return None


@edit("base-mismatch")
def base_mismatch(tested: Tested, dice: Random) -> Edit | None:
    """A formula that says it departs from one of quite another fruit."""
    place = fruit_of(tested, dice)
    if place is None or tested.kind not in GELLING_KINDS or tested.sheet.take[place].other:
        return None
    line = tested.sheet.take[place]
    fruit = "gooseberries" if "gooseberry" not in families(tested) else "raspberries"
    parent = replace(
        tested.sheet.with_line(place, _plain(tested.sheet, place, fruit)),
        code="BM-1",
        title=f"{fruit.title()} {tested.kind}",
    )
    if len([one for one in tested.sheet.take if sort(one) in ("fruit", "juice")]) > 1 or line.made_of:
        return None
    return Edit(tested.sheet, "base-mismatch", "untested", rows=("fruit-other",), tested=parent)


def _plain(sheet: Sheet, place: int, fruit: str) -> Line:
    line = sheet.take[place]
    name = f"{fruit[:-3]}y juice" if sort(line) == "juice" else f"{fruit}, crushed"
    return replace(named(line, name), note=(), made_of=())


@edit("wording")
def wording(tested: Tested, dice: Random) -> Edit | None:
    """Another title and nothing else; what disguises are for."""
    title = some(dice, ("Class batch", "Autumn workshop batch", "Saturday kitchen batch"))
    return Edit(replace(tested.sheet, title=f"{tested.sheet.title}, {title.lower()}"), "wording", "silent")


@edit("units")
def units_only(tested: Tested, _: Random) -> Edit | None:
    """The same amounts, for other units to be chosen."""
    return Edit(tested.sheet, "units", "silent", ban=frozenset({"scaled"}))
