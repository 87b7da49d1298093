"""An adaptation beside its tested formula: matched groups at one scale, and what a rule is handed."""

from collections.abc import Callable, Mapping
from fractions import Fraction

from msgspec import Struct, field

from brimline.batch.linear import Linear, multiply, ratio, times, total, value
from brimline.batch.values import Batch, Item
from brimline.document.meaning import Seal
from brimline.document.values import Document
from brimline.figures.values import Entry, Interval
from brimline.findings import Span
from brimline.moves.claim import Claim
from brimline.moves.mentioned import mentioned
from brimline.moves.printed import printed, printed_words, prints

Parts = tuple[tuple[Item, Linear], ...]


class Pair(Struct, frozen=True):
    """One ingredient (or a pool of exchangeable ones) in the tested formula and in the adaptation.

    `was_*` and `now_*` are grams as linear forms over unknown cup weights, split by line; `least` leaves optional
    lines out and takes the low ends of ranges, `most` the reverse. `dim` is the dimension the two were compared in,
    empty if they share none. `snapped` tells that the adaptation's amount is within 2 % of the tested one at the
    scale and was set equal to it. `disagree` holds the second shared dimension if the two tell different stories.
    """

    name: str
    stay: str
    sort: str
    safety: str
    family: str
    tags: frozenset[str]
    was: tuple[Item, ...]
    now: tuple[Item, ...]
    was_least: Parts
    was_most: Parts
    now_least: Parts
    now_most: Parts
    dim: str
    snapped: bool
    disagree: str = ""

    @property
    def kept(self) -> bool:
        """Whether it stays in the jar."""
        return self.stay == "kept"

    @property
    def added(self) -> bool:
        """Whether the tested formula has none of it."""
        return not self.was

    @property
    def dropped(self) -> bool:
        """Whether the adaptation has none of it."""
        return not self.now

    def has(self, *tags: str) -> bool:
        """Whether the table gives the ingredient any of these tags, on either side."""
        return any(tag in self.tags for tag in tags)


def grams(parts: Parts, weight: Callable[[Item], Fraction] | None = None) -> dict[str, Fraction]:
    """Parts added up as one linear form, each line multiplied by a weight (its share of solids, its strength)."""
    return total(form if weight is None else times(form, weight(item)) for item, form in parts)


class Contrast(Struct, frozen=True):
    """The whole comparison of one reading of an adaptation with its tested formula.

    `scale` is how much of the tested batch the adaptation makes. `bounds` gives every unknown its least and most;
    `missing` names ingredients for which the table has no weight, so that their bounds are only a wide guess. `tied` tells that a whole batch has as many votes as the scale.
    """

    tested: Batch
    adapted: Batch
    pairs: tuple[Pair, ...]
    scale: Fraction
    bounds: dict[str, Interval]
    missing: tuple[str, ...]
    tied: bool = False
    # What is worked out again and again: tests for the parts of the batch by name, and the sums of those parts.
    parts: dict[str, Callable[[Pair], bool]] = field(default_factory=dict)
    sums: dict[tuple[str, int, object], Linear] = field(default_factory=dict)

    def sum(
        self, side: str, wanted: Callable[[Pair], bool], weight: Callable[[Item], Fraction] | None = None
    ) -> Linear:
        """The grams of all wanted pairs on one side: `was_least`, `was_most`, `now_least` or `now_most`."""
        key = (side, id(wanted), weight)
        if key in self.sums:
            return self.sums[key]
        found = total(grams(getattr(pair, side), weight) for pair in self.pairs if wanted(pair))
        if any(wanted is part for part in self.parts.values()):
            self.sums[key] = found
        return found

    def quotient(self, top: Linear, bottom: Linear) -> Interval | None:
        """Exact bounds of a ratio of two sums."""
        return ratio(top, bottom, self.bounds)

    def floor(
        self,
        wanted: Callable[[Pair], bool],
        per: Callable[[Pair], bool] | None,
        weight: Callable[[Item], Fraction] | None = None,
    ) -> Interval | None:
        """How much of a thing that must not fall is left, per base (`per`), or at the scale if `per` is None.

        The least of the adaptation against the least of the tested formula, over the most of the base on both sides.
        None if the tested formula requires none of it.
        """
        change = ratio(self.sum("now_least", wanted, weight), self.sum("was_least", wanted, weight), self.bounds)
        return self._over(change, per, "was_most", "now_most")

    def ceiling(
        self,
        wanted: Callable[[Pair], bool],
        per: Callable[[Pair], bool] | None,
        weight: Callable[[Item], Fraction] | None = None,
    ) -> Interval | None:
        """How much of a thing that must not rise there is: most against most, over the least of `per`."""
        change = ratio(self.sum("now_most", wanted, weight), self.sum("was_most", wanted, weight), self.bounds)
        return self._over(change, per, "was_least", "now_least")

    def _over(self, change: Interval | None, per: Callable[[Pair], bool] | None, was: str, now: str) -> Interval | None:
        if change is None:
            return None
        if per is None:
            return Interval(change.low / self.scale, change.high / self.scale)
        base = ratio(self.sum(was, per), self.sum(now, per), self.bounds)
        return None if base is None else multiply(change, base)

    def middle(self, form: Linear) -> Fraction:
        """The middle estimate of a sum in grams."""
        return value(form, self.bounds).middle


class Gap(Struct, frozen=True):
    """A stretch of altitude where a jar gets less than tested, or nothing.

    Altitudes in feet; `tested` and `here` are minutes (None where no band covers the stretch); `jar` is the jar of
    the adaptation, `tested_jar` the one whose time it takes. `at` is the band or row that is short.
    """

    jar: str
    tested_jar: str
    low_ft: Fraction
    high_ft: Fraction | None
    tested: Fraction | None
    here: Fraction | None
    tested_psi: Fraction | None
    here_psi: Fraction | None
    at: Span
    before: Span
    unit: str
    missing: bool
    edge: bool

    @property
    def borrowed(self) -> bool:
        """Whether the jar takes the time of another one."""
        return self.jar != self.tested_jar


class Move(Struct, frozen=True):
    """One difference, in quantities: what, the tested value, the value here, the change in words.

    `subject` is a word of the changes section (a role, jar, fill, process ...); `kind` names the ingredient or field.
    `ratio` is the change per base or at the scale where there is one.
    """

    subject: str
    kind: str
    was: str
    now: str
    change: str
    ratio: Interval | None
    at: Span
    before: Span | None
    declared: bool


def no_count(_: Batch) -> tuple[Fraction | None, Interval | None]:
    """No count of jars, for a case that nobody gave one."""
    return None, None


class Case(Struct, frozen=True):
    """What a rule is handed: the formula, and the comparison with its tested formula if it adapts one.

    `acid_class` and `gelled` are read from the tested formula (the acid class is the graver of the two). `same` is
    the ratio below which an amount counts as cut. `known` tells whether all ingredients of the formula are in the
    table. `altitude_ft` is the collection's altitude if it states one; `today` an ISO date or empty. `mixtures` compares the parts of each measured
    juice or mixture among themselves. Where the adaptation fills its jars otherwise than tested, `fill_times` tells
    whether the publication behind the tested formula has times for that fill too, and `fill_short` where the stated
    times are below them.
    `jars` counts, when asked, how many jars of the stated size the ingredients can fill at most and the finished batch
    fills; None where that cannot be told or is as stated.
    `claim` is what it says it is sold as, beside the standard of that name.
    `register` holds the seals of the collection by code, None if it keeps none.
    """

    document: Document
    batch: Batch
    tested: Document | None = None
    contrast: Contrast | None = None
    acid_class: str = ""
    gelled: bool = False
    kind: str = ""
    pectin: str = ""
    moves: tuple[Move, ...] = ()
    gaps: tuple[Gap, ...] = ()
    altitude_ft: Fraction | None = None
    today: str = ""
    previous: Document | None = None
    mixtures: tuple[Contrast, ...] = ()
    jars: Callable[[Batch], tuple[Fraction | None, Interval | None]] = no_count
    fill_times: bool = False
    fill_short: tuple[Gap, ...] = ()
    register: Mapping[str, Seal] | None = None
    claim: Claim | None = None
    same: Fraction = Fraction(98, 100)

    @property
    def compared(self) -> Contrast:
        """The comparison. Raises LookupError if the formula is judged by itself."""
        if self.contrast is None:
            raise LookupError("this formula is judged by itself")
        return self.contrast

    @property
    def more(self) -> Fraction:
        """The ratio above which an amount counts as raised."""
        return 2 - self.same

    def mentioned(self, sentence: str) -> tuple[tuple[str, Entry], ...]:
        """The ingredients of the table that a sentence tells the cook to add, each with the words that name it."""
        return mentioned(sentence)

    def prints(self, figure: str, name: str) -> bool:
        """Whether a published figure has a number of that name."""
        return prints(figure, name)

    def printed(self, figure: str, name: str) -> Interval:
        """A published number by its figure and name: volumes in ml, times in minutes, the rest as printed.

        Raises KeyError if there is none.
        """
        return printed(figure, name)

    def printed_words(self, figure: str, name: str) -> str:
        """A published number as it is printed: `2 tbsp`; empty if there is none."""
        return printed_words(figure, name)
