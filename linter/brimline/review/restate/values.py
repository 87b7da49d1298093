"""What a restated formula comes to, as values for a sheet, a file or JSON."""

from fractions import Fraction

from msgspec import Struct

from brimline.document.values import Amount, Document, Jar
from brimline.figures.values import Row
from brimline.review.values import Reviewed


class RestateError(ValueError):
    """The formula cannot be restated as asked; the message says why and what to do."""


class RestatedLine(Struct, frozen=True):
    """One line of the list in both systems, from one exact value.

    `depth` is 0 for a line, 1 for an `or` or `from` line under it, `lead` its word. `us` and `metric` are None where
    the amount stays as written (`kept` says why). `way` is `up`, `down` or `near`. `exact` is the exact amount in the
    unit it was written in. `doses` are, for a dose stated for one jar, every jar of the formula with its share.
    """

    lead: str
    item: str
    written: Amount | None
    us: Amount | None
    metric: Amount | None
    way: str
    exact: str
    kept: str = ""
    depth: int = 0
    doses: tuple[tuple[str, Amount | None, Amount | None], ...] = ()


class RestatedJar(Struct, frozen=True):
    """A jar with its metric name by the jar table, empty if it has none."""

    jar: Jar
    metric: str


class Restated(Struct, frozen=True):
    """A formula restated.

    `by` is the share of the batch, `units` what was asked for (`us`, `metric`, `both`). `document` is the restated
    formula, `text` the same as it can be filed, `reviewed` its review against what it came from (None where it cannot
    be written, `unwritten` says why). `left` are amounts in the steps that could not be restated. `caution` is the row
    of the decision table on batches of another size, None for the whole batch.
    """

    path: str
    code: str
    title: str
    standing: str
    by: Fraction
    units: str
    source: Document
    document: Document
    lines: tuple[RestatedLine, ...]
    jars: tuple[RestatedJar, ...]
    left: tuple[str, ...]
    text: str
    unwritten: str
    reviewed: Reviewed | None
    caution: Row | None
