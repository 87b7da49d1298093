"""Compiles a bad and a good example of every rule from the cases of its rows, cut down to the lines that matter.

A case says on its lines what a review must find there, and a test puts every one of them through a whole review; so an
example cannot say anything that Brimline does not do. The bad example is the gravest one of the row that the rule names
first, and of these the one with the fewest lines to show. What is found before any rule is asked has its examples in
`tests/format/examples.yaml`, which a test reviews as well.
"""

import re
from collections.abc import Iterable, Iterator
from difflib import SequenceMatcher
from pathlib import Path
from typing import Any

from making._cases import LEVELS, Case, Line, cases
from making._tables import MADE, TableError, dumped

WRITTEN = "tests/format/examples.yaml"
# The names and dates of a formula are its own; a comparison does not look at them.
_ITS_OWN = {"formula", "standing", "adapts", "yield", "tested", "review-by"}
_BARE = {"take", "make", "pack", "keep", "changes"}
_MOST = 8
_COMMON = frozenset(
    [
        "cup",
        "tbsp",
        "tsp",
        "per",
        "each",
        "chopp",
        "for",
        "the",
        "and",
        "with",
        "its",
        "fruit",
        "spice",
        "veget",
        "sweet",
        "acid",
    ]
)
Shown = list[tuple[str, Line]]


def make(root: Path) -> dict[str, bytes]:
    """The compiled examples.

    Raises TableError, naming the rules, if one has no bad or no good example.
    """
    return {f"{MADE}/examples.json": dumped(compiled(root))}


def compiled(root: Path) -> dict[str, list[dict[str, Any]]]:
    """The bad and the good example of every rule, as `make` writes them."""
    from brimline.report.writing import BEFORE_RULES
    from brimline.rules import registered

    known, examples = cases(root), _written(root)
    for rule in registered():
        bad, row, failed = _bad(known, rule.decides)
        examples[rule.name] = [*bad, *_good(known, rule.decides, row, failed)]
    wanted = [*(rule.name for rule in registered()), *(reason.name for reason in BEFORE_RULES)]
    if lacking := [name for name in wanted if len(examples.get(name, [])) != 2]:
        raise TableError(f"no bad or no good example for {', '.join(lacking)}: see tests/cases/README.md")
    return dict(sorted(examples.items()))


def _written(root: Path) -> dict[str, list[dict[str, Any]]]:
    """The examples that people wrote, of what is found before any rule is asked."""
    from ruamel.yaml import YAML

    raw = YAML(typ="safe").load((root / WRITTEN).read_text(encoding="utf-8"))
    return {
        rule: [
            _example(one[side]["text"].rstrip("\n").split("\n"), side == "bad", one[side]["shows"]) for side in SIDES
        ]
        for rule, one in raw.items()
    }


SIDES = ("bad", "good")


def _example(lines: list[str], bad: bool, shows: str) -> dict[str, Any]:
    return {"text": "\n".join(lines), "bad": bad, "shows": shows}


def _bad(known: list[Case], rows: tuple[str, ...]) -> tuple[list[dict[str, Any]], str, list[Line]]:
    """The bad example, if there is one, its row, and the lines on which something was found or that are missing."""
    found = []
    for case in known:
        hit = [line for line in case.lines if line.rows() & set(rows)]
        if case.row in rows and case.bad and hit:
            level = min(LEVELS.index(level) for line in hit for row, level in line.found if row in rows)
            lines = _differing(case, hit) if case.tested else _alone(case, hit)
            step = any(line.first == "-" for line in hit)
            # A line that only names the tested formula shows nothing of what is wrong.
            named = all(line.first == "adapts" for line in hit)
            order = (level, named, not case.tested, rows.index(case.row), step, *_size(lines))
            plain = [line for line in hit if line.words not in _BARE] or [line for _, line in lines]
            found.append((order, case.name, case, lines, plain))
    if not found:
        return [], "", []
    _, _, case, lines, plain = min(found, key=lambda one: one[:2])
    return [_example(_texts(lines), True, case.sentence)], case.row, plain


def _good(known: list[Case], rows: tuple[str, ...], row: str, failed: list[Line]) -> list[dict[str, Any]]:
    """The good example, if there is one: what differs, else the lines about what failed in the bad one."""
    found = []
    keys = {line.first for line in failed} - {"formula", "adapts"}
    for case in known:
        if case.row in rows and not case.bad:
            lines = _differing(case, []) if case.tested else []
            told = bool({line.first for _, line in lines} & keys) or not keys
            if not told:
                lines = _about(case, failed) or lines
            if lines:
                order = (not told, case.row != row, rows.index(case.row), not case.tested, *_size(lines))
                found.append((order, case.name, case, lines))
    if not found:
        return []
    _, _, case, lines = min(found, key=lambda one: one[:2])
    return [_example(_texts(lines), False, case.sentence)]


def _size(lines: Shown) -> tuple[int, int]:
    return len(lines), sum(len(line.text) for _, line in lines)


def _about(case: Case, failed: list[Line]) -> Shown:
    """The lines of a case that speak of what failed in the bad example; of its steps the one nearest to its sentence."""
    alike = [line for line in case.lines if line.first in {one.first for one in failed} and line.section != "changes"]
    plain = [line for line in alike if line.first != "-"]
    near = [line for line in plain if any(_words(line.text) & _words(one.text) for one in failed)]
    if near or (plain and not case.tested):
        return _alone(case, near or plain)
    steps = [line for line in alike if line.first == "-"]
    best = max(steps, key=lambda line: len(_words(line.text) & _words(case.sentence)), default=None)
    return [("", best)] if best else []


def _words(text: str) -> set[str]:
    """The words of a line that tell it from others, shortened to what they have in common."""
    return {word[:5] for word in re.findall(r"[a-z]{3,}", text.lower())} - _COMMON


def _alone(case: Case, hit: Iterable[Line]) -> Shown:
    """Lines of a formula read by itself; where it is a whole section, its lines; with a standing, the evidence.

    With a name it is sold under, when it ends and what is in it.
    """
    out: Shown = []
    for line in hit:
        if line.words in _BARE:
            out += [("", one) for one in case.lines if one.section == line.section and one != line][:_MOST]
        else:
            out.append(("", line))
        if line.first == "standing":
            out += [("", one) for one in case.lines if one.section == "evidence"]
        if line.first == "sold-as":
            out += [("", one) for one in case.lines if one.first == "finish"]
            out += [("", one) for one in case.lines if one.section == "take" and one.words not in _BARE][:_MOST]
    return out


def _differing(case: Case, hit: list[Line]) -> Shown:
    """The lines that differ from the tested formula, and those on which something must be found."""
    apart = {line.section for line in hit} & {"changes", "evidence"}
    if case.row == "undeclared":
        apart = {"changes"}
    elif case.row in ("standing-raised", "source-gone"):
        apart = {"evidence", "formula"}
    was = [line for line in case.tested if _compared(line, apart)]
    now = [line for line in case.lines if _compared(line, apart) or line in hit]
    lines = list(_stretches(was, now, hit))
    steps = any(line.section == "make" for line in hit)
    telling = [(whose, line) for whose, line in lines if line.section != "make" or steps]
    telling = [
        (whose, line) for whose, line in telling if line.words not in _BARE and line.first != "formula"
    ] or telling
    return telling or lines


def _compared(line: Line, apart: set[str]) -> bool:
    if line.section in ("changes", "evidence") or line.first in _ITS_OWN:
        return line.section in apart and line.first not in ("formula", "adapts", "yield")
    return True


def _stretches(was: list[Line], now: list[Line], hit: list[Line]) -> Iterator[tuple[str, Line]]:
    """What differs between two formulas, line by line, with whose line it is."""
    match = SequenceMatcher(None, [line.words for line in was], [line.words for line in now], autojunk=False)
    for kind, start, end, first, last in match.get_opcodes():
        if kind == "equal":
            yield from (("here", line) for line in now[first:last] if line in hit)
        else:
            yield from (("tested", line) for line in was[start:end])
            yield from (("here", line) for line in now[first:last])


def _texts(lines: Shown) -> list[str]:
    if {whose for whose, _ in lines} == {"tested"}:
        return [*(f"tested  {line.shown}" for _, line in lines), "here    (left out)"]
    return [f"{whose:<6}  {line.shown}" if whose else line.shown for whose, line in lines]
