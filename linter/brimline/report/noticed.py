"""A change notice in plain words: what changed, the gravest first, and where the office's own text goes."""

import json
from collections.abc import Iterable, Iterator

from brimline.report.look import Look, wrapped
from brimline.report.restated_data import Value, brief
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
        "old": notice.old_path.encode("utf-8", "replace").decode("utf-8"),
        "new": notice.new_path.encode("utf-8", "replace").decode("utf-8"),
        "changes": [
            {
                "subject": one.subject,
                "about": visible(one.about),
                "was": visible(one.was),
                "now": visible(one.now),
                "way": visible(one.way),
                "level": None if one.level is None else one.level.word,
                "findings": [brief(finding) for finding in one.findings],
            }
            for one in notice.changes
        ],
        "also": [brief(finding) for finding in notice.also],
        "jars_already_made": jars,
        "notices": [NOTICE, *notices],
    }
    return json.dumps(data, indent=2, ensure_ascii=True) + "\n"


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
    for finding in notice.also:
        yield from _plain("- ", f"{finding.level.word}: {sentence(finding.says)} {sentence(finding.why)}", look)
    yield ()
    yield from _plain("", f"Jars already made: {jars or JARS}", look)
    yield from _plain("", NOTICE, look)


def _change(one: Noticed, look: Look) -> Iterator[Row]:
    about = f", {one.about}" if one.about not in (one.subject, "evidence") else ""
    level = f" [{one.level.word}]" if one.level is not None and one.level.holds_back else ""
    yield (
        ("strong", f"{SUBJECTS[one.subject]}{visible(about)}: "),
        (one.level.word if one.level else "", f"{visible(one.way)}{level}"),
    )
    yield from _plain("  ", f"Old: {one.was}", look)
    yield from _plain("  ", f"New: {one.now}", look)
    for finding in one.findings:
        if finding.level.holds_back:
            yield from _plain("  ", f"{sentence(finding.why)} Instead: {sentence(finding.instead)}", look)
            yield from _plain("  ", f"Source: {'; '.join(cited(finding.sources))}", look)


def _plain(indent: str, text: str, look: Look) -> Iterator[Row]:
    blank = " " * len(indent)
    for number, line in enumerate(wrapped(text, look.width - len(indent))):
        yield (("", (blank if number else indent) + line),)
