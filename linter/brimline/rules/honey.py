"""Honey and corn syrup in place of sugar: how much of each the published notes allow, by product and pectin."""

from collections.abc import Iterator
from fractions import Fraction

from brimline.batch.words import decimal, number
from brimline.findings import Flag
from brimline.moves.listing import stated
from brimline.moves.printed import CUP_ML
from brimline.moves.values import Case
from brimline.rules.contract import rule
from brimline.rules.say import before, figure
from brimline.rules.sugar import FLAVOUR
from brimline.rules.sugar_swap import Swap, cups_words, swap

HONEY = "honey_added_pectin_2_cups"
HALF_HONEY = "honey_no_added_pectin"
HALF_SYRUP = "corn_syrup_powdered_pectin"
QUARTER_SYRUP = "corn_syrup_no_pectin"

PARTS = {Fraction(1, 2): "half", Fraction(1, 4): "a quarter"}
ROUNDING = Fraction(102, 100)
LOW_SUGAR = ("pectin-low-sugar", "pectin-calcium")


def within(case: Case, share: Fraction, figure: str) -> bool:
    """Whether a share of the sugar is within a published one, to the rounding of a kitchen."""
    return share <= case.printed(figure, "share at most").high * ROUNDING


def limit_words(case: Case, figure: str, where: str = "") -> str:
    """`The published limit without added pectin is half`."""
    share = case.printed(figure, "share at most").high
    return f"The published limit {where} is {PARTS.get(share, number(share))}".replace("  ", " ")


def honey_cups(case: Case) -> Fraction:
    """The published cups of honey for regular pectin: fewer in a batch of as few jars as the publication says."""
    yields = case.tested.yields if case.tested else None
    few = case.printed(HONEY, "small batch").high * CUP_ML
    small = yields is not None and yields.high * yields.jar.volume_ml <= few * Fraction(101, 100)
    return case.printed(HONEY, "at most in a small batch" if small else "at most").high / CUP_ML


def at_batch(limit: Fraction, case: Case) -> Fraction:
    """A per-batch limit, restated for one whole tested batch."""
    scale = case.compared.scale
    return limit / max(Fraction(1), scale)


@rule(
    "sugar/honey",
    decides=(
        "honey-half",
        "honey-over-half",
        "honey-pectin",
        "honey-pectin-over",
        "honey-low-sugar-pectin",
        "sweetener-canned",
    ),
)
def honey_stays_within_limits(case: Case) -> Iterator[Flag]:
    """Honey replaces at most half of the sugar, cup for cup, and with regular pectin at most the published cups.

    Honey brings water and thins the fruit's pectin and acid, so beyond these limits the spread may stay soft.
    """
    found = swap(case)
    if found is None or not found.honey or case.kind == "fruit curd":
        return
    row, level, limit = _honey_row(case, found)
    if not row or (found.syrup and not within(case, found.removed, HALF_HONEY)):
        # Honey and syrup together beyond half are sugar/syrup's.
        return
    pair = found.honey_pairs[0]
    yield Flag(
        row,
        pair.now[0].line.span,
        f"Honey takes the place of {decimal(found.removed * 100, 0)} % of the sugar: {cups_words(found.honey)} of honey "
        f"for {cups_words(found.sugar_cups)} of sugar in a whole batch, by volume. {limit}",
        (figure("sugar removed", decimal(found.removed * 100, 1), "%"), figure("honey", decimal(found.honey), "cup")),
        before(case, pair.was),
        level=level,
    )


def _honey_row(case: Case, found: Swap) -> tuple[str, str, str]:
    if case.kind == "canned fruit":
        fits = within(case, found.removed, "syrup_sweeteners")
        return "sweetener-canned", "silent" if fits else "quality", f"{limit_words(case, 'syrup_sweeteners')}."
    if case.kind in FLAVOUR:
        return "", "", ""
    if case.pectin in LOW_SUGAR:
        return "honey-low-sugar-pectin", "", "A low-sugar pectin takes only what its own tested formula states."
    if not within(case, found.removed, HALF_HONEY):
        return "honey-over-half", "", f"{limit_words(case, HALF_HONEY)} of the sugar."
    if not found.fits:
        return "honey-over-half", "", "More honey came in than sugar went out; the published swap is cup for cup."
    if case.pectin in ("pectin-powder", "pectin-liquid"):
        limit = honey_cups(case)
        allowed = at_batch(limit, case)
        text = f"The published limit with added pectin is {cups_words(limit)} a batch."
        if found.honey > allowed * ROUNDING:
            return "honey-pectin-over", "", text
        return "honey-pectin", "silent", text
    return "honey-half", "silent", f"{limit_words(case, HALF_HONEY, 'without added pectin')} of the sugar."


@rule("sugar/syrup", decides=("syrup-no-pectin", "syrup-no-pectin-over", "syrup-powder", "syrup-liquid", "syrup-over"))
def syrup_stays_within_limits(case: Case) -> Iterator[Flag]:
    """Corn syrup replaces a quarter of the sugar in jam and jelly without added pectin, half elsewhere.

    Syrup is less sweet and brings water; beyond these limits the taste is masked and the gel changes.
    """
    found = swap(case)
    if found is None or not found.syrup or case.kind == "fruit curd":
        return
    row, level, limit = _syrup_row(case, found)
    if not row:
        return
    pair = found.syrup_pairs[0]
    yield Flag(
        row,
        pair.now[0].line.span,
        f"Corn syrup takes the place of {decimal(found.removed * 100, 0)} % of the sugar: {cups_words(found.syrup)} of "
        f"{stated(pair.now)} for {cups_words(found.sugar_cups)} of sugar in a whole batch. {limit}",
        (figure("sugar removed", decimal(found.removed * 100, 1), "%"), figure("syrup", decimal(found.syrup), "cup")),
        before(case, pair.was),
        level=level,
    )


def _syrup_row(case: Case, found: Swap) -> tuple[str, str, str]:
    if case.kind == "canned fruit":
        over = not within(case, found.removed, "syrup_sweeteners")
        return ("syrup-over", "quality", f"{limit_words(case, 'syrup_sweeteners')}.") if over else ("", "", "")
    if case.kind in FLAVOUR:
        return "", "", ""
    if not within(case, found.removed, HALF_SYRUP) or not found.fits:
        text = f"{limit_words(case, HALF_SYRUP)} of the sugar, cup for cup, honey and syrup together."
        return "syrup-over", "", text
    if case.pectin == "pectin-powder":
        return "syrup-powder", "silent", f"{limit_words(case, HALF_SYRUP, 'with powdered pectin')}."
    if case.pectin == "pectin-liquid":
        limit = case.printed("corn_syrup_liquid_pectin", "at most").high / CUP_ML
        over = found.syrup > at_batch(limit, case) * ROUNDING
        text = f"The published limit with liquid pectin is {cups_words(limit)}."
        return "syrup-liquid", "quality" if over else "silent", text
    if case.pectin:
        return "syrup-over", "", "A low-sugar pectin takes only what its own tested formula states."
    if case.kind not in ("jam", "jelly"):
        text = f"{limit_words(case, 'corn_syrup_other_spreads')} in other spreads."
        return "syrup-no-pectin", "silent", text
    text = f"{limit_words(case, QUARTER_SYRUP, 'in jam and jelly without added pectin')}."
    if not within(case, found.removed, QUARTER_SYRUP):
        return "syrup-no-pectin-over", "", text
    return "syrup-no-pectin", "silent", text


@rule("sugar/honey-words", decides=("honey-dark", "honey-infant"))
def honey_says_who_it_is_not_for(case: Case) -> Iterator[Flag]:
    """A formula with honey says that it is not for children under 12 months, and uses a mild honey.

    Honey can carry spores that make infants ill; dark honey covers the taste of the fruit.
    """
    document = case.document
    honey = [one for one in case.batch.items if "honey" in one.tags]
    if not honey:
        return
    texts = [step.text for step in document.make] + [note for one in case.batch.items for note in one.line.note]
    texts += [document.title, *(keep.text for keep in document.keep), *(change.text for change in document.changes)]
    if not any(_names_infants(text.lower()) for text in texts):
        yield Flag(
            "honey-infant", honey[0].line.span, "Honey, and no word that it is not for children under 12 months."
        )
    for one in honey:
        if "honey-dark" in one.tags:
            yield Flag("honey-dark", one.line.span, f"{one.line.item} is dark or strong honey.", ())


INFANT = ("infant", "baby", "babies")
CHILD = ("child", "toddler")
FIRST_YEAR = ("12 month", "twelve month", "one year", "1 year", "first year", "a year old", "first birthday")


def _names_infants(text: str) -> bool:
    """Whether a sentence says that something is not for children in their first year."""
    words = INFANT if not any(age in text for age in FIRST_YEAR) else (*INFANT, *CHILD)
    return any(word in text for word in words)
