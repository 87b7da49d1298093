"""The one place where anything becomes text to be printed: what could steer a terminal or a log is made visible.

Reports are rows of pieces, each a style and a text. Only `paint` joins them, so that no name, title or line of a
formula reaches a terminal as it stands, and colour is the only control sequence ever written.
"""

from collections.abc import Iterable

Piece = tuple[str, str]
Row = tuple[Piece, ...]

# Styles and their codes in the 256-colour table. Each is readable on white and on black (contrast over 4 to 1 by the
# WCAG 2.1 formula); meaning is never in the colour alone, the word is always printed.
CODES = {
    "": "",
    "strong": "1",
    "unreadable": "1;38;5;97",
    "unsafe": "1;38;5;130",
    "untested": "1;38;5;31",
    "quality": "38;5;243",
    "form": "38;5;243",
    "faint": "38;5;243",
}


def visible(text: str) -> str:
    """The text with every character that does not print shown as `<U+202E>`, and stray bytes as `<byte FF>`.

    Control characters, line ends, direction marks, zero-width characters and odd blanks are such; the ordinary blank
    is not. Doing it twice changes nothing more.
    """
    if text.isprintable():
        return text
    return "".join(letter if letter.isprintable() else _shown(letter) for letter in text)


def paint(rows: Iterable[Row], colour: bool = False) -> str:
    """The rows as lines of text, each ended by a line feed, in colour or not."""
    return "".join(f"{_line(row, colour)}\n" for row in rows)


def plain(*texts: str) -> Row:
    """A row without any style."""
    return tuple(("", text) for text in texts)


def _shown(letter: str) -> str:
    number = ord(letter)
    if 0xDC80 <= number <= 0xDCFF:  # how Python keeps a byte of a file name that is not UTF-8
        return f"<byte {number - 0xDC00:02X}>"
    return f"<U+{number:04X}>"


def _line(row: Row, colour: bool) -> str:
    pieces = [(style, _disarmed(visible(text))) for style, text in row]
    bare = "".join(text for _, text in pieces)
    # A log that obeys lines starting with `::` must not take orders from a formula.
    guard = "> " if bare.lstrip().startswith("::") else ""
    while pieces and not pieces[-1][1].rstrip():
        pieces.pop()
    if pieces:
        pieces[-1] = (pieces[-1][0], pieces[-1][1].rstrip())
    if not colour:
        return guard + "".join(text for _, text in pieces)
    return guard + "".join(f"\x1b[{CODES[style]}m{text}\x1b[0m" if CODES[style] else text for style, text in pieces)


def _disarmed(text: str) -> str:
    return text.replace("##[", "## [")
