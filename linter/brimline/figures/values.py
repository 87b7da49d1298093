"""The published numbers as frozen values: ingredients, weights of household measures, rows of the decision table."""

from fractions import Fraction

from msgspec import Struct

from brimline.findings import Source


class Interval(Struct, frozen=True):
    """A number known to lie between two exact ends, the least and the most."""

    low: Fraction
    high: Fraction

    @property
    def middle(self) -> Fraction:
        """The value half-way between the ends."""
        return (self.low + self.high) / 2

    @property
    def exact(self) -> bool:
        """Whether both ends are one number."""
        return self.low == self.high


class Weight(Struct, frozen=True):
    """Grams of an ingredient in one household measure, as printed.

    `state` is the table's own word for how it was measured (`crushed`, `sliced`, `medium`), `unit` a canonical unit
    name (`cup`, `tbsp`, `each`), `how` is read, calc, memory or assumed, `source` the source id.
    """

    state: str
    unit: str
    low: Fraction
    high: Fraction
    how: str
    source: str


class Entry(Struct, frozen=True):
    """One ingredient as the table knows it.

    `sort` is what the thing is, in the words of the format's roles, plus `base` (baking soda, lime, chalk, lye) and
    `preservative`. `safety` is high-acid, borderline, low-acid, neutral or acidulant. `family` names the food whatever
    its variety, colour or state (all sweet and hot peppers are `pepper`). `tags` hold the closed words of the tag list
    in `tables/tags.yaml`. `roles` are the format's roles the table allows. Percentages are by weight of the edible
    part; None where no figure is known. `solids` is soluble solids, `insoluble` fibre and the like. `acid` is
    titratable acidity as stated. `pectin` is high, medium or low, empty where nobody says; `refuse` is what is lost
    between the purchased food and its edible part. `sources` names, figure by figure, how it is known and the source
    id (`solids`, `read CFR-150.140`). Every figure has a source.
    """

    name: str
    aliases: tuple[str, ...]
    sort: str
    safety: str
    family: str
    tags: frozenset[str]
    roles: tuple[str, ...]
    weights: tuple[Weight, ...]
    solids: Fraction | None
    sugars: Fraction | None
    sucrose: Fraction | None
    water: Fraction | None
    insoluble: Fraction | None
    ph: tuple[Fraction, Fraction] | None
    acid: Fraction | None
    acid_as: str
    allergens: tuple[str, ...]
    note: str
    sources: tuple[tuple[str, str], ...]
    pectin: str = ""
    refuse: Fraction | None = None


class Match(Struct, frozen=True):
    """What a written name came to.

    `entry` is None for an unknown or ambiguous name: `ambiguous` then lists the entries it could be, `nearest` the
    closest known names. `state` holds the words that say how it was cut, treated or measured.
    """

    entry: Entry | None
    state: tuple[str, ...] = ()
    ambiguous: tuple[str, ...] = ()
    nearest: tuple[str, ...] = ()


class Row(Struct, frozen=True):
    """One row of the decision table: what a kind of edit means.

    `levels` maps an acid class (`protects`, `doubtful`, `sets`) or `` (any) to a level word; `silent` is one of them.
    `harms` maps likewise (`sets-gelled` for the acid rows). `kinds` is empty when the row holds for every product.
    `basis` are the sources. `why` is why it matters in one sentence, `advice` what to do instead.
    """

    id: str
    edit: str
    levels: tuple[tuple[str, str], ...]
    harms: tuple[tuple[str, str], ...]
    basis: tuple[Source, ...]
    side: str
    kinds: tuple[str, ...]
    note: str
    why: str = ""
    advice: str = ""


class Number(Struct, frozen=True):
    """One published number, or two ends: `at 1000 ft`, 218 to 218, F. `unit` is empty for a share or a count."""

    name: str
    low: Fraction
    high: Fraction
    unit: str


class Published(Struct, frozen=True):
    """What a publication says: a sentence, numbers, or both.

    `table` is the file it stands in, `about` the foods it speaks of, `applies` the products. `inferred` is arithmetic
    of ours, not the publisher's words. `against` are ids of figures that say otherwise; of those that disagree,
    `cautious` marks the one to go by.
    """

    id: str
    table: str
    says: str
    numbers: tuple[Number, ...]
    about: str
    applies: str
    note: str
    inferred: str
    against: tuple[str, ...]
    cautious: bool
    source: Source

    def number(self, name: str) -> Number | None:
        """The number of that name, None if the publication gives none."""
        return next((number for number in self.numbers if number.name == name), None)


class TimeRow(Struct, frozen=True):
    """One row of a published process table: `bands` are minutes up to an altitude in feet, None for the open last one."""

    fill: str
    jars: tuple[str, ...]
    bands: tuple[tuple[int, int | None], ...]


class ProcessTable(Struct, frozen=True):
    """A published process: product by jar by fill by altitude, and nothing between or beyond.

    `headspace` is in inches, None where none is printed. `sterile` are the jars that must be boiled empty first.
    `start_f` and `start_minutes` are the water temperature and the minutes to the boil where they are part of the
    process.
    """

    id: str
    product: str
    kind: str
    method: str
    headspace: Fraction | None
    sterile: tuple[str, ...]
    acid_required: bool
    rows: tuple[TimeRow, ...]
    start_f: int | None
    start_minutes: tuple[int, int] | None
    note: str
    source: Source

    def minutes(self, jar: str, fill: str, altitude_ft: int) -> int | None:
        """The tested minutes for a listed jar and fill at an altitude.

        None where the table has no such jar or fill, or does not reach the altitude: then there is no tested time.
        Altitudes below sea level count as 0 ft. An edge belongs to the band below it.
        """
        for row in self.rows:
            if fill == row.fill and jar in row.jars:
                return next((m for m, up_to in row.bands if up_to is None or altitude_ft <= up_to), None)
        return None
