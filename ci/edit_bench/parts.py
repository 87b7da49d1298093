"""Finding and changing lines wherever they stand: on their own, or under a measured juice."""

from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction

from msgspec.structs import replace

from brimline.document.values import Line
from edit_bench.judge import in_base
from edit_bench.kinds import Tested
from edit_bench.pantry import is_acid, is_low_acid_food, is_sour, is_sugar, sort, tags, times
from edit_bench.sheet import Sheet
from edit_bench.steps import reworded

Spot = tuple[int, int]
OWN = -1


def spots(sheet: Sheet, wanted: Callable[[Line], bool]) -> list[Spot]:
    """Where lines of a kind stand: the line's number, and its number among the `from` lines (-1: the line itself)."""
    found = []
    for number, line in enumerate(sheet.take):
        if wanted(line):
            found.append((number, OWN))
        found.extend((number, child) for child, one in enumerate(line.made_of) if wanted(one))
    return found


def at(sheet: Sheet, spot: Spot) -> Line:
    """The line at a spot."""
    line = sheet.take[spot[0]]
    return line if spot[1] == OWN else line.made_of[spot[1]]


def changed(sheet: Sheet, places: Iterable[Spot], change: Callable[[Line], Line | None]) -> Sheet:
    """The sheet with the lines at some spots changed; where `change` gives None they are taken out."""
    wanted = set(places)
    take = []
    for number, line in enumerate(sheet.take):
        made_of = []
        for child, one in enumerate(line.made_of):
            new = change(one) if (number, child) in wanted else one
            if new is not None:
                made_of.append(new)
        kept: Line | None = replace(line, made_of=tuple(made_of))
        if (number, OWN) in wanted and kept is not None:
            kept = change(kept)
        if kept is not None:
            take.append(kept)
    return replace(sheet, take=tuple(take))


def required(line: Line) -> bool:
    """Whether a line is required, stated, and stays in."""
    return not line.flags and line.amount is not None and bool(line.amount.parts)


def acids(tested: Tested) -> list[Spot]:
    """Where the required acid of the formula stands."""
    return spots(tested.sheet, lambda line: is_acid(line) and required(line))


def one_acid(tested: Tested) -> list[Spot]:
    """Where the first kind of required acid stands, all its lines."""
    all_of_them = acids(tested)
    if not all_of_them:
        return []
    first = family(at(tested.sheet, all_of_them[0]))
    return [spot for spot in all_of_them if family(at(tested.sheet, spot)) == first]


def family(line: Line) -> str:
    """What counts as one kind of acid."""
    return next((word for word in ("lemon", "lime", "vinegar", "citric") if word in tags(line)), "")


def sugars(tested: Tested) -> list[Spot]:
    """Where required sweetener that brings sugar stands."""
    return spots(tested.sheet, lambda line: is_sugar(line) and required(line))


def low_acid(tested: Tested) -> list[Spot]:
    """Where low-acid food stands, tomato and its kin not among it."""
    return spots(tested.sheet, lambda line: is_low_acid_food(line) and required(line) and not is_sour(line))


def sour(tested: Tested) -> list[Spot]:
    """Where the sour part stands."""
    return spots(tested.sheet, lambda line: is_sour(line) and required(line))


def base(tested: Tested) -> list[Spot]:
    """Where the lines stand that the acid and the sugar are measured against."""
    kind, fixed = tested.kind, tested.terms.fixed_boil
    return [
        (number, OWN)
        for number, line in enumerate(tested.sheet.take)
        if in_base(line, kind, fixed) and not is_acid(line) and line.amount and line.amount.parts
    ]


def by_measure(sheet: Sheet) -> bool:
    """Whether anything is stated for a cup of juice or a pound of fruit, so that it goes along with that."""
    every = [one for line in sheet.take for one in (line, *line.made_of)]
    return any(one.amount and one.amount.per and one.amount.per.of not in ("jar", "finished") for one in every)


def multiplied(sheet: Sheet, places: Iterable[Spot], by: Fraction) -> Sheet:
    """The sheet with the lines at some spots multiplied."""
    return changed(sheet, places, lambda line: times(line, by))


def swapped(sheet: Sheet, places: Iterable[Spot], change: Callable[[Line], Line], name: str) -> Sheet:
    """The sheet with the lines at some spots exchanged and the steps calling them by another name."""
    places = list(places)
    old = at(sheet, places[0])
    return replace(changed(sheet, places, change), steps=reworded(sheet.steps, old, name))


def main_fruits(tested: Tested) -> Iterator[int]:
    """The numbers of the lines of fruit and juice, tomatoes not among them."""
    for number, line in enumerate(tested.sheet.take):
        if sort(line) in ("fruit", "juice") and required(line) and "tomato" not in tags(line):
            yield number
