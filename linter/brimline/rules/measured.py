"""Amounts that a step states of an ingredient of the list, beside the amount of the list."""

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import pairwise

from msgspec import Struct

from brimline.batch.values import Item
from brimline.document import units
from brimline.moves.named import Named
from brimline.moves.printed import CUP_ML, cup_weight
from brimline.moves.values import Case
from brimline.rules.asides import Aside, asides, does, tested_sentences
from brimline.rules.foods import foods
from brimline.rules.meaning import Reading

# Numbers as they are spoken; common practice, no source.
SPOKEN = {
    word: Fraction(number)
    for number, word in enumerate(
        ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"], 1
    )
} | {"a": Fraction(1), "an": Fraction(1)}
PARTS = {"half": 2, "halves": 2, "third": 3, "thirds": 3, "quarter": 4, "quarters": 4, "eighth": 8, "eighths": 8}
FULL = {"cupful": "cup", "cupfuls": "cup", "tablespoonful": "tbsp", "tablespoonfuls": "tbsp", "teaspoonful": "tsp",
        "teaspoonfuls": "tsp", "tablespoon": "tbsp", "tablespoons": "tbsp", "teaspoon": "tsp", "teaspoons": "tsp"}  # fmt: skip
# How well a measure is filled; the number stays what it is.
FILLED = frozenset(
    ["level", "full", "heaped", "heaping", "scant", "good", "generous", "rounded", "bare", "mere", "whole"]
)
DESCRIBES = frozenset([
    *FILLED, "of", "plain", "cold", "hot", "warm", "clean", "tap", "bottled", "fresh", "white", "cider", "granulated",
    "chopped", "sliced", "each", "more",
])  # fmt: skip
NUMBER_WORDS = frozenset([*FILLED, *PARTS, "and", "of"])
# A part of an ingredient is all that is taken where one of these stands within so many words before it.
ONLY = frozenset(["only", "just"])
NEAR = 9
SAME = Fraction(98, 100)
# Less than a quarter cup of water, as for dissolving or wetting something, thins nothing; judgement.
SPLASH = CUP_ML / 4


class Said(Struct, frozen=True):
    """An amount of an ingredient in a sentence, in g or ml as `dimension` says."""

    named: Named
    amount: Fraction
    dimension: str
    aside: Aside


def stated_amounts(case: Case) -> Iterator[Said]:
    """The amounts that new sentences state of what they name; `2 cups of the sugar` is all of it if no rest follows."""
    parted = any("restw" in one.reading.spots for one in asides(case))
    for aside in asides(case):
        for named, amount, dimension in _amounts(aside.reading, parted):
            if does(aside.reading, (named.start, named.end)):
                yield Said(named, amount, dimension, aside)


def _amounts(reading: Reading, parted: bool) -> Iterator[tuple[Named, Fraction, str]]:
    """The amounts that a sentence states of what it names."""
    for named in foods(reading.text):
        found = _amount(reading.tokens, named.start, parted) or _amount_after(reading.tokens, named.end, parted)
        if found is not None:
            yield named, *found


def more_water(case: Case) -> Iterator[Aside]:
    """Sentences that put in more water than the list and the tested formula's own sentences have."""
    lines = [one for item in case.batch.items for one in (item, *item.made_of) if one.name == "water"]
    listed = sum((high for one in lines for _, _, high in one.quantity.dims), Fraction(0))
    told = (found for one in tested_sentences(case) for found in _amounts(one, parted=False))
    most = listed + sum((amount for named, amount, _ in told if named.entry.name == "water"), Fraction(0))
    for said in stated_amounts(case):
        if said.named.entry.name == "water" and said.amount >= SPLASH and said.amount > (2 - SAME) * most:
            yield said.aside


def below(case: Case, wanted: Iterable[Item]) -> Iterator[tuple[Item, Said]]:
    """Amounts that are below those of the list, for some lines of the tested formula."""
    families = _first(one for one in wanted if not one.per_jar)
    told = [one for one in stated_amounts(case) if one.named.entry.family in families]
    for said in told:
        lines = _lines(case, said)
        together = sum((one.amount for one in told if _alike(one, said)), Fraction(0))
        if lines and together < SAME * sum(low for low, _ in lines):
            yield families[said.named.entry.family], said


def above(case: Case, wanted: Iterable[Item]) -> Iterator[tuple[Item, Said]]:
    """Amounts that are above all that the list has of some of its own lines."""
    families = _first(wanted)
    for said in stated_amounts(case):
        item = families.get(said.named.entry.family)
        lines = _lines(case, said)
        if item is not None and lines and said.amount > (2 - SAME) * sum(high for _, high in lines):
            yield item, said


def _first(wanted: Iterable[Item]) -> dict[str, Item]:
    """The first line of each family."""
    out: dict[str, Item] = {}
    for one in wanted:
        out.setdefault(one.family, one)
    return out


def _alike(one: Said, other: Said) -> bool:
    return (one.named.entry.family, one.dimension) == (other.named.entry.family, other.dimension)


def _lines(case: Case, said: Said) -> list[tuple[Fraction, Fraction]]:
    """The least and most of each line of the list in the dimension of what is said."""
    every = [one for item in case.batch.items for one in (item, *item.made_of)]
    kin = [one for one in every if one.family == said.named.entry.family and one.kept]
    # Sugar is not the brown sugar beside it.
    kin = [one for one in kin if one.name == said.named.entry.name] or kin
    return [found for one in kin if (found := _in(one, said.dimension)) is not None]


def _in(item: Item, dimension: str) -> tuple[Fraction, Fraction] | None:
    """The least and most of a line in a dimension; by its cup weight if it is written in the other one."""
    known = {dim.partition(":")[0]: (low, high) for dim, low, high in item.quantity.dims}
    if dimension in known:
        return known[dimension]
    other, cup = known.get("volume" if dimension == "mass" else "mass"), cup_weight(item)
    if other is None or cup is None:
        return None
    (low, high), lightest, heaviest = other, cup.low / CUP_ML, cup.high / CUP_ML
    return (low * lightest, high * heaviest) if dimension == "mass" else (low / heaviest, high / lightest)


# The tokens of a sentence end with a full stop, so what is asked of the token before the first one is asked of that.
def _amount(tokens: list[str], start: int, parted: bool) -> tuple[Fraction, str] | None:
    """The amount right before an ingredient: `three quarters of a cup of`, `1 1/2 cups`, `a cup and a half of`."""
    at, more = start - 1, Fraction(0)
    # A cup of the vinegar is a part of it, and only a cup of it is less.
    whole = not parted or not ONLY.isdisjoint(tokens[:start][-NEAR:])
    while tokens[at] in DESCRIBES or (whole and tokens[at] == "the"):
        at -= 1
    if tokens[at - 2 : at + 1] == ["and", "a", "half"]:
        at, more = at - 3, Fraction(1, 2)
    unit = units.unit(FULL.get(tokens[at], tokens[at]))
    if unit is None or unit.dimension not in ("mass", "volume"):
        return None
    number = _number(tokens, at)
    return None if number is None else ((number + more) * unit.factor, unit.dimension)


def _amount_after(tokens: list[str], end: int, parted: bool) -> tuple[Fraction, str] | None:
    """The amount right behind an ingredient: `the sugar at four cups`, `the lemon juice down to a tablespoon`."""
    behind = end + 1 if tokens[end] == "down" else end
    if tokens[behind] not in ("at", "to"):
        return None
    # A number of at most five words stands before its unit.
    for at, token in enumerate(tokens[behind + 2 : behind + 7], behind + 3):
        if units.unit(FULL.get(token, token)) is not None:
            return _amount(tokens, at, parted)
    return None


def _number(tokens: list[str], end: int) -> Fraction | None:
    """The number that ends before a token."""
    first = end
    while tokens[first - 1] in NUMBER_WORDS or _written(tokens[first - 1]) is not None:
        first -= 1
    whole, last = Fraction(0), Fraction(1)
    known = False
    for word, behind in pairwise(tokens[first : end + 1]):
        if word in ("and", "of") or word in FILLED or (word in ("a", "an") and known and behind not in PARTS):
            continue
        if word in PARTS:
            # Two and a half; three quarters of a; half a.
            many = last if known else Fraction(1)
            whole, last = whole - (many if known else 0) + many / PARTS[word], Fraction(0)
        else:
            last = _written(word) or Fraction(0)
            whole += last
        known = True
    return whole if whole > 0 else None


def _written(word: str) -> Fraction | None:
    if word in SPOKEN:
        return SPOKEN[word]
    try:
        return Fraction(word.replace(",", ""))
    except (ValueError, ZeroDivisionError):
        return None
