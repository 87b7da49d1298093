"""Edits of the whole batch and of its pectin, each a function from a formula and what was asked."""

from fractions import Fraction

from msgspec.structs import replace

from brimline.document.values import Amount, Document, Line, Measure, Pack
from brimline.review.suppose import speak
from brimline.review.suppose.lines import NOWHERE, changed, entry, meant, scaled, sort, tags
from brimline.review.suppose.values import Asked, AskError, Made


def batch(document: Document, asked: Asked) -> Made:
    """Everything multiplied alike; what is stated for a jar or for a measure of something else stays."""
    by = asked.share or Fraction(1)
    if not Fraction(1, 20) <= by <= 50:
        raise AskError("a batch can be asked from a twentieth to fifty times the tested one")

    def one(line: Line) -> Line:
        fixed = line.amount is None or line.amount.per is not None
        return replace(
            line,
            amount=line.amount if fixed else scaled(line.amount, by),
            other=tuple(map(one, line.other)),
            made_of=tuple(map(one, line.made_of)),
        )

    yields = document.yields
    if yields is not None:
        yields = replace(yields, low=_whole(yields.low * by), high=_whole(yields.high * by))
    made = replace(document, take=tuple(map(one, document.take)), yields=yields)
    names = {Fraction(2): "in a double batch", Fraction(3): "in a triple batch", Fraction(1, 2): "in half a batch"}
    word = "batches" if by > 1 else "batch"
    phrase = names.get(by, f"in {speak.number(by)} {word} at once" if by > 1 else f"in {speak.number(by)} of a {word}")
    first = next((line for line in document.take if line.amount and not line.amount.some and not line.amount.per), None)
    fact = "" if first is None else f"{speak.stuff(one(first))} instead of {speak.amount(first.amount)}, and so on"
    silent = ("whole-scaled",) if by > 1 else ("batch-smaller",) if by < 1 else ()
    return Made(made, phrase, fact, ("batch",), silent)


def _whole(count: Fraction) -> Fraction:
    """A number of jars, in halves at the least."""
    return max(Fraction(round(count * 2), 2), Fraction(1, 2))


def pectin(document: Document, asked: Asked) -> Made:
    """Pectin of another kind: liquid for powder, powder for liquid or low-sugar, powder where there is none."""
    lines = meant(document, lambda line: sort(line) == "pectin" and "pectin-home" not in tags(line))
    have = {tag for line in lines for tag in tags(line)}
    kind = asked.what
    if kind == "other":
        kind = "liquid" if "pectin-powder" in have else "powdered"
    line = _PECTIN[kind]
    found = entry(line)
    if lines and found is not None and all((one := entry(old)) and one.tags & found.tags for old in lines):
        return Made(document, "", absent=f"the tested formula has {speak.stuffs(lines)} already")
    if lines:
        first = lines[0]
        made = changed(document, lambda one: sort(one) == "pectin", lambda one: (line,) if one == first else ())
        fact = f"{speak.stuff(line)} instead of {speak.stuffs(lines)}"
        phrase = f"with {speak.name(line)} for the {speak.name(first)}"
    else:
        made = replace(document, take=(*document.take, line))
        fact, phrase = "the tested formula has none", f"with {speak.name(line)} added"
    return Made(made, phrase, fact, ("pectin",), ("pectin-bulk",), topics=("pectin",))


def _box(item: str, forms: tuple[str, ...], unit: str, size: Fraction, of: str) -> Line:
    amount = Amount((Measure(Fraction(1), Fraction(1), unit, Pack(size, of)),))
    return Line("pectin", amount, item, forms, NOWHERE, NOWHERE, NOWHERE)


# The usual packages: 1 3/4 oz of powder, 3 fl oz of liquid (USDA Complete Guide, Guide 7, pp. 7-8 to 7-10; read).
_PECTIN = {
    "liquid": _box("pectin", ("liquid",), "pouch", Fraction(3), "fl oz"),
    "powdered": _box("pectin", ("regular powdered",), "box", Fraction(7, 4), "oz"),
    "low-sugar": _box("pectin", ("low-sugar powdered",), "box", Fraction(7, 4), "oz"),
}
