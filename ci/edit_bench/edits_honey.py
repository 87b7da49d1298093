"""Edits with honey and corn syrup, each within and beyond its published limit."""

from fractions import Fraction
from random import Random

from msgspec.structs import replace

from brimline.document.values import Line
from edit_bench.edits_sugar import HONEY_NOTE, cold, plain_sugar
from edit_bench.kinds import Edit, Tested, edit, some
from edit_bench.pantry import cups, times
from edit_bench.sheet import Sheet, line_of, number
from edit_bench.steps import reworded

_POUCH = frozenset({"pectin-powder", "pectin-liquid"})
_HALF_PINTS = {"quarter-pint": Fraction(1, 2), "half-pint": Fraction(1), "pint": Fraction(2), "quart": Fraction(4)}
_WITHIN = tuple(Fraction(n, 100) for n in (10, 20, 25, 33, 40, 50))
_BEYOND = tuple(Fraction(n, 100) for n in (55, 60, 75, 100))


def _sweet(tested: Tested) -> tuple[int, Fraction] | None:
    """The line of sugar and its cups, if the formula is gelled, sealed and has one line of sugar."""
    place = plain_sugar(tested)
    if place is None or not tested.terms.gelled or cold(tested):
        return None
    size = cups(tested.sheet.take[place])
    return (place, size) if size else None


def _pectin(tested: Tested) -> str:
    for word in ("pectin-powder", "pectin-liquid"):
        if word in tested.terms.pectin:
            return word
    return ""


def _jars(tested: Tested) -> Fraction | None:
    """The half-pints of the stated yield if it is six or fewer for certain, or more for certain."""
    made = tested.sheet.yields
    if made is None or made.jar.name not in _HALF_PINTS:
        return None
    low, high = (size * _HALF_PINTS[made.jar.name] for size in (made.low, made.high))
    return high if high <= 6 or low > 6 else None


def _honey(name: str, size: Fraction, note: bool = True, pieces: int = 1) -> list[Line]:
    lines = [line_of(f"sweetener {number(size / pieces)} cup {name}") for _ in range(pieces)]
    return [replace(line, note=(HONEY_NOTE,) if note else ()) for line in lines]


def with_sweet(tested: Tested, place: int, out: Fraction, lines: list[Line]) -> Sheet:
    """The sheet with `out` cups of the sugar taken out and other lines put in."""
    line = tested.sheet.take[place]
    left = 1 - out / (cups(line) or Fraction(1))
    kept = [times(line, left)] if left > 0 else []
    name = " and the ".join((["sugar"] if kept else []) + [lines[0].item])
    return replace(tested.sheet.with_line(place, *kept, *lines), steps=reworded(tested.sheet.steps, line, name))


def _swap(tested: Tested, dice: Random, name: str, share: Fraction, row: str, level: str) -> Edit | None:
    found = _sweet(tested)
    if found is None:
        return None
    place, size = found
    pieces = 2 if dice.random() < 0.3 else 1
    sheet = with_sweet(tested, place, size * share, _honey(name, size * share, "honey" in name, pieces))
    return Edit(sheet, row, level, factor=share)


@edit("honey-half")
def honey_half(tested: Tested, dice: Random) -> Edit | None:
    """Honey for up to half the sugar, no pectin added."""
    if _pectin(tested):
        return None
    return _swap(
        tested,
        dice,
        some(dice, ("honey, light", "honey", "clover honey")),
        dice.choice(_WITHIN),
        "honey-half",
        "silent",
    )


@edit("honey-over-half")
def honey_over_half(tested: Tested, dice: Random) -> Edit | None:
    """Honey for more than half the sugar."""
    done = _swap(tested, dice, "honey, light", dice.choice(_BEYOND), "honey-over-half", "untested")
    return replace(done, rows=("syrup-over", "sugar-cut-gelled")) if done else None


def _limit(tested: Tested) -> Fraction | None:
    jars = _jars(tested)
    return None if jars is None else Fraction(1 if jars <= 6 else 2)


@edit("honey-pectin")
def honey_pectin(tested: Tested, dice: Random) -> Edit | None:
    """Regular pectin: honey within the published cups."""
    found, limit = _sweet(tested), _limit(tested)
    if not _pectin(tested) or found is None or limit is None:
        return None
    size = min(limit, found[1] / 2) * dice.choice([Fraction(1, 4), Fraction(1, 2), Fraction(1)])
    done = _swap(tested, dice, "honey, light", size / found[1], "honey-pectin", "silent")
    return replace(done, ban=frozenset({"scaled"})) if done else None


@edit("honey-pectin-over")
def honey_pectin_over(tested: Tested, dice: Random) -> Edit | None:
    """Regular pectin: honey beyond the published cups, half the sugar at most."""
    found, limit = _sweet(tested), _limit(tested)
    if not _pectin(tested) or found is None or limit is None or found[1] / 2 < limit * Fraction(5, 4):
        return None
    size = limit * Fraction(5, 4) + (found[1] / 2 - limit * Fraction(5, 4)) * dice.choice([Fraction(0), Fraction(1, 2)])
    return _swap(tested, dice, "honey, light", size / found[1], "honey-pectin-over", "quality")


@edit("honey-low-sugar-pectin")
def honey_low_sugar(tested: Tested, dice: Random) -> Edit | None:
    """Honey with a low-sugar pectin."""
    if "pectin-low-sugar" not in tested.terms.pectin:
        return None
    for place, line in enumerate(tested.sheet.take):
        size = cups(line)
        if line.role == "sweetener" and size:
            share = dice.choice([Fraction(1, 4), Fraction(1, 2), Fraction(1)])
            sheet = with_sweet(tested, place, size * share, _honey("honey, light", size * share))
            return Edit(sheet, "honey-low-sugar-pectin", "untested", factor=share)
    return None


@edit("honey-dark")
def honey_dark(tested: Tested, dice: Random) -> Edit | None:
    """Dark honey within the limit for honey."""
    if _pectin(tested):
        return None
    name = some(dice, ("honey, dark", "buckwheat honey", "chestnut honey"))
    return _swap(tested, dice, name, Fraction(1, 4), "honey-dark", "quality")


@edit("honey-infant")
def honey_infant(tested: Tested, dice: Random) -> Edit | None:
    """Honey and no word about small children."""
    found = _sweet(tested)
    if _pectin(tested) or found is None:
        return None
    place, size = found
    share = dice.choice([Fraction(1, 4), Fraction(1, 2)])
    return Edit(with_sweet(tested, place, size * share, _honey("honey", size * share, False)), "honey-infant", "form")


@edit("syrup-no-pectin")
def syrup_no_pectin(tested: Tested, dice: Random) -> Edit | None:
    """Light corn syrup without pectin: a quarter in jam and jelly, half in other spreads."""
    if _pectin(tested):
        return None
    limit = Fraction(1, 4) if tested.kind in ("jam", "jelly") else Fraction(1, 2)
    share = limit * dice.choice([Fraction(1, 2), Fraction(3, 4), Fraction(1)])
    return _swap(tested, dice, "corn syrup, light", share, "syrup-no-pectin", "silent")


@edit("syrup-no-pectin-over")
def syrup_no_pectin_over(tested: Tested, dice: Random) -> Edit | None:
    """Light corn syrup in jam and jelly without pectin beyond a quarter, half at most."""
    if _pectin(tested) or tested.kind not in ("jam", "jelly"):
        return None
    share = dice.choice([Fraction(n, 100) for n in (30, 40, 50)])
    return _swap(tested, dice, "corn syrup, light", share, "syrup-no-pectin-over", "quality")


@edit("syrup-powder")
def syrup_powder(tested: Tested, dice: Random) -> Edit | None:
    """Light corn syrup with powdered pectin, half at most."""
    if _pectin(tested) != "pectin-powder":
        return None
    return _swap(tested, dice, "light corn syrup", dice.choice(_WITHIN), "syrup-powder", "silent")


@edit("syrup-liquid")
def syrup_liquid(tested: Tested, dice: Random) -> Edit | None:
    """Light corn syrup with liquid pectin: two cups silent, beyond them quality, half at most."""
    found = _sweet(tested)
    if _pectin(tested) != "pectin-liquid" or found is None:
        return None
    size = dice.choice([Fraction(1, 2), Fraction(1), Fraction(2), Fraction(5, 2)])
    if size * 2 > found[1]:
        return None
    level = "silent" if size <= 2 else "quality"
    done = _swap(tested, dice, "corn syrup, light", size / found[1], "syrup-liquid", level)
    return replace(done, ban=frozenset({"scaled"})) if done else None


@edit("syrup-over")
def syrup_over(tested: Tested, dice: Random) -> Edit | None:
    """Corn syrup, or honey and syrup together, for more than half the sugar."""
    found = _sweet(tested)
    if found is None:
        return None
    place, size = found
    out = size * dice.choice(_BEYOND)
    if dice.random() < 0.5:
        lines = [*_honey("corn syrup, light", out / 2, False), *_honey("honey, light", out / 2)]
    else:
        lines = _honey("corn syrup, light", out, False)
    return Edit(
        with_sweet(tested, place, out, lines), "syrup-over", "untested", rows=("honey-over-half", "sugar-cut-gelled")
    )


@edit("sweetener-canned")
def sweetener_canned(tested: Tested, dice: Random) -> Edit | None:
    """Honey or light corn syrup in a covering syrup, half at most silent, beyond it quality."""
    place = plain_sugar(tested)
    if tested.kind != "canned fruit" or place is None:
        return None
    size = cups(tested.sheet.take[place]) or Fraction(0)
    share = dice.choice([*_WITHIN, Fraction(3, 4), Fraction(1)])
    name = some(dice, ("honey, light", "corn syrup, light"))
    sheet = with_sweet(tested, place, size * share, _honey(name, size * share, "honey" in name))
    rows = ("syrup-over", "honey-over-half")
    return Edit(sheet, "sweetener-canned", "silent" if share <= Fraction(1, 2) else "quality", rows=rows, factor=share)
