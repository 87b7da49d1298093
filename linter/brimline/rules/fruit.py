"""The fruit itself: only fruit with a tested process, only the fruit that was tested, in the pieces that were tested."""

from collections.abc import Iterator

from brimline.batch.classes import GELLED_KINDS
from brimline.batch.values import Item
from brimline.findings import Flag
from brimline.moves.listing import stated
from brimline.moves.values import Case, Contrast, Pair
from brimline.rules.contract import rule
from brimline.rules.handled import pureed, skins_left
from brimline.rules.say import before
from brimline.rules.terms import fallen, only

FRUIT = ("fruit", "juice", "peel")
PLAIN = {"frozen", "peeled", "tart", "yellow", "canned", "bottled", "sweetened", "fresh"}


def new_fruit(case: Case) -> list[Pair]:
    """Fruit, juice or tomato that is in the jar here and was not tested."""
    contrast = case.contrast
    if contrast is None:
        return []
    return [pair for pair in contrast.pairs if pair.added and pair.kept and _is_fruit(pair)]


def _is_fruit(pair: Pair) -> bool:
    """Whether a new ingredient is fruit, juice or tomato, or is called so and not in the table."""
    unknown = any(one.entry is None and one.line.role in ("fruit", "juice") for one in pair.now)
    return pair.sort in ("fruit", "juice") or unknown or pair.has("tomato", "tomatillo", "no-process")


@rule("low-acid/no-process", decides=("fruit-no-process",))
def fruit_has_a_process(case: Case) -> Iterator[Flag]:
    """No fruit goes in that has no tested canning process: white peach, elderberry, banana, ripe mango, melon, squash.

    These are not acid enough, and no amount of acid or time has been tested that would make them keep.
    """
    for pair in new_fruit(case):
        if pair.has("no-process"):
            yield Flag("fruit-no-process", pair.now[0].line.span, _words(case, pair), (), before(case, _gone(case)))


@rule("low-acid/fruit", decides=("fruit-low-acid-other",))
def fruit_is_high_acid(case: Case) -> Iterator[Flag]:
    """No fruit goes in, beyond what was tested, that is not high-acid or that the table does not know.

    A fruit that is not sour enough raises the pH of the whole jar.
    """
    for pair in new_fruit(case):
        if not pair.has("no-process") and pair.safety != "high-acid" and not _salsa_tomato(pair, case):
            yield Flag("fruit-low-acid-other", pair.now[0].line.span, _words(case, pair), (), before(case, _gone(case)))


def _salsa_tomato(pair: Pair, case: Case) -> bool:
    """Tomato beside tomato is judged by the low-acid load and the base, not as another fruit."""
    return pair.has("tomato", "tomatillo") and any(
        other.was and other.has("tomato", "tomatillo") for other in case.compared.pairs
    )


@rule("set/fruit", decides=("fruit-other", "fruit-frozen", "fruit-mix-more"))
def fruit_is_the_tested_one(case: Case) -> Iterator[Flag]:
    """The fruit is the tested one, fresh or frozen without sugar.

    Another high-acid fruit has other pectin and acid; how it sets and keeps in this formula nobody has tested.
    """
    for pair in new_fruit(case):
        if pair.safety == "high-acid" and not (
            pair.has("no-process") or _same_fruit(pair, case) or _told_elsewhere(pair, case)
        ):
            yield Flag("fruit-other", pair.now[0].line.span, _words(case, pair), (), before(case, _gone(case)))


def _told_elsewhere(pair: Pair, case: Case) -> bool:
    """Whether rules of acid or of the cover speak of a new fruit or juice."""
    if case.kind == "fruit curd" or pair.now[0].line.role == "acid":
        return True
    # A juice may stand where an acid was left out: acid/swapped.
    return pair.sort == "juice" and (case.kind == "canned fruit" or any(not one.now for one, _ in fallen(case)))


def _same_fruit(pair: Pair, case: Case) -> bool:
    """Whether the new fruit is a tested one by another name: frozen, peeled, of another colour."""
    first, *rest = _parts(pair.now[0])
    tested = [_parts(one) for other in case.compared.pairs for one in other.was]
    return any(first == theirs[0] and not set(rest).symmetric_difference(theirs[1:]) - PLAIN for theirs in tested)


def _parts(one: Item) -> list[str]:
    return [part.strip() for part in one.name.split(",")]


def _gone(case: Case) -> list[Item]:
    """Tested fruit that is missing or less here, for the place in the tested formula."""
    contrast = case.compared
    fruit = [pair for pair in contrast.pairs if pair.was and pair.sort in FRUIT]
    fell = [pair for pair in fruit if not pair.now or _fell(pair, contrast, case)]
    return [one for pair in fell or fruit for one in pair.was]


def _fell(pair: Pair, contrast: Contrast, case: Case) -> bool:
    change = contrast.floor(only(pair), None)
    return change is not None and change.low < case.same


def _words(case: Case, pair: Pair) -> str:
    return f"This one uses {stated(pair.now)}; the tested formula {stated(_gone(case))}."


@rule("set/canned-juice", decides=("fruit-canned-no-pectin",))
def canned_fruit_has_little_pectin(case: Case) -> Iterator[Flag]:
    """A formula without added pectin uses fresh fruit, not canned or commercial juice.

    Heat has used up the pectin of canned fruit and juice, so the spread may not set.
    """
    if not case.gelled or case.pectin or case.document.product not in GELLED_KINDS:
        return
    tested = {one.name for one in case.contrast.tested.groups if _bought(one.items)} if case.contrast else set()
    for group in case.batch.groups:
        if group.kept and _bought(group.items) and group.name not in tested:
            text = f"{stated(group.items)} and no added pectin."
            yield Flag("fruit-canned-no-pectin", group.items[0].line.span, text, ())


def _bought(items: tuple[Item, ...]) -> bool:
    """Whether fruit or juice is canned, bottled or bought, by its entry or by its forms."""
    words = {word for one in items for form in one.line.forms for word in form.lower().split()}
    tags = {tag for one in items for tag in one.tags}
    juice = any(one.sort == "juice" for one in items) and bool(words & {"canned", "bottled", "commercial", "bought"})
    return juice or bool(tags & {"canned-fruit", "commercial-juice", "concentrate"})


# Forms by size of piece, from fine to whole.
PIECES = {
    "puree": {"puree", "pureed", "pulp", "mashed", "sieved", "strained"},
    "crushed": {"crushed", "ground", "grated", "shredded", "minced"},
    "chopped": {"chopped", "diced", "cubed", "sliced", "slices", "cut"},
    "quartered": {"quartered", "quarters", "wedges"},
    "halved": {"halved", "halves"},
    "whole": {"whole"},
}
FINE = ("puree", "crushed")
SMALL = ("chopped", "quartered")
LARGE = ("halved", "whole")


def piece(items: tuple[Item, ...]) -> str:
    """The size of the pieces of the first of some lines that writes one in its forms; empty if none does."""
    for one in items:
        words = set(" ".join(one.line.forms).lower().replace("-", " ").split())
        for size, forms in PIECES.items():
            if words & forms:
                return size
    return ""


@rule("heat/pieces", decides=("piece-larger", "fruit-thicker", "unpeeled"))
def pieces_are_as_tested(case: Case) -> Iterator[Flag]:
    """Fruit goes in the pieces that were tested: not larger, not mashed to a puree, and peeled where it was.

    Heat moves slowly through a large piece or a thick mash, and peel carries more spores into the jar.
    """
    contrast = case.contrast
    if contrast is None:
        return
    # What is mashed or boiled soft anyhow sets otherwise, and no more.
    gelled = case.kind in (*GELLED_KINDS, "fruit butter")
    level, harm = ("quality", "soft-set") if gelled else ("", "")
    if not gelled:
        yield from _pureed(case, contrast)
    yield from _told_puree(case)
    for pair in [one for one in contrast.pairs if one.kept and _peeled(one.was)]:
        for aside in skins_left(case, pair.family):
            says = f"The tested formula takes {stated(pair.was)}: {aside.reading.text}"
            yield Flag("unpeeled", aside.span, says, (), before(case, pair.was), level=level, harm=harm)
    food = [one for one in contrast.pairs if one.kept and one.sort in ("fruit", "vegetable")]
    for pair in [one for one in food if one.was and one.now]:
        was, now = piece(pair.was), piece(pair.now)
        at = pair.now[0].line.span
        if was in (*FINE, *SMALL) and now in LARGE:
            yield Flag("piece-larger", at, _pieces(pair), (), before(case, pair.was), level=level, harm=harm)
        if now in FINE and was not in FINE and not gelled:
            yield Flag("fruit-thicker", at, _pieces(pair), (), before(case, pair.was), level=_thicker(case))
        elif now == "puree" and was not in ("", "puree") and case.kind in GELLED_KINDS:
            yield Flag("fruit-thicker", at, _pieces(pair), (), before(case, pair.was), level=level, harm=harm)
        same = {one.name for one in pair.now} <= {one.name for one in pair.was}
        if same and _peeled(pair.was) and _unpeeled(pair.now):
            yield Flag("unpeeled", at, _pieces(pair), (), before(case, pair.was), level=level, harm=harm)


# Of these the pieces were tested; a puree of another kind is what was tested.
IN_PIECES = ("canned fruit", "pickle", "pie filling", "salsa", "relish", "chutney")


def _thicker(case: Case) -> str:
    """The level of a thicker mash: that of the table where pieces stand in a thin liquid, else a step lower."""
    return "" if case.kind in ("canned fruit", "pickle", "pie filling", "tomato") else "untested"


def _told_puree(case: Case) -> Iterator[Flag]:
    """Steps that puree pieces."""
    for aside in pureed(case) if case.kind in IN_PIECES else ():
        says = f"No step of the tested formula makes a puree of it: {aside.reading.text}"
        yield Flag("fruit-thicker", aside.span, says, level=_thicker(case))


def _pureed(case: Case, contrast: Contrast) -> Iterator[Flag]:
    """A puree that took the place of the same food in pieces, under a name of its own."""
    purees = [one for one in contrast.pairs if one.has("puree", "tomato-product") and not one.has("tomato-paste")]
    for pair in [one for one in purees if one.added]:
        gone = next((other for other in contrast.pairs if other.dropped and _alike(other, pair)), None)
        if gone:
            text = f"The tested formula takes {stated(gone.was)}, this one {stated(pair.now)}."
            at = pair.now[0].line.span
            yield Flag("fruit-thicker", at, text, (), before(case, gone.was), level=_thicker(case))


def _alike(one: Pair, other: Pair) -> bool:
    """Whether two pairs are one food by family, or both tomato."""
    return one.family == other.family or (one.has("tomato") and other.has("tomato", "tomato-product"))


def _pieces(pair: Pair) -> str:
    return f"The tested formula takes {stated(pair.was)}, this one {stated(pair.now)}."


def _peeled(items: tuple[Item, ...]) -> bool:
    words = set(" ".join(f"{one.line.item} {' '.join(one.line.forms)}" for one in items).lower().split())
    return bool(words & {"peeled", "pared", "skinned"})


def _unpeeled(items: tuple[Item, ...]) -> bool:
    text = " ".join(f"{one.line.item} {' '.join(one.line.forms)}" for one in items).lower()
    return any(
        word in text
        for word in ("unpeeled", "not peeled", "skins on", "skin on", "with skin", "with peel", "unskinned")
    ) or not _peeled(items)
