"""What a formula says, as frozen values; every value knows the span it was read from.

Amounts are exact fractions. Three absences are three things: not written (`None` or an empty tuple), left to the
cook (`Amount.some`), and zero.
"""

from fractions import Fraction

from msgspec import Struct, field

from brimline.document.own import Own
from brimline.findings import Span


class Pack(Struct, frozen=True):
    """The size printed on a package: `1 3/4 oz` in `1 box of 1 3/4 oz`; `unit` is a canonical unit name."""

    number: Fraction
    unit: str


class Measure(Struct, frozen=True):
    """One amount in one unit: `low` and `high` are equal unless a range is written.

    `unit` is the canonical name of the unit table (`cup`, `g`, `each`, `medium`, `box`); `pack` is the package size
    if one is written, so the amount of food is the count times the pack.
    """

    low: Fraction
    high: Fraction
    unit: str
    pack: Pack | None = None


class Per(Struct, frozen=True):
    """What an amount is stated for: `per pint jar`, `per cup juice`, `per kg`, `per quart finished`.

    `of` is `jar`, `finished`, a word naming another line (`juice`, `fruit`, `pulp`), or empty; `unit` is the
    canonical unit or jar name, `number` how many of them (`500` in `per 500 ml jar`), usually 1.
    """

    number: Fraction
    unit: str
    of: str


class Amount(Struct, frozen=True):
    """How much: a sum of parts (`1 cup + 2 tbsp`), the same amount in other measures (`= 1.3 kg`), per what.

    `some` is the word of that name, for things left to the cook; then `parts` is empty.
    """

    parts: tuple[Measure, ...]
    also: tuple[tuple[Measure, ...], ...] = ()
    per: Per | None = None
    some: bool = False


class Line(Struct, frozen=True):
    """One ingredient line, or one `or` / `from` line under it.

    `flags` holds of `optional`, `infused`, `discarded`, in that order. `role` is the author's word; an `or` or `from`
    line without one inherits it. `item` is the text before the first comma, `forms` the rest split at commas;
    `strength` is the percentage written as a form (`5 %`), if any. `other` are tested alternatives (`or`);
    `any_mix` says they were written `or any mix of:`; such members carry no amount of their own. `made_of` are the
    `from` lines. `note` holds note texts. `index` counts take lines from 0, -1 for sub-lines.
    """

    role: str
    amount: Amount | None
    item: str
    forms: tuple[str, ...]
    span: Span
    amount_span: Span
    item_span: Span
    flags: tuple[str, ...] = ()
    strength: Fraction | None = None
    other: tuple["Line", ...] = ()
    any_mix: bool = False
    made_of: tuple["Line", ...] = ()
    note: tuple[str, ...] = ()
    index: int = -1


class Header(Struct, frozen=True):
    """A header value and where it stands; the value is the text as written, trimmed."""

    value: str
    span: Span


class Finish(Struct, frozen=True):
    """When cooking ends.

    `kind`: `rolling` (full rolling boil, minutes), `gel` (gel point; `above_f` degrees F over boiling water, 8 if not
    written), `brix` (value), `temperature` (value in F at sea level), `simmer` and `boil` (minutes), `reduce` (value,
    a fraction of the batch), `thick`, `none`, `other` (text). `low`..`high` are minutes or the value.
    """

    kind: str
    span: Span
    low: Fraction | None = None
    high: Fraction | None = None
    text: str = ""


class Jar(Struct, frozen=True):
    """A jar as written and as the jar table knows it: canonical name (`half-pint`), nominal volume in ml.

    `name` is the metric or US text normalised (`300 ml`) when the table has no such jar. A container that is not made
    for canning (`bottle`, `crock`) has a volume of 0: no tested time holds for it.
    """

    name: str
    volume_ml: Fraction
    span: Span


class Yield(Struct, frozen=True):
    """How many jars the formula fills; `low` equals `high` unless a range is written."""

    low: Fraction
    high: Fraction
    jar: Jar
    span: Span


class Step(Struct, frozen=True):
    """One step of `make`, its text joined over continuation lines with single blanks; `span` covers all of it."""

    text: str
    span: Span


class Prepare(Struct, frozen=True):
    """How jars are got ready: `sterile` or `clean`; `jars` is empty when it holds for all of them."""

    kind: str
    jars: tuple[Jar, ...]
    span: Span


class Headspace(Struct, frozen=True):
    """The gap under the lid, in inches exactly (1 in = 25.4 mm); `jars` is empty when it holds for all."""

    inches: Fraction
    jars: tuple[Jar, ...]
    span: Span


class Packing(Struct, frozen=True):
    """The `pack` section: jars, preparation, fill (`hot` or `raw`), headspace, lid, each with where it stands."""

    jars: tuple[Jar, ...] = ()
    prepare: tuple[Prepare, ...] = ()
    fill: Header | None = None
    headspace: tuple[Headspace, ...] = ()
    lid: Header | None = None
    span: Span | None = None


class Band(Struct, frozen=True):
    """A time up to an altitude: `10 min to 6000 ft`. `up_to_ft` is None for the open band written `above`.

    `gauge` is `dial` or `weighted` with `psi`, for pressure canners. `unit` is the author's altitude unit, `ft` or `m`.
    """

    minutes: Fraction
    up_to_ft: Fraction | None
    span: Span
    gauge: str = ""
    psi: Fraction | None = None
    unit: str = "ft"


class Times(Struct, frozen=True):
    """One row of a process: the jars, the fill if it is part of the row, and the bands in order of altitude."""

    jars: tuple[Jar, ...]
    fill: str
    bands: tuple[Band, ...]
    span: Span


class Start(Struct, frozen=True):
    """How a canner is started where that is part of the process: water temperature and minutes to the boil."""

    water_f: Fraction
    low: Fraction
    high: Fraction
    span: Span


class Process(Struct, frozen=True):
    """One `process METHOD` section; method is boiling-water, steam, pressure, freezer or refrigerator."""

    method: str
    span: Span
    rows: tuple[Times, ...] = ()
    start: Start | None = None


class Keep(Struct, frozen=True):
    """One row of `keep`: kind (stand, sealed, opened, chilled, frozen, uncooked), a time in hours, where.

    `hours` is exact (a month counts as 1/12 of 365.25 days, a week 168 h); None where no time is written.
    """

    kind: str
    low_h: Fraction | None
    high_h: Fraction | None
    where: tuple[str, ...]
    span: Span
    text: str = ""


class Evidence(Struct, frozen=True):
    """One row of `evidence`.

    `kind` is tested, reading, source or review-by; `date` is ISO text or empty; `quantity` (pH, Brix, aw) and `value`
    belong to readings; `text` is the whole row as written.
    """

    kind: str
    text: str
    span: Span
    date: str = ""
    quantity: str = ""
    value: Fraction | None = None
    forms: tuple[str, ...] = ()


class Change(Struct, frozen=True):
    """One line of `changes`: the subject it owns up to and the author's words."""

    subject: str
    text: str
    span: Span


class Document(Struct, frozen=True):
    """One formula, whole. Anything not written is None or empty; `at` gives the span of a JSON pointer.

    `sections` maps each section word (`take`, `process`, ...) to the span of that word, and `formula` to the span of
    the first header, so that something missing can be placed. `own` are the ingredients its collection adds to the
    table: nothing the formula says, but what its names can mean.
    """

    path: str
    code: str = ""
    title: str = ""
    product: str = ""
    standing: str = ""
    adapts: str = ""
    finish: Finish | None = None
    yields: Yield | None = None
    sold_as: str = ""
    retired: str = ""
    successor: str = ""
    take: tuple[Line, ...] = ()
    make: tuple[Step, ...] = ()
    pack: Packing = field(default_factory=Packing)
    process: tuple[Process, ...] = ()
    keep: tuple[Keep, ...] = ()
    changes: tuple[Change, ...] = ()
    evidence: tuple[Evidence, ...] = ()
    headers: dict[str, Span] = field(default_factory=dict)
    sections: dict[str, Span] = field(default_factory=dict)
    comments: tuple[tuple[int, str], ...] = ()
    at: dict[str, Span] = field(default_factory=dict)
    own: tuple[Own, ...] = ()
