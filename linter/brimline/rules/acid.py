"""Acid: what is added stays in, in the kind and strength that was tested, and nothing takes it away again."""

from collections.abc import Iterator
from fractions import Fraction

from brimline.batch.values import Item
from brimline.batch.words import grams, percent
from brimline.document.values import Document
from brimline.figures.values import Interval
from brimline.findings import Flag
from brimline.moves.listing import section, stated
from brimline.moves.values import Case, Contrast, Pair
from brimline.rules.contract import rule
from brimline.rules.say import base_word, before, figure, line_of
from brimline.rules.terms import (
    FIVE,
    acid_pair,
    fallen,
    in_base,
    kept,
    listed_alternative,
    only,
    required,
    risen,
    strength,
)

WEAK = ("home-made", "pickling-base")


def sentence(case: Case, pair: Pair, left: Interval | None) -> str:
    """The arithmetic of an acid: what was tested per base, what is here."""
    contrast = case.compared
    base = contrast.middle(contrast.sum("was_most", in_base(contrast)))
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
            sentence(case, pair, left),
            (figure("acid left", "0", "%"),),
            before(case, pair.was),
            acid_class=case.acid_class,
        )


def _aside(case: Case, pair: Pair) -> list[Pair]:
    """The same acid where it does not stay in: infused or discarded."""
    if case.contrast is None:
        return []
    return [one for one in case.contrast.pairs if one.name == pair.name and one.stay != "kept" and one.now]


@rule("acid/cut", decides=("acid-cut",))
def acid_is_kept(case: Case) -> Iterator[Flag]:
    """Every kilogram that the acid must protect gets at least the acid of the tested formula.

    Less acid for the same food can lift the pH to where the spores that cause botulism grow, and a spread sets softer.
    """
    new = [pair for pair in risen(case) if not listed_alternative(case, pair)]
    for pair, left in fallen(case):
        if not pair.now or _loosened(pair) or _stronger(pair, case) or (new and pair not in new):
            continue
        if _ranged(pair, case):
            continue
        yield Flag(
            "acid-cut",
            line_of(case, pair),
            sentence(case, pair, left),
            (figure("acid left", percent(left), ""),),
            before(case, pair.was),
            certain=left.high < case.same,
            acid_class=case.acid_class,
        )


def _loosened(pair: Pair) -> bool:
    """Whether the acid falls only because it is now optional, open or ranged below."""
    if any(one.optional and not was.optional for one in pair.now for was in pair.was[:1]):
        return True
    return any(one.loose for one in pair.now)


def _is_range(one: Item) -> bool:
    """Whether a range is written."""
    return one.line.amount is not None and any(part.low != part.high for part in one.line.amount.parts)


def _ranged(pair: Pair, case: Case) -> bool:
    """Whether the upper end of a written range would be enough."""
    if case.contrast is None or not any(map(_is_range, pair.now)):
        return False
    if any(map(_is_range, pair.was)):
        return False
    change = case.contrast.ceiling(only(pair), None)
    return change is not None and change.low >= case.same


@rule("acid/loosened", decides=("acid-loosened",))
def acid_is_required(case: Case) -> Iterator[Flag]:
    """Acid that the tested formula requires is required here: not optional, not to taste, not taken out again.

    An acid that some cooks will leave out protects only the jars of the others.
    """
    for pair, left in fallen(case):
        aside = _aside(case, pair)
        if not ((pair.now and (_loosened(pair) or _ranged(pair, case))) or (aside and not pair.now)):
            continue
        at = pair.now[0].line.span if pair.now else aside[0].now[0].line.span
        what = stated(pair.now) if pair.now else f"{stated(aside[0].now)}, {aside[0].stay}"
        yield Flag(
            "acid-loosened",
            at,
            f"The tested formula requires {stated(pair.was)}. Here it says {what}, so the least that may go in is less.",
            (figure("acid left", percent(left), ""),),
            before(case, pair.was),
            acid_class=case.acid_class,
        )
    yield from _unused(case)


ALL_OF_IT = (
    "all the ingredients",
    "all ingredients",
    "everything",
    "remaining ingredients",
    "other ingredients",
    "rest of the",
)
ACID_WORDS = {"lemon": "lemon", "lime": "lime", "vinegar": "vinegar", "citric": "citric"}


def _unused(case: Case) -> Iterator[Flag]:
    """Acid that is listed, that a step of the tested formula adds, and that no step adds here."""
    if case.contrast is None or case.tested is None:
        return
    here, tested = _steps(case.document), _steps(case.tested)
    for pair in case.contrast.pairs:
        if not acid_pair(pair) or not pair.now or not pair.was or not required(pair) or not here:
            continue
        named = [word for tag, word in ACID_WORDS.items() if tag in pair.tags]
        if any(word in tested for word in named) and not any(word in here for word in (*named, "acid", *ALL_OF_IT)):
            yield Flag(
                "acid-loosened",
                pair.now[0].line.span,
                f"{stated(pair.now)} is listed and no step adds it.",
                (),
                before(case, pair.was),
                acid_class=case.acid_class,
            )


def _steps(document: Document) -> str:
    return " ".join(step.text.lower() for step in document.make)


def _stronger(pair: Pair, case: Case) -> bool:
    """Whether there is less vinegar, but one so strong that it holds as much acid."""
    if not pair.has("vinegar") or not pair.now or not pair.was:
        return False
    tested = min((_strength_of(one) or FIVE for one in pair.was), default=FIVE)
    if not all((_strength_of(one) or FIVE) > tested for one in pair.now):
        return False
    whole = case.compared.floor(only(pair), in_base(case.compared), lambda one: _strength_of(one) or FIVE)
    return whole is not None and whole.low >= case.same


@rule("acid/strength", decides=("vinegar-weak", "vinegar-kind", "vinegar-stronger-less", "strength-unstated"))
def vinegar_is_strong_enough(case: Case) -> Iterator[Flag]:
    """Vinegar has a stated strength of at least 5 percent, and a stronger one is not a reason to use less.

    Weak or unknown vinegar leaves the food less acid than the tested formula, and the label is the only way to know.
    """
    contrast = case.contrast
    if contrast is None:
        yield from _unstated(case)
        return
    for pair in contrast.pairs:
        if not pair.has("vinegar") or pair.sort != "acid" or pair.stay != "kept":
            continue
        stated_before = any(_strength_of(one) is not None for one in pair.was)
        for one in pair.now:
            known = _strength_of(one)
            floor = min((_strength_of(old) or FIVE for old in pair.was), default=FIVE)
            weak = bool(one.tags & set(WEAK)) or (known is not None and known < min(floor, FIVE))
            unstated = stated_before and known is None
            if weak or unstated:
                what = "of unstated strength" if known is None else f"of {float(known):g} %"
                yield Flag(
                    "vinegar-weak",
                    one.line.span,
                    f"The tested formula uses {stated(pair.was) if pair.was else 'vinegar of 5 %'}. This one uses "
                    f"{one.line.item} {what}.",
                    (figure("strength", f"{float(known):g}" if known is not None else "not stated", "%"),),
                    before(case, pair.was),
                    acid_class=case.acid_class,
                )
        left = kept(pair, contrast)
        if pair.was and pair.now and left is not None and left.low < case.same and _stronger(pair, case):
            yield Flag(
                "vinegar-stronger-less",
                line_of(case, pair),
                sentence(case, pair, left),
                (),
                before(case, pair.was),
                certain=left.high < case.same,
            )


def _unstated(case: Case) -> Iterator[Flag]:
    """Vinegar of no stated strength in a formula read by itself: a note, since nothing there is weaker than tested."""
    for group in case.batch.groups:
        for one in group.items:
            if group.sort == "acid" and group.has("vinegar") and group.stay == "kept" and _strength_of(one) is None:
                yield Flag("strength-unstated", one.line.span, f"{one.line.item}: the strength is not stated.")


def _strength_of(one: Item) -> Fraction | None:
    """The stated strength of a vinegar line; a table entry named by its strength states it too."""
    if one.strength is not None:
        return one.strength
    for part in one.name.split(","):
        words = part.split()
        if len(words) >= 2 and words[1] == "%" and words[0].isdigit():
            return Fraction(words[0])
    return None


@rule("acid/fresh", decides=("fresh-for-bottled", "fresh-for-unstated"))
def bottled_stays_bottled(case: Case) -> Iterator[Flag]:
    """Where bottled lemon or lime juice was tested, bottled juice is used.

    Fresh juice varies in strength from fruit to fruit, so nobody can say how acid the jar will be.
    """
    contrast = case.contrast
    if contrast is None:
        return
    for pair in contrast.pairs:
        if not acid_pair(pair) or not pair.has("lemon", "lime") or not pair.was or not pair.now:
            continue
        for row, rank in (("fresh-for-bottled", 2), ("fresh-for-unstated", 1)):
            weight = _at_least(rank)
            change = contrast.floor(only(pair), in_base(contrast), weight)
            if change is None or change.low >= case.same:
                continue
            worse = [one for one in pair.now if _rank(one) < rank]
            if not worse or not _was_rank(pair, rank):
                continue
            level = "silent" if row == "fresh-for-unstated" and case.acid_class == "sets" else ""
            yield Flag(
                row,
                worse[0].line.span,
                f"The tested formula says {stated(pair.was)}. This one says {stated(worse)}"
                f"{'.' if _rank(worse[0]) == 0 else ', which need not be bottled.'}",
                (),
                before(case, pair.was),
                certain=change.high < case.same,
                acid_class=case.acid_class,
                level=level,
            )
            break


def _rank(one: Item) -> int:
    """How much a juice line says of its strength: bottled 2, kind not stated 1, fresh 0."""
    if "bottled" in one.tags:
        return 2
    return 0 if "fresh" in one.tags else 1


def _was_rank(pair: Pair, rank: int) -> bool:
    return any(_rank(one) >= rank for one in pair.was)


def _at_least(rank: int) -> "RankTest":
    return RankTest(rank)


class RankTest:
    """Counts a juice line only if it says enough of its strength."""

    __slots__ = ("rank",)

    def __init__(self, rank: int) -> None:
        self.rank = rank

    def __call__(self, one: Item) -> Fraction:
        """1 for a line that counts, 0 for one that does not."""
        return Fraction(1) if _rank(one) >= self.rank else Fraction(0)


@rule(
    "acid/swapped",
    decides=(
        "vinegar-for-lemon",
        "lemon-for-vinegar",
        "acid-untested-swap",
        "acid-not-an-acid",
    ),
)
def acids_are_not_exchanged(case: Case) -> Iterator[Flag]:
    """One acid stands for another only where that exchange was tested.

    Acids differ in strength and in how they taste and bind, and equal spoonfuls are not equal acid; vinegar for lemon
    juice makes a salsa less acid, which is how botulism starts.
    """
    if case.contrast is None:
        return
    new = [pair for pair in risen(case) if not listed_alternative(case, pair)]
    for pair, left in fallen(case):
        others = [one for one in new if one is not pair]
        if not others:
            continue
        row, level = _swap(case, pair, others)
        if not row:
            continue
        yield Flag(
            row,
            others[0].now[0].line.span,
            f"{sentence(case, pair, left)} In its place it adds {stated(others[0].now)}.",
            (),
            before(case, pair.was),
            certain=left.high < case.same,
            acid_class=case.acid_class,
            level=level,
        )


def _swap(case: Case, pair: Pair, others: list[Pair]) -> tuple[str, str]:
    """The row an exchange falls under, and a level of its own if its note gives one."""
    contrast = case.compared
    real = [one for one in others if acid_pair(one)]
    if not real:
        return "acid-not-an-acid", ""
    if pair.has("lemon", "lime") and any(one.has("vinegar") for one in real):
        return "vinegar-for-lemon", ""
    if pair.has("vinegar") and any(one.has("lemon", "lime") for one in real):
        lemon = next(one for one in real if one.has("lemon", "lime"))
        bottled = all(_rank(one) == 2 for one in lemon.now)
        if bottled and _volume_kept(pair, lemon, contrast):
            return "lemon-for-vinegar", "" if case.kind == "salsa" else "untested"
        return ("acid-cut" if bottled else "acid-untested-swap"), ""
    return "acid-untested-swap", ""


def _volume_kept(pair: Pair, lemon: Pair, contrast: Contrast) -> bool:
    """Whether vinegar and lemon juice together are at least the tested volume at the scale."""
    was = _millilitres(pair.was) + _millilitres(lemon.was)
    now = _millilitres(pair.now) + _millilitres(lemon.now)
    return was is not None and now >= was * contrast.scale * Fraction(98, 100)


def _millilitres(items: tuple[Item, ...]) -> Fraction:
    out = Fraction(0)
    for one in items:
        volume = next((low for dim, low, _ in one.quantity.dims if dim.startswith("volume:")), None)
        mass = next((low for dim, low, _ in one.quantity.dims if dim == "mass"), None)
        # Juice and vinegar weigh a little over a gram a millilitre; dividing by that is the cautious side.
        out += volume if volume is not None else mass * Fraction(96, 100) if mass is not None else Fraction(0)
    return out


@rule("acid/more", decides=("acid-more", "acid-tested-alternative"))
def acid_is_not_doubled(case: Case) -> Iterator[Flag]:
    """More bottled juice or vinegar of the kind already there does no harm, up to twice the amount in a spread.

    Beyond that the gel gives off liquid: it weeps.
    """
    contrast = case.contrast
    if contrast is None or not case.gelled:
        return
    for pair in contrast.pairs:
        grown = contrast.ceiling(only(pair), None, strength) if acid_pair(pair) and pair.was and pair.now else None
        if grown is not None and grown.low > 2 * Fraction(102, 100):
            yield Flag(
                "acid-more",
                pair.now[0].line.span,
                f"The tested formula adds {stated(pair.was)}, this one {stated(pair.now)}: {percent(grown)}.",
                (figure("acid", percent(grown)),),
                before(case, pair.was),
                level="quality",
                harm="soft-set",
            )
