"""What every floor hands up: a place in a text, a published source, a flag raised by a rule and the finished finding.

Plain frozen values without logic; everything else imports them, they import nothing of ours.
"""

import enum

from msgspec import Struct


class Span(Struct, frozen=True, order=True):
    """A stretch of a formula's text.

    Half-open character offsets in the decoded text: `start` is the first character, `end` one past the last, both
    counted from 0. An empty span (`start == end`) is a point between two characters.
    """

    start: int
    end: int


class Place(Struct, frozen=True, order=True):
    """A span in one file.

    `path` is relative to the collection's root, with forward slashes; `<stdin>` for text that came through a pipe.
    """

    path: str
    span: Span


class Level(enum.IntEnum):
    """How grave a finding is; the smaller the number the graver. The first three hold a formula back."""

    UNREADABLE = 0
    UNSAFE = 1
    UNTESTED = 2
    QUALITY = 3
    FORM = 4

    @property
    def word(self) -> str:
        """The word printed for the level."""
        return self.name.lower()

    @property
    def holds_back(self) -> bool:
        """Whether a finding of this level keeps a formula from being published."""
        return self <= Level.UNTESTED


class Harm(enum.StrEnum):
    """What can come of it if the finding is ignored."""

    ILLNESS = "illness"
    SPOILAGE = "spoilage"
    SOFT_SET = "soft-set"
    BREAKAGE = "breakage"
    FLAVOUR = "flavour"
    RECORD = "record"


class Source(Struct, frozen=True, order=True):
    """A publication behind a figure or a rule.

    `how` is `read` (seen in the publication or a copy of it), `memory` (recalled, to be checked before relying on
    it), or `judgement` (ours, on the cautious side).
    """

    id: str
    title: str
    section: str
    how: str


# What a finding about the writing itself goes by.
THE_FORMAT = Source("format", "The text format of formulas", "schema/FORMAT.md", "read")


class Figure(Struct, frozen=True, order=True):
    """One number of a finding: its name in words, its value as text (exact where it is exact), its unit."""

    name: str
    value: str
    unit: str


class Flag(Struct, frozen=True):
    """What a rule yields: the row of the decision table, where, and the arithmetic in one sentence.

    `at` is the place in the formula under review, `before` the place in its tested formula. `certain` is false where
    an unknown cup weight leaves it open. `acid_class` (`protects`, `doubtful`, `sets`) picks the level in rows that
    state one per class. `level` and `harm` are words of a row whose level depends on its note; empty means the row's
    own. `instead` adds a first choice to the row's advice. `source` is the id of a published figure that speaks of
    this one thing; it is named before the row's sources. `sources`, if there are any, stand in the place of both.
    """

    row: str
    at: Span
    says: str
    figures: tuple[Figure, ...] = ()
    before: Place | None = None
    certain: bool = True
    acid_class: str = ""
    level: str = ""
    harm: str = ""
    instead: str = ""
    source: str = ""
    sources: tuple[Source, ...] = ()


class Reading(Struct, frozen=True, order=True):
    """One measured pH: the number as written, the batch, the ISO date, what was measured, with what (may be empty)."""

    ph: str
    batch: str
    on: str
    of: str
    by: str = ""

    def __str__(self) -> str:
        return ", ".join(filter(None, (f"pH {self.ph}", f"batch {self.batch}", self.on, self.of, self.by)))


class Variance(Struct, frozen=True, order=True):
    """A recorded, dated, reasoned permission for the findings of one rule on one formula as it stood.

    `rule` is `group/name`, `formula` a code, `fingerprint` that of the formula the variance was given for. `role` says
    who gave it, never a name; `until` is the ISO date of its last day. `letter` refers to a process-authority letter,
    `readings` are pH readings and `records` other evidence in words: all of them say where the evidence is kept, none
    of them holds it. `batches` counts the batches whose finished, equilibrated product was measured at pH 4.6 or
    below, 0 if any reading is above it. `path` and `line` are where the variance is written.
    """

    rule: str
    formula: str
    fingerprint: str
    reason: str
    role: str
    until: str
    letter: str = ""
    readings: tuple[Reading, ...] = ()
    records: tuple[str, ...] = ()
    batches: int = 0
    path: str = ""
    line: int = 0


class Finding(Struct, frozen=True):
    """A flag with everything a reader needs: level, rule, harm, place, the figures, the reason, the way out, sources.

    Findings sort by file, place, level and rule. `line` and `column` count from 1 and are for printing; `at` holds
    the exact offsets. `formula` is the code of the formula, empty if it has none. `row` is the row of the decision
    table that was decided, empty for findings about the writing itself. `field` names the part of the formula by its
    section and item (`/take/lemon-juice`), and `ordinal` counts findings alike in rule, field, row, level and
    certainty from 1; both are there for the fingerprint, which must not know of lines. `varied` is the variance that
    lets it stand: such a finding is shown and does not hold back.
    """

    at: Place
    level: Level
    rule: str
    harm: Harm
    says: str
    why: str
    instead: str
    formula: str = ""
    row: str = ""
    line: int = 0
    column: int = 0
    section: str = ""
    before: Place | None = None
    before_line: int = 0
    certain: bool = True
    copy: str = ""
    figures: tuple[Figure, ...] = ()
    sources: tuple[Source, ...] = ()
    field: str = ""
    ordinal: int = 1
    varied: Variance | None = None

    @property
    def key(self) -> tuple[str, int, int, int, str, str]:
        """Sorting key: file, place, level, rule, sentence."""
        return (self.at.path, self.at.span.start, int(self.level), self.at.span.end, self.rule, self.says)
