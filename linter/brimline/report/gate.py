"""What a request changes, as text for people: new findings only, by file, then what was looked at and what holds it back."""

from collections.abc import Iterable, Iterator
from itertools import groupby

from brimline.findings import Level
from brimline.gate.values import Gated
from brimline.report.look import Look, wrapped
from brimline.report.people import all_but_the_sentence, finding_rows, heading
from brimline.report.sink import Row, paint
from brimline.report.summary import paragraph, refused
from brimline.report.words import NOTICE, WHAT_IT_DOES, counted, gravest_first, level_counts, listed
from brimline.review.values import Reviewed

# Paths named in one sentence; the rest are counted.
_NAMED = 5

_NEXT = {
    Level.UNREADABLE: "mend what is unreadable first; until then nothing in that formula can be compared.",
    Level.UNSAFE: 'change what is unsafe first. Each "Instead" says how; keeping the tested amount is always one way.',
    Level.UNTESTED: 'go back to what was tested where you can. Each "Instead" says how.',
}


def gate_text(gated: Gated, base: str, head: str, look: Look) -> str:
    """The difference as text; `base` and `head` say what was compared."""
    return paint(_rows(gated, base, head, look), look.colour)


def _rows(gated: Gated, base: str, head: str, look: Look) -> Iterator[Row]:
    for one in gravest_first(gated.all):
        if not one.findings:
            continue
        yield from heading(one, look) if one.code or one.title or one.standing else _file(one, look)
        for _, alike in groupby(one.findings, key=all_but_the_sentence):
            yield ()
            yield from finding_rows(tuple(alike), look)
        yield ()
    yield from _summary(gated, base, head, look)


def _file(one: Reviewed, look: Look) -> Iterator[Row]:
    for number, line in enumerate(wrapped(one.path, look.width - 2)):
        yield (("strong", f"{'  ' if number else ''}{line}"),)


def _summary(gated: Gated, base: str, head: str, look: Look) -> Iterator[Row]:
    yield from paragraph(f"Compared {head} with {base}: {_changes(gated)}", look)
    for sentence in _moved(gated):
        yield from paragraph(sentence, look)
    held = [one for one in gated.all if one.held_back]
    if not gated.refusals:
        yield from paragraph(_outcome(gated, held), look)
    yield from refused(gated.refusals, look)
    for note in gated.notes:
        yield from paragraph(note, look)
    if held:
        gravest = min(finding.level for one in held for finding in one.findings)
        yield from paragraph(f"Next: {_NEXT.get(gravest, 'see what each finding says.')}", look)
    yield from paragraph(WHAT_IT_DOES, look)
    if held:
        yield from paragraph(NOTICE, look)
    for notice in dict.fromkeys(gated.notices):
        yield from paragraph(notice, look)


def _changes(gated: Gated) -> str:
    if not (gated.changed or gated.removed or gated.files):
        return "no formula changes."
    parts = [f"{counted(len(gated.changed), 'formula')} changed"]
    if gated.removed:
        parts.append(f"{len(gated.removed):,} removed")
    if gated.files:
        parts.append(f"{counted(len(gated.files), 'other file')} touched")
    more = len(gated.dependents)
    also = (
        f"; {counted(more, 'formula')} that {'departs' if more == 1 else 'depart'} from them looked at too"
        if more
        else ""
    )
    return f"{', '.join(parts)}{also}."


def _moved(gated: Gated) -> Iterator[str]:
    if gated.renamed:
        yield f"Renamed: {_some(f'{old} to {new}' for old, new in gated.renamed)}."
    if gated.removed:
        yield f"Removed: {_some(gated.removed)}."
    if gated.aside:
        yield f"Set aside by the collection and not reviewed: {_some(gated.aside)}."


def _outcome(gated: Gated, held: list[Reviewed]) -> str:
    new = [finding for one in gated.all for finding in one.findings]
    parts = []
    if held:
        what = level_counts(finding for one in held for finding in one.findings)
        files = "formula or file holds" if len(held) == 1 else "formulas and files hold"
        parts.append(f"{len(held):,} {files} the request back: {what}.")
    else:
        parts.append(f"Nothing new holds the request back{f' ({level_counts(new)})' if new else ''}.")
    if gated.known:
        parts.append(f"{counted(gated.known, 'finding')} stood there before.")
    if gated.mended:
        parts.append(f"{counted(gated.mended, 'finding')} of before {'is' if gated.mended == 1 else 'are'} gone.")
    return " ".join(parts)


def _some(words: Iterable[str]) -> str:
    several = list(words)
    rest = len(several) - _NAMED
    return f"{', '.join(several[:_NAMED])} and {rest:,} more" if rest > 0 else listed(several)
