"""Edits of the jars, the times and the altitudes."""

from collections.abc import Callable
from fractions import Fraction
from random import Random

from msgspec.structs import replace

from brimline.document.values import Process, Times
from edit_bench.kinds import Edit, Tested, edit, some
from edit_bench.parts import acids
from edit_bench.sheet import Sheet, jar, with_bands

_SIZES = {"quarter-pint": 4, "half-pint": 8, "12 oz": 12, "pint": 16, "24 oz": 24, "quart": 32, "half-gallon": 64}
_METRIC = {"half-pint": "250 ml", "pint": "500 ml", "quart": "1 l", "half-gallon": "2 l", "12 oz": "350 ml"}
MOVED = frozenset({"bands", "jar-metric"})
Bands = list[tuple[Fraction, Fraction | None]]


def boiling(tested: Tested) -> Process | None:
    """The boiling-water process of the formula."""
    return next((one for one in tested.sheet.process if one.method == "boiling-water" and one.rows), None)


def bands(row: Times) -> Bands:
    """The minutes and edges of a row."""
    return [(band.minutes, band.up_to_ft) for band in row.bands]


def with_process(sheet: Sheet, old: Process, new: Process | None) -> Sheet:
    """The sheet with one process replaced or taken out."""
    return replace(
        sheet, process=tuple(kept for one in sheet.process if (kept := new if one is old else one) is not None)
    )


def with_rows(sheet: Sheet, old: Process, change: Callable[[int, Times], Times | None]) -> Sheet:
    """The sheet with the rows of a process changed."""
    rows = tuple(new for number, row in enumerate(old.rows) if (new := change(number, row)) is not None)
    return with_process(sheet, old, replace(old, rows=rows))


def least(tested: Tested) -> Fraction:
    """The shortest time of any band."""
    process = boiling(tested)
    return min((minutes for row in (process.rows if process else ()) for minutes, _ in bands(row)), default=Fraction(0))


def _largest(tested: Tested) -> str:
    process = boiling(tested)
    names = [one.name for row in (process.rows if process else ()) for one in row.jars if one.name in _SIZES]
    return max(names, key=lambda name: _SIZES[name], default="")


def _smallest(tested: Tested) -> str:
    process = boiling(tested)
    names = [one.name for row in (process.rows if process else ()) for one in row.jars if one.name in _SIZES]
    return min(names, key=lambda name: _SIZES[name], default="")


def _row_of(process: Process, name: str) -> Times | None:
    return next((row for row in process.rows if any(one.name == name for one in row.jars)), None)


def _with_jar(sheet: Sheet, process: Process, name: str, times: Bands) -> Sheet:
    """The sheet with one more jar, its own row of times, and the same preparation."""
    row = with_bands(replace(process.rows[0], jars=(jar(name),), fill=""), times)
    sheet = with_process(sheet, process, replace(process, rows=(*process.rows, row)))
    sheet = sheet.with_pack("jar", f"{sheet.packed('jar')}, {name}")
    prepare = sheet.packed("prepare")
    return sheet.with_pack("prepare", f"{prepare}, {name}") if ":" in prepare and "sterile" in prepare else sheet


def longer(times: Bands, by: int) -> Bands:
    """The same bands with more minutes."""
    return [(minutes + by, edge) for minutes, edge in times]


@edit("jar-larger")
def jar_larger(tested: Tested, dice: Random) -> Edit | None:
    """A jar larger than the largest tested one, with the same time or a longer one of the author's own."""
    process, top = boiling(tested), _largest(tested)
    if process is None or top not in ("half-pint", "pint", "quart"):
        return None
    row = _row_of(process, top)
    names = [name for name in ("12 oz", "pint", "24 oz", "quart", "half-gallon") if _SIZES[name] > _SIZES[top]]
    name = some(dice, names)
    if dice.random() < 0.35:
        name = {"half-pint": "350 ml", "pint": "750 ml", "quart": "1500 ml"}[top]
    times = longer(bands(row), dice.choice([0, 0, 5, 10, 20])) if row else []
    sheet = _with_jar(tested.sheet, process, name, times)
    if acids(tested) and tested.kind in ("tomato", "canned fruit"):
        return Edit(sheet, "jar-larger", "unsafe", rows=("per-jar-to-batch",), ban=MOVED)
    return Edit(sheet, "jar-larger", "unsafe", ban=MOVED)


@edit("jar-between")
def jar_between(tested: Tested, dice: Random) -> Edit | None:
    """A jar without a time of its own that takes the time of the next larger listed jar."""
    process = boiling(tested)
    if process is None:
        return None
    takes = {"quarter-pint": "half-pint", "12 oz": "pint", "24 oz": "quart", "half-pint": "pint", "125 ml": "half-pint"}
    takes |= {"350 ml": "pint", "700 ml": "quart", "200 ml": "half-pint"}
    listed = {one.name for row in process.rows for one in row.jars}
    fitting = [name for name, larger in takes.items() if larger in listed and name not in listed]
    if not fitting or any(row.fill for row in process.rows):
        return None
    name = some(dice, fitting)
    row = _row_of(process, takes[name])
    return Edit(_with_jar(tested.sheet, process, name, bands(row)), "jar-between", "silent", ban=MOVED) if row else None


@edit("jar-smaller-shorter")
def jar_smaller(tested: Tested, dice: Random) -> Edit | None:
    """A smaller jar given less than the time of the next larger listed one."""
    process, low = boiling(tested), _smallest(tested)
    if process is None or low not in ("half-pint", "pint", "quart"):
        return None
    name = some(dice, [one for one in ("quarter-pint", "half-pint", "pint") if _SIZES[one] < _SIZES[low]])
    row = _row_of(process, low)
    if row is None:
        return None
    less = [(max(minutes - dice.choice([1, 2, 5]), Fraction(1)), edge) for minutes, edge in bands(row)]
    sheet = _with_jar(tested.sheet, process, name, less)
    return Edit(sheet, "jar-smaller-shorter", "unsafe", rows=("time-shorter",), ban=MOVED)


@edit("time-shorter")
def time_shorter(tested: Tested, dice: Random) -> Edit | None:
    """Less time, everywhere or in one band of one row only."""
    process = boiling(tested)
    if process is None:
        return None
    place = dice.randrange(len(process.rows))
    only = dice.randrange(len(process.rows[place].bands)) if dice.random() < 0.6 else -1
    by = dice.choice([1, 2, 5, 5])

    def less(number: int, row: Times) -> Times:
        if number != place and only >= 0:
            return row
        times = [
            (max(minutes - by, Fraction(1)) if only in (-1, count) else minutes, edge)
            for count, (minutes, edge) in enumerate(bands(row))
        ]
        return with_bands(row, times)

    rows = ("band-widened", "sterile-dropped")
    return Edit(with_rows(tested.sheet, process, less), "time-shorter", "unsafe", rows=rows, ban=MOVED)


@edit("band-widened")
def band_widened(tested: Tested, dice: Random) -> Edit | None:
    """A band edge moved up, or the lowest time for all altitudes."""
    process = boiling(tested)
    if process is None or any(len(row.bands) < 2 for row in process.rows):
        return None
    if dice.random() < 0.3:
        sheet = with_rows(tested.sheet, process, lambda _, row: with_bands(row, [(row.bands[0].minutes, None)]))
        return Edit(sheet, "band-widened", "unsafe", rows=("time-shorter",), ban=MOVED)
    by = dice.choice([Fraction(500), Fraction(1000), Fraction(200)])
    metres = dice.random() < 0.3

    def wider(number: int, row: Times) -> Times:
        if number:
            return row
        first, *rest = bands(row)
        edge = (first[1] or Fraction(0)) + by
        new = with_bands(row, [(first[0], edge), *rest])
        if not metres:
            return new
        return replace(new, bands=tuple(replace(band, unit="m" if band.up_to_ft else "ft") for band in new.bands))

    first = process.rows[0]
    grows = first.bands[0].minutes < first.bands[1].minutes
    fits = first.bands[1].up_to_ft is None or first.bands[1].up_to_ft > (first.bands[0].up_to_ft or 0) + by
    if not grows or not fits:
        return None
    return Edit(with_rows(tested.sheet, process, wider), "band-widened", "unsafe", rows=("time-shorter",), ban=MOVED)


@edit("band-missing")
def band_missing(tested: Tested, dice: Random) -> Edit | None:
    """The highest altitudes no longer covered."""
    process = boiling(tested)
    if process is None or any(len(row.bands) < 2 for row in process.rows):
        return None
    out = dice.choice([1, 1, 2])
    if any(len(row.bands) <= out for row in process.rows):
        out = 1
    sheet = with_rows(tested.sheet, process, lambda _, row: with_bands(row, bands(row)[:-out]))
    return Edit(sheet, "band-missing", "untested", ban=MOVED)


@edit("time-longer")
def timelonger(tested: Tested, dice: Random) -> Edit | None:
    """More time; silent up to twice the tested time in a gelled product."""
    process = boiling(tested)
    if process is None or tested.kind == "fruit curd":
        return None
    by = dice.choice([1, 2, 5])
    level = "silent"
    if tested.terms.gelled and dice.random() < 0.3:
        by, level = int(max(minutes for row in process.rows for minutes, _ in bands(row))) * 2, "quality"
    sheet = with_rows(tested.sheet, process, lambda _, row: with_bands(row, longer(bands(row), by)))
    return Edit(sheet, "time-longer", level)
