"""Acid against the food: not watered down, not neutralised, given to every jar, tomatoes as they were tested."""

from collections.abc import Callable, Iterator
from fractions import Fraction

from brimline.batch.classes import is_acid
from brimline.batch.values import Batch, Group, Item
from brimline.batch.words import amount, percent
from brimline.figures.values import Interval
from brimline.findings import Flag
from brimline.moves.listing import section, stated
from brimline.moves.values import Case, Contrast, Pair
from brimline.rules.additive import notes
from brimline.rules.contract import rule
from brimline.rules.say import before, figure
from brimline.rules.terms import either, in_base, in_load, only

WATERED = Fraction(95, 100)
TWO_PERCENT = Fraction(2, 100)
DOSED_FRUIT = ("tomato", "tomatillo", "fig", "asian-pear")
# Printed doses per quart, in ml of bottled juice, ml of 5 % vinegar, teaspoons of citric acid (USDA Complete Guide,
# Guide 2 p. 2-14 and 2-20, Guide 3 p. 3-5 and 3-13; read).
QUART_ML = Fraction("946.352946")
TBSP_ML = Fraction("14.78676478125")
TSP_ML = Fraction("4.92892159375")
DOSES = {
    "tomato": {"lemon": 2 * TBSP_ML, "vinegar": 4 * TBSP_ML, "citric": TSP_ML / 2},
    "tomatillo": {"lemon": 2 * TBSP_ML, "vinegar": 4 * TBSP_ML, "citric": TSP_ML / 2},
    "fig": {"lemon": 2 * TBSP_ML, "citric": TSP_ML / 2},
    "asian-pear": {"lemon": 2 * TBSP_ML},
}


def is_fruit(pair: Pair) -> bool:
    """Whether a pair is fruit, juice or tomato that stays in, whatever its acidity."""
    return pair.stay == "kept" and (pair.sort in ("fruit", "juice") or pair.has("tomato", "tomatillo"))


def _only_covered(case: Case, contrast: Contrast) -> bool:
    """Whether the liquid only covers plain canned fruit: water, juice and syrup may then stand for one another."""
    return case.kind == "canned fruit" and not any(map(in_load(contrast), contrast.pairs))


def is_liquid(pair: Pair) -> bool:
    """Whether a pair is water or another thin liquid that stays in and is not juice, acid or spirit."""
    return pair.stay == "kept" and pair.sort == "liquid"


@rule("acid/watered", decides=("fruit-watered", "water-raised"))
def fruit_is_not_watered(case: Case) -> Iterator[Flag]:
    """The fruit and juice that bring their own acid keep their share against the water.

    Water in place of sour fruit or juice thins the acid that the fruit brings, and the set with it.
    """
    contrast = case.contrast
    if contrast is None or _only_covered(case, contrast):
        return
    sour = is_fruit
    water = contrast.sum("now_most", is_liquid)
    if not any(water.values()):
        return
    waters = [pair for pair in contrast.pairs if is_liquid(pair) and pair.now]
    share = _share(contrast, sour)
    fruit = contrast.floor(sour, None)
    raised = contrast.ceiling(is_liquid, None)
    watered = share is not None and share.low < WATERED
    if watered and fruit is not None and share is not None and (fruit.low < case.same or _replaced(contrast, sour)):
        yield Flag(
            "fruit-watered",
            waters[0].now[0].line.span,
            f"With {stated(waters[0].now)}, fruit and juice change by {percent(fruit)} for the batch, and their share beside "
            f"the water by {percent(share)}.",
            (figure("share of fruit", percent(share)),),
            before(case, [one for pair in contrast.pairs if sour(pair) for one in pair.was]),
            certain=share.high < WATERED,
            acid_class=case.acid_class,
        )
    elif _extra_water(contrast) > TWO_PERCENT or (raised is not None and raised.low > case.more):
        yield Flag(
            "water-raised",
            waters[0].now[0].line.span,
            f"The tested formula has {stated(waters[0].was)}, this one {stated(waters[0].now)}"
            + (f": {percent(raised)} for the same batch." if raised else "."),
            (),
            before(case, waters[0].was),
            certain=raised is None or raised.low > case.more,
            acid_class=case.acid_class,
            level="" if contrast.tested.fixed_time else "quality",
            harm="" if contrast.tested.fixed_time else "soft-set",
        )


def _replaced(contrast: Contrast, sour: Callable[[Pair], bool]) -> bool:
    """Whether water took the place of sour fruit or juice: as much of it came in as half of what went out."""
    gone = contrast.middle(contrast.sum("was_most", sour)) - contrast.middle(contrast.sum("now_most", sour))
    water = contrast.middle(contrast.sum("now_most", is_liquid)) - contrast.middle(contrast.sum("was_most", is_liquid))
    return gone > 0 and 2 * water >= gone


def _extra_water(contrast: Contrast) -> Fraction:
    """The water beyond the tested amount, as a share of the base."""
    base = contrast.middle(contrast.sum("now_most", in_base(contrast)))
    was = contrast.middle(contrast.sum("was_most", is_liquid))
    more = contrast.middle(contrast.sum("now_most", is_liquid)) - contrast.scale * was
    whole = base if base else contrast.middle(contrast.sum("now_most", is_liquid))
    return more / whole if whole else Fraction(0)


def _share(contrast: Contrast, sour: Callable[[Pair], bool]) -> Interval | None:
    """How the sour part's share of sour part and liquid changes; None where there is no sour part."""
    both = either(sour, is_liquid)
    was = contrast.quotient(contrast.sum("was_least", sour), contrast.sum("was_most", both))
    now = contrast.quotient(contrast.sum("now_least", sour), contrast.sum("now_most", both))
    if was is None or now is None or not was.high:
        return None
    if was.exact and now.exact:
        return Interval(now.low / was.low, now.low / was.low)
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
        if pair.sort != "base" and not pair.has("base"):
            continue
        if not pair.now:
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


def per_jar_doses(batch: Batch) -> dict[str, list[Item]]:
    """The acid lines stated per jar, by kind: lemon (lemon and lime), vinegar, citric."""
    out: dict[str, list[Item]] = {}
    for one in batch.per_jar:
        if is_acid(one) and not one.optional and not one.loose:
            out.setdefault(acid_kind(one), []).append(one)
    return out


def acid_kind(one: Item) -> str:
    """`lemon`, `vinegar` or `citric`."""
    return next((kind for kind, tags in KINDS.items() if one.tags & tags), "")


KINDS = {"lemon": {"lemon", "lime"}, "vinegar": {"vinegar"}, "citric": {"citric"}}


def dose(lines: list[Item], jar_ml: Fraction) -> Fraction:
    """What a jar of a size gets, in ml (or g): its own line, else the least of the others in proportion."""
    own = [one for one in lines if one.per_jar and abs(one.per_jar[1] - jar_ml) <= jar_ml / 200]
    shares = [_low(one) / one.per_jar[1] * jar_ml for one in (own or lines) if one.per_jar]
    return min(shares) if shares else Fraction(0)


def _low(one: Item) -> Fraction:
    return next((low for dim, low, _ in one.quantity.dims if dim.startswith("volume:") or dim == "mass"), Fraction(0))


@rule("acid/per-jar", decides=("per-jar-to-batch", "acid-pressure", "lime-for-lemon", "acid-dose-table"))
def every_jar_gets_its_acid(case: Case) -> Iterator[Flag]:
    """Acid that was tested per jar is measured into each jar, and a larger jar gets the more.

    Acid stirred into the pot does not end up in equal parts in every jar, and one short jar is enough.
    """
    if case.contrast is None or case.tested is None:
        return
    was, now = per_jar_doses(case.contrast.tested), per_jar_doses(case.contrast.adapted)
    if not was:
        return
    place = section(case.document, "take")
    batch_acid = [g for g in case.contrast.adapted.groups if g.stay == "kept" and is_acid(g)]
    if not now:
        had = [g.name for g in case.contrast.tested.groups if g.stay == "kept" and is_acid(g)]
        new = [g for g in batch_acid if g.name not in had]
        first = [one for lines in was.values() for one in lines]
        if new:
            yield Flag(
                "per-jar-to-batch",
                new[0].items[0].line.span,
                f"The tested formula measures {amount(first[0].line.amount)} {first[0].line.item} into each jar. This "
                f"one adds {stated(new[0].items)} to the batch.",
                (),
                before(case, first),
            )
        elif case.document.process and all(process.method == "pressure" for process in case.document.process):
            yield Flag("acid-pressure", place, _dropped(first), (), before(case, first))
        elif not _optional_per_jar(case.contrast.adapted):
            yield Flag("acid-dropped", place, _dropped(first), (), before(case, first), acid_class="protects")
        else:
            loose = _optional_per_jar(case.contrast.adapted)[0]
            yield Flag(
                "acid-loosened",
                loose.line.span,
                f"The tested formula requires {amount(first[0].line.amount)} {first[0].line.item}; here it is left open.",
                (),
                before(case, first),
                acid_class="protects",
            )
        return
    yield from _short_doses(case, was, now)


def _dropped(first: list[Item]) -> str:
    return f"The tested formula measures {amount(first[0].line.amount)} {first[0].line.item} into each jar. This one adds none."


def _optional_per_jar(batch: Batch) -> list[Item]:
    return [one for one in batch.per_jar if is_acid(one) and (one.optional or one.loose)]


def _short_doses(case: Case, was: dict[str, list[Item]], now: dict[str, list[Item]]) -> Iterator[Flag]:
    """Jars that get less acid than the tested formula gives a jar of their size, or another acid."""
    if not set(now) & set(was):
        yield from _dose_swap(case, was, now)
        return
    jars = case.document.pack.jars or tuple(jar for p in case.document.process for r in p.rows for jar in r.jars)
    for kind in (kind for kind in now if kind in was):
        lines = now[kind]
        short = [jar for jar in jars if dose(lines, jar.volume_ml) < dose(was[kind], jar.volume_ml) * case.same]
        for jar in sorted(short, key=lambda one: not _unchanged(lines, was[kind], one.volume_ml))[:1]:
            left = dose(lines, jar.volume_ml) / dose(was[kind], jar.volume_ml)
            own = _own_lines(lines, jar.volume_ml) or lines
            # Every jar's dose scaled with the batch is a cut; a dose left as it was for a larger jar is its own row.
            scaled = left == case.compared.scale
            yield Flag(
                "per-jar-to-batch" if _unchanged(lines, was[kind], jar.volume_ml) and not scaled else "acid-cut",
                own[0].line.span,
                f"A {jar.name} jar gets {percent(Interval(left, left))} of the tested acid: "
                f"{amount(own[0].line.amount)} here, {amount(was[kind][0].line.amount)} tested.",
                (figure("acid left", percent(Interval(left, left))),),
                before(case, was[kind]),
                acid_class="protects",
            )
        yield from _other_juice(case, was[kind], lines)


def _own_lines(lines: list[Item], jar_ml: Fraction) -> list[Item]:
    return [one for one in lines if one.per_jar and abs(one.per_jar[1] - jar_ml) <= jar_ml / 200]


def _other_juice(case: Case, was: list[Item], now: list[Item]) -> Iterator[Flag]:
    """Fresh juice per jar where bottled was tested, and lime for lemon in plain tomatoes and figs."""
    bottled = all("bottled" in one.tags for one in was)
    for one in now:
        if bottled and "bottled" not in one.tags and one.tags & {"lemon", "lime"}:
            text = f"The tested formula says {stated(was)}. This one says {stated([one])}, not bottled."
            yield Flag("fresh-for-bottled", one.line.span, text, (), before(case, was), acid_class="protects")
        if "lime" in one.tags and "lemon" not in one.tags and not any("lime" in old.tags for old in was):
            text = f"The tested formula gives each jar {stated(was)}, this one {stated([one])}."
            level = "untested" if case.kind in ("tomato", "canned fruit") else ""
            yield Flag("lime-for-lemon", one.line.span, text, (), before(case, was), level=level)
        if "vinegar" in one.tags and one.strength is None and all(old.strength is not None for old in was):
            text = f"The tested formula says {stated(was)}. This one says {stated([one])}, of unstated strength."
            yield Flag("vinegar-weak", one.line.span, text, (), before(case, was), acid_class="protects")


def _unchanged(lines: list[Item], was: list[Item], jar_ml: Fraction) -> bool:
    """Whether a jar gets exactly what the tested formula gives a smaller one."""
    own = [one for one in lines if one.per_jar and abs(one.per_jar[1] - jar_ml) <= jar_ml / 200] or lines
    smaller = [old for old in was if old.per_jar and old.per_jar[1] < jar_ml * Fraction(199, 200)]
    return any(_low(one) == _low(old) for one in own for old in smaller)


def _dose_swap(case: Case, was: dict[str, list[Item]], now: dict[str, list[Item]]) -> Iterator[Flag]:
    """Another acid per jar: fine only at the printed dose of the published list for this food."""
    foods = {tag for group in case.compared.tested.groups for tag in group.tags} & set(DOSED_FRUIT)
    lines = next(iter(now.values()))
    kind = next(iter(now))
    first = next(iter(was.values()))
    printed = [DOSES[food].get(kind) for food in foods]
    enough = bool(printed) and all(
        one is not None and dose(lines, QUART_ML) >= one * Fraction(98, 100) for one in printed
    )
    row = "vinegar-for-lemon" if "lemon" in was and kind == "vinegar" else "acid-untested-swap"
    if enough and case.kind in ("tomato", "canned fruit"):
        row = "acid-dose-table"
    yield Flag(
        row,
        lines[0].line.span,
        f"The tested formula gives each jar {amount(first[0].line.amount)} {first[0].line.item}, this one "
        f"{amount(lines[0].line.amount)} {lines[0].line.item}.",
        (),
        before(case, first),
        acid_class="protects",
    )


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
    tested = " ".join(text for text, _ in notes(case.tested)) if case.tested else ""
    for text, span in notes(case.document):
        said_no = any(word in text for word in ("do not", "don't", "never", "not from", "avoid"))
        if "vine" in text and any(word in text for word in ("dead", "frost", "killed")) and not said_no:
            yield Flag("tomato-vine", span, f"This asks for tomatoes from dead or frost-killed vines: {text}.")
        drains = "drain" in text and "tomato" in text and "undrained" not in text and "drain" not in tested
        if case.tested is not None and drains and not said_no:
            yield Flag("tomato-drained", span, "This step drains the tomatoes; no step of the tested formula does.")


def _tomato(case: Case, item: Item) -> Iterator[Flag]:
    words = set(" ".join((item.line.item, *item.line.forms)).lower().replace("-", " ").split())
    if words & {"vine", "vines"} and words & {"dead", "frost", "frosted", "killed", "frozen"}:
        yield Flag("tomato-vine", item.line.span, f"{item.line.item}, {', '.join(item.line.forms)}.", ())
    if case.contrast is None or not words & DRAINED or "undrained" in words or "not" in words:
        return
    for group in case.contrast.tested.groups:
        was = set(" ".join(f"{o.line.item} {' '.join(o.line.forms)}" for o in group.items).lower().split())
        if group.name == item.name and was & DRAINED and "undrained" not in was:
            return
    tomatoes = [o for g in case.contrast.tested.groups if g.tags & {"tomato", "tomatillo"} for o in g.items]
    yield Flag(
        "tomato-drained",
        item.line.span,
        f"This one uses {item.line.item}, {', '.join(item.line.forms)}; the tested formula {stated(tomatoes)}.",
        (),
        before(case, tomatoes),
    )


DRAINED = {"drained", "seeded", "strained", "squeezed"}


@rule("acid/dosed", decides=("fruit-needs-acid",))
def fruit_that_needs_acid_gets_it(case: Case) -> Iterator[Flag]:
    """Plain canned tomatoes, figs and Asian pears get the published acid in every jar.

    They lie too near to pH 4.6 to be canned in boiling water without acid.
    """
    document = case.document
    sealed = any(process.method in ("boiling-water", "steam", "pressure") for process in document.process)
    if document.product not in ("canned fruit", "tomato", "juice") or not sealed:
        return
    fruit = [g for g in case.batch.groups if g.stay == "kept" and g.tags & set(DOSED_FRUIT) and _main(g, case.batch)]
    if not fruit:
        return
    food = next(tag for tag in DOSED_FRUIT if tag in fruit[0].tags)
    doses = per_jar_doses(case.batch)
    enough = [
        kind
        for kind, lines in doses.items()
        if DOSES[food].get(kind) and dose(lines, QUART_ML) >= DOSES[food][kind] * Fraction(98, 100)
    ]
    if enough:
        return
    lines = [one for kind in doses.values() for one in kind]
    printed = ", ".join(f"{words} of {DOSE_WORDS[kind]}" for kind, words in PRINTED[food].items())
    yield Flag(
        "fruit-needs-acid",
        lines[0].line.span if lines else section(document, "take"),
        f"{stated(fruit[0].items)} with {stated(lines)} per jar. Published for a quart: {printed}.",
        (),
        before(case, [one for one in case.contrast.tested.per_jar] if case.contrast else []),
    )


def _main(group: Group, batch: Batch) -> bool:
    """Whether a food is the first one of its formula, what the jar is called by."""
    foods = [g for g in batch.groups if g.stay == "kept" and g.sort in ("fruit", "vegetable", "juice")]
    return bool(foods) and foods[0].name == group.name


DOSE_WORDS = {"lemon": "bottled lemon juice", "vinegar": "5 % vinegar", "citric": "citric acid"}
PRINTED = {
    "tomato": {"lemon": "2 tbsp", "vinegar": "4 tbsp", "citric": "1/2 tsp"},
    "tomatillo": {"lemon": "2 tbsp", "vinegar": "4 tbsp", "citric": "1/2 tsp"},
    "fig": {"lemon": "2 tbsp", "citric": "1/2 tsp"},
    "asian-pear": {"lemon": "2 tbsp"},
}
