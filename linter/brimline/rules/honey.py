"""Honey and corn syrup in place of sugar: how much of each the published notes allow, by product and pectin."""

from collections.abc import Iterator
from fractions import Fraction

from brimline.batch.words import decimal
from brimline.findings import Flag
from brimline.moves.listing import stated
from brimline.moves.values import Case
from brimline.rules.contract import rule
from brimline.rules.say import before, figure
from brimline.rules.sugar import FLAVOUR, HALF_LIMIT, Swap, cups_words, swap

QUARTER_LIMIT = Fraction(1, 4) * Fraction(102, 100)
ROUNDING = Fraction(102, 100)
LOW_SUGAR = ("pectin-low-sugar", "pectin-calcium")
SMALL_BATCH_ML = 6 * Fraction("236.5882365")


def honey_cups(case: Case) -> Fraction:
    """The published cups of honey for regular pectin: 2, or 1 in a batch of six half-pints or fewer.

    Michigan State University Extension 01600540; Oregon State through University of Wyoming (read). The limit shrinks
    with the batch and never grows with it.
    """
    yields = case.tested.yields if case.tested else None
    small = yields is not None and yields.high * yields.jar.volume_ml <= SMALL_BATCH_ML * Fraction(101, 100)
    return Fraction(1) if small else Fraction(2)


def at_batch(limit: Fraction, case: Case) -> Fraction:
    """A per-batch limit, restated for one whole tested batch."""
    scale = case.contrast.scale if case.contrast else Fraction(1)
    return limit * min(Fraction(1), scale) / scale


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
    if found is None or not found.honey or not found.honey_pairs or case.kind == "fruit curd":
        return
    row, level, limit = _honey_row(case, found)
    if not row or (found.syrup and found.removed > HALF_LIMIT):
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
        return "sweetener-canned", "quality" if found.removed > HALF_LIMIT else "silent", "The published limit is half."
    if case.kind in FLAVOUR:
        return "", "", ""
    if case.pectin in LOW_SUGAR:
        return "honey-low-sugar-pectin", "", "A low-sugar pectin takes only what its own tested formula states."
    if found.removed > HALF_LIMIT:
        return "honey-over-half", "", "The published limit is half of the sugar."
    if not found.fits:
        return "honey-over-half", "", "More honey came in than sugar went out; the published swap is cup for cup."
    if case.pectin in ("pectin-powder", "pectin-liquid"):
        limit = honey_cups(case)
        allowed = at_batch(limit, case)
        text = f"The published limit with added pectin is {cups_words(limit)} a batch."
        if found.honey > allowed * ROUNDING:
            return "honey-pectin-over", "", text
        return "honey-pectin", "silent", text
    return "honey-half", "silent", "The published limit without added pectin is half of the sugar."


@rule("sugar/syrup", decides=("syrup-no-pectin", "syrup-no-pectin-over", "syrup-powder", "syrup-liquid", "syrup-over"))
def syrup_stays_within_limits(case: Case) -> Iterator[Flag]:
    """Corn syrup replaces a quarter of the sugar in jam and jelly without added pectin, half elsewhere.

    Syrup is less sweet and brings water; beyond these limits the taste is masked and the gel changes.
    """
    found = swap(case)
    if found is None or not found.syrup or not found.syrup_pairs or case.kind == "fruit curd":
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
        over = found.removed > HALF_LIMIT
        return ("syrup-over", "quality", "The published limit is half.") if over else ("", "", "")
    if case.kind in FLAVOUR:
        return "", "", ""
    if found.removed > HALF_LIMIT or not found.fits:
        return "syrup-over", "", "The published limit is half of the sugar, cup for cup, honey and syrup together."
    if case.pectin == "pectin-powder":
        return "syrup-powder", "silent", "The published limit with powdered pectin is half."
    if case.pectin == "pectin-liquid":
        over = found.syrup > at_batch(Fraction(2), case) * ROUNDING
        return "syrup-liquid", "quality" if over else "silent", "The published limit with liquid pectin is 2 cups."
    if case.pectin:
        return "syrup-over", "", "A low-sugar pectin takes only what its own tested formula states."
    if case.kind not in ("jam", "jelly"):
        return "syrup-no-pectin", "silent", "The published limit is half in other spreads."
    if found.removed > QUARTER_LIMIT:
        return "syrup-no-pectin-over", "", "The published limit in jam and jelly without added pectin is a quarter."
    return "syrup-no-pectin", "silent", "The published limit in jam and jelly without added pectin is a quarter."


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


CHILD = ("infant", "child", "baby", "babies", "toddler")
FIRST_YEAR = ("12 month", "twelve month", "one year", "1 year", "first year", "a year old", "first birthday")


def _names_infants(text: str) -> bool:
    """Whether a sentence says that something is not for children in their first year."""
    return any(word in text for word in ("infant", "baby", "babies")) or (
        any(word in text for word in CHILD) and any(age in text for age in FIRST_YEAR)
    )
