"""The end of a review: what was counted, what is held back, what to do next, and what the tool cannot do."""

from collections.abc import Iterable, Iterator

from brimline.findings import Finding, Level
from brimline.report.look import Look, cells, wrapped
from brimline.report.sink import Row
from brimline.report.words import (
    NOTICE,
    WHAT_IT_DOES,
    counted,
    gravest_first,
    level_counts,
    listed,
    not_varied,
    sentence,
)
from brimline.review.values import Refusal, Review, Reviewed

# Held-back formulas named in the summary; the rest are counted, and shown above in any case.
_NAMED = 20

_NEXT: dict[int, str] = {
    Level.UNREADABLE: "mend what is unreadable first; until then nothing in that formula can be compared.",
    Level.UNSAFE: 'change what is unsafe first. Each "Instead" says how; keeping the tested amount is always one way.',
    Level.UNTESTED: 'go back to what was tested where you can. Each "Instead" says how.',
    Level.FORM: "this collection holds back more than what can make someone ill; see each finding.",
}


def summary(review: Review, look: Look) -> Iterator[Row]:
    """The closing lines of a review."""
    held = [one for one in gravest_first(review.formulas) if one.held_back]
    rest = [one for one in review.formulas if not one.held_back]
    counts = [_count(review, held), _besides(rest, bool(held)), _let_stand(review)]
    yield from paragraph(" ".join(filter(None, counts)), look)
    yield from _named(held, look)
    yield from refused(review.refusals, look)
    if held:
        yield from paragraph(f"Next: {_NEXT.get(_gravest(held[0]), _NEXT[Level.FORM])}", look)
        yield from _commands(held, look)
    yield from paragraph(WHAT_IT_DOES, look)
    if held:
        yield from paragraph(NOTICE, look)
    for notice in review.notices:
        yield from paragraph(notice, look)


def refused(refusals: Iterable[Refusal], look: Look) -> Iterator[Row]:
    """What could not be looked at, why, and what to do about it."""
    for refusal in refusals:
        yield from paragraph(" ".join([f"Not looked at: {refusal.path} {refusal.reason}.", refusal.do]).strip(), look)


def _count(review: Review, held: list[Reviewed]) -> str:
    where = f" of {listed(list(review.collections))}" if review.collections else ""
    reviewed = f"{counted(len(review.formulas), 'formula')}{where} reviewed"
    if not held:
        return f"{reviewed}, none held back."
    found = level_counts(finding for one in held for finding in not_varied(one.findings))
    return f"{reviewed}, {len(held):,} held back: {found}."


def _besides(rest: list[Reviewed], held: bool) -> str:
    parts = []
    drafts = [one for one in rest if one.standing == "draft"]
    others = [finding for one in rest if one.standing != "draft" for finding in not_varied(one.findings)]
    if others:
        parts.append(f"{'In the others' if held else 'Found'}: {level_counts(others)}.")
    if drafts:
        found = level_counts(finding for one in drafts for finding in one.findings)
        parts.append(f"{counted(len(drafts), 'draft')} shown, not held back{f': {found}' if found else ''}.")
    return " ".join(parts)


def _let_stand(review: Review) -> str:
    stand = sum(finding.varied is not None for one in review.formulas for finding in one.findings)
    return f"{counted(stand, 'finding')} let stand by a variance." if stand else ""


def _named(held: list[Reviewed], look: Look) -> Iterator[Row]:
    named = held[:_NAMED] if len(held) > 1 else []
    width = max((cells(one.code) for one in named), default=0)
    for one in named:
        word = Level(_gravest(one)).word
        found = level_counts(not_varied(one.findings))
        code = one.code + " " * (width - cells(one.code))
        for number, line in enumerate(wrapped(f"{one.path}: {found}", look.width - width - 16)):
            lead = (
                (("", "  "), (word, word.ljust(12)), ("", f"{code}  ")) if not number else (("", " " * (width + 16)),)
            )
            yield (*lead, ("", line))
    if len(held) > len(named) > 0:
        yield (("", f"  and {len(held) - len(named):,} more, shown above"),)


def _commands(held: list[Reviewed], look: Look) -> Iterator[Row]:
    compared = (typed(look.from_here(one.path)) for one in held if one.departs_from and one.scale)
    if path := next(filter(None, compared), ""):
        yield _command(f"brimline compare {path}", "shows every change", look)
    rule = min(not_varied(held[0].findings), key=_by_level).rule if not_varied(held[0].findings) else ""
    if rule:
        yield _command(f"brimline why {rule}", "gives the reason and the sources", look)


def _command(command: str, does: str, look: Look) -> Row:
    """A command on a line of its own, never broken; what it does beside it where there is room."""
    fits = cells(command) + cells(does) + 4 <= look.width
    return (("", f"  {command}"), *((("faint", f"  {does}"),) if fits else ()))


def typed(path: str) -> str:
    """A path as it can be typed into a terminal on any system; empty if no way of writing it is the same on all."""
    start = f"./{path}" if path.startswith("-") else path
    if all(letter.isalnum() or letter in "/._-+~:" for letter in start):
        return start
    return f'"{start}"' if all(letter.isalnum() or letter in "/._-+~: ,&'()[]=@" for letter in start) else ""


def paragraph(text: str, look: Look) -> Iterator[Row]:
    """A sentence or several, in lines that fit."""
    for line in wrapped(sentence(text), look.width):
        yield (("", line),)


def _gravest(formula: Reviewed) -> int:
    return min((int(finding.level) for finding in not_varied(formula.findings)), default=len(Level))


def _by_level(finding: Finding) -> tuple[int, tuple[str, int, int, int, str, str]]:
    return (int(finding.level), finding.key)
