"""Reads the case files of the rules: what each one shows, its lines, what must be found on them, its tested formula."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

FOLDER = "tests/cases"
LEVELS = ("unreadable", "unsafe", "untested", "quality", "form")
_EXPECTED = re.compile(rf"(also |may )?({'|'.join(LEVELS)}) ([a-z-]+)")
# The comment of a case ends in what a review says of it, in the words of the table; a reader sees that anyway.
_VERDICT = re.compile(rf"[:,;] (?:\w+ )?(?:{'|'.join(LEVELS)}|silent)\b.*$|[:,;] class \w+$")
_MODIFIERS = {"optional", "infused", "discarded", "from", "or"}
_SECTION = re.compile(r"(take|make|pack|process|keep|changes|evidence)\b")


class Line(NamedTuple):
    """A line without its comment, the section it stands in, and the rows that must be found on it, with their levels."""

    text: str
    section: str
    found: tuple[tuple[str, str], ...]

    @property
    def words(self) -> str:
        """The line as it is compared: with single blanks."""
        return " ".join(self.text.split())

    @property
    def first(self) -> str:
        """What the line is about: its first word that is no `optional` and the like; `times` for a row of times."""
        if self.section == "process":
            return "times" if ": " in self.text else "process"
        return next((word for word in self.words.split() if word not in _MODIFIERS), "")

    @property
    def shown(self) -> str:
        """The line as it is shown: its columns two blanks apart."""
        return re.sub(r" {2,}", "  ", self.text.strip())

    def rows(self) -> set[str]:
        """The rows that must be found on it."""
        return {row for row, _ in self.found}


class Case(NamedTuple):
    """A case: its row, its name, what it shows in a sentence, its lines, and those of its tested formula if it has one."""

    row: str
    name: str
    sentence: str
    lines: tuple[Line, ...]
    tested: tuple[Line, ...]

    @property
    def bad(self) -> bool:
        """Whether something must be found in it."""
        return self.name.startswith("flagged")


def cases(root: Path) -> list[Case]:
    """Every case that shows what is flagged or what is accepted, in the order of their paths."""
    folder = root / FOLDER
    common = _by_code(folder / "tested")
    paths = sorted(folder.glob("*/*.formula"), key=lambda path: path.relative_to(folder).as_posix())
    return [
        _case(path, common | _by_code(path.parent)) for path in paths if path.name.startswith(("flagged", "accept"))
    ]


def _by_code(folder: Path) -> dict[str, str]:
    """The texts of a folder's formulas by their codes."""
    texts = [path.read_text(encoding="utf-8") for path in sorted(folder.glob("*.formula"))]
    found = [(re.search(r"^formula (\S+)", text, re.MULTILINE), text) for text in texts]
    return {code[1]: text for code, text in found if code}


def _case(path: Path, around: dict[str, str]) -> Case:
    text = path.read_text(encoding="utf-8")
    adapts = re.search(r"^adapts\s+(\S+)", text, re.MULTILINE)
    before = path.parent / "before" / path.name
    tested = around.get(adapts[1], "") if adapts else ""
    if before.is_file():
        tested = before.read_text(encoding="utf-8")
    return Case(path.parent.name, path.name, _sentence(text), tuple(_lines(text)), tuple(_lines(tested)))


def _sentence(text: str) -> str:
    """What the comment at the head of a case says that it shows, without its source and its verdict."""
    comment: list[str] = []
    for line in text.splitlines():
        if not line.startswith("#"):
            break
        comment.append(line.removeprefix("#").strip())
    said = " ".join(comment).partition(" Source: ")[0].rstrip(". ")
    return _VERDICT.sub("", _VERDICT.sub("", said)).rstrip(".,:; ") + "."


def _lines(text: str) -> Iterator[Line]:
    section = "formula"
    for line in text.splitlines():
        plain, _, comment = line.partition("  # ")
        if plain.startswith("#") or not plain.strip():
            continue
        opened = _SECTION.match(plain)
        section = opened[1] if opened else section
        parts = [_EXPECTED.fullmatch(part.strip()) for part in comment.split(";")]
        yield Line(plain.rstrip(), section, tuple((part[3], part[2]) for part in parts if part and not part[1]))
