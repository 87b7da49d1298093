"""Turns the words of a phrase row into a pattern, and a clause that fits one into what was asked."""

import re
from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache

from msgspec.structs import replace

from brimline.figures import names
from brimline.figures.calls import phrases
from brimline.review.suppose.hear import number, share
from brimline.review.suppose.values import Asked

_PART = r"(?:half|halves|thirds?|quarters?|fourths?|fifths?|eighths?|tenths?)"
_STOP = r"(?:and|for|instead|with|by|from|to|in|at|not|as|it|is|or|but|plus|also|then|add)\b"
_NAME = rf"(?:\d+ percent )?(?!(?:less|more|fewer|extra|only|no|the)\b|{_STOP})[a-z][a-z0-9]* (?:(?!{_STOP})[a-z0-9]+ ){{0,4}}?"
_NUMBER = r"(?:\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?|half an?|an? (?:half|quarter|third)(?: an?)?|an?)"
_UNITS = (
    r"(?:cup|tsp|teaspoon|teaspoonful|tbsp|tablespoon|tablespoonful|fl oz|fluid ounce|oz|ounce|lb|pound|gram|g|kg"
    r"|kilogram|kilo|ml|milliliter|millilitre|l|liter|litre|qt|quart|pint|clove|bunch|bunche|sprig|stick|pinch|pinche"
    r"|handful|medium|small|large|each|whole|slice|box|boxe|pouch|pouche|head|stalk)s? "
)
_JARS = r"(?:half pint|quarter pint|half gallon|pint and half|pint|quart)s? "
_SIZES = r"(?:fl oz|oz|ounces?|ml|millilit(?:er|re)s?|l|lit(?:er|re)s?|gal|gallons?) "
_SLOTS = {
    "NUM": rf"(?P<number>{_NUMBER}) ",
    "SHARE": rf"(?P<share>all(?: of)?|(?:an? |one |\d )?{_PART}(?: of)?|\d+/\d+(?: of)?|\d+(?:\.\d+)? percent(?: of)?) ",
    "UNIT": rf"(?P<unit>{_UNITS})",
    "WHAT": rf"(?P<what>{_NAME})",
    "OF": rf"(?P<of>{_NAME})",
    # No more than two decimals: `1.600 m` is how some write 1,600 m.
    "LOW": r"(?P<number>\d+(?:\.\d{1,2})?) ",
    "HIGH": r"(?P<high>\d+(?:\.\d{1,2})?) ",
    "FEET": r"(?:ft|feet|foot) ",
    "METRES": r"(?:m|met(?:er|re)s?) ",
    "JAR": rf"(?P<jar>{_JARS})",
    "SIZE": rf"(?:(?P<number>\d+(?:\.\d+)?|an?|half an?) (?P<unit>{_SIZES}))",
    "*": r"(?:\S+ )*?",
}
_TOKEN = re.compile(r"[()\[\]|]|[^\s()\[\]|]+")
_CLOSE = {"(": ")", "[": ")?", ")": ")", "]": ")?"}
# Words for a measure that the closed list of units does not have; a handful and a pinch are ours, for a caller's answer.
_SPOKEN_UNITS = {
    "handful": "cup", "whole": "each", "teaspoonful": "tsp", "tablespoonful": "tbsp", "kilo": "kg", "pinche": "pinch",
    "bunche": "bunch", "boxe": "box", "pouche": "pouch", "fluid ounce": "fl oz", "millilitre": "ml", "litre": "l",
}  # fmt: skip
# One foot is 0.3048 m exactly (international foot).
_METRE = Fraction("0.3048")
# What stands for a thing in a caller's mouth, where the table has no such name or has two: the graver of the two.
_CALLED = {
    "low sugar sweetener": "low-calorie sweetener", "no sugar sweetener": "low-calorie sweetener",
    "sugar free sweetener": "low-calorie sweetener", "diet sweetener": "low-calorie sweetener",
    "fake sugar": "low-calorie sweetener", "chillies": "hot peppers", "chiles": "hot peppers", "hot": "hot peppers",
    "chilies": "hot peppers", "sweet": "sweet peppers", "zest": "lemon zest", "peppercorns": "black pepper",
}  # fmt: skip


@lru_cache(maxsize=1024)
def compiled(row: str) -> re.Pattern[str]:
    """The pattern of a phrase row, over a clause that ends in a blank."""
    seen: set[str] = set()
    return re.compile("".join(_pieces(row, seen)))


def _pieces(row: str, seen: set[str]) -> Iterator[str]:
    for mark in _TOKEN.findall(row):
        if mark in "([":
            yield "(?:"
        elif mark in ")]":
            yield _CLOSE[mark]
        elif mark == "|":
            yield "|"
        elif mark in _SLOTS:
            yield _once(_SLOTS[mark], seen)
        elif mark.endswith("~"):
            yield rf"{re.escape(mark[:-1])}\w* "
        else:
            yield f"{re.escape(mark)} "


def _once(slot: str, seen: set[str]) -> str:
    """A slot; where a row has one twice, only the first is named."""
    for name in re.findall(r"\?P<(\w+)>", slot):
        if name in seen:
            slot = slot.replace(f"?P<{name}>", "?:")
        seen.add(name)
    return slot


def understood(clause: str) -> Asked | None:
    """What a clause asks, by the first row that fits all of it; None if none does."""
    text = f"{clause} "
    for kind, about, besides, row in phrases():
        found = compiled(row).fullmatch(text)
        asked = None if found is None else _asked(kind, about, besides, found, clause)
        if asked is not None:
            return asked
    return None


def _asked(kind: str, about: str, besides: str, found: re.Match[str], clause: str) -> Asked | None:
    parts = {key: value.strip() for key, value in found.groupdict().items() if value}
    key, _, value = besides.partition(" ")
    part = Fraction(value) if key == "share" else share(parts["share"]) if "share" in parts else None
    size = Fraction(value) if key == "number" else number(parts["number"]) if "number" in parts else None
    high = number(parts["high"]) if "high" in parts else size
    what, of = called(parts.get("what", "")), called(parts.get("of", ""))
    asked = Asked(kind, clause, what or about, of, part, size, high, unit(parts.get("unit", "")))
    if kind in _FINISH:
        return _FINISH[kind](asked, about, parts)
    return replace(asked, what=about or what)


def _altitude(asked: Asked, about: str, parts: dict[str, str]) -> Asked | None:
    del parts
    per = _METRE if about == "m" else Fraction(1)
    low, high = asked.number or Fraction(0), asked.high or asked.number or Fraction(0)
    return replace(asked, what="", number=min(low, high) / per, high=max(low, high) / per, unit=about or "ft")


def _jar(asked: Asked, about: str, parts: dict[str, str]) -> Asked | None:
    name = parts.get("jar", "").removesuffix("s").replace(" ", "-")
    if not about and not name and not asked.unit:
        return replace(asked, unit="gal")
    return replace(asked, what=about or name)


def _amount(asked: Asked, about: str, parts: dict[str, str]) -> Asked | None:
    del parts
    part = asked.share
    if part is None or (about == "less" and part > 1):
        return None
    kept = {"less": 1 - part, "more": 1 + part}.get(about, part)
    return None if _is_batch(asked.what) else replace(asked, share=kept)


def _part(asked: Asked, about: str, parts: dict[str, str]) -> Asked | None:
    del parts
    return None if asked.number is None else replace(asked, of=about)


def _sweeten(asked: Asked, about: str, parts: dict[str, str]) -> Asked | None:
    del about, parts
    entry = known(asked.what)
    plain = entry == "sugar, granulated"
    return None if plain or sort_of(asked.what) != "sweetener" else asked


def _batch(asked: Asked, about: str, parts: dict[str, str]) -> Asked | None:
    del about, parts
    factor = asked.share if asked.share is not None else asked.number
    return replace(asked, what="", share=factor, number=None, high=None) if factor else None


def _fresh(asked: Asked, about: str, parts: dict[str, str]) -> Asked | None:
    del about, parts
    fruit = asked.what.removesuffix(" juice").rstrip("s")
    return replace(asked, what=fruit) if fruit in ("lemon", "lime") else None


def _more_of(asked: Asked, about: str, parts: dict[str, str]) -> Asked | None:
    del about, parts
    return replace(asked, kind="amount", share=Fraction(3, 2))


def _swap(asked: Asked, about: str, parts: dict[str, str]) -> Asked | None:
    del parts
    return replace(asked, what=asked.what, either=about == "either")


def _whole(asked: Asked, about: str, parts: dict[str, str]) -> Asked | None:
    del parts
    return replace(asked, what=about or asked.what)


_FINISH = {
    "altitude": _altitude,
    "jar": _jar,
    "amount": _amount,
    "part": _part,
    "sweeten": _sweeten,
    "batch": _batch,
    "fresh": _fresh,
    "more-of": _more_of,
    "swap": _swap,
    "thicken": _whole,
}


def called(what: str) -> str:
    """A caller's name for a thing, in the words of the table where those differ."""
    return _CALLED.get(what, what)


def _is_batch(what: str) -> bool:
    return what.split(" ", maxsplit=1)[0] in {
        "batch",
        "recipe",
        "formula",
        "everything",
        "it",
        "batches",
        "gallon",
        "pint",
    }


def known(what: str) -> str:
    """The table's name of a thing, or the first it could be; empty if it has none."""
    match = names.find(what)
    return match.entry.name if match.entry else next(iter(match.ambiguous), "")


def sort_of(what: str) -> str:
    """What the table says a thing is; empty if it does not know it."""
    match = names.find(what)
    return match.entry.sort if match.entry else ""


def unit(word: str) -> str:
    """A unit as the closed list calls it; empty for a word that is none."""
    from brimline.document.units import unit as listed

    singular = word if word in ("oz", "fl oz", "g", "l") else word.removesuffix("s")
    for name in (_SPOKEN_UNITS.get(singular, singular), word):
        found = listed(name)
        if found is not None:
            return found.name
    return ""
