"""What a report for a machine or a page is made from, and the order in which such reports tell it: unsafe first."""

from collections.abc import Callable, Iterable, Iterator

from msgspec import Struct

from brimline.findings import Finding, Level
from brimline.report.look import nothing_written
from brimline.report.words import ORDER, UNSURE, cited, counted, sentence
from brimline.review.values import Review, Reviewed


class Rule(Struct, frozen=True):
    """A rule as reports list it: its name, what must hold, why, the gravest level it can give, where that is published.

    `why` runs over what must hold as well as the reason; `sources` are as a reader can look them up.
    """

    name: str
    must: str
    why: str
    level: Level
    sources: tuple[str, ...] = ()


class Handed(Struct, frozen=True):
    """A review on its way out.

    `version` is the program's own, `figures` the date of its figures; neither names the machine, so that the same
    input gives the same bytes everywhere. `start` leads from the top of the repository to where paths start
    (`formulas/`), whatever the working folder. `written` gives a line of a formula by path and line number. `compared`
    says what the review was compared with where it holds only what is new; it may then hold nothing at all.
    """

    review: Review
    version: str = ""
    figures: str = ""
    start: str = ""
    rules: tuple[Rule, ...] = ()
    written: Callable[[str, int], str] = nothing_written
    compared: str = ""

    @property
    def program(self) -> str:
        """Name, version and date of the figures in one line."""
        return ", ".join(
            filter(None, [f"brimline {self.version}".strip(), self.figures and f"figures of {self.figures}"])
        )

    @property
    def notices(self) -> tuple[str, ...]:
        """What is said with every report: what it was compared with, and the notices of the collections."""
        return tuple(dict.fromkeys(filter(None, [self.compared, *self.review.notices])))

    @property
    def headline(self) -> str:
        """The outcome in a few words."""
        held = self.review.held_back
        if self.compared:
            what = "formula or file" if held == 1 else "formulas and files"
            return f"{held:,} {what} held back by what is new" if held else "nothing new is held back"
        reviewed = counted(len(self.review.formulas), "formula")
        return f"{held:,} of {reviewed} held back" if held else f"{reviewed} reviewed, none held back"

    def path(self, path: str) -> str:
        """A path from the top of the repository; a formula from a pipe has none and keeps its name."""
        return path if path.startswith("<") else f"{self.start}{path}"


def everything(review: Review) -> tuple[Reviewed, ...]:
    """The formulas and the files that a collection keeps beside them."""
    return (*review.formulas, *review.records)


def ranked(review: Review) -> list[tuple[Reviewed, Finding]]:
    """Every finding with its formula: unsafe ones first, what holds back before what is let stand, then by path."""
    pairs = [(one, finding) for one in everything(review) for finding in one.findings]
    return sorted(pairs, key=lambda pair: (rank(pair[1]), not holds_back(*pair), pair[0].path, pair[1].key[1:]))


def rank(finding: Finding) -> int:
    """Where a finding's level stands in the order of telling."""
    return ORDER.index(finding.level)


def holds_back(one: Reviewed, finding: Finding) -> bool:
    """Whether this finding is one of those that hold its formula back."""
    return one.held_back and finding.level.holds_back and finding.varied is None


def called(one: Reviewed) -> str:
    """A formula's code and title; the path where it has neither."""
    return " ".join(filter(None, [one.code, one.title])) or one.path


def parts(finding: Finding) -> Iterator[tuple[str, str]]:
    """What a finding says, in the order of reading, each part with its label (empty for those that need none)."""
    for label, text in (
        ("", finding.says),
        ("", "" if finding.certain else UNSURE),
        ("", finding.why),
        ("Write", finding.copy.strip()),
        ("Instead", finding.instead),
    ):
        if text.strip():
            yield label, text if label == "Write" else sentence(text)
    for source in cited(finding.sources):
        yield "Source", sentence(source)


def spoken(finding: Finding) -> str:
    """The same as one paragraph."""
    return " ".join(f"{label}: {text}" if label else text for label, text in parts(finding))


def word(finding: Finding) -> str:
    """The level with its rule: `unsafe acid/dropped`, `may be unsafe acid/cut`."""
    return f"{'' if finding.certain else 'may be '}{finding.level.word} {finding.rule}"


def at_line(finding: Finding) -> str:
    """Section and line: `take, line 13`."""
    return ", ".join(filter(None, [finding.section, f"line {finding.line}" if finding.line else ""]))


def tested_at(finding: Finding, handed: Handed) -> str:
    """The place in the tested formula: `formulas/tested/kv-102.formula, line 12`; empty if there is none."""
    if finding.before is None:
        return ""
    line = f"line {finding.before_line}" if finding.before_line else ""
    return ", ".join(filter(None, [handed.path(finding.before.path), line]))


def where(finding: Finding, handed: Handed) -> str:
    """Section and line, here and in the tested formula."""
    tested = tested_at(finding, handed)
    return "; ".join(filter(None, [at_line(finding), f"tested formula: {tested}" if tested else ""]))


def state(one: Reviewed) -> str:
    """Whether a formula is held back, in words."""
    if one.held_back:
        return "held back"
    return "a draft, shown only" if one.standing == "draft" else "not held back"


def counts(pairs: Iterable[tuple[Reviewed, Finding]]) -> list[tuple[Level, int]]:
    """How many findings of each level, in the order of telling, levels without any left out."""
    found = [finding.level for _, finding in pairs]
    return [(level, found.count(level)) for level in ORDER if level in found]
