"""Honey, syrup or a substitute for sugar: by volume, cup for cup, as published limits count it."""

from fractions import Fraction

from msgspec.structs import replace

from brimline.document.values import Document, Line
from brimline.review.suppose import speak
from brimline.review.suppose.edit_say import absent, cup_weight, is_entry, spoken, with_step
from brimline.review.suppose.lines import (
    changed,
    fresh_line,
    is_sugar,
    meaning,
    meant,
    ml,
    plain,
    scaled,
    times,
    volume,
)
from brimline.review.suppose.values import Asked, AskError, Made

_HALF = Fraction(1, 2)


def sweeten(document: Document, asked: Asked) -> Made:
    """Honey, syrup or a substitute for some of the sugar: by volume, cup for cup, as published limits count it."""
    lines = [line for line in meant(document, is_sugar) if line.amount and not line.amount.some]
    if not lines:
        return absent(document, replace(asked, what="sugar"), lines)
    found = meaning(asked.what)
    share = _share(asked, lines)

    def exchange(line: Line) -> tuple[Line, ...]:
        whole = volume(line.amount, cup_weight(line)) or line.amount
        part = scaled(whole, share)
        if part is None:
            return (line,)
        packed = ("packed",) if "brown" in found.tags else ()
        new = replace(fresh_line(asked.what, "sweetener", part, packed), flags=line.flags)
        return (new,) if share == 1 else (times(line, 1 - share), new)

    made = changed(document, is_sugar, exchange)
    made = with_step(made, f"Add the {spoken(asked.what)} with the sugar.") if share < 1 else made
    came = meant(made, lambda line: is_entry(line, found.name))
    fact = f"{speak.stuffs(came)}; the tested formula has {speak.stuffs(lines)}"
    of = f"{speak.share(share)} the sugar"
    silent = {"honey": ("honey-half", "honey-pectin", "sweetener-canned")}.get(found.family, ())
    other = (
        ("sugar-substitute-flavour",)
        if "non-sugar" in found.tags
        else ("syrup-no-pectin", "syrup-powder", "syrup-liquid")
    )
    silent = (*silent, *other, "sugar-grain", "sugar-cut-flavour")
    return Made(
        made,
        f"with {spoken(asked.what)} for {of}",
        fact,
        ("sweetener",),
        silent,
    )


def _share(asked: Asked, lines: list[Line]) -> Fraction:
    """The share of the sugar that goes. Raises AskError for more than there is."""
    if asked.share is not None:
        return min(asked.share, Fraction(1))
    if asked.number is None:
        return Fraction(1)
    if any(line.amount.per for line in lines if line.amount):
        raise AskError(
            f"the formula has {speak.stuffs(lines)}; ask for a share of it, such as honey for half the sugar"
        )
    sizes = [ml(volume(line.amount, cup_weight(line))) for line in lines]
    size = ml(volume(plain(asked.number, asked.unit or "cup"), Fraction(200)))
    total = sum((one or Fraction(0) for one in sizes), Fraction(0))
    if not total or size is None:
        raise AskError(
            "the formula measures its sugar in another way; ask for a share, such as honey for half the sugar"
        )
    if size > total:
        raise AskError(f"the formula has only {speak.stuffs(lines)}; ask for less than that")
    return size / total
