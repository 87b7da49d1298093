"""Edits of jars, times, altitudes and the way the jars are heated."""

import re
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from random import Random

from brimline.document.values import Jar, Process, Times
from edit_bench.edits_acid import changed
from edit_bench.judge import GELLING_KINDS
from edit_bench.kinds import Edit, Tested, edit, some
from edit_bench.parts import acids
from edit_bench.sheet import NOWHERE, Sheet, jar, with_bands

_SIZES = {"quarter-pint": 4, "half-pint": 8, "12 oz": 12, "pint": 16, "24 oz": 24, "quart": 32, "half-gallon": 64}
_METRIC = {"half-pint": "250 ml", "pint": "500 ml", "quart": "1 l", "half-gallon": "2 l", "12 oz": "350 ml"}
_MOVED = frozenset({"bands", "jar-metric"})
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


def _longer(times: Bands, by: int) -> Bands:
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
    times = _longer(bands(row), dice.choice([0, 0, 5, 10, 20])) if row else []
    sheet = _with_jar(tested.sheet, process, name, times)
    if acids(tested) and tested.kind in ("tomato", "canned fruit"):
        return Edit(sheet, "jar-larger", "unsafe", rows=("per-jar-to-batch",), ban=_MOVED)
    return Edit(sheet, "jar-larger", "unsafe", ban=_MOVED)


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
    return (
        Edit(_with_jar(tested.sheet, process, name, bands(row)), "jar-between", "silent", ban=_MOVED) if row else None
    )


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
    return Edit(sheet, "jar-smaller-shorter", "unsafe", rows=("time-shorter",), ban=_MOVED)


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
    return Edit(with_rows(tested.sheet, process, less), "time-shorter", "unsafe", rows=rows, ban=_MOVED)


@edit("band-widened")
def band_widened(tested: Tested, dice: Random) -> Edit | None:
    """A band edge moved up, or the lowest time for all altitudes."""
    process = boiling(tested)
    if process is None or any(len(row.bands) < 2 for row in process.rows):
        return None
    if dice.random() < 0.3:
        sheet = with_rows(tested.sheet, process, lambda _, row: with_bands(row, [(row.bands[0].minutes, None)]))
        return Edit(sheet, "band-widened", "unsafe", rows=("time-shorter",), ban=_MOVED)
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
    return Edit(with_rows(tested.sheet, process, wider), "band-widened", "unsafe", rows=("time-shorter",), ban=_MOVED)


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
    return Edit(sheet, "band-missing", "untested", ban=_MOVED)


@edit("time-longer")
def time_longer(tested: Tested, dice: Random) -> Edit | None:
    """More time; silent up to twice the tested time in a gelled product."""
    process = boiling(tested)
    if process is None or tested.kind == "fruit curd":
        return None
    by = dice.choice([1, 2, 5])
    level = "silent"
    if tested.terms.gelled and dice.random() < 0.3:
        by, level = int(max(minutes for row in process.rows for minutes, _ in bands(row))) * 2, "quality"
    sheet = with_rows(tested.sheet, process, lambda _, row: with_bands(row, _longer(bands(row), by)))
    return Edit(sheet, "time-longer", level)


@edit("ten-minutes-clean")
def ten_clean(tested: Tested, dice: Random) -> Edit | None:
    """Clean jars and five minutes more where sterile jars and five minutes were tested."""
    process = boiling(tested)
    if process is None or tested.sheet.packed("prepare") != "sterile" or least(tested) != 5:
        return None
    sheet = with_rows(tested.sheet, process, lambda _, row: with_bands(row, _longer(bands(row), 5)))
    steps = tuple(re.sub(r"Sterilise the jars", "Wash the jars", step) for step in sheet.steps)
    steps = tuple(step.replace("sterile", "clean") for step in steps)
    return (
        Edit(replace(sheet, steps=steps).with_pack("prepare", "clean"), "ten-minutes-clean", "silent") if dice else None
    )


@edit("below-published")
def below_published(tested: Tested, dice: Random) -> Edit | None:
    """A published formula restated by itself with less time than its source prints."""
    process = boiling(tested)
    sources = " ".join(text for word, text in tested.sheet.evidence if word == "source")
    if process is None or "Complete Guide" not in sources or "published" not in tested.path:
        return None
    by = dice.choice([2, 5])
    less = with_rows(
        tested.sheet,
        process,
        lambda _, row: with_bands(row, [(max(minutes - by, Fraction(1)), edge) for minutes, edge in bands(row)]),
    )
    return Edit(less, "below-published", "unsafe", rows=("sterile-dropped",), alone=True)


@edit("sterile-dropped")
def sterile_dropped(tested: Tested, dice: Random) -> Edit | None:
    """Jars no longer sterile where a time is under ten minutes."""
    if not tested.sheet.packed("prepare").startswith("sterile") or least(tested) >= 10:
        return None
    level = "untested" if tested.kind in (*GELLING_KINDS, "fruit butter") else "unsafe"
    sheet = tested.sheet.with_pack("prepare", "clean" if dice.random() < 0.6 else "")
    steps = tuple(
        re.sub(r"Sterilise the jars", "Wash the jars", step).replace("sterile", "clean") for step in sheet.steps
    )
    return Edit(replace(sheet, steps=steps), "sterile-dropped", level)


@edit("sterile-added")
def sterile_added(tested: Tested, dice: Random) -> Edit | None:
    """Sterile jars where clean ones were enough."""
    if tested.sheet.packed("prepare") != "clean" or not dice:
        return None
    return Edit(tested.sheet.with_pack("prepare", "sterile"), "sterile-added", "silent")


_WEAK = (
    "Turn the filled jars upside down for 5 minutes to seal them.",
    "Process the jars in the oven at 250 F for 20 minutes.",
)
_WEAK = (*_WEAK, "Seal the jars in the dishwasher on its hottest cycle.", "Process the jars in a microwave oven.")
_WEAK = (*_WEAK, "Fill the jars boiling hot; they seal by themselves and need no processing.")
_WEAK = (
    *_WEAK,
    "Process the jars in a slow cooker on high for 4 hours.",
    "Process the jars in an electric multi-cooker.",
)


@edit("method-weaker")
def method_weaker(tested: Tested, dice: Random) -> Edit | None:
    """Boiling water replaced by something weaker, or by nothing."""
    process = boiling(tested)
    if process is None:
        return None
    draw, sheet = dice.random(), tested.sheet
    kept = tuple(step for step in sheet.steps if not step.startswith("Process"))
    if draw < 0.3:
        sheet = replace(sheet, process=(), steps=kept)
    elif draw < 0.6:
        sheet = replace(sheet, process=(), steps=(*kept, some(dice, _WEAK)))
    else:
        sheet = replace(sheet, steps=(*kept, some(dice, _WEAK)))
    return Edit(sheet, "method-weaker", "unsafe", ban=_MOVED)


@edit("method-steam")
def method_steam(tested: Tested, dice: Random) -> Edit | None:
    """A steam canner, its conditions not recorded."""
    process = boiling(tested)
    if process is None or not dice:
        return None
    sheet = with_process(tested.sheet, process, replace(process, method="steam", start=None))
    steps = tuple(
        step.replace("boiling-water canner", "steam canner").replace("in boiling water", "in steam")
        for step in sheet.steps
    )
    return Edit(replace(sheet, steps=steps), "method-steam", "untested", ban=_MOVED)


def _pressure(process: Process, minutes: Fraction) -> Process:
    row = process.rows[0]
    band = replace(row.bands[0], minutes=minutes, up_to_ft=None, gauge="weighted", psi=Fraction(10), unit="ft")
    jars: tuple[Jar, ...] = tuple({one.name: one for line in process.rows for one in line.jars}.values())
    return Process("pressure", NOWHERE, (Times(jars, "", (band,), NOWHERE),))


@edit("method-pressure")
def method_pressure(tested: Tested, dice: Random) -> Edit | None:
    """Pressure where no pressure time was tested."""
    process = boiling(tested)
    if process is None or len(tested.sheet.process) > 1:
        return None
    sheet = with_process(tested.sheet, process, _pressure(process, Fraction(dice.choice([8, 10, 15]))))
    steps = tuple(step.replace("boiling-water canner", "pressure canner") for step in sheet.steps)
    return Edit(replace(sheet, steps=steps), "method-pressure", "untested", rows=("method-weaker",), ban=_MOVED)


@edit("acid-pressure")
def acid_pressure(tested: Tested, dice: Random) -> Edit | None:
    """The acid of tomatoes left out because they are pressure canned."""
    process, places = boiling(tested), acids(tested)
    if process is None or not places or tested.kind not in ("tomato", "salsa", "sauce"):
        return None
    sheet = changed(tested.sheet, places, lambda _: None)
    others = tuple(one for one in sheet.process if one is not process and one.method == "pressure")
    sheet = replace(sheet, process=others or (_pressure(process, Fraction(dice.choice([15, 20, 25]))),))
    rows = ("acid-dropped", "fruit-needs-acid")
    return Edit(sheet, "acid-pressure", "unsafe", rows=rows, ban=_MOVED)


@edit("canner-start")
def canner_start(tested: Tested, dice: Random) -> Edit | None:
    """A curd put into hotter water, or brought to the boil faster."""
    process = next((one for one in tested.sheet.process if one.start is not None), None)
    if process is None or process.start is None:
        return None
    if dice.random() < 0.5:
        start = replace(process.start, water_f=Fraction(dice.choice([190, 200, 212])))
    else:
        start = replace(process.start, low=Fraction(10), high=Fraction(dice.choice([12, 15, 20])))
    new = None if dice.random() < 0.15 else start
    return Edit(with_process(tested.sheet, process, replace(process, start=new)), "canner-start", "unsafe")


@edit("fill-cold")
def fill_cold(tested: Tested, dice: Random) -> Edit | None:
    """Raw or cold fill where hot was tested."""
    if tested.sheet.packed("fill") != "hot" or boiling(tested) is None:
        return None
    level = "unsafe" if least(tested) < 15 else "untested"
    steps = tuple(re.sub(r"Fill (?:hot|the hot jars)", "Fill the jars cold", step) for step in tested.sheet.steps)
    sheet = replace(tested.sheet, steps=steps) if dice.random() < 0.5 else tested.sheet
    return Edit(sheet.with_pack("fill", "raw"), "fill-cold", level)


@edit("fill-hot")
def fill_hot(tested: Tested, dice: Random) -> Edit | None:
    """Hot fill where raw was tested; no tested formula at hand is raw, so the tested one is made so first."""
    if tested.kind not in ("chutney", "salsa") or "USDA" in " ".join(text for _, text in tested.sheet.evidence):
        return None
    steps = tuple(re.sub(r"Fill (?:hot into|the hot jars)", "Fill the jars", step) for step in tested.sheet.steps)
    raw = replace(tested.sheet.with_pack("fill", "raw"), code="FR-1", steps=steps)
    return Edit(replace(tested.sheet, steps=steps), "fill-hot", "untested", tested=raw) if dice else None
