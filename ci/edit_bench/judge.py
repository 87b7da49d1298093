"""The acid class and the other terms of the decision table, worked out from the definitions by themselves.

Written from the definitions alone and used by the edit benchmark only, so that a slip in the reviewing rules and a slip
here do not agree by being one and the same.
"""

from fractions import Fraction

from msgspec import Struct

from brimline.document.values import Line
from edit_bench.pantry import (
    NOTHING,
    Grams,
    cups,
    dimension,
    grams,
    is_acid,
    is_sour,
    is_sugar,
    match,
    safety,
    sort,
    tags,
)
from edit_bench.sheet import Sheet

VEGETABLE_KINDS = ("chutney", "relish", "salsa", "pickle", "fermented pickle", "pie filling", "fruit curd", "tomato")
GELLING_KINDS = ("jelly", "jam", "preserves", "marmalade", "conserve", "spread")
FLAVOUR_KINDS = ("relish", "salsa", "sauce", "pickle", "pie filling", "canned fruit", "tomato", "juice", "puree")
LIGHT_BASE = (*GELLING_KINDS, "fruit syrup", "fruit butter")
_SEASONING = frozenset({"spice", "salt", "colour", "flavouring"})
_KEPT_PRESENT = frozenset({"vegetable", "onion", "garlic", "mushroom", "pepper-sweet", "pepper-hot"})
_LOW_SUGAR = frozenset({"pectin-low-sugar", "pectin-calcium", "gelatin", "agar"})
_TEASPOON = Fraction(1, 48)


class Terms(Struct, frozen=True):
    """What the decision table reads from a formula.

    `acid_class` is empty where unknown weights leave it open; then `acid_classes` holds what it may be.
    """

    kind: str
    gelled: bool
    acid_classes: frozenset[str]
    fixed_boil: bool
    pectin: frozenset[str]

    @property
    def acid_class(self) -> str:
        """The one acid class, empty if it is open."""
        return next(iter(self.acid_classes)) if len(self.acid_classes) == 1 else ""


def terms(sheet: Sheet) -> Terms:
    """The terms of a formula."""
    kind = sheet.header("product")
    gelled = is_gelled(sheet)
    fixed = sheet.header("finish").startswith(("full rolling", "boil", "simmer"))
    pectin = frozenset().union(*(tags(line) & _SETTING for line in sheet.take if sort(line) in ("pectin", "gelling")))
    return Terms(kind, gelled, _classes(sheet, kind, gelled, fixed), fixed, pectin)


_SETTING = frozenset(
    {"pectin-powder", "pectin-liquid", "pectin-low-sugar", "pectin-calcium", "pectin-home", "gelatin", "agar"}
)


def required_sugar(sheet: Sheet) -> bool:
    """Whether the formula requires sugar, honey or syrup: above zero at the low end."""
    return any(_required(line) for line in sheet.take if is_sugar(line))


def _required(line: Line) -> bool:
    if "optional" in line.flags or line.amount is None or not line.amount.parts:
        return False
    return all(part.low > 0 for part in line.amount.parts)


def is_gelled(sheet: Sheet) -> bool:
    """Whether the formula is a gelled product in the sense of the decision table."""
    if sheet.header("product") not in GELLING_KINDS or not required_sugar(sheet):
        return False
    return not any(tags(line) & _LOW_SUGAR for line in sheet.take)


def minor(line: Line, gelled: bool) -> bool:
    """Whether a line is a minor one: seasoning, a teaspoon of herb, foam butter, nuts and peel in a gelled product."""
    what, found = sort(line), tags(line)
    if "infused" in line.flags and not found & _KEPT_PRESENT:
        return True
    if what in _SEASONING and "dehydrated" not in found:
        return True
    size = cups(line)
    little = size is not None and size <= _TEASPOON
    if (what == "herb" or found & {"ginger-fresh", "zest"}) and little:
        return True
    if found & {"butter", "margarine"} and size is not None and size <= _TEASPOON / 2:
        return True
    return gelled and (what == "nut" or "peel" in found or (what == "dried-fruit" and safety(line) == "high-acid"))


def _worst(line: Line, gelled: bool) -> str:
    """The safety class of a line; of a mixture with `from` lines the worst among them."""
    children = [child for child in line.made_of if "water" not in tags(child) and not minor(child, gelled)]
    found = [safety(child) or "unknown" for child in children if not is_acid(child)]
    for word in ("low-acid", "unknown", "borderline"):
        if word in found:
            return word
    if found:
        return "high-acid"
    return safety(line) or "unknown"


def in_base(line: Line, kind: str, fixed: bool) -> bool:
    """Whether a line belongs to the base that the acid has to protect."""
    if "discarded" in line.flags or "infused" in line.flags:
        return False
    what = sort(line)
    if kind in LIGHT_BASE:
        if what == "liquid":
            return fixed
        return what in ("fruit", "juice", "peel", "vegetable") or (match(line).entry is None and what not in _SEASONING)
    if kind == "fruit curd":
        return what in ("egg", "dairy", "fat")
    return what in ("fruit", "juice", "peel", "vegetable", "dried-fruit", "liquid")


def _mass(lines: list[Line]) -> Grams:
    total = NOTHING
    for line in lines:
        known = grams(line)
        total = total + (known if known is not None else Grams(Fraction(0), Fraction(1000)))
    return total


def _classes(sheet: Sheet, kind: str, gelled: bool, fixed: bool) -> frozenset[str]:
    acids = [line for line in _all(sheet) if is_acid(line)]
    otherwise = "doubtful" if _doubtful(sheet, acids) else "sets"
    certain, possible = _protects(sheet, kind, gelled, fixed, acids)
    if certain:
        return frozenset({"protects"})
    return frozenset({"protects", otherwise}) if possible else frozenset({otherwise})


def _all(sheet: Sheet) -> list[Line]:
    return [one for line in sheet.take for one in (line, *line.made_of)]


def _doubtful(sheet: Sheet, acids: list[Line]) -> bool:
    low_sugar = any("pectin-low-sugar" in tags(line) or "pectin-calcium" in tags(line) for line in sheet.take)
    return any(tags(line) & {"bottled", "citric"} for line in acids) or (low_sugar and bool(acids))


def _protects(sheet: Sheet, kind: str, gelled: bool, fixed: bool, acids: list[Line]) -> tuple[bool, bool]:
    """Whether the acid surely, and whether it possibly, protects."""
    food = [
        line for line in sheet.take if not minor(line, gelled) and not is_acid(line) and "discarded" not in line.flags
    ]
    vegetables = any(sort(one) == "vegetable" for line in food for one in (line, *line.made_of))
    if kind in VEGETABLE_KINDS or (kind == "sauce" and vegetables):
        return True, True
    if any(line.amount and line.amount.per and line.amount.per.of == "jar" for line in acids):
        return True, True
    sealed = kind in ("spread", "fruit butter", "fruit syrup", "sauce") and "sealed" in dict(sheet.keep)
    if sealed and any(is_acid(line) for line in sheet.take) and not required_sugar(sheet):
        return True, True
    base = [line for line in sheet.take if in_base(line, kind, fixed)]
    whole = _mass(base)
    certain = possible = False
    weak = [line for line in food if _worst(line, gelled) in ("low-acid", "borderline", "unknown")]
    if weak and not gelled:
        certain, possible = True, True
    elif weak:
        some = _mass(weak)
        certain = some.low * 50 > whole.high
        possible = some.high * 50 > whole.low
    sour = _mass([line for line in base if is_sour(line) or (line.made_of and _worst(line, gelled) == "high-acid")])
    if base:
        certain = certain or sour.high * 3 < whole.low
        possible = possible or sour.low * 3 < whole.high
    return certain, possible


def by_weight_or_volume(line: Line) -> bool:
    """Whether a line's amount is stated in mass or volume, so that another thing can take its place at equal amount."""
    if line.amount is None or not line.amount.parts:
        return False
    return all(dimension(part.unit) in ("mass", "volume") for part in line.amount.parts)
