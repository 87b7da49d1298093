"""The grammar's terminals in plain words; their own names never reach a reader."""

from collections.abc import Iterable
from functools import cache

from brimline._patterns import pattern
from brimline.tree.grammar import grammar

# In the order in which they are named to a reader: what the line most likely lacks comes first.
WORDS = {
    "ROLE": "a role (`fruit`, `sweetener`, `acid` ...)",
    "NUMBER": "a number (`5 1/2`, `1/4`, `0.75`)",
    "UNIT": "a unit (`cup`, `g`, `each` ...) or jar (`half-pint` ...)",
    "NAME": "the name of the thing",
    "FORM": "its form (`crushed`, `5 %` ...)",
    "CODE": "a code (`KV-101`)",
    "DATE": "a date (`2025-06-14`)",
    "TEXT": "a few words",
    "WHERE": "a place (`cool`, `refrigerated` ...)",
    "PART": "a few words",
    "THOUSANDS": "an altitude (`1000`)",
    "METHOD": "`boiling-water`, `steam`, `pressure`, `freezer` or `refrigerator`",
    "STERILE_OR_CLEAN": "`sterile` or `clean`",
    "HOT_OR_RAW": "`hot` or `raw`",
    "GAUGE": "`dial` or `weighted`",
    "KEEP_WORD": "`stand`, `sealed`, `opened`, `chilled`, `frozen` or `uncooked`",
    "SUBJECT": "what is changed (a role, `jar`, `process`, `batch` ...)",
    "QUANTITY": "`pH` or `aw`",
    "STAY": "`infused` or `discarded`",
    "ABOVE": "`above`",
    "TO": "`to`",
    "COLON": "`:`",
    "COMMA": "`,`",
    "EQUAL": "`=`",
    "PLUS": "`+`",
    "PER": "`per`",
    "ON": "`on` with a date",
    "AT": "`at dial` (or `at weighted`)",
    "PACKED": "`of` with the size of the package",
    "SOME": "`some`",
    "OR": "`or`",
    "FROM": "`from`",
    "NOTE": "`note`",
    "ANY_MIX_OF": "`any mix of`",
    "OPTIONAL": "`optional`",
    "FORMULA": "`formula`",
    "PRODUCT": "`product`",
    "STANDING": "`standing`",
    "ADAPTS": "`adapts`",
    "FINISH": "`finish`",
    "YIELD": "`yield`",
    "SOLD_AS": "`sold-as`",
    "RETIRED": "`retired`",
    "SUCCESSOR": "`successor`",
    "ROLLING_BOIL": "`full rolling boil`",
    "GEL_POINT": "`gel point`",
    "AT_SEA_LEVEL": "`at sea level`",
    "SIMMER": "`simmer`",
    "BOIL": "`boil`",
    "REDUCE_TO": "`reduce to`",
    "THICK": "`thick`",
    "NONE": "`none`",
    "OTHER": "`other` with a few words",
    "TAKE": "`take`",
    "MAKE": "`make`",
    "PACK": "`pack`",
    "PROCESS": "`process`",
    "KEEP": "`keep`",
    "CHANGES": "`changes`",
    "EVIDENCE": "`evidence`",
    "JAR": "`jar`",
    "JARS": "`jar`",
    "PREPARE": "`prepare`",
    "FILL": "`fill`",
    "HEADSPACE": "`headspace`",
    "LID": "`lid`",
    "START": "`start`",
    "TO_THE_BOIL": "`to the boil`",
    "FINISHED": "`finished`",
    "OF_WHAT": "what it is for (`juice` ...)",
    "TESTED": "`tested`",
    "READING": "`reading`",
    "SOURCE": "`source`",
    "REVIEW_BY": "`review-by`",
    "$END": "the end of the line",
}
_NUMBERS = frozenset({"INT", "FRACTION", "GLYPH", "DECIMAL"})
_MOST_NAMED = 4
_WORD_END = r"(?![\w-])"
_KEYWORD = pattern(r"[A-Za-z][A-Za-z -]*")


def expected(terminals: Iterable[str]) -> str:
    """What could have stood there, in words: the likeliest few, joined with commas and `or`."""
    wanted = set(terminals)
    if wanted & _NUMBERS:
        wanted = (wanted - _NUMBERS) | {"NUMBER"}
        wanted -= {"THOUSANDS", "SOME"}
    named = [words for name, words in WORDS.items() if name in wanted]
    if len(named) > _MOST_NAMED:
        named = named[:_MOST_NAMED]
    if not named:
        return "another word"
    return named[0] if len(named) == 1 else f"{', '.join(named[:-1])} or {named[-1]}"


def choices(terminals: Iterable[str]) -> tuple[str, ...]:
    """The fixed words among what could have stood there, for finding the one that a misspelt word was meant to be."""
    fixed = _fixed()
    return tuple(word for name in terminals for word in fixed.get(name, ()))


@cache
def _fixed() -> dict[str, tuple[str, ...]]:
    """The words that a terminal stands for, from the grammar itself; terminals that are not keywords are left out."""
    out: dict[str, tuple[str, ...]] = {}
    for terminal in grammar().terminals:
        pattern = terminal.pattern.value.removesuffix(_WORD_END).replace("[ \t]+", " ")
        words = pattern.removeprefix("(?:").removesuffix(")").split("|")
        if all(_KEYWORD.fullmatch(word) for word in words):
            out[terminal.name] = tuple(words)
    return out
