"""A weighed batch as frozen values; the report prints them and works nothing out."""

from fractions import Fraction

from msgspec import Struct

from brimline.batch.models.gel import Window
from brimline.batch.models.values import Estimate, NoFigure
from brimline.document.values import Band
from brimline.figures.values import Interval
from brimline.findings import Source


class WeighedLine(Struct, frozen=True):
    """One line: what was written, its grams (None without a figure), and `fate`, empty for what goes in as written."""

    role: str
    amount: str
    item: str
    grams: Interval | None
    solids: Interval | None
    fate: str


class Acid(Struct, frozen=True):
    """The added acid of one line: ml and g as far as known, g as citric acid, why that is not known, `per` a jar."""

    item: str
    ml: Interval | None
    grams: Interval | None
    citric: Interval | None
    unknown: str
    per: str


class Minutes(Struct, frozen=True):
    """The time of one jar by the formula's own table: which listed jar it takes, minutes or what is said instead.

    `bands` are all times of the row, for when no altitude is known; `psi` holds for pressure canners.
    """

    method: str
    jar: str
    takes: str
    minutes: Fraction | None
    psi: Fraction | None
    bands: tuple[Band, ...]
    says: str


class Fill(Struct, frozen=True):
    """Jars: the stated yield, and the most of that jar that the ingredients could fill unboiled; `says` why not."""

    jar: str
    stated: Interval
    most: Fraction | None
    beyond: bool
    says: str


class Gel(Struct, frozen=True):
    """Degrees F of a place: boiling water and the gel point by the model, the gel point as published for the altitude.

    `read` tells that the water was measured on the day, else it is that of a standard day at the altitude; `standard`
    is then what it would be on such a day (None if no altitude is known). `above` is how many degrees over boiling
    water the model takes; `used` whether the formula ends at the gel point.
    """

    water: float | NoFigure
    model: float | NoFigure
    above: Fraction
    published: Interval | None
    used: bool
    read: bool
    standard: float | NoFigure | None


class Finished(Struct, frozen=True):
    """The batch when cooking ends, each figure with both ends and the run with every unknown at its middle.

    `mass` in g, `ml` at 90 C, `solids_share` of the liquid part and `sugar_share` (the sweeteners' own solids of all
    that is left) from 0 to 1, `jars` of the stated jar (None if none is stated). `way` is `boiled briefly`,
    `gel point`, `solids` or `not boiled`; `assumes` says in words what was taken. `unboiled` if there were solids
    enough before boiling. `window` is where the set of this formula is published to work, `stands` where the solids
    are in it (`inside`, `edge`, `below`, `above`; empty without a window).
    """

    way: str
    assumes: str
    mass: Estimate
    solids_share: Estimate
    sugar_share: Estimate
    ml: Estimate
    jars: Estimate | None
    unboiled: bool
    window: Window | None
    stands: str


class Weighing(Struct, frozen=True):
    """One batch weighed. Masses in g, shares from 0 to 1, altitude in ft (None if none is known).

    `solids_share` is of the liquid part before boiling. `unweighed` are kept lines without grams, `no_solids` those
    whose soluble solids nobody states, counted from none to all of their dry matter. `base` and `sour` are None where a
    line of them has no grams. `unread` is how many findings say
    that something in the formula could not be read.
    """

    path: str
    code: str
    title: str
    standing: str
    kind: str
    lines: tuple[WeighedLine, ...]
    total: Interval
    sugar: Interval
    sugar_share: Interval | None
    solids: Interval
    solids_share: Interval | None
    unweighed: tuple[str, ...]
    no_solids: tuple[str, ...]
    alternatives: tuple[str, ...]
    acids: tuple[Acid, ...]
    base: Interval | None
    sour: Interval | None
    sour_share: Interval | None
    acid_class: str
    acid_why: str
    gelled: bool
    pectin: str
    fill: Fill | None
    finished: Finished | NoFigure
    minutes: tuple[Minutes, ...]
    altitude_ft: Fraction | None
    gel: Gel | None
    sources: tuple[Source, ...]
    unread: int
