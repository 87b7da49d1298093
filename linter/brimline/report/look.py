"""How wide, how coloured, and from where: what a report has to know about the place it is printed in."""

import posixpath
import unicodedata
from collections.abc import Callable, Iterator

from msgspec import Struct

from brimline.report.sink import visible

NARROWEST, WIDEST = 40, 100


def nothing_written(path: str, line: int) -> str:
    """Stands for formulas whose text is not at hand."""
    del path, line
    return ""


class Look(Struct, frozen=True):
    """What a report is fitted to.

    `width` is in columns, `colour` whether to use it. `written` gives a line of a formula by path and line number.
    `prefix` leads from the working folder to the folder that paths are relative to (`formulas/`); `inside` is the
    working folder seen from there, if it lies below it (`adapted`). With them a path is printed as it can be opened.
    """

    width: int = 80
    colour: bool = False
    written: Callable[[str, int], str] = nothing_written
    prefix: str = ""
    inside: str = ""

    def from_here(self, path: str) -> str:
        """A formula's path as it can be opened from the working folder."""
        return posixpath.relpath(f"/{path}", f"/{self.inside}") if self.inside else f"{self.prefix}{path}"


def fitted(columns: int) -> int:
    """The width to print at on a terminal of so many columns: never wider than reads well, never too narrow."""
    return max(NARROWEST, min(columns, WIDEST))


def cells(text: str) -> int:
    """How many columns a text takes: two for wide letters, none for marks set over the letter before."""
    if text.isascii():
        return len(text)
    return sum(_cells(letter) for letter in text)


def wrapped(text: str, width: int, first: int | None = None) -> list[str]:
    """A text in lines no wider than `width`, broken at blanks; a longer word stands cut over several lines.

    `first` is the width of the first line if it differs. There is always at least one line.
    """
    lines: list[str] = []
    line = ""
    room = width if first is None else first
    for word in _words(visible(text), width):
        joined = f"{line} {word}" if line else word
        if line and cells(joined) > room:
            lines.append(line)
            line, room = word, width
        elif not line and cells(word) > room:
            lines.append("")
            line, room = word, width
        else:
            line = joined
    return [*lines, line]


def clipped(text: str, column: int, width: int) -> tuple[str, int]:
    """A line of a formula cut to `width` around a column (from 1), and the column's offset in what is left (from 0).

    Tabs become single blanks, so that a marker below stands where it should.
    """
    shown = [visible(letter) for letter in text.replace("\t", " ")]
    at = min(max(column - 1, 0), len(shown))
    start, end = 0, len(shown)
    while cells("".join(shown[start:end])) > width - 3 * (start > 0) - 3 * (end < len(shown)):
        if end - at > at - start:
            end -= 1
        else:
            start += 1
    before = ("..." if start else "") + "".join(shown[start:at])
    return before + "".join(shown[at:end]) + ("..." if end < len(shown) else ""), cells(before)


def _words(text: str, width: int) -> Iterator[str]:
    for word in text.split(" "):
        rest = word
        while cells(rest) > width:
            cut = next(n for n in range(len(rest), 0, -1) if n == 1 or cells(rest[:n]) <= width)
            yield rest[:cut]
            rest = rest[cut:]
        if rest:
            yield rest


def _cells(letter: str) -> int:
    if unicodedata.combining(letter):
        return 0
    return 2 if unicodedata.east_asian_width(letter) in {"W", "F"} else 1
