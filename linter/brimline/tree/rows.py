"""Splits a text into rows and says what kind of line each is; the rows, joined, are the text again.

Nothing here understands amounts or names: a row's kind follows from its indent, its section and its first word.
"""

import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from brimline.text import Text
from brimline.tree.near import nearest

HEADERS = ("formula", "product", "standing", "adapts", "finish", "yield", "sold-as", "retired", "successor")
SECTIONS = ("take", "make", "pack", "process", "keep", "changes", "evidence")

# `#` opens a comment at the start of a line, after two blanks or after a tab; after one blank it is text.
_COMMENT = re.compile(r"(?:[ \t]{2}|\t)#")
_LONGEST_SHOWN = 40  # characters of the author in a message
_FIRST = re.compile(r"[^\s:,]+")


class Row(NamedTuple):
    """One line of a file; a named tuple because a file has many and they are made anew each time.

    `start` is the offset of the line's first character. `indent`, `body`, `gap`, `comment` and `end` joined are the
    line: blanks, what is read, blanks, the comment with its `#`, the line end. `kind` is a start of the grammar
    (`header`, `section`, `take` ...), `step` or `more` (a step of `make` and its continuation), `blank` (nothing or
    only a comment), `refused` (characters that cannot be trusted), `lost` (in a section nobody knows), or `stray`
    (at the left edge, neither header nor section). `section` is the section the row stands in or opens, empty above
    the first one.
    """

    number: int
    start: int
    indent: str
    body: str
    gap: str
    comment: str
    end: str
    kind: str
    section: str

    @property
    def text(self) -> str:
        """The line as it stands in the file, line end included."""
        return self.indent + self.body + self.gap + self.comment + self.end

    @property
    def offset(self) -> int:
        """The offset in the text at which the body starts."""
        return self.start + len(self.indent)

    @property
    def word(self) -> str:
        """The first word of the body."""
        return self.body.split(maxsplit=1)[0] if self.body else ""

    def line_with(self, body: str) -> str:
        """The whole line, without line end, with another body; the comment stays."""
        return self.indent + body + (self.gap + self.comment if self.comment else "")


def split(line: str) -> tuple[str, str, str, str]:
    """Cut a line without line end into indent, body, gap and comment."""
    body = line.lstrip(" \t")
    indent = line[: len(line) - len(body)]
    comment = ""
    if "#" in body:
        if body[0] == "#":
            return indent, "", "", body
        found = _COMMENT.search(body)
        if found:
            comment = body[found.end() - 1 :]
            body = body[: found.end() - 1]
    trimmed = body.rstrip(" \t")
    return indent, trimmed, body[len(trimmed) :], comment


def rows(text: Text) -> Iterator[Row]:
    """The rows of a text, each with its kind and section."""
    section = ""
    start = 0
    lines = text.content.split("\n")
    last = len(lines)
    refused = text.refused
    for number, whole in enumerate(lines, 1):
        line, end = whole, "\n" if number < last else ""
        if not line and not end:
            break
        if line.endswith("\r") and end:
            line, end = line[:-1], "\r\n"
        indent, body, gap, comment = split(line)
        if number in refused:
            kind = "refused"
            if not indent and body:
                section = _opened(body, section)[1]
        elif not body:
            kind = "blank"
        elif indent:
            kind = _inside(section, body)
        else:
            kind, section = _opened(body, section)
        yield Row(number, start, indent, body, gap, comment, end, kind, section)
        start += len(whole) + 1


def join(all_rows: Iterable[Row]) -> str:
    """The text that rows were split from."""
    return "".join(row.text for row in all_rows)


def first_word(body: str) -> str:
    """The first word of a body, up to a blank, colon or comma."""
    found = _FIRST.match(body)
    return found.group() if found else ""


def shown(words: str) -> str:
    """Words of the author as a message shows them: cut to forty characters, without backquotes."""
    words = words.replace("`", "'")
    return words if len(words) <= _LONGEST_SHOWN else f"{words[: _LONGEST_SHOWN - 1]}…"


def _inside(section: str, body: str) -> str:
    """The kind of an indented row: that of its section; in `make`, a step or its continuation."""
    if section == "make":
        return "step" if body.startswith("-") else "more"
    if section in SECTIONS:
        return section
    return "lost"


def _opened(body: str, section: str) -> tuple[str, str]:
    """The kind of a row at the left edge, and the section that holds from there.

    A word that resembles a section opens it, so that one misspelt word does not spoil the rows below; a lone word
    that resembles nothing opens a section nobody knows (`?`); a line that lost its indent leaves the section open.
    """
    word = first_word(body)
    if word in SECTIONS:
        return "section", word
    if word in HEADERS:
        return "header", ""
    near = nearest(word, (*SECTIONS, *HEADERS))
    lone = word == body.rstrip(":")
    if near in SECTIONS and (lone or near == "process"):
        return "section", near
    if near in HEADERS:
        return "header", ""
    if lone:
        return "stray", "?"
    return "stray", section
