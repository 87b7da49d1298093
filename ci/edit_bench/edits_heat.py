"""Edits of how jars are made ready, filled and heated."""

import re
from fractions import Fraction
from random import Random

from msgspec.structs import replace

from brimline.document.values import Jar, Process, Times
from edit_bench.edits_jars import MOVED, bands, boiling, least, longer, with_process, with_rows
from edit_bench.judge import GELLING_KINDS
from edit_bench.kinds import Edit, Tested, edit, some
from edit_bench.parts import acids, changed
from edit_bench.sheet import NOWHERE, with_bands


@edit("ten-minutes-clean")
def ten_clean(tested: Tested, _: Random) -> Edit | None:
    """Clean jars and five minutes more where sterile jars and five minutes were tested."""
    process = boiling(tested)
    if process is None or tested.sheet.packed("prepare") != "sterile" or least(tested) != 5:
        return None
    sheet = with_rows(tested.sheet, process, lambda _, row: with_bands(row, longer(bands(row), 5)))
    steps = tuple(re.sub(r"Sterilise the jars", "Wash the jars", step) for step in sheet.steps)
    steps = tuple(step.replace("sterile", "clean") for step in steps)
    return Edit(replace(sheet, steps=steps).with_pack("prepare", "clean"), "ten-minutes-clean", "silent")


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
def sterile_added(tested: Tested, _: Random) -> Edit | None:
    """Sterile jars where clean ones were enough."""
    if tested.sheet.packed("prepare") != "clean":
        return None
    return Edit(tested.sheet.with_pack("prepare", "sterile"), "sterile-added", "silent")


_WEAK = (
    "Turn the filled jars upside down for 5 minutes to seal them.",
    "Process the jars in the oven at 250 F for 20 minutes.",
    "Seal the jars in the dishwasher on its hottest cycle.",
    "Process the jars in a microwave oven.",
    "Fill the jars boiling hot; they seal by themselves and need no processing.",
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
    return Edit(sheet, "method-weaker", "unsafe", ban=MOVED)


@edit("method-steam")
def method_steam(tested: Tested, _: Random) -> Edit | None:
    """A steam canner, its conditions not recorded."""
    process = boiling(tested)
    if process is None:
        return None
    sheet = with_process(tested.sheet, process, replace(process, method="steam", start=None))
    steps = tuple(
        step.replace("boiling-water canner", "steam canner").replace("in boiling water", "in steam")
        for step in sheet.steps
    )
    return Edit(replace(sheet, steps=steps), "method-steam", "untested", ban=MOVED)


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
    return Edit(replace(sheet, steps=steps), "method-pressure", "untested", rows=("method-weaker",), ban=MOVED)


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
    return Edit(sheet, "acid-pressure", "unsafe", rows=rows, ban=MOVED)


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
def fill_hot(tested: Tested, _: Random) -> Edit | None:
    """Hot fill where raw was tested; no tested formula at hand is raw, so the tested one is made so first."""
    if tested.kind not in ("chutney", "salsa") or "USDA" in " ".join(text for _, text in tested.sheet.evidence):
        return None
    steps = tuple(re.sub(r"Fill (?:hot into|the hot jars)", "Fill the jars", step) for step in tested.sheet.steps)
    raw = replace(tested.sheet.with_pack("fill", "raw"), code="FR-1", steps=steps)
    return Edit(replace(tested.sheet, steps=steps), "fill-hot", "untested", tested=raw)
