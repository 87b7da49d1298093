"""A review as Markdown, short enough for a comment on a pull request: what is held back, why, and what to do instead."""

from collections.abc import Iterator

from brimline.findings import Finding
from brimline.report.escaping import code_span, markdown
from brimline.report.handed import Handed, counts, everything, holds_back, rank, ranked, state, where, word
from brimline.report.words import (
    NOTICE,
    UNSURE,
    WHAT_IT_DOES,
    cited,
    counted,
    gravest_first,
    level_counts,
    listed,
    sentence,
    standing,
)
from brimline.review.values import Review, Reviewed

# Hosts take comments of 65,536 characters; the rest is left for what a workflow adds around this one.
MOST = 60_000
_CLOSING = 4_000


def comment(handed: Handed) -> str:
    """The summary, unsafe findings first; where it grows too long the rest is counted, never passed over in silence."""
    review = handed.review
    head = "".join(f"{line}\n" for line in _head(handed))
    shown: list[str] = []
    left: list[Finding] = []
    size = len(head)
    for one in gravest_first(each for each in everything(review) if each.findings):
        lead: str | None = _lead(one, handed)
        for finding in sorted(one.findings, key=lambda each: (rank(each), each.key)):
            text = f"{lead or ''}{_finding(one, finding, handed)}"
            if left or size + len(text) > MOST - _CLOSING:
                left.append(finding)
                continue
            shown.append(text)
            size += len(text)
            lead = None
        if lead is None:
            shown.append("\n")
    return "".join([head, *shown, *(f"{line}\n" for line in _closing(review, left))])


def _head(handed: Handed) -> Iterator[str]:
    review = handed.review
    yield f"## {handed.headline[0].upper()}{handed.headline[1:]}"
    yield ""
    if review.collections:
        yield markdown(sentence(f"Reviewed: {listed(list(review.collections))}"))
        yield ""
    pairs = ranked(review)
    if pairs:
        yield "| level | findings | let stand |"
        yield "| :--- | ---: | ---: |"
        for level, number in counts(pairs):
            stand = sum(1 for one, each in pairs if each.level is level and standing(one, each))
            yield f"| {level.word} | {number:,} | {stand:,} |"
        yield ""
    for refusal in review.refusals:
        yield f"- Not looked at: {code_span(refusal.path)} {markdown(' '.join([f'{refusal.reason}.', refusal.do]))}"
    for notice in handed.notices:
        yield f"> {markdown(notice)}"
        yield ""


def _lead(one: Reviewed, handed: Handed) -> str:
    """The heading of a formula, and where it is."""
    name = " ".join(filter(None, [markdown(one.code), markdown(one.title)])) or code_span(one.path)
    scale = f", read at {markdown(one.scale)} of its batch" if one.scale else ""
    departs = f"; departs from {markdown(one.departs_from)}{scale}" if one.departs_from else ""
    return f"### {name}: {state(one)}\n\nFile {code_span(handed.path(one.path))}{departs}\n\n"


def _finding(one: Reviewed, finding: Finding, handed: Handed) -> str:
    """A finding as an item of a list; one that does not hold back in two lines."""
    place = where(finding, handed)
    mark = f"**{markdown(word(finding))}**" if holds_back(one, finding) else markdown(word(finding))
    lines = [f"{mark}{f' ({markdown(place)})' if place else ''}", markdown(sentence(finding.says))]
    if finding.copy.strip():
        lines.append(f"Write: {code_span(finding.copy)}")
    sources = [(f"{'And' if number else 'Source'}: ", one) for number, one in enumerate(cited(finding.sources))]
    full = [("", "" if finding.certain else UNSURE), ("", finding.why), ("**Instead:** ", finding.instead), *sources]
    for label, text in [*(full if finding.level.holds_back else full[2:3]), ("", standing(one, finding))]:
        if text.strip():
            lines.append(f"{label}{markdown(sentence(text))}")
    # A backslash at the end of a line breaks it without opening a paragraph.
    return "- " + "\\\n  ".join(lines) + "\n"


def _closing(review: Review, left: list[Finding]) -> Iterator[str]:
    if left:
        yield f"**{counted(len(left), 'more finding')} not shown here for want of room: {level_counts(left)}.**"
        yield "Every other form of this report shows them."
        yield ""
    yield markdown(WHAT_IT_DOES)
    if review.held_back:
        yield ""
        yield markdown(NOTICE)
