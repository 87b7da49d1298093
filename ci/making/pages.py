"""Writes the pages of the rules, one for each group and an index, from the rules, their rows, sources and examples."""

import re
from collections.abc import Iterator
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING, Any

from making import decisions, examples

if TYPE_CHECKING:
    from brimline.report.why import Reason

FOLDER = "schema/rules"
_NOTICE = (
    "This compares edits with tested formulas; it cannot make an untested formula fit to preserve from. Food that is "
    "preserved wrongly can cause serious illness, botulism among them. Follow current guidance from your local "
    "extension office, your local food law, and licensed professionals. When in doubt, do not eat it; refrigerate or "
    "freeze instead."
)
_MADE = "<!-- Written by ci/make.py from the rules and their tables; change those, not this page. -->"


def make(root: Path) -> dict[str, bytes]:
    """The pages of the rules, by path."""
    reasons = _reasons(root)
    pages = {"README": _index(reasons)}
    for group, several in groupby(reasons, key=lambda reason: reason.group):
        pages[group] = _page(group, list(several))
    return {f"{FOLDER}/{name}.md": ("\n".join(lines) + "\n").encode("utf-8") for name, lines in pages.items()}


def _reasons(root: Path) -> "list[Reason]":
    """Every rule by group, from the tables as they are now and not as they were last compiled."""
    import json

    from brimline.faces.why import all_reasons
    from brimline.figures.decisions import as_row
    from brimline.report.why import Example
    from brimline.review.rows import OWN

    compiled: list[dict[str, Any]] = json.loads(next(iter(decisions.make(root).values())))
    rows = {raw["id"]: as_row(raw) for raw in compiled} | OWN
    shown = {
        name: tuple(Example(one["text"], one["bad"], one["shows"]) for one in several)
        for name, several in examples.compiled(root).items()
    }
    return list(all_reasons(rows, shown))


def _index(reasons: "list[Reason]") -> list[str]:
    from brimline.report.why import GROUP_WORDS
    from brimline.report.words import sentence

    lines = [_MADE, "", "# The rules", "", "What each rule holds a formula to. The page of its group gives the reason,"]
    lines += ["what to do instead, the sources, and an example of what is flagged and of what is accepted."]
    lines += ["`brimline why RULE` prints the same.", ""]
    for group, several in groupby(reasons, key=lambda reason: reason.group):
        lines += [
            f"## [{group}]({group}.md): {GROUP_WORDS[group]}",
            "",
            "| rule | what must hold | levels |",
            "|---|---|---|",
        ]
        lines += [
            f"| [{one.name}]({group}.md#{_anchor(one.name)}) | {_cell(sentence(one.must))} | {_worst(one)} |"
            for one in several
        ]
        lines.append("")
    return [*lines, _NOTICE]


def _page(group: str, reasons: "list[Reason]") -> list[str]:
    from brimline.report.why import GROUP_WORDS

    lines = [_MADE, "", f"# {group}: {GROUP_WORDS[group]}", "", "[All rules](README.md)"]
    for reason in reasons:
        lines += ["", f"## {reason.name}", "", *_rule(reason)]
    return [*lines, "", _NOTICE]


def _rule(reason: "Reason") -> Iterator[str]:
    from brimline.report.why import sources_of
    from brimline.report.words import sentence

    yield f"**Must hold.** {_text(sentence(reason.must))}"
    yield ""
    yield f"**Why.** {_text(sentence(reason.why))}"
    if reason.rows:
        yield ""
        yield from ("| change | level | instead |", "|---|---|---|")
        for row in reason.rows:
            kinds = f" ({', '.join(row.kinds)})" if row.kinds else ""
            note = f" {sentence(row.note)}" if row.note else ""
            silent = {level for _, level in row.levels} == {"silent"}
            advice = "" if silent or not row.advice else sentence(row.advice)
            yield f"| {_cell(sentence(row.edit + kinds) + note)} | {_cell(_levels(row))} | {_cell(advice)} |"
    for example in reason.examples:
        yield ""
        yield f"{'Flagged' if example.bad else 'Accepted'}: {_text(sentence(example.shows))}"
        yield from ("", "```", *example.text.split("\n"), "```")
    if sources := sources_of(reason):
        yield ""
        yield from ("Sources:", "", *(f"- {_text(source)}" for source in sources))


def _levels(row: Any) -> str:
    from brimline.report.why import levels_of

    return "; ".join(" ".join(filter(None, [level, where])) for level, where in levels_of(row))


def _worst(reason: "Reason") -> str:
    """The levels that a rule can give, the gravest first."""
    order = ("unreadable", "unsafe", "untested", "quality", "form")
    given = {level for row in reason.rows for _, level in row.levels}
    if not reason.rows:
        return "unreadable or form"
    return ", ".join(level for level in order if level in given) or "none"


def _text(text: str) -> str:
    """Text as Markdown shows it, word for word; what is in backquotes stays."""
    return re.sub(r"(`[^`]*`)|([\\*_<>\[\]|])", lambda found: found[1] or "\\" + found[2], text)


def _cell(text: str) -> str:
    return _text(text).replace("\n", " ")


def _anchor(name: str) -> str:
    return name.replace("/", "")
