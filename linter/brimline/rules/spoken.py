"""Numbers as a step says them: minutes, hours, inches, altitudes, jars."""

import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from brimline._patterns import pattern
from brimline._remember import remembered
from brimline.document import units
from brimline.document.values import Document, Jar
from brimline.findings import Span

WORDS = {
    "a quarter of an": "1/4", "one quarter of an": "1/4", "quarter of an": "1/4", "a quarter": "1/4", "quarter": "1/4",
    "three quarters of an": "3/4", "an eighth of an": "1/8", "half of an": "1/2", "half": "1/2",
    "half a": "1/2", "half an": "1/2", "a": "1", "an": "1", "one": "1", "two": "2", "three": "3", "four": "4", "five": "5",
    "six": "6", "seven": "7", "eight": "8", "nine": "9", "ten": "10", "twelve": "12", "fifteen": "15", "twenty": "20",
    "twenty-five": "25", "thirty": "30", "thirty-five": "35", "forty": "40", "forty-five": "45", "sixty": "60",
}  # fmt: skip
NUMBER = rf"(?:\d+ \d+/\d+|\d+/\d+|\d[\d,]*(?:\.\d+)?|{'|'.join(sorted(WORDS, key=len, reverse=True))})"
TIME = rf"(?P<low>{NUMBER})(?: (?:to|or|-) (?P<high>{NUMBER}))?[- ](?P<unit>min(?:ute)?s?|hours?|hrs?|h)\b"
ALTITUDE = r"(?P<altitude>\d[\d,]*)[- ]?(?P<length>feet|foot|ft|met(?:er|re)s?|m)\b"
FEET_IN_METRE = Fraction(10000, 3048)
JAR = pattern(
    r"\b(?P<jar>half-gallon|half-pint|quarter-pint|pint-and-a-half|pint|quart|\d+(?:-| )(?:ounce|oz|ml))s?(?= (?:canning |mason |glass )?jars?\b)|"
    r"\b(?:in|into|for) (?:hot |clean |sterile |sterilised |sterilized |the )*(?P<plain>half-gallons|half-pints|quarter-pints|pints|quarts)\b"
)


# One of these stands in every size of a jar that a step can name.
SIZES = ("pint", "quart", "gallon", "ounce", "oz", "ml")


@remembered
def timed(sentence: str) -> bool:
    """Whether a time may stand in a sentence: a word for minutes or hours behind something like a number.

    What holds no time is told from this at once; where it says yes, the pattern for a time decides.
    """
    words = sentence.replace("-", " ").split()
    ends = tuple(WORDS)
    return any(
        word[:1] in ("m", "h") and (before.endswith(ends) or any(letter.isdigit() for letter in before))
        for before, word in pairwise(words)
    )


def value(written: str) -> Fraction:
    """A number as a step writes it: `1 1/2`, `1/2`, `1,000`, `ten`, `half a`."""
    text = WORDS.get(written, written).replace(",", "")
    return sum((Fraction(part) for part in text.split()), Fraction(0))


def minutes(found: re.Match[str]) -> tuple[Fraction, Fraction]:
    """The least and the most minutes of a matched time."""
    factor = 60 if found["unit"].startswith("h") else 1
    low = value(found["low"]) * factor
    return low, value(found["high"]) * factor if found["high"] else low


def feet(found: re.Match[str]) -> Fraction:
    """The altitude of a match in feet."""
    number = value(found["altitude"])
    return number * FEET_IN_METRE if found["length"].startswith("m") else number


def sentences(document: Document) -> Iterator[tuple[str, Span]]:
    """Every sentence of every step in lower case, with the place of its step."""
    for step in document.make:
        for sentence in _split(step.text):
            yield sentence, step.span


@remembered
def _split(text: str) -> tuple[str, ...]:
    return tuple(re.split(r"(?<=[.!?;])\s+", text.lower()))


@remembered
def jars(sentence: str) -> tuple[Jar, ...]:
    """The jars a sentence names by size."""
    return tuple(_jars(sentence)) if any(word in sentence for word in SIZES) else ()


def _jars(sentence: str) -> Iterator[Jar]:
    for found in JAR.finditer(sentence):
        word = (found["jar"] or found["plain"]).removesuffix("s")
        number, _, measure = word.replace("-", " ").partition(" ")
        known = units.jar_named(word)
        if known is not None:
            yield Jar(known.name, known.ml, Span(*found.span()))
        elif number.isdigit():
            unit = units.unit({"ounce": "fl oz", "oz": "fl oz"}.get(measure, measure))
            sized = units.jar_sized(Fraction(number), unit) if unit is not None else None
            if sized is not None:
                yield Jar(sized[0], sized[1], Span(*found.span()))
