"""What a review comes to: one value per formula, one for the whole run; reports print them and decide nothing."""

from msgspec import Struct

from brimline.figures.values import Interval
from brimline.findings import Finding
from brimline.shelf.values import Refusal as Refusal


class Reviewed(Struct, frozen=True):
    """One formula and what was found in it.

    `scale` is how much of the tested batch it was read at, as text (`1.00`), empty where nothing was compared;
    `departs_from` is the code of the tested formula (its parent), `root` the root of the chain if it is another one.
    `held_back` is false for a draft whatever was found, and counts no finding that a variance lets stand. `findings` are
    sorted. A collection's own file (`variances.yaml`, `register.json`) has neither code nor standing.
    """

    path: str
    code: str
    title: str
    standing: str
    departs_from: str
    root: str
    scale: str
    held_back: bool
    findings: tuple[Finding, ...]


class Review(Struct, frozen=True):
    """A whole run.

    `collections` are the names of the collections the formulas belong to; `notices` their notices. `records` are the
    files that a collection keeps beside its formulas, with what was found in them: a variance that is expired, unused or
    too broad, a seal without a formula. They are no formulas and hold nothing back.
    """

    formulas: tuple[Reviewed, ...]
    refusals: tuple[Refusal, ...] = ()
    collections: tuple[str, ...] = ()
    notices: tuple[str, ...] = ()
    records: tuple[Reviewed, ...] = ()

    @property
    def held_back(self) -> int:
        """How many formulas are held back."""
        return sum(one.held_back for one in self.formulas)


class MoveRow(Struct, frozen=True):
    """One move as `compare` shows it: subject, the tested value, the value here, the change, what it means.

    `meaning` starts with the level word of the gravest finding about it, or says that nothing in the table holds it
    back; `declared` tells whether the changes section owns up to it. `ratio` is the change of an amount per base or at the
    scale, None where it is no amount.
    """

    subject: str
    tested: str
    here: str
    change: str
    meaning: str
    declared: bool
    line: int
    tested_line: int
    ratio: Interval | None = None


class Comparison(Struct, frozen=True):
    """An adaptation beside the formula it is measured against: which, at what scale, move by move, and the review."""

    reviewed: Reviewed
    against: str
    against_title: str
    scale: str
    acid_class: str
    moves: tuple[MoveRow, ...]
