"""Steps beside the formula's own tables: the minutes, jars, headspace, standing time and end point they say."""

import re
from collections.abc import Iterator
from fractions import Fraction

from brimline._patterns import pattern
from brimline._remember import remembered
from brimline.batch.values import Item
from brimline.batch.words import decimal, listed, number
from brimline.document.values import Document, Finish, Headspace, Times
from brimline.findings import Flag, Span
from brimline.moves.listing import stated
from brimline.moves.times import TEN_METRES_FT, at, fits, same_size
from brimline.moves.values import Case
from brimline.rules.brought import more_of
from brimline.rules.contract import rule
from brimline.rules.jar import CANNED, SIXTEENTH, all_jars
from brimline.rules.less import less_of
from brimline.rules.measured import above, below
from brimline.rules.spoken import ALTITUDE, NUMBER, TIME, feet, jars, minutes, sentences, timed, value
from brimline.rules.standins import replaces_process

# From the word `process` to its minutes, without another matter between them.
PROCESS = pattern(
    rf"\b(?:process(?:ing)?|boil (?:the |your )?(?:filled |closed |sealed |full )?jars)\b(?:(?!\bthen\b|wait|rest|stand|leave|cool|after)[^.;]){{0,70}}?{TIME}"
)
BANDED = pattern(
    rf"{TIME}[^.;,]{{0,30}}?\b(?P<side>up to|below|under|to|at|above|over|beyond)\b(?: an altitude of)? {ALTITUDE}"
)
SPACE = pattern(
    rf"(?P<inches>{NUMBER})[- ]inch(?:es)?(?: of)? (?:head ?-?space|(?:of|from|below) the (?:rim|top|lid))|"
    rf"\bhead ?-?space (?:of|is) (?P<after>{NUMBER}) inch"
)
STAND = pattern(rf"\bjars\b[^.;]{{0,40}}\bstand(?:ing)?\b(?: for| at least| undisturbed)*[^.;\d]{{0,12}}{TIME}")
HARD = pattern(rf"\bboil(?:ing)? hard (?:for )?(?:about |exactly )?{TIME}")
GEL = pattern(rf"\bto (?:about )?(?P<above>{NUMBER}) ?(?:degrees )?f above\b")
FILLS = pattern(r"\b(?:fill|pack|ladle|pour|spoon|put|process|funnel)\b")
CANNER = pattern(r"\bprocess\w*\b[^.;]{0,40}\b(?P<method>pressure|steam)[- ]canner\b")


COOKED = pattern(
    rf"(?<!into )(?<!in )\b(?:simmer|boil|cook|reduce)\w*\b(?! water)(?:(?!\bjars\b)[^.;]){{0,160}}?{TIME}"
)


@rule("writing/steps", decides=("step-contradicts",))
def steps_agree_with_the_tables(case: Case) -> Iterator[Flag]:
    """No step says another time, jar, headspace, standing time or end point than the formula's own tables.

    The cook at the stove follows the step, and the reviewer reads the table.
    """
    document = case.document
    canned = any(process.method in CANNED for process in document.process)
    for sentence, span in sentences(document):
        if _silent(sentence):
            continue
        if canned:
            yield from _process(document, sentence, span)
            yield from _jars(document, sentence, span)
            yield from _method(document, sentence, span)
        yield from _headspace(case, sentence, span)
        yield from _standing(document, sentence, span)
        yield from _finish(case, sentence, span)
    yield from _cooking(case)
    if case.gelled or case.kind in SWEET:
        # In pickles and covered fruit sugar is there for the taste.
        yield from _less_sugar(case)
    yield from _more_thickener(case)


def _less_sugar(case: Case) -> Iterator[Flag]:
    """Less sugar than the list has, or as much as the cook likes."""
    harm = "soft-set" if case.gelled else "spoilage"
    for one in less_of(case, "sweetener"):
        says = f"{stated(one.was)} is in the list; this takes less, or leaves it to the cook: {one.aside.reading.text}"
        yield _flag(one.aside.span, says, "untested", harm)
    for item, said in below(case, _of_sort(case, "sweetener")):
        says = f"{stated((item,))} is in the list; this step says: {said.aside.reading.text}"
        yield _flag(said.aside.span, says, "untested", harm)


def _more_thickener(case: Case) -> Iterator[Flag]:
    """More of a thickener than the list has."""
    for item, said in above(case, _of_sort(case, "thickener")):
        says = f"{stated((item,))} is in the list; this step says: {said.aside.reading.text}"
        yield _flag(said.aside.span, says, "unsafe", "illness")
    for named, aside in more_of(case, lambda entry: entry.sort == "thickener"):
        says = f"This adds more {named.entry.name} than is in the list: {aside.reading.text}"
        yield _flag(aside.span, says, "unsafe", "illness")


def _of_sort(case: Case, sort: str) -> list[Item]:
    """The tested lines of a sort."""
    return [one for one in case.contrast.tested.items if one.sort == sort] if case.contrast else []


NOT = pattern(r"\b(?:not|never|don't|no)\b")
SWEET = ("fruit butter", "chutney", "fruit syrup", "fruit curd")
TIMED = (PROCESS, BANDED, STAND, HARD, COOKED)


@remembered
def _all(shape: re.Pattern[str], sentence: str) -> tuple[re.Match[str], ...]:
    """Every place of a sentence that has a shape; remembered, because formulas say the same things."""
    return tuple(shape.finditer(sentence)) if shape not in TIMED or timed(sentence) else ()


def _first(shape: re.Pattern[str], sentence: str) -> re.Match[str] | None:
    return next(iter(_all(shape, sentence)), None)


@remembered
def _silent(sentence: str) -> bool:
    """Whether a sentence says nothing that any table says: no time, jar, headspace, end point or canner."""
    return not (jars(sentence) or any(_all(shape, sentence) for shape in (PROCESS, SPACE, STAND, HARD, GEL, CANNER)))


def _flag(span: Span, says: str, level: str = "", harm: str = "") -> Flag:
    return Flag("step-contradicts", span, says, level=level, harm=harm)


def _rows(document: Document, sentence: str) -> list[Times]:
    """The rows of times a sentence can speak of: those of the jars it names, else all."""
    rows = [row for process in document.process if process.method in CANNED for row in process.rows]
    named = list(jars(sentence))
    some = [row for row in rows if any(same_size(one, jar) for jar in row.jars for one in named)]
    return some or rows


def _process(document: Document, sentence: str, span: Span) -> Iterator[Flag]:
    found = _first(PROCESS, sentence)
    rows = _rows(document, sentence)
    if found is None or not rows or replaces_process(sentence):
        return
    banded = _all(BANDED, sentence)
    for one in banded:
        yield from _banded(rows, one, span)
    if banded:
        return
    least, most = minutes(found)
    shortest, *others = sorted({band.minutes for row in rows for band in row.bands})
    said = decimal(least) if found["high"] is None else f"{decimal(least)} to {decimal(most)}"
    table = listed([decimal(time) for time in (shortest, *others)])
    if most < shortest:
        text = f"This step processes for {said} min; the formula's own table has {table} min and no time so short."
        yield _flag(span, text, "unsafe", "illness")
    elif others or least > shortest:
        yield _flag(
            span, f"This step processes for {said} min; the formula's own table has {table} min by jar and altitude."
        )


def _banded(rows: list[Times], one: re.Match[str], span: Span) -> Iterator[Flag]:
    """A time that a step gives for an altitude, beside the table at that altitude."""
    # Two band edges within ten metres are one edge.
    altitude = feet(one) + (TEN_METRES_FT if one["side"] in ("above", "over", "beyond") else -TEN_METRES_FT)
    hits = [hit.minutes for row in rows if (hit := at(row.bands, altitude)) is not None]
    _, most = minutes(one)
    if not hits or most in hits:
        return
    where = f"{one['side']} {one['altitude']} {one['length']}"
    text = f"This step gives {decimal(most)} min {where}; the table has {listed([decimal(hit) for hit in hits])} min."
    short = most < min(hits)
    yield _flag(span, text, "unsafe" if short else "", "illness" if short else "")


def _jars(document: Document, sentence: str, span: Span) -> Iterator[Flag]:
    named = jars(sentence)
    if not named or _first(FILLS, sentence) is None:
        return
    known = all_jars(document)
    for jar in named if known else ():
        if any(same_size(jar, one) for one in known):
            continue
        larger = not any(fits(jar, one) for one in known)
        text = f"This step fills a {jar.name} jar; the formula has times for {listed([one.name for one in known])}."
        yield _flag(span, text, "unsafe" if larger else "", "illness" if larger else "")


def _method(document: Document, sentence: str, span: Span) -> Iterator[Flag]:
    found = _first(CANNER, sentence)
    methods = [process.method for process in document.process]
    if found and found["method"] not in methods:
        text = f"This step uses a {found['method']} canner; the times are for {listed(methods)}."
        yield _flag(span, text, "untested", "illness")


def _headspace(case: Case, sentence: str, span: Span) -> Iterator[Flag]:
    own = case.document.pack.headspace
    tested = case.tested.pack.headspace if case.tested else ()
    for found in _all(SPACE, sentence) if own else ():
        said = value(found["inches"] or found["after"])
        if _near(said, own):
            continue
        moved = bool(tested) and not _near(said, tested)
        text = f"This step leaves {number(said)} in; the pack section says {listed([number(one.inches) for one in own])} in."
        yield _flag(span, text, "untested" if moved else "", "spoilage" if moved else "")


def _near(inches: Fraction, spaces: tuple[Headspace, ...]) -> bool:
    """Whether a headspace is one of some others to a sixteenth of an inch."""
    return any(abs(inches - one.inches) <= SIXTEENTH for one in spaces)


def _standing(document: Document, sentence: str, span: Span) -> Iterator[Flag]:
    found = _first(STAND, sentence)
    if found is None:
        return
    most = minutes(found)[1] / 60
    for row in document.keep:
        if row.kind == "stand" and row.low_h is not None and most < row.low_h:
            yield _flag(span, f"This step lets the jars stand {decimal(most)} h; the keep section says {row.text}.")


def _finish(case: Case, sentence: str, span: Span) -> Iterator[Flag]:
    """The end point: minutes of hard boiling, degrees above boiling water."""
    finish = case.document.finish
    if finish is None:
        return
    match finish.kind:
        case "rolling":
            yield from _boiled_hard(finish, sentence, span)
        case "gel":
            yield from _gelled_at(finish, sentence, span)


def _boiled_hard(finish: Finish, sentence: str, span: Span) -> Iterator[Flag]:
    hard = _first(HARD, sentence)
    if hard is None or finish.low is None or finish.high is None:
        return
    low, high = minutes(hard)
    text = f"This step boils hard for {number(high)} min; the heading says {number(finish.low)} min."
    if high < finish.low:
        yield _flag(span, text, "quality", "soft-set")
    elif low > finish.high:
        yield _flag(span, text)


def _gelled_at(finish: Finish, sentence: str, span: Span) -> Iterator[Flag]:
    gel = _first(GEL, sentence)
    if gel is None or finish.low is None:
        return
    said = value(gel["above"])
    text = f"This step ends {number(said)} F above boiling water; the heading says {number(finish.low)} F."
    if said < finish.low:
        yield _flag(span, text, "quality", "soft-set")
    elif said > finish.low:
        yield _flag(span, text)


def _cooking(case: Case) -> Iterator[Flag]:
    """The minutes of simmering or boiling that the heading ends with: some step says at least as many."""
    finish = case.document.finish
    if finish is None or finish.kind not in ("simmer", "boil") or finish.low is None:
        return
    said = [
        (minutes(one)[1], span)
        for text, span in sentences(case.document)
        # Do not stop at half an hour: a warning is no order.
        if not NOT.search(text)
        for one in _all(COOKED, text)
    ]
    longest, span = max(said, key=lambda one: one[0], default=(finish.low, finish.span))
    if longest < finish.low:
        text = f"The longest cooking of any step is {number(longest)} min; the heading says {number(finish.low)} min."
        yield _flag(span, text, "quality" if case.gelled else "untested", "soft-set" if case.gelled else "illness")
