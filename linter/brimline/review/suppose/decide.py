"""What a review of an edited formula comes to: the finding that decides, and the rows that explain a silence."""

from collections.abc import Iterable, Sequence

from msgspec import Struct

from brimline.document.values import Document, Line
from brimline.findings import Finding, Flag, Harm, Level, Span
from brimline.moves.case import against
from brimline.moves.values import Case
from brimline.review.rows import row_of
from brimline.review.stamp import level_word
from brimline.review.suppose.lines import every
from brimline.review.values import Reviewed
from brimline.rules import registered

VERDICTS = {
    Level.UNREADABLE: "unreadable",
    Level.UNSAFE: "unsafe",
    Level.UNTESTED: "untested",
    Level.QUALITY: "quality",
}
# What a caller is told besides, however light: who must not eat it, and what it brings in.
TOLD = ("honey-infant", "allergen-new")
# Rows that speak only where a rule found them silent: their limits hold for some products and amounts.
SEEN_ONLY = frozenset(
    {
        "honey-half",
        "honey-pectin",
        "syrup-no-pectin",
        "syrup-powder",
        "syrup-liquid",
        "sugar-grain",
        "acid-dose-table",
        "method-steam",
        "pectin-bulk",
    }
)
_HARMS = (Harm.ILLNESS, Harm.SPOILAGE, Harm.BREAKAGE, Harm.SOFT_SET, Harm.FLAVOUR, Harm.RECORD)


class Touched(Struct, frozen=True):
    """What an edit touched: changed or new ingredient lines, lines of the tested formula that changed or went (`gone`), and

    the sections of other changes.
    """

    lines: tuple[Span, ...] = ()
    gone: tuple[Span, ...] = ()
    sections: frozenset[str] = frozenset()

    def has(self, finding: Finding) -> bool:
        """Whether a finding stands on something that was touched."""
        at = finding.at.span
        if finding.section in self.sections or any(one.start <= at.start < one.end for one in self.lines):
            return True
        before = finding.before.span.start if finding.before else -1
        return any(one.start <= before < one.end for one in self.gone)


NOTHING = Touched()
_SECTIONS = {
    "process": "process",
    "keep": "keep",
    "jar": "pack",
    "prepare": "pack",
    "fill": "pack",
    "headspace": "pack",
}


def touched(tested: Document, edited: Document, subjects: Iterable[str]) -> Touched:
    """The lines of the edited formula that the tested one does not have, and the sections that the edits named."""
    had = {_key(line) for line in every(tested)}
    has = {_key(line) for line in every(edited)}
    gone = tuple(line.span for line in every(tested) if _key(line) not in has)
    lines = tuple(line.span for line in every(edited) if _key(line) not in had)
    return Touched(lines, gone, frozenset(_SECTIONS[one] for one in subjects if one in _SECTIONS))


def _key(line: Line) -> tuple[object, ...]:
    return (line.role, line.item, line.forms, line.amount, line.flags)


class Decided(Struct, frozen=True):
    """The verdict word, the finding that decided (None if nothing is held against the edit), whether the formula has it too."""

    verdict: str
    finding: Finding | None
    before: bool


def decided(reviewed: Reviewed, base: Reviewed, touched: Touched = NOTHING) -> Decided:
    """The gravest finding; of several the one the edit brought, that is certain, on a line it touched, that harms most."""
    had = {(one.rule, one.row) for one in base.findings}
    found = [one for one in reviewed.findings if one.level in VERDICTS]
    if not found:
        return Decided("matches", None, False)
    first = min(
        found,
        key=lambda one: (
            int(one.level),
            (one.rule, one.row) in had,
            not one.certain,
            not touched.has(one),
            _HARMS.index(one.harm),
            one.at.span.start,
            one.rule,
        ),
    )
    return Decided(VERDICTS[first.level], first, (first.rule, first.row) in had)


def worst(several: Iterable[Decided]) -> Decided | None:
    """The gravest of some decisions that hold a formula back; None if none does."""
    held = [one for one in several if one.finding is not None and one.finding.level.holds_back]
    return min(held, key=lambda one: int(one.finding.level) if one.finding else 0, default=None)


def told(reviewed: Reviewed, base: Reviewed) -> list[Finding]:
    """Notes of form that a caller has to hear, if the edit brought them."""
    had = {one.row for one in base.findings}
    return [one for one in reviewed.findings if one.row in TOLD and one.row not in had]


def silent_rows(tested: Document, edited: Document, today: str) -> list[str]:
    """The rows that the rules looked at and found silent here."""
    cases, _ = against(tested, edited, None, today)
    return list(dict.fromkeys(flag.row for case in cases for flag in _flags(case) if _is_silent(flag)))


def _flags(case: Case) -> Iterable[Flag]:
    for rule in registered():
        yield from rule.check(case)


def _is_silent(flag: Flag) -> bool:
    return (flag.level or level_word(row_of(flag.row), flag.acid_class)) == "silent"


def explains(rows: Sequence[str], seen: Sequence[str], product: str) -> str:
    """The first row that was seen to be silent, else the first that speaks of this product; empty if there is none."""
    fitting = [row for row in rows if not row_of(row).kinds or product in row_of(row).kinds]
    fitting = [row for row in fitting if row in seen or row not in SEEN_ONLY]
    flagged = [row for row in fitting if row in seen]
    return next(iter((*flagged, *fitting)), "")
