"""Runs the whole review over cases and says of each whether it was found; the only module that sees the reviewer."""

from collections.abc import Iterable, Iterator
from datetime import date

from msgspec import Struct

from brimline.document import read
from brimline.findings import Finding, Level
from brimline.review.engine import review_one
from brimline.shelf import Settings, shelf_of
from edit_bench.cases import BEFORE, Case

TODAY = date(2026, 12, 1)


class Score(Struct, frozen=True):
    """What came of one case.

    `found`: the edit was found at its level or a graver one (quality and form: by its row). `named`: a finding of one
    of its rows is there. `alarm`: a harmless case is held back. `graver`: a quality or form edit is held back.
    `unreadable`: the text itself was refused, which is a fault of the benchmark. `by` are rule and row of the gravest
    findings. `may` tells that nothing certain holds it back.
    """

    case: Case
    found: bool
    named: bool
    alarm: bool
    graver: bool
    unreadable: bool
    by: tuple[str, ...]
    may: bool
    said: tuple[str, ...]


def score(case: Case) -> Score:
    """Review one case."""
    texts = {path: text for path, text in case.texts.items() if path != BEFORE}
    around = [path for path in texts if path != case.path]
    shelf = shelf_of(texts, TODAY, Settings(), around)
    before = read(BEFORE, case.texts[BEFORE].encode()).document if BEFORE in case.texts else None
    findings = review_one(shelf, shelf.formulas[0], before).findings
    levels = [one.level for one in findings]
    worst = min(levels, default=Level.FORM)
    harmless, soft = case.level == "silent", case.level in ("quality", "form")
    named = any(one.row in case.rows for one in findings)
    holding = [one for one in findings if one.level.holds_back]
    wanted = Level[case.level.upper()] if not harmless else Level.FORM
    found = harmless or (named if soft else any(one.level <= wanted for one in findings))
    shown = [one for one in findings if one.level == worst]
    return Score(
        case=case,
        found=found,
        named=named,
        alarm=harmless and bool(holding),
        graver=soft and bool(holding),
        unreadable=worst is Level.UNREADABLE,
        by=tuple(dict.fromkeys(_name(one) for one in shown)),
        may=bool(holding) and not any(one.certain for one in holding),
        said=tuple(f"{one.level.word}{'' if one.certain else ' (may)'} {_name(one)}: {one.says}" for one in findings),
    )


def _name(one: Finding) -> str:
    return f"{one.rule} [{one.row}]" if one.row else one.rule


def scores(cases: Iterable[Case]) -> Iterator[Score]:
    """Review cases one after the other."""
    return map(score, cases)
