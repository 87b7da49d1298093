"""A weighed batch as frozen values; the report prints them and works nothing out."""

from fractions import Fraction

from msgspec import Struct

from brimline.batch.models.gel import Window
from brimline.batch.models.values import Estimate, NoFigure
from brimline.document.values import Band
from brimline.figures.values import Interval
from brimline.findings import Source
from brimline.moves.claim import Claim


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


class Ingredient(Struct, frozen=True):
    """One ingredient of the line, lines of one ingredient together.

    `grams` as used (None if nobody says), `made_of` what a measured mixture was made of, `fate` what else is to be
    said (`if used`, `infused, taken out`). `close` tells that it may weigh more than the one before it.
    """

    name: str
    grams: Interval | None
    made_of: tuple[str, ...]
    fate: str
    close: bool = False


class Holds(Struct, frozen=True):
    """One of the nine allergens in the formula: what brings it in (`butter, unsalted`), with what is to be said."""

    allergen: str
    of: tuple[str, ...]


class Juice(Struct, frozen=True):
    """How much of a drink is juice: in per cent, and the g of full-strength juice it stands for; None with the reason."""

    percent: Interval | None
    full: Interval | None
    why: str
    sources: tuple[Source, ...]


class Acidified(Struct, frozen=True):
    """Which definition of 21 CFR part 114 formula and readings fall under, in a word and in words."""

    state: str
    says: str
    sources: tuple[Source, ...]


class Amount(Struct, frozen=True):
    """So much of something in a serving, and how a label rounds it: one text, or those of both ends."""

    name: str
    unit: str
    found: Estimate
    rounded: tuple[str, ...]
    sources: tuple[Source, ...]


class Served(Struct, frozen=True):
    """One serving: its measure in words, g by density at 20 C, and `net` g in the stated jar filled hot to its line.

    `per_jar` says how many servings are in it, as a label counts them, from both ends; `amounts` what is in a serving of
    the g rounded to a whole one. `uncounted` are lines without figures for energy, so that calories are not said.
    """

    words: str
    grams: Estimate
    jar: str
    net: Estimate | None
    per_jar: tuple[str, ...]
    amounts: tuple[Amount, ...]
    uncounted: tuple[str, ...]
    sources: tuple[Source, ...]


class Label(Struct, frozen=True):
    """What the formula supports of a label; a label itself needs more, and the food law of the place.

    `ingredients` descend by weight as used; `unplaced` are those without a weight. `holds` are the allergens that the
    table knows of, `ask` the ingredients whose package has to be read, `unknown` those the table does not have.
    `fruit` and `solids` are g in 100 g of the finished product, None where nobody says; `read` tells that the solids
    were measured. `keeping` is what the formula says of opened and sealed jars. `juice` and `served` are None for
    products that have none.
    """

    ingredients: tuple[Ingredient, ...]
    unplaced: tuple[Ingredient, ...]
    holds: tuple[Holds, ...]
    ask: tuple[str, ...]
    unknown: tuple[str, ...]
    fruit: Estimate | None
    solids: Estimate | None
    read: bool
    keeping: tuple[str, ...]
    sources: tuple[Source, ...]
    juice: Juice | None
    served: Served | None
    acidified: Acidified


class Weighing(Struct, frozen=True):
    """One batch weighed. Masses in g, shares from 0 to 1, altitude in ft (None if none is known).

    `solids_share` is of the liquid part before boiling. `unweighed` are kept lines without grams, `no_solids` those
    whose soluble solids nobody states, counted from none to all of their dry matter. `base` and `sour` are None where a
    line of them has no grams. `unread` is how many findings say
    that something in the formula could not be read. `label` are the facts for a label that it supports, `claim` what
    it says it is sold as beside the standard of that name.
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
    label: Label
    claim: Claim | None
