"""A review as JUnit XML, for servers that show it among the tests of a run.

One suite for each formula; in it one case for the formula as a whole and one for each finding. Only the elements and
attributes that all the common readers of the form agree on are used: no files, lines, times or hosts.
"""

from collections.abc import Iterator

from msgspec import Struct

from brimline.findings import Finding, Level
from brimline.report.handed import Handed, at_line, called, everything, holds_back, parts, rank, tested_at, word
from brimline.report.markup import escaped
from brimline.report.words import NOTICE, WHAT_IT_DOES, gravest_first, level_counts, sentence, standing
from brimline.review.values import Reviewed


class Case(Struct, frozen=True):
    """A case of a suite: `outcome` is failure, error, skipped or empty, `kind` the level, `short` one line, `told` all."""

    name: str
    outcome: str = ""
    kind: str = ""
    short: str = ""
    told: str = ""


def junit(handed: Handed) -> str:
    """The review as one JUnit document in ASCII; formulas with the gravest findings first."""
    review = handed.review
    suites = [(handed.path(one.path), list(_cases(one, handed))) for one in gravest_first(everything(review))]
    missing = [
        Case(f"not looked at: {one.path}", "error", "not-looked-at", one.reason, sentence(one.do))
        for one in review.refusals
    ]
    if missing or not suites:
        suites.append(("brimline review", missing or [_NOTHING_NEW if handed.compared else _NOTHING]))
    every = [case for _, cases in suites for case in cases]
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<testsuites name="brimline review" {_counted(every)}>',
        *(line for name, cases in suites for line in _suite(name, cases, handed)),
        "</testsuites>",
    ]
    return "\n".join(lines) + "\n"


def _cases(one: Reviewed, handed: Handed) -> Iterator[Case]:
    """The formula as a whole, then each finding, gravest first."""
    held = level_counts(finding for finding in one.findings if finding.varied is None)
    # A file that a collection keeps beside its formulas holds nothing back and is no case of its own.
    if one.code or one.standing or one.held_back or not one.findings:
        failed = Case(called(one), "failure", "held-back", f"held back: {held}", NOTICE)
        yield failed if one.held_back else Case(called(one))
    names: dict[str, int] = {}
    for finding in sorted(one.findings, key=lambda each: (rank(each), each.key)):
        name = ", ".join(filter(None, [word(finding), at_line(finding)]))
        names[name] = names.get(name, 0) + 1
        # A reader of the form keeps only one of two cases of the same name.
        numbered = name if names[name] == 1 else f"{name} ({names[name]})"
        yield _case(numbered, one, finding, handed)


def _case(name: str, one: Reviewed, finding: Finding, handed: Handed) -> Case:
    told = "\n".join(f"{label}: {text}" if label else text for label, text in parts(finding))
    tested = tested_at(finding, handed)
    told = f"{told}\nTested formula: {tested}" if tested else told
    excuse = standing(one, finding)
    if finding.level.holds_back and excuse:
        return Case(name, "skipped", "", excuse, told)
    if holds_back(one, finding):
        outcome = "error" if finding.level is Level.UNREADABLE else "failure"
        return Case(name, outcome, finding.level.word, sentence(finding.says), told)
    return Case(name, told=told)


def _suite(name: str, cases: list[Case], handed: Handed) -> Iterator[str]:
    yield f'  <testsuite name="{escaped(name)}" {_counted(cases)}>'
    yield "    <properties>"
    notices = [WHAT_IT_DOES, *handed.notices]
    yield from (f'      <property name="notice" value="{escaped(one)}"/>' for one in notices)
    yield "    </properties>"
    for case in cases:
        start = f'    <testcase classname="{escaped(name)}" name="{escaped(case.name)}"'
        inside = "".join(_inside(case))
        yield f"{start}>{inside}</testcase>" if inside else f"{start}/>"
    yield "  </testsuite>"


def _inside(case: Case) -> Iterator[str]:
    if case.outcome == "skipped":
        yield f'<skipped message="{escaped(case.short)}"/>'
    elif case.outcome:
        kind = f'type="{case.kind}" message="{escaped(case.short)}"'
        yield f"<{case.outcome} {kind}>{_lines(case.told)}</{case.outcome}>"
    if case.told and case.outcome in {"", "skipped"}:
        yield f"<system-out>{_lines(case.told)}</system-out>"


def _lines(told: str) -> str:
    return "\n".join(escaped(line) for line in told.split("\n"))


_NOTHING_NEW = Case("nothing new")
_NOTHING = Case("brimline review", "error", "not-looked-at", "nothing to review")


def _counted(cases: list[Case]) -> str:
    outcomes = [case.outcome for case in cases]
    return (
        f'tests="{len(cases)}" failures="{outcomes.count("failure")}" errors="{outcomes.count("error")}" '
        f'skipped="{outcomes.count("skipped")}"'
    )
