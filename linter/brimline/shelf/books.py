"""One formula file on the shelf: found by its code without being read whole, read when it is first needed."""

import re
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from brimline.document import Read, read
from brimline.document.own import Own
from brimline.findings import THE_FORMAT, Finding, Harm, Level, Place, Span
from brimline.text import MOST_BYTES, Text, decode, too_large, whole

# One byte more than a formula may have, so that a larger one is seen to be too large and is never read whole.
LIMIT = MOST_BYTES + 1

# The header line that gives a formula its code, after any way of ending the line before it.
_HEADER = re.compile(
    rb"(?:\A(?:\xef\xbb\xbf)?|[\r\n])formula[ \t]+([A-Z0-9]{1,12}(?:-[A-Z0-9]{1,12}){1,4})(?![\w-])([^\r\n]{0,400})"
)
_COMMENT = re.compile(r"(?:  |\t)#.*")

_State = tuple[str, str, int, Path | None, bytes | None, str, tuple[Own, ...], str]

_WHY_FILE = "What cannot be read cannot be compared with anything."


class Book(Struct, eq=False):
    """One formula file.

    `path` is what gets printed: relative to the shelf's base, with forward slashes, `<stdin>` for a pipe. `code` is
    the code its header line states, empty if none. `trouble` says why the file cannot be read, empty if it can.
    `own` are the ingredients that its collection adds to the published table. `title` is the title on the header line
    in small letters, for telling twins.
    """

    path: str
    code: str = ""
    collection: int = 0
    file: Path | None = None
    data: bytes | None = None
    trouble: str = ""
    own: tuple[Own, ...] = ()
    title: str = ""
    _read: Read | None = None

    @property
    def read(self) -> Read:
        """What reading the formula came to: its document, its text, the findings about its writing."""
        if self._read is None:
            self._read = self._open()
        return self._read

    def line(self, number: int) -> str:
        """A line as written, counted from 1, read without parsing anything; empty if there is no such line."""
        text = self._read.text if self._read else self._decoded()
        return text.line(number) if text and 1 <= number <= len(text.starts) else ""

    def forget(self) -> None:
        """Drop what was read, to keep a very long run within memory; it is read again if it is needed again."""
        self._read = None

    def _bytes(self) -> tuple[bytes | None, str]:
        if self.trouble or self.data is not None or self.file is None:
            return self.data, self.trouble
        return load(self.file)

    def _decoded(self) -> Text | None:
        data, _ = self._bytes()
        return decode(self.path, data)[0] if data is not None else None

    def _open(self) -> Read:
        data, trouble = self._bytes()
        if trouble or data is None:
            says = f"The file {trouble or 'is no longer there'}."
            instead = "put the formula itself there, as a plain text file"
            return _nothing(whole(self.path, "writing/file", says, _WHY_FILE, instead))
        if len(data) > MOST_BYTES and self.file:
            return _nothing(too_large(self.path, _size(self.file, len(data))))
        found = read(self.path, data)
        if self.own and found.document is not None:
            found = replace(found, document=replace(found.document, own=self.own))
        return found

    def __getstate__(self) -> _State:
        return (self.path, self.code, self.collection, self.file, self.data, self.trouble, self.own, self.title)

    def __setstate__(self, state: _State) -> None:
        self.path, self.code, self.collection, self.file, self.data, self.trouble, self.own, self.title = state
        self._read = None


def load(file: Path) -> tuple[bytes | None, str]:
    """The bytes of a file, or why they could not be had; never more than a formula may have, and one."""
    try:
        with file.open("rb") as stream:
            return stream.read(LIMIT), ""
    except OSError as error:
        return None, because(error)


def because(error: OSError) -> str:
    """The operating system's reason in words that do not depend on it."""
    if isinstance(error, FileNotFoundError):
        return "is no longer there"
    if isinstance(error, PermissionError):
        return "may not be read by you"
    return f"could not be read ({error.strerror or type(error).__name__})"


def code_in(data: bytes) -> str:
    """The code on the first header line that has one; empty if there is none."""
    found = _HEADER.search(data)
    return found.group(1).decode("ascii") if found else ""


def title_in(data: bytes) -> str:
    """The title on the first header line that has a code, in small letters and single blanks; empty if there is none."""
    found = _HEADER.search(data)
    words = _COMMENT.sub("", found.group(2).decode("utf-8", "replace")) if found else ""
    return " ".join(words.split()).casefold()


def finding(book: Book, rule: str, says: str, why: str, instead: str, level: str = "unreadable") -> Finding:
    """A finding about a whole formula, placed on its first header line."""
    document, text = book.read.document, book.read.text
    span = document.sections.get("formula", Span(0, 0)) if document else Span(0, 0)
    line, column = text.line_column(span.start) if text else (0, 0)
    return Finding(
        at=Place(book.path, span),
        level=Level[level.upper()],
        rule=rule,
        harm=Harm.RECORD,
        says=says,
        why=why,
        instead=instead,
        formula=document.code if document else "",
        line=line,
        column=column,
        section="formula",
        sources=(THE_FORMAT,),
    )


def _nothing(finding: Finding) -> Read:
    return Read(document=None, text=None, findings=(finding,))


def _size(file: Path, least: int) -> int:
    try:
        return max(file.stat().st_size, least)
    except OSError:
        return least
