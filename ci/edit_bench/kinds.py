"""What an edit is, the list of all kinds of edit, and the strengths they come in."""

from collections.abc import Callable, Sequence
from fractions import Fraction
from math import isqrt
from random import Random

from msgspec import Struct

from edit_bench.judge import Terms
from edit_bench.sheet import Sheet

LEVELS = ("unsafe", "untested", "quality", "form", "silent")
# Strengths of a cut: those nobody may hold back, those about the 2 % that only a plain edit can have, those to be found.
QUIET = tuple(Fraction(n, 1000) for n in (991, 993, 995, 998))
EDGE = tuple(Fraction(n, 1000) for n in (985, 981, 980, 979, 975, 972))
CUTS = tuple(Fraction(n, 100) for n in (97, 95, 93, 90, 85, 80, 75, 66, 50, 33, 25, 10))
SAME = Fraction(98, 100)


class Tested(Struct, frozen=True):
    """A tested formula: where it comes from, its sheet, its text, the terms worked out from it."""

    path: str
    sheet: Sheet
    text: str
    terms: Terms

    @property
    def kind(self) -> str:
        """The product word."""
        return self.terms.kind


class Edit(Struct, frozen=True):
    """An edited formula before it is disguised, and what the decision table says about it.

    `level` is the least grave level that counts as found, `silent` for a harmless edit. `rows` are further rows whose
    finding names the edit as well. `factor` is its exact size where it has one. `plain` edits must not be disguised.
    `half` is the formula half-way, where the edit can be spread over two generations. `ban` names disguises that would
    change what the edit means. `tested` replaces the tested formula where the pool has none of the kind. `alone` edits
    are tested formulas themselves, `before` their own earlier text where the edit shows only against it. `unsure` edits are uncertain by design and not counted as false alarms.
    """

    sheet: Sheet
    row: str
    level: str
    kind: str = ""
    rows: tuple[str, ...] = ()
    factor: Fraction | None = None
    plain: bool = False
    half: Sheet | None = None
    ban: frozenset[str] = frozenset()
    tested: Sheet | None = None
    alone: bool = False
    unsure: bool = False
    undeclared: str = ""
    before: Sheet | None = None

    @property
    def harmless(self) -> bool:
        """Whether nothing may hold the formula back because of it."""
        return self.level == "silent"


Maker = Callable[[Tested, Random], Edit | None]


class Kind(Struct, frozen=True):
    """A kind of edit: its name, the row it falls under, and the function that makes one."""

    name: str
    row: str
    make: Maker


KINDS: list[Kind] = []


def edit(row: str, name: str = "") -> Callable[[Maker], Maker]:
    """Enter a function into the list of kinds."""

    def entered(make: Maker) -> Maker:
        KINDS.append(Kind(name or row, row, make))
        return make

    return entered


def by_class(tested: Tested, protects: str, doubtful: str, sets: str) -> str:
    """The level for the acid class of the tested formula; the least grave where its class is open."""
    words = {"protects": protects, "doubtful": doubtful, "sets": sets}
    return max((words[one] for one in tested.terms.acid_classes), key=LEVELS.index)


def cut(dice: Random) -> tuple[Fraction, bool]:
    """A factor below one, and whether it is so near the limit that the edit has to stay plain."""
    draw = dice.random()
    if draw < 0.15:
        return dice.choice(QUIET), False
    if draw < 0.30:
        return dice.choice(EDGE), True
    return dice.choice(CUTS), False


def raised(dice: Random) -> tuple[Fraction, bool]:
    """A factor above one, and whether the edit has to stay plain."""
    draw = dice.random()
    if draw < 0.15:
        return 2 - dice.choice(QUIET), False
    if draw < 0.30:
        return 2 - dice.choice(EDGE), True
    return dice.choice([Fraction(n, 100) for n in (103, 105, 110, 120, 125, 133, 150, 200, 300)]), False


def counts_as_cut(factor: Fraction) -> bool:
    """Whether a ratio counts as cut."""
    return factor < SAME


def counts_as_raised(factor: Fraction) -> bool:
    """Whether a ratio counts as raised."""
    return factor > 2 - SAME


def root(factor: Fraction) -> Fraction:
    """About the square root, in ten-thousandths: the step of each of two generations."""
    return Fraction(isqrt(int(factor * 10**8)), 10**4)


def level_of(cut_or_not: bool, level: str) -> str:
    """The level of an edit if it counts, `silent` if it stays within what is taken as equal."""
    return level if cut_or_not else "silent"


def some(dice: Random, options: Sequence[str]) -> str:
    """One of some words."""
    return options[dice.randrange(len(options))]
