"""Acid measured into each jar: the tested dose, the published dose for plain tomatoes, figs and Asian pears."""

from collections import defaultdict
from collections.abc import Iterator
from fractions import Fraction

from brimline.batch.classes import SEALED_METHODS, is_acid
from brimline.batch.values import Batch, Item
from brimline.batch.words import amount, listed, percent
from brimline.figures.values import Interval
from brimline.findings import Flag
from brimline.moves.listing import section, stated
from brimline.moves.printed import CUP_ML
from brimline.moves.values import Case
from brimline.rules.brought import stirred_in
from brimline.rules.contract import rule
from brimline.rules.say import before, figure

# The published dose list of each food, and what each kind of acid is called in it.
DOSE_LISTS = {"tomato": "tomato_acid", "tomatillo": "tomato_acid", "fig": "fig_acid", "asian-pear": "asian_pear_acid"}
DOSE_NAMES = {
    "lemon": "bottled lemon juice, per quart",
    "vinegar": "vinegar of 5 %, per quart",
    "citric": "citric acid, per quart",
}
DOSE_WORDS = {"lemon": "bottled lemon juice", "vinegar": "5 % vinegar", "citric": "citric acid"}
QUART_ML = 4 * CUP_ML


def printed_dose(case: Case, food: str, kind: str) -> Fraction | None:
    """The published dose of an acid for a quart of a food, in ml; None where it is not on the food's list."""
    listed, name = DOSE_LISTS[food], DOSE_NAMES.get(kind, "")
    return case.printed(listed, name).low if case.prints(listed, name) else None


def per_jar_doses(batch: Batch) -> dict[str, list[Item]]:
    """The acid lines stated per jar, by kind: lemon (lemon and lime), vinegar, citric."""
    out: dict[str, list[Item]] = {}
    for one in batch.per_jar:
        if is_acid(one) and one.kept and not one.optional and not one.loose:
            out.setdefault(acid_kind(one), []).append(one)
    return out


def acid_kind(one: Item) -> str:
    """`lemon`, `vinegar` or `citric`."""
    return next((kind for kind, tags in KINDS.items() if one.tags & tags), "")


KINDS = {"lemon": {"lemon", "lime"}, "vinegar": {"vinegar"}, "citric": {"citric"}}


def dose(lines: list[Item], jar_ml: Fraction) -> Fraction:
    """What a jar of a size gets, in ml (or g): its own lines together, else the least of the others in proportion."""
    shares: defaultdict[Fraction, Fraction] = defaultdict(Fraction)
    for one in _for_jar(lines, jar_ml):
        if one.per_jar:
            size = one.per_jar[1]
            shares[size] += _low(one) / size * jar_ml
    return min(shares.values())


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
    first = [one for lines in was.values() for one in lines]
    batch_acid = [g for g in case.contrast.adapted.groups if g.kept and is_acid(g)]
    if not now:
        had = [g.name for g in case.contrast.tested.groups if g.kept and is_acid(g)]
        new = [g for g in batch_acid if g.name not in had]
        if new:
            yield Flag(
                "per-jar-to-batch",
                new[0].items[0].line.span,
                f"The tested formula measures {stated(first[:1])} into each jar. This "
                f"one adds {stated(new[0].items)} to the batch.",
                (),
                before(case, first),
            )
        elif case.document.process and all(process.method == "pressure" for process in case.document.process):
            yield Flag("acid-pressure", place, _dropped(first), (), before(case, first))
        elif not _optional_per_jar(case.contrast.adapted):
            yield Flag("acid-dropped", place, _dropped(first), (), before(case, first), acid_class="protects")
        else:
            yield _loosened(case, _optional_per_jar(case.contrast.adapted)[0], first)
        return
    for aside in stirred_in(case):
        says = f"The tested formula measures {stated(first[:1])} into each jar. Here: {aside.reading.text}"
        yield Flag("per-jar-to-batch", aside.span, says, (), before(case, first))
    sure = [one for lines in now.values() for one in lines] + _optional_per_jar(case.contrast.tested)
    dosed = {(acid_kind(one), one.per_jar) for one in sure}
    for one in _optional_per_jar(case.contrast.adapted):
        kind = acid_kind(one)
        # Another jar still gets its acid; this one may go without.
        if kind in was and (kind, one.per_jar) not in dosed:
            yield _loosened(case, one, [old for old in was[kind] if old.per_jar == one.per_jar] or was[kind])
    yield from _short_doses(case, was, now)


def _loosened(case: Case, loose: Item, was: list[Item]) -> Flag:
    says = f"The tested formula requires {stated(was[:1])}; here it is left open."
    return Flag("acid-loosened", loose.line.span, says, (), before(case, was), acid_class="protects")


def _dropped(first: list[Item]) -> str:
    return f"The tested formula measures {stated(first[:1])} into each jar. This one adds none."


def _optional_per_jar(batch: Batch) -> list[Item]:
    return [one for one in batch.per_jar if is_acid(one) and (one.optional or one.loose or not one.kept)]


def _short_doses(case: Case, was: dict[str, list[Item]], now: dict[str, list[Item]]) -> Iterator[Flag]:
    """Jars that get less acid than the tested formula gives a jar of their size, or another acid."""
    kinds = [kind for kind in now if kind in was]
    if not kinds:
        yield from _dose_swap(case, was, now)
        return
    jars = case.document.pack.jars or tuple(jar for p in case.document.process for r in p.rows for jar in r.jars)
    for kind in kinds:
        lines = now[kind]
        short = [jar for jar in jars if dose(lines, jar.volume_ml) < dose(was[kind], jar.volume_ml) * case.same]
        if short:
            jar = min(short, key=lambda one: not _unchanged(lines, was[kind], one.volume_ml))
            left = dose(lines, jar.volume_ml) / dose(was[kind], jar.volume_ml)
            own, tested = _for_jar(lines, jar.volume_ml), _for_jar(was[kind], jar.volume_ml)
            # Every jar's dose scaled with the batch is a cut; a dose left as it was for a larger jar is its own row.
            scaled = left == case.compared.scale
            yield Flag(
                "per-jar-to-batch" if _unchanged(lines, was[kind], jar.volume_ml) and not scaled else "acid-cut",
                own[0].line.span,
                f"A {jar.name} jar gets {percent(Interval(left, left))} of the tested acid: "
                f"{_amounts(own)} here, {_amounts(tested)} tested.",
                (figure("acid left", percent(Interval(left, left))),),
                before(case, tested),
                acid_class="protects",
            )
        yield from _other_juice(case, was[kind], lines)


def _for_jar(lines: list[Item], jar_ml: Fraction) -> list[Item]:
    """The lines for a jar of a size; all of them where none is for it alone."""
    return [one for one in lines if one.per_jar and abs(one.per_jar[1] - jar_ml) <= jar_ml / 200] or lines


def _other_juice(case: Case, was: list[Item], now: list[Item]) -> Iterator[Flag]:
    """Fresh juice per jar where bottled was tested, and lime for lemon in plain tomatoes and figs."""
    bottled = all("bottled" in one.tags for one in was)
    for one in now:
        if bottled and "bottled" not in one.tags:
            text = f"The tested formula says {stated(was)}. This one says {stated([one])}, not bottled."
            yield Flag("fresh-for-bottled", one.line.span, text, (), before(case, was), acid_class="protects")
        if "lime" in one.tags and "lemon" not in one.tags and not any("lime" in old.tags for old in was):
            text = f"The tested formula gives each jar {stated(was)}, this one {stated([one])}."
            level = "untested" if case.kind in ("tomato", "canned fruit") else ""
            yield Flag("lime-for-lemon", one.line.span, text, (), before(case, was), level=level)
        if "vinegar" in one.tags and one.strength is None and all(old.strength is not None for old in was):
            text = f"The tested formula says {stated(was)}. This one says {stated([one])}, of unstated strength."
            yield Flag("vinegar-weak", one.line.span, text, (), before(case, was), acid_class="protects")


def _amounts(lines: list[Item]) -> str:
    return listed([amount(one.line.amount) for one in lines])


def _unchanged(lines: list[Item], was: list[Item], jar_ml: Fraction) -> bool:
    """Whether a jar gets exactly what the tested formula gives a smaller one."""
    sizes = {old.per_jar[1] for old in was if old.per_jar and old.per_jar[1] < jar_ml}
    return any(dose(lines, jar_ml) == dose(was, size) for size in sizes)


def _dose_swap(case: Case, was: dict[str, list[Item]], now: dict[str, list[Item]]) -> Iterator[Flag]:
    """Another acid per jar: fine only at the printed dose of the published list for this food."""
    foods = {tag for group in case.compared.tested.groups for tag in group.tags} & set(DOSE_LISTS)
    lines = next(iter(now.values()))
    kind = next(iter(now))
    first = next(iter(was.values()))
    doses = [printed_dose(case, food, kind) for food in foods]
    enough = bool(doses) and all(one is not None and dose(lines, QUART_ML) >= one * case.same for one in doses)
    row = "vinegar-for-lemon" if "lemon" in was and "vinegar" in now else "acid-untested-swap"
    if enough and case.kind in ("tomato", "canned fruit"):
        row = "acid-dose-table"
    yield Flag(
        row,
        lines[0].line.span,
        f"The tested formula gives each jar {stated(first[:1])}, this one {stated(lines[:1])}.",
        (),
        before(case, first),
        acid_class="protects",
    )


@rule("acid/dosed", decides=("fruit-needs-acid",))
def fruit_that_needs_acid_gets_it(case: Case) -> Iterator[Flag]:
    """Plain canned tomatoes, figs and Asian pears get the published acid in every jar.

    They lie too near to pH 4.6 to be canned in boiling water without acid.
    """
    document = case.document
    sealed = any(process.method in SEALED_METHODS for process in document.process)
    if document.product not in ("canned fruit", "tomato", "juice") or not sealed:
        return
    # The first food of a formula is what the jar is called by.
    main = [g for g in case.batch.groups if g.kept and g.sort in ("fruit", "vegetable", "juice")][:1]
    food = next((tag for g in main for tag in DOSE_LISTS if tag in g.tags), "")
    if not food:
        return
    doses = per_jar_doses(case.batch)
    for kind, lines in doses.items():
        needed = printed_dose(case, food, kind)
        if needed is not None and dose(lines, QUART_ML) >= needed * case.same:
            return
    lines = [one for kind in doses.values() for one in kind]
    printed = ", ".join(
        f"{words} of {DOSE_WORDS[kind]}"
        for kind, name in DOSE_NAMES.items()
        if (words := case.printed_words(DOSE_LISTS[food], name))
    )
    yield Flag(
        "fruit-needs-acid",
        lines[0].line.span if lines else section(document, "take"),
        f"{stated(main[0].items)} with {stated(lines)} per jar. Published for a quart: {printed}.",
        (),
        before(case, list(case.contrast.tested.per_jar) if case.contrast else []),
        source=DOSE_LISTS[food],
    )
