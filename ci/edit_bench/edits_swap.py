"""Edits that exchange one acid for another, or for one that is weaker, stronger, fresh or no acid at all."""

from fractions import Fraction
from random import Random

from msgspec.structs import replace

from brimline.document.values import Line
from edit_bench.edits_acid import graded, per_jar
from edit_bench.kinds import Edit, Tested, by_class, edit, some
from edit_bench.pantry import tags, times
from edit_bench.parts import at, family, one_acid, swapped
from edit_bench.sheet import line_of, named


def _exchange(row: str, level: str, tested: Tested, to: str, role: str = "", by: Fraction = Fraction(1)) -> Edit:
    places = one_acid(tested)
    line = line_of(f"acid 1 cup {to}")

    def other(old: Line) -> Line:
        return replace(times(named(old, to, role), by), other=())

    sheet = swapped(tested.sheet, places, other, line.item)
    rows = (
        "acid-dropped",
        "acid-cut",
        "acid-untested-swap",
        "fruit-needs-acid",
        "acid-not-an-acid",
        "vinegar-for-lemon",
    )
    return Edit(sheet, row, level, rows=rows)


@edit("fresh-for-bottled")
def fresh_for_bottled(tested: Tested, dice: Random) -> Edit | None:
    """Fresh juice, or the word bottled dropped."""
    places = one_acid(tested)
    if not places or "bottled" not in tags(at(tested.sheet, places[0])):
        return None
    juice = at(tested.sheet, places[0]).item
    to = some(dice, (juice, f"{juice}, fresh", f"fresh {juice}", f"{juice}, freshly squeezed"))
    return _exchange("fresh-for-bottled", by_class(tested, "unsafe", "untested", "quality"), tested, to)


@edit("fresh-for-unstated")
def fresh_for_unstated(tested: Tested, dice: Random) -> Edit | None:
    """Fresh juice where only lemon or lime juice is written."""
    places = one_acid(tested)
    if not places:
        return None
    line = at(tested.sheet, places[0])
    if "unstated" not in tags(line) or family(line) not in ("lemon", "lime"):
        return None
    level = by_class(tested, "untested", "untested", "silent")
    to = some(dice, (f"{line.item}, fresh", f"fresh {line.item}"))
    return _exchange("fresh-for-unstated", level, tested, to) if tested.terms.acid_class else None


@edit("vinegar-for-lemon")
def vinegar_for_lemon(tested: Tested, dice: Random) -> Edit | None:
    """Vinegar in place of lemon or lime juice."""
    places = one_acid(tested)
    if not places or family(at(tested.sheet, places[0])) not in ("lemon", "lime"):
        return None
    to = some(dice, ("vinegar, white, 5 %", "vinegar, cider, 5 %", "vinegar, 5 %"))
    if tested.kind in ("tomato", "canned fruit") and per_jar(tested.sheet, places):
        return None
    return _exchange("vinegar-for-lemon", graded(tested), tested, to)


@edit("lemon-for-vinegar")
def lemon_for_vinegar(tested: Tested, dice: Random) -> Edit | None:
    """Bottled lemon or lime juice in place of vinegar: fine in salsa, untested elsewhere."""
    places = one_acid(tested)
    if not places or family(at(tested.sheet, places[0])) != "vinegar" or "5 %" not in at(tested.sheet, places[0]).forms:
        return None
    to = some(dice, ("lemon juice, bottled", "lime juice, bottled", "bottled lemon juice"))
    by = dice.choice([Fraction(1), Fraction(1), Fraction(11, 10), Fraction(5, 4)])
    level = "silent" if tested.kind == "salsa" else "untested"
    return _exchange("lemon-for-vinegar", level, tested, to, by=by)


@edit("lemon-for-vinegar", "lemon-for-vinegar, less")
def less_lemon_for_vinegar(tested: Tested, dice: Random) -> Edit | None:
    """Bottled lemon juice in place of more vinegar: an acid cut."""
    places = one_acid(tested)
    if tested.kind != "salsa" or not places or family(at(tested.sheet, places[0])) != "vinegar":
        return None
    by = dice.choice([Fraction(9, 10), Fraction(3, 4), Fraction(1, 2)])
    return _exchange("lemon-for-vinegar", "unsafe", tested, "lemon juice, bottled", by=by)


@edit("lime-for-lemon")
def lime_for_lemon(tested: Tested, dice: Random) -> Edit | None:
    """Bottled lime for bottled lemon at equal volume; untested in plain canned tomato and fig."""
    places = one_acid(tested)
    if not places or not tags(at(tested.sheet, places[0])) >= {"lemon", "bottled"}:
        return None
    if tested.kind == "sauce" and per_jar(tested.sheet, places):
        return None  # a plain tomato sauce; the table speaks of tomatoes
    plain = tested.kind == "tomato" or (tested.kind == "canned fruit" and per_jar(tested.sheet, places))
    to = some(dice, ("lime juice, bottled", "bottled lime juice"))
    return _exchange("lime-for-lemon", "untested" if plain else "silent", tested, to)


_DOSES = {"citric acid": Fraction(1, 12), "vinegar, white, 5 %": Fraction(2), "vinegar, cider, 5 %": Fraction(2)}


@edit("acid-dose-table")
def acid_dose(tested: Tested, dice: Random) -> Edit | None:
    """Another acid of the printed list at its printed dose: 2 tbsp lemon, 1/2 tsp citric acid, 4 tbsp vinegar a quart."""
    places = one_acid(tested)
    plain = tested.kind in ("tomato", "canned fruit")
    if not plain or not places or not per_jar(tested.sheet, places):
        return None
    fig = tested.kind == "canned fruit"
    to = "citric acid" if fig else some(dice, tuple(_DOSES))
    return _exchange("acid-dose-table", "silent", tested, to, by=_DOSES[to])


@edit("acid-untested-swap")
def acid_swap(tested: Tested, dice: Random) -> Edit | None:
    """One acid for another that no table allows."""
    places = one_acid(tested)
    if not places or any(at(tested.sheet, spot).other for spot in places):
        return None
    if tested.kind in ("tomato", "canned fruit") and per_jar(tested.sheet, places):
        to, by = "malic acid", Fraction(1, 12)
    else:
        to, by = some(dice, ("citric acid", "malic acid", "tartaric acid")), Fraction(1, 12)
    return _exchange("acid-untested-swap", graded(tested), tested, to, by=by)


@edit("acid-not-an-acid")
def acid_not_an_acid(tested: Tested, dice: Random) -> Edit | None:
    """Something sour that is no acid of any formula."""
    if not one_acid(tested):
        return None
    dry = ("ascorbic acid", "cream of tartar")
    to = some(dice, (*dry, "wine, white", "orange juice", "pineapple juice"))
    role = "acid" if to in dry or dice.random() < 0.6 else ("spirit" if "wine" in to else "juice")
    done = _exchange("acid-not-an-acid", graded(tested), tested, to, "acid", Fraction(1))
    if role != "acid":
        places = one_acid(tested)
        done = replace(
            done, sheet=swapped(tested.sheet, places, lambda one: replace(named(one, to, role), other=()), to)
        )
    return replace(done, rows=(*done.rows, "spirit-added", "curd-juice"))


@edit("vinegar-weak")
def vinegar_weak(tested: Tested, dice: Random) -> Edit | None:
    """Vinegar below 5 %, of unknown strength, or no longer of stated strength."""
    places = one_acid(tested)
    if not places or "5 %" not in at(tested.sheet, places[0]).forms or family(at(tested.sheet, places[0])) != "vinegar":
        return None
    to = some(
        dice, ("vinegar, white, 4 %", "vinegar, cider", "vinegar, home-made", "pickling vinegar base", "vinegar, 3 %")
    )
    return replace(_exchange("vinegar-weak", graded(tested), tested, to), ban=frozenset({"alias"}))


@edit("vinegar-kind")
def vinegar_kind(tested: Tested, dice: Random) -> Edit | None:
    """Another vinegar of stated strength."""
    places = one_acid(tested)
    if not places or "5 %" not in at(tested.sheet, places[0]).forms or family(at(tested.sheet, places[0])) != "vinegar":
        return None
    to = some(
        dice,
        ("vinegar, cider, 5 %", "vinegar, white, 5 %", "vinegar, malt, 5 %", "red wine vinegar, 6 %", "vinegar, 5 %"),
    )
    return _exchange("vinegar-kind", "silent", tested, to)


@edit("vinegar-stronger-less")
def vinegar_stronger(tested: Tested, dice: Random) -> Edit | None:
    """Less of a stronger vinegar."""
    places = one_acid(tested)
    if not places or "5 %" not in at(tested.sheet, places[0]).forms or family(at(tested.sheet, places[0])) != "vinegar":
        return None
    strength = dice.choice([6, 7, 10])
    by = Fraction(5, strength)
    done = _exchange("vinegar-stronger-less", "untested", tested, f"vinegar, white, {strength} %", by=by)
    return replace(done, factor=by)
