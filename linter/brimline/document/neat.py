"""Neatens a formula's bytes: lays the text out anew and hands it back only if it still says the same."""

from msgspec import Struct

from brimline.document import Read, read
from brimline.document.plain import to_json
from brimline.document.same import difference
from brimline.findings import Finding, Level
from brimline.text import Text
from brimline.tree import Tree, neat
from brimline.tree import read as read_tree

_BOM = b"\xef\xbb\xbf"
_LINE_RULES = frozenset({"writing/syntax", "writing/unit", "writing/characters", "writing/size"})


class Neat(Struct, frozen=True):
    """A formula's text before and after.

    `after` is the neat text in UTF-8 without byte order mark; it equals `before` where nothing is to be done or nothing
    may be done. `lines` are the numbers (of the text before) of lines that stand differently, `also` says in words what
    else is changed (blank lines, line ends ...). `left` are the findings on lines that could not be read and were left
    as they are. `refusal` is a sentence on why the text cannot be neatened, empty if it can.
    """

    before: bytes
    after: bytes
    lines: tuple[int, ...] = ()
    also: tuple[str, ...] = ()
    left: tuple[Finding, ...] = ()
    refusal: str = ""

    @property
    def is_neat(self) -> bool:
        """Whether there is nothing to change."""
        return self.before == self.after


def neaten(path: str, data: bytes) -> Neat:
    """Neaten a formula; `path` is how it is called in findings. Never raises for anything in the bytes."""
    before = read(path, data)
    text = before.text
    if text is None:
        return _refused(data, before.findings[0].says if before.findings else "It cannot be read.")
    if text.content.encode("utf-8") != data.removeprefix(_BOM):
        return _refused(data, "Some bytes in it are not UTF-8, and writing it anew would lose them.")
    if before.document is None or not to_json(before.document):
        return _refused(data, "No line of a formula can be read in it.")
    left = tuple(one for one in before.findings if one.level is Level.UNREADABLE and one.rule in _LINE_RULES)
    tree, _ = read_tree(text)
    rows = neat.placed(tree, frozenset(one.line for one in left))
    after = neat.text(rows).encode("utf-8")
    if after == data:
        return Neat(data, data, left=left)
    changed = _differs(before, read(path, after), data, after)
    if changed:
        return _refused(data, f"Neatened, it would read differently in {changed}; this is a fault of brimline.")
    return Neat(data, after, _changed_lines(rows), tuple(_also(text, tree, rows)), left)


def _refused(data: bytes, says: str) -> Neat:
    return Neat(data, data, refusal=says)


def _differs(before: Read, after: Read, old: bytes, new: bytes) -> str:
    """What a neatened text would say differently; anything but a blank that came or went is enough."""
    if b"".join(old.removeprefix(_BOM).split()) != b"".join(new.split()):
        return "its words"
    return difference(before, after)


def _changed_lines(rows: tuple[neat.Placed, ...]) -> tuple[int, ...]:
    return tuple(one.row.number for one in rows if one.line != one.row.text.rstrip("\n").removesuffix("\r"))


def _also(text: Text, tree: Tree, rows: tuple[neat.Placed, ...]) -> list[str]:
    """In words, what changes besides the lines themselves."""
    also = []
    above = 0
    for one in rows:
        if one.row.number - above - 1 != one.blanks or _dirty(tree, above, one.row.number):
            also.append("blank lines")
            break
        above = one.row.number
    else:
        if rows and rows[-1].row.number != len(tree.rows):
            also.append("blank lines")
    if any(row.end == "\r\n" for row in tree.rows):
        also.append("line ends")
    if tree.rows and not tree.rows[-1].end:
        also.append("the end of the last line")
    if text.bom:
        also.append("the byte order mark")
    return also


def _dirty(tree: Tree, above: int, below: int) -> bool:
    """Whether a blank line between two rows holds blanks."""
    return any(row.indent for row in tree.rows[above : below - 1])
