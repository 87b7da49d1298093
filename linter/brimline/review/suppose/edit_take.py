"""Edits of how much goes in, each a function from a formula and what was asked to the edited formula."""

from collections.abc import Sequence
from fractions import Fraction

from msgspec.structs import replace

from brimline.batch.words import listed
from brimline.document.values import Document, Line
from brimline.review.suppose import speak
from brimline.review.suppose.edit_say import absent, cup_weight, roles, shown, spoken, why_silent
from brimline.review.suppose.lines import changed, every, is_acid, meant, ml, plain, sort, tags, times, volume, wanted
from brimline.review.suppose.values import Asked, AskError, Made

_HALF = Fraction(1, 2)


def amount(document: Document, asked: Asked) -> Made:
    """A share, or a multiple, of what the formula has of something."""
    factor = asked.share if asked.share is not None else _HALF
    if not factor:
        return out(document, asked)
    want = wanted(asked.what, document)
    lines = meant(document, want)
    what = spoken(asked.what)
    if not any(line.amount and not line.amount.some for line in lines):
        return absent(document, asked, lines)
    made = changed(document, want, lambda line: (times(line, factor),))
    more = {Fraction(2): "twice", Fraction(3): "three times", Fraction(3, 2): "one and a half times"}
    share = f"{more.get(factor) or speak.share(factor)} the {what}"
    return Made(
        made, f"with {share}", _instead(made, shown(document, lines)), roles(lines), why_silent(lines, factor < 1)
    )


def part(document: Document, asked: Asked) -> Made:
    """So much less, more, or just so much of something. Raises AskError for more than there is."""
    want = wanted(asked.what, document)
    lines = [line for line in meant(document, want) if line.amount and not line.amount.some]
    if not lines:
        return absent(document, asked, lines)
    if asked.unit == "":
        raise AskError(f'"{asked.said}" has no measure that is known; say it in cups, tablespoons or ounces')
    if any(line.amount.per for line in lines if line.amount):
        raise AskError(f"the formula has {speak.stuffs(lines)}; ask for a share of it, such as half")
    have = [ml(volume(line.amount, cup_weight(line))) for line in lines]
    size = ml(volume(plain(asked.number or Fraction(0), asked.unit), cup_weight(lines[0])))
    if size is None or not all(have):
        raise AskError(f"the formula measures its {spoken(asked.what)} in another way; ask for a share, such as half")
    total = sum((one or Fraction(0) for one in have), Fraction(0))
    left = {"less": total - size, "more": total + size}.get(asked.of, size)
    if left < 0:
        raise AskError(f"the formula has only {speak.stuffs(lines)}; ask for less than that")
    if not left:
        return out(document, asked)
    made = amount(document, replace(asked, share=left / total))
    word = {"less": "less ", "more": "more "}.get(asked.of, "of ")
    said = f"{speak.amount(plain(asked.number or Fraction(0), asked.unit))} {word}{spoken(asked.what)}"
    return replace(made, phrase=f"with {said}")


def out(document: Document, asked: Asked) -> Made:
    """Something left out."""
    want = wanted(asked.what, document)
    lines = meant(document, want)
    if not lines:
        return absent(document, asked, lines)
    made = changed(document, want, lambda _: ())
    names = spoken(asked.what)
    optional = all("optional" in line.flags for line in lines)
    silent = (*(("optional-dropped",) if optional else ()), *why_silent(lines, less=True))
    fact = f"the tested formula has {speak.stuffs(shown(document, lines))}"
    return Made(made, f"without the {names}", fact, roles(lines), silent)


def fresh(document: Document, asked: Asked) -> Made:
    """Juice squeezed from fresh fruit for the juice that was written."""

    def juice(line: Line) -> bool:
        return is_acid(line) and asked.what in tags(line)

    lines = meant(document, juice)
    if not lines:
        return absent(document, replace(asked, what=f"{asked.what} juice"), lines)

    def squeezed(line: Line) -> tuple[Line, ...]:
        return (replace(line, forms=("fresh", *(form for form in line.forms if form != "bottled"))),)

    made = changed(document, juice, squeezed)
    fact = f"the tested formula has {speak.stuffs(shown(document, lines))}"
    return Made(made, f"with fresh {asked.what} juice", fact, ("acid",), ("fresh-for-unstated",))


def frozen(document: Document, asked: Asked) -> Made:
    """The same fruit frozen unsweetened instead of fresh."""
    want = wanted("fruit" if asked.what in ("fruit", "berries") else asked.what, document)

    def fruit(line: Line) -> bool:
        return want(line) and sort(line) in ("fruit", "vegetable") and not line.made_of

    lines = meant(document, fruit)
    if not lines:
        return absent(document, asked, lines)
    made = changed(document, fruit, lambda line: (replace(line, forms=("frozen, unsweetened", *line.forms)),))
    split = changed(made, lambda line: "frozen, unsweetened" in line.forms, _apart)
    return Made(split, "with the same fruit frozen unsweetened", "", roles(lines), ("fruit-frozen",))


def _apart(line: Line) -> tuple[Line, ...]:
    forms = tuple(one for form in line.forms for one in form.split(", "))
    return (replace(line, forms=forms),)


def _instead(made: Document, before: Sequence[Line]) -> str:
    """The amounts now and before: `4 1/4 cups of granulated sugar instead of 8 1/2 cups`."""
    after = {(line.item, line.forms): line for line in every(made)}
    now = [after[(line.item, line.forms)] for line in before if (line.item, line.forms) in after]
    return f"{speak.stuffs(now)} instead of {listed([speak.amount(line.amount) for line in before])}"
