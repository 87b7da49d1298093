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
    out = []
    for pair in contrast.pairs:
        if not pair.added or not pair.kept or not pair.now:
            continue
        unknown = any(one.entry is None and one.line.role in ("fruit", "juice") for one in pair.now)
        tomato = pair.has("tomato", "tomatillo") and not pair.has("dehydrated")
        if pair.sort in ("fruit", "juice") or unknown or tomato or pair.has("no-process"):
            out.append(pair)
    return out


@rule("low-acid/no-process", decides=("fruit-no-process",))
def fruit_has_a_process(case: Case) -> Iterator[Flag]:
    """No fruit goes in that has no tested canning process: white peach, elderberry, banana, ripe mango, melon, squash.

    These are not acid enough, and no amount of acid or time has been tested that would make them keep.
    """
    for pair in new_fruit(case):
        if _no_process(pair, case):
            yield Flag("fruit-no-process", pair.now[0].line.span, _words(case, pair), (), before(case, _gone(case)))


def _no_process(pair: Pair, case: Case) -> bool:
    if not pair.has("no-process"):
        return False
    # Coconut flakes as a nut, melon or squash in a tested vinegar pack are other rows' business.
    return not (pair.has("coconut") and case.kind in GELLED_KINDS)


@rule("low-acid/fruit", decides=("fruit-low-acid-other",))
def fruit_is_high_acid(case: Case) -> Iterator[Flag]:
    """No fruit goes in, beyond what was tested, that is not high-acid or that the table does not know.

    A fruit that is not sour enough raises the pH of the whole jar.
    """
    for pair in new_fruit(case):
        if not _no_process(pair, case) and pair.safety != "high-acid" and not _salsa_tomato(pair, case):
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
        if pair.safety == "high-acid" and not _no_process(pair, case) and not _same_fruit(pair, case):
            if case.kind == "fruit curd" or pair.now[0].line.role == "acid" or _for_acid(pair, case):
                continue
            if pair.sort == "juice" and case.kind == "canned fruit":
                continue
            yield Flag("fruit-other", pair.now[0].line.span, _words(case, pair), (), before(case, _gone(case)))


def _for_acid(pair: Pair, case: Case) -> bool:
    """Whether a juice stands where an acid was left out; acid/swapped speaks of that."""
    gone = [one for one, _ in fallen(case) if not one.now]
    return pair.sort == "juice" and bool(gone)


def _same_fruit(pair: Pair, case: Case) -> bool:
    """Whether the new fruit is a tested one by another name: frozen, peeled, of another colour."""
    mine = _parts(pair.now[0])
    for one in (one for other in case.compared.pairs for one in other.was):
        theirs = _parts(one)
        if mine[0] == theirs[0] and not set(mine[1:]).symmetric_difference(theirs[1:]) - PLAIN:
            return True
    return False


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
    for group in case.batch.groups:
        if not group.kept or not _bought(group.items):
            continue
        tested = case.contrast.tested.groups if case.contrast else ()
        if any(one.name == group.name and _bought(one.items) for one in tested):
            continue
        yield Flag(
            "fruit-canned-no-pectin",
            group.items[0].line.span,
            f"{stated(group.items)} and no added pectin.",
            (),
        )


def _bought(items: tuple[Item, ...]) -> bool:
    """Whether fruit or juice is canned, bottled or bought, by its entry or by its forms."""
    words = {word for one in items for form in one.line.forms for word in form.lower().split()}
    tags = {tag for one in items for tag in one.tags}
    juice = any(one.sort == "juice" for one in items) and bool(words & {"canned", "bottled", "commercial", "bought"})
    return juice or bool(tags & {"canned-fruit", "commercial-juice", "concentrate"})


# Forms by size of piece, from fine to whole; a form later in the list than the tested one is a larger piece.
PIECES = (
    ("puree", "pureed", "pulp", "mashed", "sieved", "strained"),
    ("crushed", "ground", "grated", "shredded", "minced"),
    ("chopped", "diced", "cubed", "sliced", "slices", "cut"),
    ("quartered", "quarters", "wedges"),
    ("halved", "halves"),
    ("whole",),
)
PUREE, CHOPPED, HALVED = 0, 2, 4


def piece(items: tuple[Item, ...]) -> int | None:
    """The size class of the pieces of some lines, by their forms; None if none is written."""
    for one in items:
        words = set(" ".join(one.line.forms).lower().replace("-", " ").split())
        for size, forms in enumerate(PIECES):
            if words & set(forms):
                return size
    return None


@rule("heat/pieces", decides=("piece-larger", "fruit-thicker", "unpeeled"))
def pieces_are_as_tested(case: Case) -> Iterator[Flag]:
    """Fruit goes in the pieces that were tested: not larger, not mashed to a puree, and peeled where it was.

    Heat moves slowly through a large piece or a thick mash, and peel carries more spores into the jar.
    """
    contrast = case.contrast
    if contrast is None:
        return
    gelled = case.kind in GELLED_KINDS or case.kind == "fruit butter"
    yield from _pureed(case, contrast, gelled)
    yield from _told(case, contrast, gelled)
    for pair in contrast.pairs:
        if not pair.kept or not pair.was or not pair.now or pair.sort not in ("fruit", "vegetable"):
            continue
        was, now = piece(pair.was), piece(pair.now)
        at = pair.now[0].line.span
        if was is not None and now is not None and was < HALVED <= now:
            level = "quality" if gelled else ""
            yield Flag(
                "piece-larger",
                at,
                _pieces(pair),
                (),
                before(case, pair.was),
                level=level,
                harm="soft-set" if gelled else "",
            )
        if now is not None and now <= 1 and (was is None or was >= CHOPPED) and not gelled:
            level = "" if case.kind in ("canned fruit", "pickle", "pie filling", "tomato") else "untested"
            yield Flag("fruit-thicker", at, _pieces(pair), (), before(case, pair.was), level=level)
        elif now == PUREE and was and gelled and case.kind != "fruit butter":
            yield Flag("fruit-thicker", at, _pieces(pair), (), before(case, pair.was), level="quality", harm="soft-set")
        if _peeled(pair.was) and _unpeeled(pair.now) and {o.name for o in pair.was} == {o.name for o in pair.now}:
            yield Flag(
                "unpeeled",
                at,
                _pieces(pair),
                (),
                before(case, pair.was),
                level="quality" if gelled else "",
                harm="soft-set" if gelled else "",
            )


# Of these the pieces were tested; a puree of another kind is what was tested.
IN_PIECES = ("canned fruit", "pickle", "pie filling", "salsa", "relish", "chutney")


def _told(case: Case, contrast: Contrast, gelled: bool) -> Iterator[Flag]:
    """Steps that puree pieces, or leave the skins on what was peeled."""
    for aside in pureed(case) if case.kind in IN_PIECES else ():
        says = f"No step of the tested formula makes a puree of it: {aside.reading.text}"
        level = "" if case.kind in ("canned fruit", "pickle", "pie filling") else "untested"
        yield Flag("fruit-thicker", aside.span, says, level=level)
    for pair in contrast.pairs:
        if not pair.kept or not _peeled(pair.was):
            continue
        for aside in skins_left(case, pair.family):
            level, harm = ("quality", "soft-set") if gelled else ("", "")
            says = f"The tested formula takes {stated(pair.was)}: {aside.reading.text}"
            yield Flag("unpeeled", aside.span, says, (), before(case, pair.was), level=level, harm=harm)


def _pureed(case: Case, contrast: Contrast, gelled: bool) -> Iterator[Flag]:
    """A puree that took the place of the same food in pieces, under a name of its own."""
    for pair in contrast.pairs:
        if not pair.added or not pair.has("puree", "tomato-product") or gelled or pair.has("tomato-paste"):
            continue
        gone = [other for other in contrast.pairs if other.was and not other.now and _alike(other, pair)]
        if gone:
            level = "" if case.kind in ("canned fruit", "pickle", "pie filling", "tomato") else "untested"
            text = f"The tested formula takes {stated(gone[0].was)}, this one {stated(pair.now)}."
            yield Flag("fruit-thicker", pair.now[0].line.span, text, (), before(case, gone[0].was), level=level)


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
