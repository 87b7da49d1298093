"""Turns the bytes of a file into text with line numbers, and refuses text that does not show what it says.

Every stage above works with character offsets into the decoded text; lines and columns exist only for printing.
"""

import re
import unicodedata
from bisect import bisect_right
from collections.abc import Iterator
from itertools import pairwise

from msgspec import Struct

from brimline._patterns import pattern
from brimline.findings import THE_FORMAT, Finding, Harm, Level, Place, Span

MOST_BYTES = 256 * 1024
MOST_LINES = 5_000
MOST_CHARACTERS = 2_000

# The fractions of a kitchen measure that are one character wide; any other such sign is refused by name.
KITCHEN_FRACTIONS = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"

_BOM = "\ufeff"
_NOT_PLAIN = pattern(r"[^\t\n -~]")
_ALLOWED = frozenset("‐‑‒–—―‘’“”„•…″′€°§©®™×÷±·«»¡¿£¥¢¶†‡´¨¸¯¬µ−" + KITCHEN_FRACTIONS)
_WORD = pattern(r"[^\W\d_]+")
_CONTROLS = {
    "\r": "CARRIAGE RETURN without a line feed",
    "\x07": "BELL",
    "\x08": "BACKSPACE",
    "\x0b": "LINE TABULATION",
    "\x0c": "FORM FEED",
    "\x1b": "ESCAPE",
    "\x7f": "DELETE",
    "\x85": "NEXT LINE",
}
_SLASHES = frozenset("⁄∕⧸")
# Cyrillic and Greek letters that print like Latin ones; a word made of nothing else passes for a Latin word.
_TWINS = frozenset("аАвВсСеЕнНіІјЈкКмМоОрРѕЅтТуУхХүҮһԛԝӏαΑΒΕΖΗιΙΚΜΝνοΟρΡΤτυΥΧχ")

_WHY_CHARACTERS = "A reader sees one thing and a program reads another, so an amount could be other than it looks."
_WHY_SIZE = "A formula is a page or two; a file of this size is something else, and reading it could take very long."
_WHY_FILE = "A file that cannot be read as text cannot be checked at all."


class Text(Struct, frozen=True):
    """A file as decoded text.

    `path` is how the file is named in findings. `content` holds no byte order mark (`bom` says whether there was
    one) and keeps its line ends as they are. `starts` are the offsets at which lines start, from 0. `refused` are
    the numbers of lines (from 1) whose characters cannot be trusted; they are shown but not read.
    """

    path: str
    content: str
    starts: tuple[int, ...]
    bom: bool = False
    refused: frozenset[int] = frozenset()

    def line_column(self, offset: int) -> tuple[int, int]:
        """The line and column of an offset, both counted from 1, in characters; a point past the end is the end."""
        offset = max(0, min(offset, len(self.content)))
        line = bisect_right(self.starts, offset)
        return line, offset - self.starts[line - 1] + 1

    def line(self, number: int) -> str:
        """The text of a line counted from 1, without its line end. Raises IndexError if there is no such line."""
        if not 1 <= number <= len(self.starts):
            raise IndexError(f"{self.path} has {len(self.starts)} lines, none numbered {number}")
        end = self.starts[number] if number < len(self.starts) else len(self.content)
        return self.content[self.starts[number - 1] : end].removesuffix("\n").removesuffix("\r")

    def finding(
        self,
        span: Span,
        rule: str,
        says: str,
        why: str,
        instead: str,
        *,
        copy: str = "",
        level: Level = Level.UNREADABLE,
        section: str = "",
    ) -> Finding:
        """A finding about the writing at a place in this text; `copy` is a whole line to put in its place."""
        line, column = self.line_column(span.start)
        return Finding(
            Place(self.path, span),
            level,
            rule,
            Harm.RECORD,
            says,
            why,
            instead,
            line=line,
            column=column,
            section=section,
            copy=copy,
            sources=(THE_FORMAT,),
        )


def decode(path: str, data: bytes) -> tuple[Text | None, tuple[Finding, ...]]:
    """Read bytes as UTF-8 text, with every line that cannot be trusted named once.

    Returns no text at all for a file that is empty, binary, in another encoding or over the limits (256 KiB, 5,000
    lines), with one finding. A line over 2,000 characters, or with a character that misleads the eye, is a finding
    and is listed in `Text.refused`; the other lines are read.
    """
    if len(data) > MOST_BYTES:
        return None, (too_large(path, len(data)),)
    problem = _not_text(data)
    if problem:
        return None, (whole(path, "writing/file", *problem),)
    content = data.decode("utf-8", errors="replace")
    bom = content.startswith(_BOM)
    content = content.removeprefix(_BOM)
    if content.isspace() or not content:
        says = f"{path} is empty." if not content else f"{path} holds nothing but blank lines."
        return None, (whole(path, "writing/file", says, _WHY_FILE, "Write the formula, or remove the file."),)
    # Line ends alone decide what a line is: other separators are refused characters, so offsets and lines agree.
    starts = [0, *(found.end() for found in re.finditer("\n", content))]
    count = len(starts) - (starts[-1] == len(content))
    if count > MOST_LINES:
        says = f"{path} has {count:,} lines; a formula has at most {MOST_LINES:,}."
        return None, (whole(path, "writing/size", says, _WHY_SIZE, "Keep one formula in one file."),)
    text = Text(path, content, tuple(starts), bom)
    found = tuple(_faults(text))
    if found:
        text = Text(path, content, text.starts, bom, frozenset(one.line for one in found))
    return text, found


def whole(path: str, rule: str, says: str, why: str, instead: str) -> Finding:
    """A finding about a file as a whole, placed at its very beginning."""
    place = Place(path, Span(0, 0))
    return Finding(
        place, Level.UNREADABLE, rule, Harm.RECORD, says, why, instead, line=1, column=1, sources=(THE_FORMAT,)
    )


def too_large(path: str, size: int) -> Finding:
    """The finding for a file over 256 KiB; `size` is in bytes."""
    says = f"{path} has {size:,} bytes; a formula has at most {MOST_BYTES:,}."
    return whole(path, "writing/size", says, _WHY_SIZE, "Keep one formula in one file.")


def _not_text(data: bytes) -> tuple[str, str, str] | None:
    """What is wrong, why it matters and what to do, if the bytes are not text in UTF-8 at all."""
    save = "Save the file as UTF-8 text (in the editor's Save As dialog) and try again."
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return "The file is written in UTF-16, not in UTF-8.", _WHY_FILE, save
    if b"\0" in data:
        return "The file is not text: it holds null bytes.", _WHY_FILE, "Name a text file that holds a formula."
    return None


def _faults(text: Text) -> Iterator[Finding]:
    """Lines that are too long or hold a character that is not what it looks like; one finding a line."""
    content = text.content
    plain = content.isascii() and not re.search(r"[^\t\n\r -~]|\r(?!\n)", content)
    longest = max((after - before for before, after in pairwise(text.starts)), default=0)
    if plain and max(longest, len(content) - text.starts[-1]) <= MOST_CHARACTERS:
        return
    for number in range(1, len(text.starts) + 1):
        line = text.line(number)
        start = text.starts[number - 1]
        if len(line) > MOST_CHARACTERS:
            says = f"The line has {len(line):,} characters; a line has at most {MOST_CHARACTERS:,}."
            span = Span(start + MOST_CHARACTERS, start + len(line))
            yield text.finding(span, "writing/size", says, _WHY_SIZE, "Break the line: one thing on each line.")
        elif not plain:
            yield from _disguised(text, line, start)


def _disguised(text: Text, line: str, start: int) -> Iterator[Finding]:
    """The first misleading character of a line, with a line to copy that has an honest one in its place."""
    found = [(at, reason) for at, reason in _misleading(line)]
    if not found:
        return
    at, reason = found[0]
    character = line[at]
    name = _name(character)
    says = f"{name} (U+{ord(character):04X}) stands here; {reason}."
    if len(found) > 1:
        others = sorted({_name(line[other]) for other, _ in found[1:]} - {name})
        more = f", among them {', '.join(others[:3])}" if others else ""
        says += f" {len(found) - 1} more such {'characters follow' if len(found) > 2 else 'character follows'} in the line{more}."
    copy = _honest(line, found)
    instead = "Type the line again by hand, with plain letters, digits and blanks."
    if copy:
        instead = f"If it says what it should, write `{copy.strip()}`."
    yield text.finding(
        Span(start + at, start + at + 1), "writing/characters", says, _WHY_CHARACTERS, instead, copy=copy
    )


def _misleading(line: str) -> Iterator[tuple[int, str]]:
    """Offsets in a line of characters that mislead, each with the reason in words."""
    mixed = _mixed_words(line)
    for found in _NOT_PLAIN.finditer(line):
        at = found.start()
        reason = mixed.get(at) or _reason(line, at)
        if reason:
            yield at, reason


def _reason(line: str, at: int) -> str:
    """Why the character at an offset misleads; empty if it does not."""
    character = line[at]
    if character in _ALLOWED:
        return ""
    kind = unicodedata.category(character)
    if character == "\ufffd":
        return "the bytes here are not UTF-8, or the text was damaged before; save the file as UTF-8"
    if kind == "Cc":
        return "a control character has no place in a formula"
    if kind in ("Cf", "Co", "Cn", "Cs") or 0xFE00 <= ord(character) <= 0xFE0F:
        return "it does not show, or it changes the order in which text shows"
    if kind in ("Zs", "Zl", "Zp"):
        return "it is not the ordinary blank"
    if character in _SLASHES:
        return "it looks like the slash of a fraction"
    if kind in ("Nd", "Nl", "No"):
        return "numbers are written with the digits 0 to 9 and the kitchen fractions"
    if kind in ("Mn", "Mc", "Me"):
        joins = at > 0 and len(unicodedata.normalize("NFC", line[at - 1] + character)) == 1
        return "" if joins else "it is an accent without a letter to stand on"
    if unicodedata.decomposition(character).startswith("<") or kind == "Lm":
        return "it looks like a plain letter or sign but is another one"
    return ""


def _mixed_words(line: str) -> dict[int, str]:
    """Offsets of letters that do not belong to the alphabet of the rest of their word, or that only look Latin."""
    found: dict[int, str] = {}
    if line.isascii():
        return found
    for word in _WORD.finditer(line):
        letters = word.group()
        if letters.isascii():
            continue
        scripts = [_script(letter) for letter in letters]
        if len(set(scripts)) > 1:
            wrong = [i for i, script in enumerate(scripts) if script != "LATIN"]
            reason = "a letter of another alphabet among Latin ones"
        elif scripts[0] != "LATIN" and all(letter in _TWINS for letter in letters):
            wrong = list(range(len(letters)))
            reason = "a word in another alphabet that looks like a Latin one"
        else:
            continue
        found.update((word.start() + i, reason) for i in wrong)
    return found


def _script(letter: str) -> str:
    """The alphabet of a letter: the first word of its Unicode name (`LATIN`, `CYRILLIC`, `GREEK`)."""
    return unicodedata.name(letter, "UNKNOWN").partition(" ")[0]


def _name(character: str) -> str:
    """The Unicode name of a character; control characters by the names of their standard."""
    return _CONTROLS.get(character) or unicodedata.name(character, "") or "a character without a name"


def _honest(line: str, found: list[tuple[int, str]]) -> str:
    """The line with each misleading character replaced by what it looks like; empty if that is not certain."""
    looks = {at: _look(line[at]) for at, _ in found}
    if None in looks.values():
        return ""
    return "".join(looks.get(at, character) or "" for at, character in enumerate(line))


def _look(character: str) -> str | None:
    """The plain characters that a misleading one looks like, empty if it does not show; None if nobody can tell."""
    kind = unicodedata.category(character)
    if kind == "Cf":
        return ""
    if kind == "Zs":
        return " "
    if character in _SLASHES:
        return "/"
    plain = unicodedata.normalize("NFKC", character)
    # A raised 2 is no 2, so only digits and letters in another dress are put into plain ones.
    return plain if kind in ("Nd", "Lu", "Ll") and plain.isascii() and plain.isalnum() else None
