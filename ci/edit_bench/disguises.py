"""Disguises: the same formula written so that it is hard to recognise, and masks that only hide an edit."""

from collections.abc import Callable
from fractions import Fraction
from random import Random

from msgspec import Struct
from msgspec.structs import replace

from brimline.document.values import Jar, Line
from edit_bench import amounts
from edit_bench.kinds import Edit, Tested, some
from edit_bench.pantry import is_acid, is_low_acid_food, match, scaled, sort, tags
from edit_bench.sheet import Sheet, item, jar, named
from edit_bench.steps import reworded

Change = Callable[[Sheet, Tested, Random], Sheet]


class Disguise(Struct, frozen=True):
    """One disguise: its name and what it does.

    A `mask` changes what a formula says and only ever hides an edit that holds back anyway; `unsafe_only` ones would
    hold a formula back by themselves as untested. `alone_with` names disguises it must not meet, because together they
    would change an amount by more than half a percent. `unsure` ones make the comparison uncertain by design.
    """

    name: str
    change: Change
    mask: bool = False
    unsafe_only: bool = False
    alone_with: frozenset[str] = frozenset()
    unsure: bool = False


def _each(change: Callable[[Line, Random], Line]) -> Change:
    def done(sheet: Sheet, _: Tested, dice: Random) -> Sheet:
        whole = dice.random() < 0.6
        return replace(
            sheet, take=tuple(change(one, dice) if whole or dice.random() < 0.5 else one for one in sheet.take)
        )

    return done


def _scaled(sheet: Sheet, tested: Tested, dice: Random) -> Sheet:
    factors = [Fraction(1, 2), Fraction(2, 3), Fraction(3, 4), Fraction(5, 6)]
    if not any(sort(line) in ("fat", "herb", "spirit") for line in tested.sheet.take):
        factors.extend([Fraction(3, 2), Fraction(2), Fraction(21, 20)])
    return scaled(sheet, dice.choice(factors))


def _split(sheet: Sheet, _: Tested, dice: Random) -> Sheet:
    take: list[Line] = []
    for line in sheet.take:
        take.extend(amounts.split(line, dice) if dice.random() < 0.5 else (line,))
    return replace(sheet, take=tuple(take))


def _reordered(sheet: Sheet, _: Tested, dice: Random) -> Sheet:
    take = list(sheet.take)
    dice.shuffle(take)
    return replace(sheet, take=tuple(take))


def _restated(sheet: Sheet, _: Tested, dice: Random) -> Sheet:
    place = dice.randrange(len(sheet.take))
    return sheet.with_line(place, amounts.restated(sheet.take[place]))


def other_name(line: Line, dice: Random) -> Line:
    """The line under another name that the table knows for the very same thing in the very same state."""
    was = match(line)
    if was.entry is None:
        return line
    kept = [form for form in line.forms if form.endswith("%") or set(form.split()) <= set(was.state)]
    names = [name for name in was.entry.aliases if not any(mark in name for mark in "%:()0123456789,")]
    names = [*names, " ".join([*line.forms, line.item])] if not line.strength and len(line.forms) == 1 else names
    dice.shuffle(names)
    for name in names[:6]:
        try:
            new = named(line, ", ".join([name, *kept]))
        except ValueError:
            continue
        now = match(new)
        if now.entry is was.entry and set(now.state) == set(was.state) and new.strength == line.strength:
            return new
    return line


def _alias(sheet: Sheet, _: Tested, dice: Random) -> Sheet:
    for place, line in enumerate(sheet.take):
        if line.other or "water" in tags(line) or dice.random() < 0.4:
            continue
        new = other_name(line, dice)
        if item(new) != item(line):
            new = replace(new, made_of=tuple(other_name(child, dice) for child in new.made_of))
            sheet = replace(sheet.with_line(place, new), steps=reworded(sheet.steps, line, new.item))
    return sheet


def _metres(sheet: Sheet, _: Tested, __: Random) -> Sheet:
    """Altitudes in whole metres, within ten metres of the tested edges."""
    process = tuple(
        replace(
            one,
            rows=tuple(
                replace(row, bands=tuple(replace(band, unit="m" if band.up_to_ft else band.unit) for band in row.bands))
                for row in one.rows
            ),
        )
        for one in sheet.process
    )
    return replace(sheet, process=process)


_METRIC = {"quarter-pint": "125 ml", "half-pint": "250 ml", "pint": "500 ml", "quart": "1 l"}


def _metric_jars(sheet: Sheet, _: Tested, __: Random) -> Sheet:
    def name(one: Jar) -> Jar:
        return jar(_METRIC.get(one.name, one.name))

    process = tuple(
        replace(one, rows=tuple(replace(row, jars=tuple(map(name, row.jars))) for row in one.rows))
        for one in sheet.process
    )
    sheet = replace(sheet, process=process)
    for word in ("jar", "prepare", "headspace"):
        lead, colon, rest = sheet.packed(word).partition(": ") if word != "jar" else ("", "", sheet.packed(word))
        if rest:
            jars = ", ".join(_METRIC.get(one.strip(), one.strip()) for one in rest.split(","))
            sheet = sheet.with_pack(word, f"{lead}{colon}{jars}")
    if sheet.yields is not None:
        sheet = replace(sheet, yields=replace(sheet.yields, jar=name(sheet.yields.jar)))
    return sheet


def _relabelled(sheet: Sheet, tested: Tested, dice: Random) -> Sheet:
    kinds = [one for one in ("jam", "spread", "sauce", "relish", "canned fruit", "pickle") if one != tested.kind]
    return sheet.with_header("product", some(dice, kinds))


def _role_wrong(sheet: Sheet, _: Tested, dice: Random) -> Sheet:
    """The author's word for what a line is, wrong for acid, vegetables, fat or starch."""
    places = [
        n
        for n, line in enumerate(sheet.take)
        if (is_acid(line) or is_low_acid_food(line) or sort(line) in ("fat", "thickener", "sweetener"))
        and not line.made_of
    ]
    if not places:
        return sheet
    place = dice.choice(places)
    role = some(dice, ("flavouring", "spice", "condiment", "liquid", "herb"))
    return sheet.with_line(place, replace(sheet.take[place], role=role))


def _from_moved(sheet: Sheet, _: Tested, __: Random) -> Sheet:
    """An acid line written under the fruit it goes into."""
    acid = [
        n
        for n, line in enumerate(sheet.take)
        if is_acid(line) and line.amount and line.amount.per is None and not line.other
    ]
    fruit = [n for n, line in enumerate(sheet.take) if sort(line) in ("fruit", "juice", "vegetable") and not line.other]
    if not acid or not fruit:
        return sheet
    moved = replace(sheet.take[acid[0]], flags=(), note=())
    host = sheet.take[fruit[0]]
    own = () if host.made_of else (replace(host, made_of=(), note=(), flags=()),)
    old = sheet.take[acid[0]]
    sheet = sheet.with_line(fruit[0], replace(host, made_of=(*host.made_of, *own, moved)))
    return replace(sheet, take=tuple(line for line in sheet.take if line is not old))


def _or_moved(sheet: Sheet, _: Tested, __: Random) -> Sheet:
    """An acid line turned into the alternative of a spice."""
    acid = [
        n
        for n, line in enumerate(sheet.take)
        if is_acid(line) and line.amount and line.amount.per is None and not line.other
    ]
    spice = [
        n for n, line in enumerate(sheet.take) if sort(line) in ("spice", "salt") and not line.other and not line.flags
    ]
    if not acid or not spice:
        return sheet
    moved = replace(sheet.take[acid[0]], flags=(), note=())
    old = sheet.take[acid[0]]
    sheet = sheet.with_line(spice[0], replace(sheet.take[spice[0]], other=(moved,)))
    return replace(sheet, take=tuple(line for line in sheet.take if line is not old))


_ROUNDED = frozenset({"metric", "ranged", "equal", "restated"})

DISGUISES: tuple[Disguise, ...] = (
    Disguise("units", _each(amounts.other_units), alone_with=_ROUNDED),
    Disguise("metric", _each(amounts.metric), alone_with=_ROUNDED),
    Disguise("scaled", _scaled),
    Disguise("split", _split),
    Disguise("alias", _alias),
    Disguise("reordered", _reordered),
    Disguise("ranged", _each(amounts.ranged), alone_with=_ROUNDED),
    Disguise("equal", _each(amounts.equal), alone_with=_ROUNDED),
    Disguise("bands", _metres),
    Disguise("jar-metric", _metric_jars),
    Disguise("restated", _restated, alone_with=_ROUNDED, unsure=True),
    Disguise("relabelled", _relabelled, mask=True, unsafe_only=True),
    Disguise("role-wrong", _role_wrong, mask=True),
    Disguise("from-moved", _from_moved, mask=True),
    Disguise("or-moved", _or_moved, mask=True, unsafe_only=True),
)
CHAINS = ("lenient-parent", "two-generations")
_ACID_ROWS = (
    "acid-cut",
    "acid-loosened",
    "acid-untested-swap",
    "fresh-for-bottled",
    "vinegar-weak",
    "vinegar-for-lemon",
)
# Splitting, scaling and the like come before rounding, so that every amount is rounded once.
_ORDER = tuple(one.name for one in DISGUISES)


def chosen(edit: Edit, tested: Tested, dice: Random, most: int) -> list[Disguise]:
    """Some disguises that fit an edit and each other, in the order in which they are put on."""
    fitting = [one for one in DISGUISES if one.name not in edit.ban and _fits(one, edit, tested)]
    dice.shuffle(fitting)
    kept: list[Disguise] = []
    for one in fitting:
        if len(kept) == most:
            break
        if any(one.name in other.alone_with or other.name in one.alone_with for other in kept):
            continue
        kept.append(one)
    return sorted(kept, key=lambda one: (_ORDER.index(one.name) in (0, 1, 6, 7, 10), _ORDER.index(one.name)))


def _fits(one: Disguise, edit: Edit, tested: Tested) -> bool:
    if one.unsure and (edit.level == "quality" or edit.factor is not None):
        return False
    if not one.mask:
        return True
    if edit.level not in ("unsafe", "untested") or (one.unsafe_only and edit.level != "unsafe"):
        return False
    if one.name in ("from-moved", "or-moved"):
        return edit.row in _ACID_ROWS and any(is_acid(line) for line in tested.sheet.take)
    return one.name != "relabelled" or tested.kind != "tomato"
