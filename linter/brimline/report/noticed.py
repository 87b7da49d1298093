"""A change notice in plain words: what changed, the gravest first, and where the office's own text goes."""

from collections.abc import Iterable, Iterator

from brimline.findings import Finding
from brimline.report.data import Value, as_text
from brimline.report.look import Look, wrapped
from brimline.report.restated_data import brief
from brimline.report.sink import Row, paint, visible
from brimline.report.words import NOTICE, cited, sentence
from brimline.review.noticing import Notice, Noticed

SUBJECTS = {
    "acid": "Acid",
    "low-acid": "Low-acid food and liquid",
    "process": "Processing",
    "jar": "Jars",
    "fill": "Filling",
    "prepare": "Preparing the jars",
    "lid": "Lids",
    "headspace": "Headspace",
    "sugar": "Sugar",
    "set": "Amounts and batch",
    "finish": "End of cooking",
    "keep": "Keeping",
    "other": "Other ingredients",
    "evidence": "Evidence",
}
# What stands where the office has not said anything yet; what jars already made need is not ours to say.
JARS = "__________ (the office's own words go here; until then, ask the office before eating from them)"
NOTHING = "Nothing in it that matters to somebody who holds the old version has changed."
VERSION = 1


def notice_text(notice: Notice, look: Look, jars: str = "", notices: Iterable[str] = ()) -> str:
    """The notice for people."""
    return paint(_rows(notice, look, jars, notices), look.colour)


def notice_data(notice: Notice, tool: str, jars: str = "", notices: Iterable[str] = ()) -> str:
    """The notice as one JSON text in ASCII."""
    data: dict[str, Value] = {
        "report": "notice",
        "version": VERSION,
        "tool": tool,
        "code": notice.code,
        "title": visible(notice.title),
        "old": notice.old_path,
        "new": notice.new_path,
        "changes": [
            {
                "subject": one.subject,
                "about": visible(one.about),
                "was": visible(one.was),
                "now": visible(one.now),
                "way": visible(one.way),
                "level": None if one.level is None else one.level.word,
                "findings": [brief(finding) for finding in one.findings],
                "of_old": [brief(finding) for finding in one.of_old],
            }
            for one in notice.changes
        ],
        "also": [brief(finding) for finding in notice.also],
        "also_old": [brief(finding) for finding in notice.also_old],
        "jars_already_made": jars,
        "notices": [NOTICE, *notices],
    }
    return as_text(data)


def _rows(notice: Notice, look: Look, jars: str, notices: Iterable[str]) -> Iterator[Row]:
    yield from ((("strong", line),) for line in wrapped(f"Change notice: {notice.code}  {notice.title}", look.width))
    if notice.old_title != notice.title:
        yield from _plain("  ", f"until now: {notice.old_title}", look)
    for text in notices:
        yield from _plain("  ", text, look)
    yield ()
    if not notice.changes and not notice.also:
        yield from _plain("", NOTHING, look)
    for one in notice.changes:
        yield from _change(one, look)
    yield from _also("The new version beside the old one", notice.also, look)
    yield from _also("The old version beside the new one", notice.also_old, look)
    yield ()
    yield from _plain("", f"Jars already made: {jars or JARS}", look)
    yield from _plain("", NOTICE, look)


def _change(one: Noticed, look: Look) -> Iterator[Row]:
    about = "" if one.about in (one.subject, "evidence") else f", {visible(one.about)}"
    for number, line in enumerate(wrapped(f"{SUBJECTS[one.subject]}{about}: {one.way}", look.width)):
        yield (("strong", line if not number else f"  {line}"),)
    yield from _plain("  ", f"Old: {one.was}", look)
    yield from _plain("  ", f"New: {one.now}", look)
    for who, findings in (("the old sheet, beside the new one", one.of_old), ("the change", one.findings)):
        for finding in findings:
            if finding.level.holds_back:
                yield from _said(who, finding, look)


def _said(who: str, finding: Finding, look: Look) -> Iterator[Row]:
    """What the review says, level first; a sentence about an old sheet needs no advice, its jars are made."""
    certain = "" if finding.certain else "may be "
    yield (("", f"  Review of {who}: {certain}"), (finding.level.word, finding.level.word))
    yield from _plain("    ", sentence(finding.why), look)
    if who == "the change":
        yield from _plain("    ", f"Instead: {sentence(finding.instead)}", look)
    yield from _plain("    ", f"Source: {'; '.join(cited(finding.sources))}", look)


def _also(head: str, findings: tuple[Finding, ...], look: Look) -> Iterator[Row]:
    if findings:
        yield (("strong", f"{head}:"),)
    for finding in findings:
        yield from _plain("- ", f"{finding.level.word}: {sentence(finding.says)} {sentence(finding.why)}", look)


def _plain(indent: str, text: str, look: Look) -> Iterator[Row]:
    blank = " " * len(indent)
    for number, line in enumerate(wrapped(text, look.width - len(indent))):
        yield (("", (blank if number else indent) + line),)
