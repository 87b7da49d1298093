"""Amounts that the steps of a formula repeat from its list, restated as they are there; other amounts are pointed out."""

import re
from fractions import Fraction

from brimline.batch.words import number
from brimline.document import units
from brimline.document.values import Amount, Line, Measure, Step

_GLYPHS = {"½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅛": "1/8"}
_NUMBER = r"(?:\d{1,4} \d{1,2}/\d{1,2}|\d{1,2}/\d{1,2}|\d{1,5}(?:\.\d{1,3})?|\d{0,4} ?[½⅓⅔¼¾⅛])"
_UNITS = (
    r"cups?|tablespoons?|tbsp|teaspoons?|tsp|pints?|quarts?|qt|gallons?|pounds?|lbs?|fluid ounces?|fl oz|ounces?|oz"
    r"|kilograms?|kg|grams?|g|milliliters?|millilitres?|ml|liters?|litres?|l"
)
# `1 pint jars` is a jar and `2-quart` a pot: neither is an amount of food.
_AMOUNT = re.compile(
    rf"(?<![\w/.-])({_NUMBER})(?: to ({_NUMBER}))? ({_UNITS})\b(?![ -](?:jars?|size)\b)", re.ASCII | re.IGNORECASE
)
_INCHES = re.compile(rf"(?<![\w/.-])({_NUMBER})[ -](?:inch(?:es)?|in)\b", re.ASCII | re.IGNORECASE)
_PLURAL = frozenset({"cup", "pint", "clove"})
_WORD = re.compile(r"[a-z]{3,}")


class Restating:
    """Reads the steps once over, with the amounts of the list before and after."""

    def __init__(self, pairs: list[tuple[Line, Amount, Amount]], spaces: dict[Fraction, str]) -> None:
        """Each pair is a line, its amount as written and as restated; `spaces` are headspaces in inches, in words."""
        self.left: list[str] = []
        self._spaces = spaces
        self._known: dict[tuple[Fraction, Fraction, str], list[tuple[frozenset[str], str]]] = {}
        for line, was, now in pairs:
            name = frozenset(_WORD.findall(line.item.lower()))
            for parts in (was.parts, *was.also):
                if len(parts) == 1 and parts[0].pack is None:
                    one = parts[0]
                    self._known.setdefault((one.low, one.high, one.unit), []).append((name, spoken(now.parts)))

    def step(self, step: Step, scaled: bool) -> str:
        """The text of a step; an amount of food that is not in the list is kept and, if the batch is scaled, noted."""

        def one(found: re.Match[str]) -> str:
            low, high = _value(found[1]), _value(found[2] or found[1])
            unit = units.unit(found[3].lower())
            known = self._known.get((low, high, unit.name)) if unit else None
            if known is None:
                if scaled:
                    self.left.append(found[0])
                return found[0]
            after = set(_WORD.findall(step.text[found.end() : found.end() + 40].lower()))
            return max(known, key=lambda pair: len(pair[0] & after))[1]

        return _AMOUNT.sub(one, _INCHES.sub(self._space, step.text))

    def _space(self, found: re.Match[str]) -> str:
        return self._spaces.get(_value(found[1]), found[0])


def spoken(parts: tuple[Measure, ...]) -> str:
    """An amount in a sentence: `4 1/4 cups`, `1 tbsp and 1 tsp`."""
    return " and ".join(_one(part) for part in parts)


def _one(part: Measure) -> str:
    count = number(part.low) if part.low == part.high else f"{number(part.low)} to {number(part.high)}"
    plural = "s" if part.high > 1 and part.unit in _PLURAL else ""
    return f"{count} {part.unit}{plural}"


def _value(text: str) -> Fraction:
    for sign, ascii_ in _GLYPHS.items():
        text = text.replace(sign, f" {ascii_}")
    return sum((Fraction(part) for part in text.split()), Fraction(0))
