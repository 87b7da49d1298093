"""Acid: what is added stays in, all of it, required."""

import re
from collections.abc import Iterator
from fractions import Fraction

from brimline._patterns import pattern
from brimline.batch.classes import is_acid
from brimline.batch.values import Item
from brimline.batch.words import grams, percent
from brimline.document.values import Document
from brimline.figures.values import Interval
from brimline.findings import Flag
from brimline.moves.listing import section, stated
from brimline.moves.values import Case, Contrast, Pair
from brimline.rules.contract import rule
from brimline.rules.less import less_acid
from brimline.rules.measured import below
from brimline.rules.say import base_word, before, figure, line_of
from brimline.rules.terms import (
    acid_pair,
    base_grams,
    fallen,
    listed_alternative,
    only,
    required,
    risen,
    strength,
    stronger,
)

# Twice, and the two hundredths that a kitchen measures to.
TWICE = 2 * Fraction(102, 100)


def acid_sentence(case: Case, pair: Pair, left: Interval | None) -> str:
    """The arithmetic of an acid: what was tested per base, what is here."""
    contrast = case.compared
    base = base_grams(contrast)
    per = ""
    if base and pair.name != "vinegar":
        was = contrast.middle(contrast.sum("was_least", only(pair))) / base * 1000
        per = f" ({grams(was)} per kg of {base_word(case)})"
    text = f"The tested formula adds {stated(pair.was)}{per}."
    if not pair.now:
        return f"{text} This one adds none."
    text += f" This one adds {stated(pair.now)}"
    if contrast.scale != 1:
        text += f", read at {float(contrast.scale):.2f} of the batch"
    return text + (f": {percent(left)} for the same {base_word(case)}." if left is not None else ".")


@rule("acid/dropped", decides=("acid-dropped",))
def acid_is_there(case: Case) -> Iterator[Flag]:
    """Every acid the tested formula adds is added here too.

    Too little acid lets the spores that cause botulism grow in food that is not sour enough by itself, and keeps a
    sweet spread from setting.
    """
    new = risen(case)
    for pair, left in fallen(case):
        if pair.now or new or _aside(case, pair):
            continue
        yield Flag(
            "acid-dropped",
            section(case.document, "take"),
            acid_sentence(case, pair, left),
            (figure("acid left", "0", "%"),),
            before(case, pair.was),
            acid_class=case.acid_class,
        )


def _aside(case: Case, pair: Pair) -> list[Pair]:
    """The same acid where it does not stay in: infused or discarded."""
    if case.contrast is None:
        return []
    return [one for one in case.contrast.pairs if one.name == pair.name and not one.kept and one.now]


@rule("acid/cut", decides=("acid-cut",))
def acid_is_kept(case: Case) -> Iterator[Flag]:
    """Every kilogram that the acid must protect gets at least the acid of the tested formula.

    Less acid for the same food can lift the pH to where the spores that cause botulism grow, and a spread sets softer.
    """
    new = [pair for pair in risen(case) if not listed_alternative(case, pair)]
    for pair, left in fallen(case):
        if not pair.now or _loosened(pair) or _ranged(pair, case) or stronger(pair, case) or (new and pair not in new):
            continue
        yield Flag(
            "acid-cut",
            line_of(case, pair),
            acid_sentence(case, pair, left),
            (figure("acid left", percent(left), ""),),
            before(case, pair.was),
            certain=left.high < case.same,
            acid_class=case.acid_class,
        )


def _loosened(pair: Pair) -> bool:
    """Whether the acid falls only because it is now optional, open or ranged below."""
    freed = any(one.optional for one in pair.now) and not any(one.optional for one in pair.was)
    return freed or any(one.loose for one in pair.now)


def _is_range(one: Item) -> bool:
    """Whether a range is written."""
    return one.line.amount is not None and any(part.low != part.high for part in one.line.amount.parts)


def _ranged(pair: Pair, case: Case) -> bool:
    """Whether the upper end of a written range would be enough."""
    if not any(map(_is_range, pair.now)) or any(map(_is_range, pair.was)):
        return False
    change = case.compared.ceiling(only(pair), None)
    return change is not None and change.low >= case.same


@rule("acid/loosened", decides=("acid-loosened",))
def acid_is_required(case: Case) -> Iterator[Flag]:
    """Acid that the tested formula requires is required here: not optional, not to taste, not taken out again.

    An acid that some cooks will leave out protects only the jars of the others.
    """
    if case.contrast is None:
        return
    for pair, left in fallen(case):
        aside = _aside(case, pair)
        if not (_loosened(pair) or _ranged(pair, case) or (aside and not pair.now)):
            continue
        open_ = (one for one in pair.now if one.optional or one.loose or _is_range(one))
        here = pair if pair.now else aside[0]
        at = next(open_, None) or here.now[0]
        what = stated(here.now) if pair.now else f"{stated(here.now)}, {here.stay}"
        yield Flag(
            "acid-loosened",
            at.line.span,
            f"The tested formula requires {stated(pair.was)}. Here it says {what}, so the least that may go in is less.",
            (figure("acid left", percent(left), ""),),
            before(case, pair.was),
            acid_class=case.acid_class,
        )
    yield from _unused(case, case.contrast)
    for one in less_acid(case):
        says = f"{stated(one.was)} is required. This takes less, or leaves it to the cook: {one.aside.reading.text}"
        yield Flag("acid-loosened", one.aside.span, says, (), before(case, one.was), acid_class=case.acid_class)
    every = [one for item in case.contrast.tested.items for one in (item, *item.made_of)]
    dosed = {one.family for one in case.contrast.tested.per_jar}
    acids = [one for one in every if is_acid(one) and one.kept and one.family not in dosed]
    for item, said in below(case, acids):
        says = f"{stated((item,))} is required. This step says: {said.aside.reading.text}"
        yield Flag("acid-loosened", said.aside.span, says, (), before(case, [item]), acid_class=case.acid_class)


ALL_OF_IT = (
    "all the ingredients",
    "all ingredients",
    "everything",
    "remaining ingredients",
    "other ingredients",
    "rest of the",
)
ACID_WORDS = ("lemon", "lime", "vinegar", "citric")
# The word of the fruit in a step that means another part of it, or another plant.
OTHER_PART = r"(?!s?'?(?: (?:zest|peels?|rinds?|skins?|slices?|balm|thyme|verbena|leaves|basil)\b|grass))"
# "It" of a step that speaks of the juice, where a formula has one juice only.
JUICE = pattern(r"\bjuice\b")


def _unused(case: Case, contrast: Contrast) -> Iterator[Flag]:
    """Acid that is listed, that a step of the tested formula adds, and that no step adds here."""
    if not case.document.make:
        return
    said = {
        pair.now[0].line.span: pair.was
        for pair in contrast.pairs
        if acid_pair(pair) and pair.now and pair.was and required(pair)
    }
    doses = [one for one in contrast.tested.per_jar if one.kept and not one.optional]
    for one in contrast.adapted.per_jar:
        same = tuple(was for was in doses if was.name == one.name)
        if is_acid(one) and same:
            said[one.line.span] = same
    for one in contrast.adapted.items:
        was = said.get(one.line.span, ())
        if any(_adds(contrast.tested.document, old) for old in was) and not _adds(case.document, one, any_words=True):
            yield Flag(
                "acid-loosened",
                one.line.span,
                f"{stated((one,))} is listed and no step adds it.",
                (),
                before(case, was),
                acid_class=case.acid_class,
            )


def _adds(document: Document, one: Item, any_words: bool = False) -> bool:
    """Whether a step adds an acid: names it, or, with `any_words`, everything or the acid or the formula's one juice."""
    steps = " ".join(step.text.lower() for step in document.make)
    if any(_names(document, one, tag, steps) for tag in ACID_WORDS if tag in one.tags):
        return True
    if not any_words:
        return False
    juices = {line.item.lower() for line in document.take if "juice" in line.item.lower()}
    alone = juices == {one.line.item.lower()} and bool(JUICE.search(steps))
    return alone or any(word in steps for word in ("acid", *ALL_OF_IT))


def _names(document: Document, one: Item, tag: str, steps: str) -> bool:
    """Whether the steps name an acid by its fruit; beside the fruit itself in the list only its juice is named so."""
    fruit = any(tag in line.item.lower() and "juice" not in line.item.lower() for line in document.take)
    if fruit and "juice" in one.line.item.lower():
        return re.search(rf"\b{tag}s?'?s? (?:(?:or|and) \w+ )?juice|\bjuice of (?:\w+ ){{0,3}}{tag}", steps) is not None
    return re.search(rf"\b{tag}{OTHER_PART}", steps) is not None


@rule("acid/more", decides=("acid-more", "acid-tested-alternative"))
def acid_is_not_doubled(case: Case) -> Iterator[Flag]:
    """More bottled juice or vinegar of the kind already there does no harm, up to twice the amount in a spread.

    Beyond that the gel gives off liquid: it weeps.
    """
    contrast = case.contrast
    if contrast is None or not case.gelled:
        return
    for pair in filter(acid_pair, contrast.pairs):
        grown = contrast.ceiling(only(pair), None, strength)
        if grown is not None and grown.low > TWICE:
            yield Flag(
                "acid-more",
                pair.now[0].line.span,
                f"The tested formula adds {stated(pair.was)}, this one {stated(pair.now)}: {percent(grown)}.",
                (figure("acid", percent(grown)),),
                before(case, pair.was),
                level="quality",
                harm="soft-set",
            )
