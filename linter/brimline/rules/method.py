"""Method and fill: jars are processed and filled the way that was tested."""

from collections.abc import Iterator
from fractions import Fraction

from brimline.batch.words import decimal, listed
from brimline.findings import Flag
from brimline.moves.listing import section
from brimline.moves.values import Case
from brimline.rules.additive import notes
from brimline.rules.contract import rule
from brimline.rules.jar import CANNED, COLD, is_canned
from brimline.rules.say import before_span
from brimline.rules.standins import SOURCES, replaces_process
from brimline.rules.times import stretch

# Under a quarter of an hour most of the heat is in the fill (judgement; the row of the decision table says so).
SHORT_PROCESS = Fraction(15)
NONE = Fraction(0)
STEAM_WORDS = ("steam", "vent", "column", "212", "dome", "temperature")


@rule("heat/method", decides=("method-weaker", "method-steam", "method-pressure", "method-cold"))
def method_is_as_strong(case: Case) -> Iterator[Flag]:
    """Jars are processed by the tested method.

    Only heat that reaches the middle of every jar kills what was sealed in; a method that seals without it, or a
    weaker one, leaves it alive.
    """
    document, tested = case.document, case.tested
    tested_texts = " ".join(text for text, _ in notes(tested)) if tested else ""
    for text, span in notes(document):
        instead = replaces_process(text)
        if instead and text not in tested_texts:
            says = f"This step seals jars without the tested process: {instead}."
            yield Flag("method-weaker", span, says, source=SOURCES.get(instead, ""))
    if tested is None:
        if not document.process and document.standing == "tested":
            text = "No process is stated: nothing here says how the jars are heated or kept cold."
            yield Flag("method-weaker", section(document, "process"), text)
        return
    was = [process.method for process in tested.process]
    now = [process.method for process in document.process]
    before = before_span(case, tested.process[0].span if tested.process else None)
    if any(method in CANNED for method in was) and not now:
        text = f"The tested formula is processed ({listed(was)}); this one is not."
        yield Flag("method-weaker", section(document, "process"), text, (), before)
        return
    for process in document.process:
        row, level = _method(process.method, was, case)
        if row:
            yield Flag(
                row,
                process.span,
                f"The tested formula is processed by {listed(was) or 'nothing'}, this one by {process.method}.",
                (),
                before,
                level=level,
            )


def _method(now: str, was: list[str], case: Case) -> tuple[str, str]:
    if now == "freezer" and any("gelatin" in group.tags for group in case.batch.groups):
        return "method-cold", "untested"
    if now in was or now in COLD or not any(method in CANNED for method in was):
        return "", ""
    match now:
        case "boiling-water":
            return ("method-weaker" if "pressure" in was else ""), ""
        case "steam":
            return "method-steam", "silent" if _steams_as_recorded(case) else ""
        case _:
            return "method-pressure", ""


def _steams_as_recorded(case: Case) -> bool:
    """Whether steps and times are those of the published steam canning: vented, measured, not too long, no curd."""
    steps = " ".join(step.text.lower() for step in case.document.make)
    recorded = sum(word in steps for word in STEAM_WORDS) >= 3
    times = [band.minutes for process in case.document.process for row in process.rows for band in row.bands]
    short = max(times) <= case.printed("steam_canner_45", "max").low
    return recorded and short and case.kind != "fruit curd"


@rule("heat/fill", decides=("fill-cold", "fill-hot"))
def jars_are_filled_as_tested(case: Case) -> Iterator[Flag]:
    """Jars are filled hot where hot was tested, raw where raw was.

    A jar filled cold starts behind: the tested time counts on food that was hot.
    """
    if case.tested is None or not is_canned(case.document):
        return
    was, now = case.tested.pack.fill, case.document.pack.fill
    if was is None or now is None or was.value == now.value:
        return
    times = [band.minutes for process in case.document.process for row in process.rows for band in row.bands]
    text = f"The tested formula fills {was.value}, this one {now.value}."
    before = before_span(case, was.span)
    if case.fill_short:
        gap = case.fill_short[0]
        text += (
            f" The published {now.value} row for a {gap.jar} jar is {decimal(gap.tested or NONE)} min "
            f"{stretch(gap)}; {decimal(gap.here or NONE)} min here."
        )
    if now.value == "raw":
        level = "unsafe" if not times or min(times) < SHORT_PROCESS or case.fill_short else "untested"
        yield Flag("fill-cold", now.span, text, (), before, level=level)
    else:
        silent = case.fill_times and not case.fill_short
        yield Flag("fill-hot", now.span, text, (), before, level="silent" if silent else "")
