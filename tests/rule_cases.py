"""Reading the case files: which findings each one expects, on which line, and what the whole pipeline says."""

import re
from datetime import date
from functools import cache
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from brimline.document import read
from brimline.findings import Finding
from brimline.review.engine import review_one
from brimline.shelf import Settings, Shelf, shelf_of

CASES = Path(__file__).parent / "cases"
COMMON = CASES / "tested"
TODAY = date(2026, 1, 15)
WORDS = "unreadable|unsafe|untested|quality|form"
EXPECTED = re.compile(rf'^(also )?(may )?({WORDS}) ([a-z-]+)(?: of (\d+))?((?: "[^"]+")*)$')


class Expected(Struct, frozen=True, order=True):
    """One expectation: the line it stands on, the level word, the row, whether it is only possible (`may`).

    `also` marks a further row that the same change rightly falls under: it may be reported too, and need not be,
    because the gravest row wins. `of` is the line of the tested formula that the finding points at, 0 if none is
    asked for; every one of `words` must stand in its sentence.
    """

    line: int
    level: str
    row: str
    may: bool
    also: bool = False
    of: int = 0
    words: tuple[str, ...] = ()


def case_files() -> list[Path]:
    """Every case file that is judged: flagged, accepted, near miss."""
    found = sorted(path for path in CASES.glob("*/*.formula") if path.parent != COMMON)
    return [path for path in found if not path.name.startswith("tested")]


def expected(text: str) -> tuple[Expected, ...]:
    """The expectations written as comments at line ends: `# unsafe acid-cut; may untested sugar-cut-gelled`."""
    out = []
    for number, line in enumerate(text.splitlines(), start=1):
        _, _, comment = line.rstrip().partition("  # ")
        for part in comment.split(";"):
            match = EXPECTED.match(part.strip())
            if match and line.strip()[:1] != "#":
                words = tuple(re.findall(r'"([^"]+)"', match[6]))
                also, may = bool(match[1]), bool(match[2])
                out.append(Expected(number, match[3], match[4], may, also, int(match[5] or 0), words))
    return tuple(sorted(out))


@cache
def texts(folder: Path) -> dict[str, str]:
    """The files of a folder by their path below the cases."""
    return {
        path.relative_to(CASES).as_posix(): path.read_text(encoding="utf-8")
        for path in sorted(folder.glob("*.formula"))
    }


def findings(path: Path) -> tuple[Finding, ...]:
    """What the whole pipeline finds in a case file, beside the tested formulas of its folder and the common ones."""
    name = path.relative_to(CASES).as_posix()
    around = {**texts(COMMON), **texts(path.parent)}
    own = {place: text for place, text in around.items() if place == name or _is_tested(place)}
    register = path.parent / "register.json"
    records = {register.name: register.read_bytes()} if register.exists() else {}
    shelf = shelf_of(own, TODAY, None, [place for place in own if place != name], records)
    before = path.parent / "before" / path.name
    previous = read(name, before.read_bytes()).document if before.exists() else None
    found = review_one(shelf, shelf.formulas[0], previous, _base(path.parent, own)).findings
    # Cases restate published formulas under their own titles; they are no collection that readers ask in.
    return tuple(one for one in found if one.rule != "writing/title")


def _base(folder: Path, now: dict[str, str]) -> Shelf | None:
    """The shelf before the change, where the folder holds a tested formula as it was; None elsewhere."""
    was = {
        path.relative_to(CASES).as_posix().replace("/before/", "/"): path.read_text(encoding="utf-8")
        for path in sorted((folder / "before").glob("tested*.formula"))
    }
    return shelf_of({**now, **was}, TODAY, Settings()) if was else None


def _is_tested(place: str) -> bool:
    folder, _, name = place.rpartition("/")
    return folder == COMMON.name or name.startswith(("tested", "parent"))


def said(found: tuple[Finding, ...]) -> tuple[Expected, ...]:
    """Findings in the terms of an expectation; findings about the writing go by their rule."""
    return tuple(sorted(Expected(one.line, one.level.word, one.row or one.rule, not one.certain) for one in found))


def problems(found: tuple[Finding, ...], wanted: tuple[Expected, ...]) -> list[str]:
    """What differs: findings that are missing, say something else than expected, or that no expectation names."""
    here = said(found)
    must = [replace(one, also=False, of=0, words=()) for one in wanted if not one.also]
    might = {replace(one, also=False, may=may, of=0, words=()) for one in wanted if one.also for may in (True, False)}
    out = [f"missing {one}" for one in must if one not in here]
    out += [f"unexpected {one}" for one in here if one not in must and one not in might]
    for one in wanted:
        if one.of or one.words:
            out += _otherwise(one, [finding for finding in found if _is(finding, one)])
    return out


def _is(finding: Finding, one: Expected) -> bool:
    return (finding.line, finding.level.word, finding.row or finding.rule) == (one.line, one.level, one.row)


def _otherwise(one: Expected, found: list[Finding]) -> list[str]:
    """What none of the findings of an expectation says or points at, beside what the first one does."""
    for finding in found:
        if (not one.of or finding.before_line == one.of) and all(words in finding.says for words in one.words):
            return []
    return [f"not as {one}: line {finding.before_line}, {finding.says}" for finding in found]
