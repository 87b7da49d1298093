"""Acid against the food: not watered down, not neutralised, tomatoes as they were tested."""

from collections.abc import Iterator
from fractions import Fraction

from brimline.batch.values import Item
from brimline.batch.words import percent
from brimline.figures.values import Interval
from brimline.findings import Flag
from brimline.moves.listing import stated
from brimline.moves.values import Case, Contrast, Pair
from brimline.rules.additive import notes
from brimline.rules.contract import rule
from brimline.rules.handled import drained, neutralised, thinned
from brimline.rules.say import before, figure
from brimline.rules.terms import either, in_base, in_load, only

WATERED = Fraction(95, 100)
TWO_PERCENT = Fraction(2, 100)


def is_fruit(pair: Pair) -> bool:
    """Whether a pair is fruit, juice or tomato that stays in, whatever its acidity."""
    return pair.kept and (pair.sort in ("fruit", "juice") or pair.has("tomato", "tomatillo"))


def _only_covered(case: Case, contrast: Contrast) -> bool:
    """Whether the liquid only covers plain canned fruit: water, juice and syrup may then stand for one another."""
    return case.kind == "canned fruit" and not any(map(in_load(contrast), contrast.pairs))


def is_liquid(pair: Pair) -> bool:
    """Whether a pair is water or another thin liquid that stays in and is not juice, acid or spirit."""
    return pair.kept and pair.sort == "liquid"


@rule("acid/watered", decides=("fruit-watered", "water-raised"))
def fruit_is_not_watered(case: Case) -> Iterator[Flag]:
    """The fruit and juice that bring their own acid keep their share against the water.

    Water in place of sour fruit or juice thins the acid that the fruit brings, and the set with it.
    """
    contrast = case.contrast
    if contrast is None or _only_covered(case, contrast):
        return
    for aside in thinned(case):
        says = f"This thins the batch: {aside.reading.text}"
        firm = contrast.tested.fixed_time
        yield Flag("water-raised", aside.span, says, (), acid_class=case.acid_class, level="" if firm else "quality",
                   harm="" if firm else "soft-set")  # fmt: skip
    water = contrast.sum("now_most", is_liquid)
    if not any(water.values()):
        return
    liquids = [pair for pair in contrast.pairs if is_liquid(pair)]
    was, now = [one for pair in liquids for one in pair.was], [one for pair in liquids for one in pair.now]
    share = _share(contrast)
    fruit = contrast.floor(is_fruit, None)
    raised = contrast.ceiling(is_liquid, None)
    if (
        fruit is not None
        and share is not None
        and share.low < WATERED
        and (fruit.low < case.same or _replaced(contrast))
    ):
        yield Flag(
            "fruit-watered",
            now[0].line.span,
            f"With {stated(now)}, fruit and juice: {percent(fruit)} for the batch; their share beside the water: "
            f"{percent(share)}.",
            (figure("share of fruit", percent(share)),),
            before(case, [one for pair in contrast.pairs if is_fruit(pair) for one in pair.was]),
            certain=share.high < WATERED,
            acid_class=case.acid_class,
        )
    elif _extra_water(contrast) > TWO_PERCENT or (raised is not None and raised.low > case.more):
        yield Flag(
            "water-raised",
            now[0].line.span,
            f"The tested formula has {stated(was)}, this one {stated(now)}"
            + (f": {percent(raised)} for the same batch." if raised else "."),
            (),
            before(case, was),
            certain=raised is None or raised.low > case.more,
            acid_class=case.acid_class,
            level="" if contrast.tested.fixed_time else "quality",
            harm="" if contrast.tested.fixed_time else "soft-set",
        )


def _replaced(contrast: Contrast) -> bool:
    """Whether water took the place of sour fruit or juice: as much of it came in as half of what went out."""
    gone = contrast.middle(contrast.sum("was_most", is_fruit)) - contrast.middle(contrast.sum("now_most", is_fruit))
    water = contrast.middle(contrast.sum("now_most", is_liquid)) - contrast.middle(contrast.sum("was_most", is_liquid))
    return gone > 0 and 2 * water >= gone


def _extra_water(contrast: Contrast) -> Fraction:
    """The water beyond the tested amount, as a share of the base."""
    base = contrast.middle(contrast.sum("now_most", in_base(contrast)))
    was = contrast.middle(contrast.sum("was_most", is_liquid))
    more = contrast.middle(contrast.sum("now_most", is_liquid)) - contrast.scale * was
    return more / (base or contrast.middle(contrast.sum("now_most", is_liquid)))


def _share(contrast: Contrast) -> Interval | None:
    """How the sour part's share of sour part and liquid changes; None where there is no sour part."""
    both = either(is_fruit, is_liquid)
    was = contrast.quotient(contrast.sum("was_least", is_fruit), contrast.sum("was_most", both))
    now = contrast.quotient(contrast.sum("now_least", is_fruit), contrast.sum("now_most", both))
    if was is None or now is None or not was.high:
        return None
    # The fruit's cup weight is the same on both sides: its low ends belong together, and so do its high ends.
    ends = sorted((now.low / was.low, now.high / was.high))
    return Interval(ends[0], ends[1])


@rule("acid/neutralised", decides=("acid-neutralised",))
def nothing_takes_acid_away(case: Case) -> Iterator[Flag]:
    """No base goes into the batch: no baking soda, lime, chalk, lye or citrate salt.

    A base takes up the acid that keeps the spores of botulism from growing.
    """
    contrast = case.contrast
    if contrast is None:
        return
    for pair in contrast.pairs:
        if not pair.has("base") or not pair.now:
            continue
        grown = contrast.ceiling(only(pair), None)
        if pair.was and (grown is None or grown.high <= case.more):
            continue
        yield Flag(
            "acid-neutralised",
            pair.now[0].line.span,
            f"This one adds {stated(pair.now)}; the tested formula has {stated(pair.was)}.",
            (),
            before(case, pair.was),
        )
    for named, aside in neutralised(case):
        says = f"This adds {named.entry.name}, which the list does not name: {aside.reading.text}"
        yield Flag("acid-neutralised", aside.span, says)


@rule("acid/tomato", decides=("tomato-drained", "tomato-vine"))
def tomatoes_are_as_tested(case: Case) -> Iterator[Flag]:
    """Tomatoes keep their juice, and come from living vines.

    The juice carries much of the acid, and fruit of dead vines may have lost it.
    """
    tomatoes = [item for item in case.batch.items if item.tags & {"tomato", "tomatillo"}]
    for item in tomatoes:
        yield from _tomato(case, item)
    if not tomatoes:
        return
    for text, span in notes(case.document):
        said_no = any(word in text for word in ("do not", "don't", "never", "not from", "avoid"))
        if "vine" in text and any(word in text for word in ("dead", "frost", "killed")) and not said_no:
            yield Flag("tomato-vine", span, f"This asks for tomatoes from dead or frost-killed vines: {text}.")
    if case.tested is not None:
        for aside in drained(case, frozenset(item.family for item in tomatoes)):
            says = f"No step of the tested formula takes the juice of the tomatoes away: {aside.reading.text}"
            yield Flag("tomato-drained", aside.span, says)


def _tomato(case: Case, item: Item) -> Iterator[Flag]:
    words = _words(item)
    if not words.isdisjoint(VINES) and not words.isdisjoint(DEAD):
        yield Flag("tomato-vine", item.line.span, f"{item.line.item}, {', '.join(item.line.forms)}.", ())
    if case.contrast is None or not _drained(item):
        return
    tomatoes = [o for g in case.contrast.tested.groups if g.tags & {"tomato", "tomatillo"} for o in g.items]
    if any(one.name == item.name and _drained(one) for one in tomatoes):
        return
    yield Flag(
        "tomato-drained",
        item.line.span,
        f"This one uses {item.line.item}, {', '.join(item.line.forms)}; the tested formula {stated(tomatoes)}.",
        (),
        before(case, tomatoes),
    )


def _words(item: Item) -> set[str]:
    return set(" ".join((item.line.item, *item.line.forms)).lower().replace("-", " ").split())


def _drained(item: Item) -> bool:
    """Whether a line says that the juice is taken away."""
    words = _words(item)
    return not words.isdisjoint(DRAINED) and "not" not in words


VINES = {"vine", "vines"}
DEAD = {"dead", "frost", "frosted", "killed", "frozen"}
DRAINED = {"drained", "seeded", "strained", "squeezed"}
