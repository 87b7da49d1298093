"""Sentences and names that several reports share, so that they say the same thing."""

from collections import Counter
from collections.abc import Iterable

from brimline.findings import Finding, Level, Source, Variance
from brimline.review.values import Reviewed

# Said at the end of every run, clean or not.
WHAT_IT_DOES = "This compares edits with tested formulas; it cannot make an untested formula safe."

# Said whenever something is held back.
NOTICE = (
    "Improperly preserved food can cause serious illness, botulism among them. Follow the current guidance of your "
    "local extension office, your local food law and licensed professionals (a process authority for anything sold). "
    "When in doubt, do not eat it; refrigerate or freeze instead."
)

# Said where a rule could not be sure, because a cup of something weighs more or less.
UNSURE = (
    "This may be so; it cannot be told from the amounts as written. State them in the measure the tested formula uses, "
    "or by weight."
)

# What can make someone ill is told before what cannot be read: many unreadable files must not push it out of sight.
ORDER = (Level.UNSAFE, Level.UNREADABLE, Level.UNTESTED, Level.QUALITY, Level.FORM)

OUR_JUDGEMENT = "our judgement, on the cautious side"

CLASSES = {
    "protects": "the acid in it protects against illness",
    "doubtful": "whether the acid in it protects is doubtful",
    "sets": "the acid in it is there for the set",
}


def gravest_first(formulas: Iterable[Reviewed]) -> list[Reviewed]:
    """The formulas held back first, among them those with the gravest finding; otherwise by path."""
    return sorted(formulas, key=lambda one: (not one.held_back, _gravest(one), one.path))


def _gravest(one: Reviewed) -> int:
    return min((ORDER.index(finding.level) for finding in not_varied(one.findings)), default=len(ORDER))


def not_varied(findings: Iterable[Finding]) -> list[Finding]:
    """The findings that no variance lets stand."""
    return [finding for finding in findings if finding.varied is None]


def standing(one: Reviewed, finding: Finding) -> str:
    """Why a finding that would hold a formula back does not, in words; empty where there is nothing to say."""
    if one.standing == "draft" and finding.varied is None:
        return "a draft: shown, not held back"
    return stands_by(finding.varied) if finding.varied else ""


def counted(number: int, noun: str) -> str:
    """A number with its noun: `1 formula`, `2 formulas`."""
    return f"{number:,} {noun}" if number == 1 else f"{number:,} {noun}s"


def levels(findings: Iterable[Finding]) -> list[tuple[Level, int]]:
    """How many findings there are of each level, the gravest first; levels without any are left out."""
    counts = Counter(finding.level for finding in findings)
    return sorted(counts.items())


def level_counts(findings: Iterable[Finding]) -> str:
    """The same in words: `1 unsafe, 3 form`."""
    return ", ".join(f"{number:,} {level.word}" for level, number in levels(findings))


def stands_by(one: Variance) -> str:
    """Why a finding does not hold back: until when, on whose word, the reason, where that is written."""
    written = f" ({one.path}, line {one.line})" if one.path else ""
    return f"It stands until {one.until} by a variance of the {one.role}{written}: {sentence(one.reason)}"


def cited(sources: Iterable[Source]) -> list[str]:
    """Sources as a reader can look them up, each publication once with all its places, and how surely it is known."""
    places: dict[tuple[str, str], list[str]] = {}
    for source in sources:
        known = "judgement" if source.how == "judgement" else "memory" if source.how == "memory" else ""
        title = "" if known == "judgement" and source.title in {source.id, OUR_JUDGEMENT} else source.title
        sections = places.setdefault((title, known), [])
        sections.extend([source.section] if source.section and source.section not in sections else [])
    return [_cited(title, known, sections) for (title, known), sections in places.items()]


def _cited(title: str, known: str, sections: list[str]) -> str:
    named = ", ".join(filter(None, [title, "; ".join(sections)]))
    how = {"judgement": OUR_JUDGEMENT, "memory": "from memory"}.get(known, "")
    if not named:
        return how
    return f"{named} ({how})" if how else named


def sentence(text: str) -> str:
    """A text that starts with a capital and ends in a full stop."""
    trimmed = text.strip()
    if not trimmed:
        return ""
    ended = trimmed if trimmed.endswith((".", "!", "?")) else f"{trimmed}."
    return ended[0].upper() + ended[1:]


def listed(words: list[str]) -> str:
    """Words as a list in a sentence: `a, b and c`."""
    return " and ".join(filter(None, [", ".join(words[:-1]), *words[-1:]]))
