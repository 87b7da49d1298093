"""The set: pectin of the tested kind and amount, calcium, batch size, boiling time."""

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction

from brimline._patterns import pattern
from brimline.batch.classes import GELLED_KINDS, LOW_PECTIN, pectin_kind
from brimline.batch.words import finish_words, number, percent
from brimline.document.values import Finish
from brimline.findings import Flag, Span
from brimline.moves.listing import section, stated
from brimline.moves.values import Case, Pair
from brimline.rules.contract import rule
from brimline.rules.jar import COLD
from brimline.rules.say import before, before_span, figure
from brimline.rules.sugar import is_sweetener, settled, solids
from brimline.rules.terms import in_base, only, required

PECTINS = ("pectin-powder", "pectin-liquid", "pectin-low-sugar", "pectin-calcium", "pectin-home")
SETTING = (*PECTINS, "gelatin", "agar")
# From none to the hardest.
BOILS = ("none", "simmer", "boil", "rolling")
LEAST, MOST = Fraction(95, 100), Fraction(105, 100)
LEAST_SCALE, MOST_SCALE = Fraction(1, 2), Fraction(11, 10)


def is_pectin(pair: Pair) -> bool:
    """Whether a pair is what sets the product: pectin, gelatin or agar."""
    return pair.kept and pair.has(*SETTING)


@rule("set/pectin", decides=("pectin-kind", "pectin-dropped", "pectin-cut", "pectin-bulk"))
def pectin_is_as_tested(case: Case) -> Iterator[Flag]:
    """The pectin is of the tested kind and in the tested amount.

    Powdered, liquid and low-sugar pectins set in different ways and do not stand in for one another, so the spread
    may stay liquid or set like rubber.
    """
    contrast = case.contrast
    if contrast is None:
        return
    pairs = [pair for pair in contrast.pairs if is_pectin(pair)]
    gone = [pair for pair in pairs if pair.dropped]
    new = [pair for pair in pairs if pair.added]
    if _sugar_went_too(case, new):
        # Sugar cut together with a change to a low-sugar pectin is one story, told by sugar/cut.
        return
    if new and case.kind in (*GELLED_KINDS, "fruit syrup"):
        was = [one for pair in gone for one in pair.was]
        yield Flag(
            "pectin-kind",
            new[0].now[0].line.span,
            f"The tested formula sets with {stated(was)}, this one with {stated(new[0].now)}.",
            (),
            before(case, was),
        )
        return
    for pair in gone:
        if required(pair):
            text = f"The tested formula sets with {stated(pair.was)}. This one adds none."
            yield Flag("pectin-dropped", section(case.document, "take"), text, (), before(case, pair.was))
    if case.kind in GELLED_KINDS:
        for pair in pairs:
            yield from _amount(case, pair)


def _amount(case: Case, pair: Pair) -> Iterator[Flag]:
    contrast = case.compared
    if pair.added or pair.dropped:
        return
    base = in_base(contrast)
    least, most = contrast.floor(only(pair), base), contrast.ceiling(only(pair), base)
    if least is None or most is None:
        return
    if least.low == 0:
        yield Flag(
            "pectin-dropped",
            pair.now[0].line.span,
            f"The tested formula needs {stated(pair.was)}; here it is {stated(pair.now)}.",
            (),
            before(case, pair.was),
        )
    elif least.low < LEAST or most.high > MOST:
        change = least if least.low < LEAST else most
        yield Flag(
            "pectin-cut",
            pair.now[0].line.span,
            f"Pectin changes by {percent(change)} for the same fruit: {stated(pair.was)} tested, {stated(pair.now)} here.",
            (figure("pectin", percent(change)),),
            before(case, pair.was),
            certain=change.high < LEAST or change.low > MOST,
        )


def _sugar_went_too(case: Case, new: list[Pair]) -> bool:
    """Whether regular pectin gave way to a low-sugar kind and sugar was cut with it."""
    if case.pectin not in ("pectin-powder", "pectin-liquid") or not any(pair.has(*LOW_PECTIN) for pair in new):
        return False
    contrast = settled(case.compared)
    left = contrast.floor(is_sweetener, in_base(contrast), solids)
    return left is not None and left.low < case.same


@rule("set/calcium", decides=("calcium-dropped",))
def calcium_goes_with_its_pectin(case: Case) -> Iterator[Flag]:
    """A pectin that sets with calcium has its calcium.

    Low-methoxyl pectin makes no gel without calcium.
    """
    if pectin_kind(case.batch) != "pectin-calcium":
        return
    if any(group.has("calcium") and group.kept for group in case.batch.groups):
        return
    yield Flag("calcium-dropped", section(case.document, "take"), "A calcium pectin and no calcium.", ())


@rule("set/batch", decides=("batch-larger", "batch-smaller", "whole-scaled"))
def batch_is_one_batch(case: Case) -> Iterator[Flag]:
    """A gelled spread or curd is cooked one tested batch at a time, or down to half of it.

    A larger batch boils longer before it is done and breaks the pectin down; a very small one boils away.
    """
    contrast = case.contrast
    if contrast is None or case.kind not in (*GELLED_KINDS, "fruit curd"):
        return
    line = section(case.document, "take")
    if contrast.scale > MOST_SCALE:
        yield Flag(
            "batch-larger",
            line,
            f"The amounts make {number(contrast.scale)} times the tested batch in one pot.",
            (figure("batch", number(contrast.scale)),),
            before_span(case, section(contrast.tested.document, "take")),
        )
    elif contrast.scale < LEAST_SCALE:
        yield Flag(
            "batch-smaller",
            line,
            f"The amounts make {number(contrast.scale)} of the tested batch, less than half of it.",
            (figure("batch", number(contrast.scale)),),
            before_span(case, section(contrast.tested.document, "take")),
            level="quality",
            harm="soft-set",
        )


@rule("set/boil", decides=("boil-shorter",))
def boil_is_not_shorter(case: Case) -> Iterator[Flag]:
    """A gelled spread boils as long, or to as high an end point, as the tested formula says.

    Below its end point a spread holds too much water to set.
    """
    if case.tested is None or not case.gelled:
        return
    was, now = case.tested.finish, case.document.finish
    if was is None:
        return
    at = now.span if now else case.document.headers.get("formula", section(case.document))
    if now is None or _lower(was, now):
        yield Flag(
            "boil-shorter",
            at,
            f"The tested formula finishes at {finish_words(was)}, this one at {finish_words(now)}.",
            (figure("tested finish", finish_words(was)), figure("finish here", finish_words(now))),
            before_span(case, was.span),
        )


def _lower(was: Finish, now: Finish) -> bool:
    """Whether one finish ends earlier than another; different kinds of finish compare only among boils."""
    if was.kind == now.kind:
        return was.low is not None and (now.low is None or now.low < was.low)
    if was.kind in BOILS and now.kind in BOILS:
        return BOILS.index(now.kind) < BOILS.index(was.kind)
    return was.kind in ("gel", "brix", "temperature") and now.kind in (*BOILS, "thick")


@rule("set/order", decides=("pectin-order",))
def pectin_goes_in_its_order(case: Case) -> Iterator[Flag]:
    """Powdered pectin goes in before the sugar, liquid pectin after the sugar has come to the boil.

    Out of order the pectin does not dissolve or is boiled too long, and the spread stays soft.
    """
    kind = pectin_kind(case.batch)
    cold = bool(case.document.process) and all(process.method in COLD for process in case.document.process)
    if kind not in ("pectin-powder", "pectin-liquid") or case.document.product not in GELLED_KINDS or cold:
        # Uncooked spreads are made in another order.
        return
    steps = [(MADE_READY.sub(_blank, step.text.lower()), step.span) for step in case.document.make]
    pectin = _first(steps, "pectin")
    sugar = _first(steps, "sugar", "honey", "sweetener")
    if pectin is None or sugar is None:
        return
    step, _ = pectin
    text, span = steps[step]
    if kind == "pectin-powder" and sugar < pectin:
        yield Flag("pectin-order", span, "Powdered pectin is added after the sugar; it goes in before it.")
    elif kind == "pectin-liquid":
        since, _ = sugar
        boils = [(place, text.find("boil")) for place, (text, _) in enumerate(steps) if "boil" in text]
        if pectin < sugar or not any(boil[0] >= since and boil < pectin for boil in boils):
            yield Flag("pectin-order", span, f"Liquid pectin goes in once the sugar has come to the boil; here: {text}")


SETTLES = ("overnight", "stand", "chill", "refrigerat", "settle", "cold")


@rule("set/grape", decides=("grape-unsettled",))
def grape_juice_settles(case: Case) -> Iterator[Flag]:
    """Juice pressed from grapes for a jelly stands in the cold before it is measured.

    Otherwise its tartrate comes out in the jelly as crystals.
    """
    if case.document.product != "jelly":
        return
    steps = [step.text.lower() for step in case.document.make]
    if any(word in text for text in steps if "jars" not in text for word in SETTLES):
        return
    for one in case.batch.items:
        if one.sort == "juice" and any(part.family == "grape" for part in one.made_of):
            text = f"{one.line.item} is made from grapes, and no step lets it settle in the cold."
            yield Flag("grape-unsettled", one.line.span, text, source="crystals_grape_usda")


# A sentence that only measures something and has it ready puts nothing into the pot.
MADE_READY = pattern(
    r"(?:^|(?<=[.;] ))(?:measure|weigh|have|set|put)\b(?:(?!\bpot\b|\bpan\b|\bkettle\b|\badd\b|\bstir|\binto the (?:juice|fruit))[^.;])*"
    r"\b(?:aside|ready|at hand|bowl|out)\b(?:(?!\badd\b|\bstir|\bpot\b)[^.;])*"
)


def _blank(found: re.Match[str]) -> str:
    return " " * len(found.group())


def _first(steps: Sequence[tuple[str, Span]], *words: str) -> tuple[int, int] | None:
    """Step and position of the first mention of a word."""
    for place, (text, _) in enumerate(steps):
        places = [text.find(word) for word in words if word in text]
        if places:
            return place, min(places)
    return None
