"""A review as workflow commands, which a host of code shows as marks beside the lines of a pull request.

The host shows ten errors, ten warnings and ten notices of a step and drops the rest without a word. So the gravest come
first, the last notice says how many more there are, and after the commands the log holds every finding.
"""

from collections.abc import Iterator

from brimline.findings import Finding, Level
from brimline.report.escaping import command_text, command_value, log
from brimline.report.handed import Handed, called, parts, ranked, spoken, word
from brimline.report.words import NOTICE, WHAT_IT_DOES, counted, level_counts, sentence, standing
from brimline.review.values import Reviewed

MOST = 10
# What a line of the log may start with without being obeyed as a command.
_ECHO = "  > "
_KINDS = {
    Level.UNSAFE: "error",
    Level.UNREADABLE: "error",
    Level.UNTESTED: "error",
    Level.QUALITY: "warning",
    Level.FORM: "notice",
}


def annotations(handed: Handed) -> str:
    """The commands, as many as are shown, and below them all findings as plain lines that nothing obeys."""
    return "".join(f"{line}\n" for line in _lines(handed))


def _lines(handed: Handed) -> Iterator[str]:
    pairs = ranked(handed.review)
    review = handed.review
    room = dict.fromkeys(("error", "warning", "notice"), MOST)
    # One notice is kept for saying how many more there are, if there are more.
    shown, left = _chosen(pairs, room)
    if left:
        shown, left = _chosen(pairs, {**room, "notice": MOST - 1})
    for one, finding in shown:
        yield _command(one, finding, handed)
    for refusal in review.refusals:
        yield f"{_ECHO}{log(f'Not looked at: {refusal.path} {refusal.reason}. {refusal.do}')}"
    if left:
        found = level_counts(finding for _, finding in left)
        text = f"{counted(len(left), 'more finding')} in the log of this step: {found}."
        yield f"::notice title=brimline::{command_text(text)}"
    for one, finding in pairs:
        place = f"{handed.path(finding.at.path)}:{max(finding.line, 1)}:{max(finding.column, 1)}"
        excuse = standing(one, finding)
        tail = f" [{excuse}]" if excuse else ""
        yield f"{_ECHO}{log(f'{place}: {word(finding)}: {spoken(finding)}{tail}')}"
    yield f"{_ECHO}{sentence(handed.headline)}"
    for text in (WHAT_IT_DOES, *((NOTICE,) if review.held_back else ()), *handed.notices):
        yield f"{_ECHO}{log(text)}"


Pairs = list[tuple[Reviewed, Finding]]


def _chosen(pairs: Pairs, room: dict[str, int]) -> tuple[Pairs, Pairs]:
    """The findings that find room among those of their kind, and the others."""
    free = dict(room)
    shown, left = [], []
    for one, finding in pairs:
        kind = _kind(one, finding)
        if free[kind]:
            free[kind] -= 1
            shown.append((one, finding))
        else:
            left.append((one, finding))
    return shown, left


def _kind(one: Reviewed, finding: Finding) -> str:
    """What a finding is shown as; one that is let stand is never shown as an error."""
    return "notice" if standing(one, finding) else _KINDS[finding.level]


def _command(one: Reviewed, finding: Finding, handed: Handed) -> str:
    values = {
        "file": handed.path(finding.at.path),
        "line": str(max(finding.line, 1)),
        "col": str(max(finding.column, 1)),
        "title": f"{word(finding)}, {called(one)}",
    }
    excuse = standing(one, finding)
    told = [f"{label}: {text}" if label else text for label, text in parts(finding)]
    told += [sentence(excuse)] if excuse else []
    # %0A is how the commands write a line end.
    message = "%0A".join(command_text(text) for text in told)
    named = ",".join(f"{name}={command_value(value)}" for name, value in values.items())
    return f"::{_kind(one, finding)} {named}::{message}"
