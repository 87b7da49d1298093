"""Sugar and sweeteners: what sets and keeps a spread stays in, and honey or syrup replace it only within limits."""

from collections.abc import Iterator
from fractions import Fraction

from msgspec.structs import replace

from brimline.batch.classes import LOW_PECTIN
from brimline.batch.values import Item
from brimline.batch.words import grams, percent
from brimline.figures.values import Interval
from brimline.findings import Flag, Span
from brimline.moves.listing import section, stated
from brimline.moves.values import Case, Contrast, Pair
from brimline.rules.contract import rule
from brimline.rules.say import base_word, before, figure
from brimline.rules.terms import base_grams, in_base, only

FIRM = ("fruit butter", "chutney", "fruit syrup", "fruit curd")
NEEDS_SUGAR = ("fruit butter", "chutney", "fruit curd")
FLAVOUR = (
    "relish",
    "salsa",
    "sauce",
    "pickle",
    "fermented pickle",
    "pie filling",
    "canned fruit",
    "tomato",
    "juice",
    "puree",
)
COLD = ("refrigerator", "freezer")


def is_sweetener(pair: Pair) -> bool:
    """Whether a pair is a sweetener that stays in."""
    return pair.kept and pair.sort == "sweetener"


def is_plain_sugar(pair: Pair) -> bool:
    """Whether a pair is sugar itself: granulated, brown, raw or powdered, not honey, syrup or a substitute."""
    others = ("honey", "corn-syrup", "other-sugar", "non-sugar", "gelling-sugar")
    return is_sweetener(pair) and not pair.has(*others)


def solids(one: Item) -> Fraction:
    """The soluble solids of a sweetener as a share of its weight; nothing for a sweetener that is not a sugar."""
    if "non-sugar" in one.tags or one.entry is None:
        return Fraction(0)
    return (one.entry.solids if one.entry.solids is not None else Fraction(100)) / 100


def sugar_words(case: Case, left: Interval) -> str:
    """The arithmetic of sweetener solids: tested against here per base."""
    contrast = case.compared
    base = base_grams(contrast)
    was = contrast.middle(contrast.sum("was_least", is_sweetener, solids))
    per = f" ({grams(was / base * 1000)} of sugar solids per kg of {base_word(case)})" if base else ""
    tested = [one for pair in contrast.pairs if is_sweetener(pair) for one in pair.was]
    here = [one for pair in contrast.pairs if is_sweetener(pair) for one in pair.now]
    return (
        f"The tested formula sweetens with {stated(tested)}{per}, this one with {stated(here)}: {percent(left)} of it."
    )


def place(case: Case) -> Span:
    """Where a change of the sugar is shown: the sugar that is not as tested, else one that is left, else the take section."""
    pairs = [pair for pair in case.compared.pairs if is_sweetener(pair) and pair.now]
    other = [pair for pair in pairs if is_plain_sugar(pair) and not pair.snapped]
    plain = [pair for pair in pairs if is_plain_sugar(pair)]
    first = next(iter((*other, *plain, *pairs)), None)
    return first.now[0].line.span if first else section(case.document, "take")


def settled(contrast: Contrast) -> Contrast:
    """The comparison with every sugar at its published cup weight.

    Where one sugar stands for another, the published exchange is by the cups of the household-weight table; only a
    sugar measured by cups on one side and by weight on the other keeps its spread.
    """
    sweeteners = [pair for pair in contrast.pairs if is_sweetener(pair)]
    mixed = {one.name for pair in sweeteners if pair.now and not pair.dim for one in pair.was}
    known = {one.name for pair in sweeteners for one in (*pair.was, *pair.now)} - mixed
    bounds = {
        name: Interval(span.middle, span.middle) if name.partition("|")[0] in known else span
        for name, span in contrast.bounds.items()
    }
    return replace(contrast, bounds=bounds)


@rule(
    "sugar/cut",
    decides=("sugar-cut-gelled", "sugar-cut-firm", "sugar-cut-flavour", "sugar-in-range", "sugar-cut-with-pectin-swap"),
)
def sugar_is_kept(case: Case) -> Iterator[Flag]:
    """A sweet spread, butter, chutney, syrup or curd gets the sugar of the tested formula for the same fruit.

    Too little sugar gives a weak gel and lets yeast and mold grow; what it does in this product nobody has tested.
    """
    if case.contrast is None:
        return
    contrast = settled(case.contrast)
    # Where sugar is only flavour it is a matter of the batch, not of what it is measured against.
    left = contrast.floor(is_sweetener, None if case.kind in FLAVOUR else in_base(contrast), solids)
    if left is None or left.low >= case.same:
        return
    if _needs_sugar(case) and _substitutes(contrast):
        # A substitute in place of the sugar is told by sugar/substitute.
        return
    row, level, harm = _cut_row(case, contrast)
    pectin = [pair for pair in contrast.pairs if pair.has(*LOW_PECTIN) and pair.added]
    yield Flag(
        row,
        pectin[0].now[0].line.span if row == "sugar-cut-with-pectin-swap" else place(case),
        sugar_words(case, left),
        (figure("sweetener solids left", percent(left)),),
        before(case, [one for pair in contrast.pairs if is_sweetener(pair) for one in pair.was]),
        certain=left.high < case.same,
        level=level,
        harm=harm,
    )


def _cut_row(case: Case, contrast: Contrast) -> tuple[str, str, str]:
    """Which row a sugar cut falls under, and level and harm of its note."""
    cold = bool(case.document.process) and all(p.method in COLD for p in case.document.process)
    if case.gelled:
        low_sugar = [p for p in contrast.pairs if p.has(*LOW_PECTIN) and p.added and p.kept]
        if low_sugar and case.pectin in ("pectin-powder", "pectin-liquid"):
            return "sugar-cut-with-pectin-swap", "", ""
        return "sugar-cut-gelled", "quality" if cold else "", ""
    if case.kind in FIRM:
        return "sugar-cut-firm", "", ""
    if any(pair.has(*LOW_PECTIN) and pair.was for pair in contrast.pairs):
        return "sugar-in-range", "untested", "soft-set"
    if case.kind in FLAVOUR:
        return "sugar-cut-flavour", "quality" if case.kind in ("pickle", "relish") else "silent", "flavour"
    return "sugar-cut-firm", "", ""


def _substitutes(contrast: Contrast) -> list[Pair]:
    """The sweeteners without sugar that the tested formula has not."""
    return [pair for pair in contrast.pairs if is_sweetener(pair) and pair.has("non-sugar") and pair.added]


def _needs_sugar(case: Case) -> bool:
    """Whether sugar sets or keeps the product; elsewhere a substitute is flavour (sugar-substitute-flavour)."""
    return case.gelled or case.kind in NEEDS_SUGAR


@rule("sugar/substitute", decides=("sugar-substitute", "sugar-substitute-flavour"))
def sugar_is_sugar(case: Case) -> Iterator[Flag]:
    """Where sugar sets or keeps the product, no sweetener without sugar takes its place.

    A substitute sweetens and does nothing else: it holds no water, so the gel fails and yeast and mold may grow.
    """
    contrast = case.contrast
    if contrast is None or not _needs_sugar(case):
        return
    left = contrast.floor(is_sweetener, in_base(contrast), solids)
    if left is not None and left.low >= case.same:
        return
    for pair in _substitutes(contrast):
        gone = [one for other in contrast.pairs if is_plain_sugar(other) for one in other.was]
        yield Flag(
            "sugar-substitute",
            pair.now[0].line.span,
            f"The tested formula sweetens with {stated(gone)}; this one uses {stated(pair.now)}"
            + (f": {percent(left)} of the sugar solids." if left else "."),
            (),
            before(case, gone),
        )


@rule("sugar/raised", decides=("sugar-raised",))
def sugar_is_not_raised(case: Case) -> Iterator[Flag]:
    """A sweet spread does not get more sugar than the tested formula for the same fruit.

    More sugar than the fruit's pectin and acid can bind leaves the spread soft or grainy.
    """
    contrast = case.contrast
    if contrast is None or case.kind in FLAVOUR:
        return
    # Honey and syrup have rules of their own; here the sugar itself must have grown, per fruit and per batch.
    grown = contrast.ceiling(is_plain_sugar, in_base(contrast), solids)
    alone = contrast.ceiling(is_plain_sugar, None, solids)
    if grown is None or alone is None or min(grown.low, alone.low) <= case.more:
        return
    yield Flag(
        "sugar-raised",
        place(case),
        sugar_words(case, grown),
        (figure("sweetener solids", percent(grown)),),
        before(case, [one for pair in contrast.pairs if is_plain_sugar(pair) for one in pair.was]),
    )


@rule("sugar/kind", decides=("sugar-grain", "brown-for-white", "sweetener-other", "gelling-sugar"))
def sugar_is_of_its_kind(case: Case) -> Iterator[Flag]:
    """White sugar is replaced by no other sugar, syrup or sugar with pectin in it.

    Other sugars bring acid, water or pectin of their own, and nobody has tried how this spread sets with them.
    """
    contrast = case.contrast
    if contrast is None:
        return
    for pair in contrast.pairs:
        if not is_sweetener(pair):
            continue
        grown = contrast.ceiling(only(pair), None)
        if pair.was and (grown is None or grown.high <= case.more):
            continue
        row = _kind_row(case, pair)
        if row:
            gone = [one for other in contrast.pairs if is_sweetener(other) for one in other.was]
            yield Flag(
                row,
                pair.now[0].line.span,
                f"The tested formula sweetens with {stated(gone)}, this one adds {stated(pair.now)}.",
                (),
                before(case, gone),
            )


def _kind_row(case: Case, pair: Pair) -> str:
    if pair.has("gelling-sugar"):
        return "gelling-sugar"
    careful = case.gelled or case.kind == "fruit curd"
    curd_swap = case.kind == "fruit curd" and pair.has("honey", "corn-syrup")
    if careful and (pair.has("other-sugar", "powdered") or curd_swap):
        return "sweetener-other"
    return "brown-for-white" if pair.has("brown") else ""
