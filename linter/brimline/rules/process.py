"""Cooking before the jars are filled, and how the canner is started: both are part of what was tested."""

from collections.abc import Iterator

from brimline.batch.words import decimal, finish_words
from brimline.document.values import Finish, Start
from brimline.findings import Flag
from brimline.moves.listing import section, stated
from brimline.moves.values import Case, Pair
from brimline.rules.contract import rule
from brimline.rules.handled import into_boiling
from brimline.rules.say import before, before_span

TIMED = ("none", "simmer", "boil", "rolling")
THICK_COVERS = ("tomato-product", "puree", "tomato-paste", "tomato")


@rule("heat/cook", decides=("cook-shorter", "ferment-shorter"))
def cooking_is_as_tested(case: Case) -> Iterator[Flag]:
    """What is cooked, brined or fermented before filling gets its tested time, and is not boiled down further.

    Jars that go in cooler, thicker or less sour than tested are not reached by the tested process.
    """
    if case.tested is None or case.gelled:
        return
    was, now = case.tested.finish, case.document.finish
    if was is None:
        return
    at = now.span if now else section(case.document)
    text = f"The tested formula says {finish_words(was)}, this one {finish_words(now)}."
    if case.kind == "fermented pickle":
        if now is None or (was.kind, was.low, was.high, was.text) != (now.kind, now.low, now.high, now.text):
            yield Flag("ferment-shorter", at, text, (), before_span(case, was.span))
    elif now is None or _less(was, now):
        yield Flag("cook-shorter", at, text, (), before_span(case, was.span))


def _less(was: Finish, now: Finish) -> bool:
    """Whether cooking is shorter, or a reduction goes further, than tested."""
    if was.kind == now.kind or (was.kind in TIMED and now.kind in TIMED):
        return was.low is not None and (now.low is None or now.low < was.low)
    return now.kind == "none" or (now.kind == "reduce" and was.kind != "thick")


@rule("heat/start", decides=("canner-start",))
def canner_starts_as_tested(case: Case) -> Iterator[Flag]:
    """Where the start of the canner is part of the process, the water is no hotter and the boil no sooner.

    Curd is heated slowly on purpose: hotter water or a faster boil shortens the heating that was tested.
    """
    if case.tested is None:
        return
    for was in [process.start for process in case.tested.process if process.start is not None]:
        water = f"The tested formula starts with water at {decimal(was.water_f)} F"
        for process in case.document.process:
            start = process.start
            if process.method not in ("boiling-water", "steam") or (start is not None and _as_gentle(start, was)):
                continue
            here = "nothing about the start"
            if start is not None:
                here = f"water at {decimal(start.water_f)} F and {decimal(start.low)} min to the boil"
            yield Flag(
                "canner-start",
                start.span if start else process.span,
                f"{water} and {decimal(was.low)} to {decimal(was.high)} min to the boil, this one says {here}.",
                (),
                before_span(case, was.span),
            )
        for aside in into_boiling(case):
            says = f"{water}: {aside.reading.text}"
            yield Flag("canner-start", aside.span, says, (), before_span(case, was.span))


def _as_gentle(start: Start, was: Start) -> bool:
    """Whether the water is no hotter, and the boil comes no sooner."""
    return start.water_f <= was.water_f and start.low >= was.low


@rule("heat/cover", decides=("cover-thicker", "cover-thin"))
def cover_is_as_thin_as_tested(case: Case) -> Iterator[Flag]:
    """Canned fruit and tomatoes are covered with liquid as thin as tested, and are covered.

    Whole tomatoes in water need 40 minutes in pints, in tomato juice 85: a thicker cover carries the heat more slowly.
    """
    contrast = case.contrast
    if contrast is None or case.kind not in ("canned fruit", "tomato"):
        return
    thin = [pair for pair in contrast.pairs if _thin(pair)]
    was = [one for cover in thin for one in cover.was]
    thick = [pair for pair in contrast.pairs if pair.added and pair.kept and _thick(pair)]
    if thick:
        text = f"This one covers with {stated(thick[0].now)}; the tested formula with {stated(was)}."
        yield Flag("cover-thicker", thick[0].now[0].line.span, text, (), before(case, was))
    elif was and all(pair.dropped for pair in thin):
        text = f"The tested formula covers with {stated(was)}, this one with nothing."
        yield Flag("cover-thicker", section(case.document, "take"), text, (), before(case, was))


def _thick(pair: Pair) -> bool:
    """Juice or sauce of tomato, or a puree."""
    return pair.has(*THICK_COVERS) and (pair.sort in ("juice", "condiment") or pair.has("tomato-product", "puree"))


def _thin(pair: Pair) -> bool:
    """Water or thin fruit juice that stays in."""
    return pair.kept and (
        pair.sort == "liquid" or (pair.sort == "juice" and not pair.has("tomato", "tomato-product", "puree"))
    )
