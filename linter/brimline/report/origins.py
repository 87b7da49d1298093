"""The settings of a collection as a list for people, and as JSON in the shape of `schema/settings.schema.json`."""

import json
from collections.abc import Iterator

from brimline.report.look import Look, cells, wrapped
from brimline.report.sink import Row, paint
from brimline.shelf.origins import Origin

VERSION = 1
_KEY = 20


def origins_text(path: str, origins: tuple[Origin, ...], look: Look) -> str:
    """Every setting with its value, and below or beside it where that comes from."""
    return paint(_rows(path, origins, look), look.colour)


def _rows(path: str, origins: tuple[Origin, ...], look: Look) -> Iterator[Row]:
    yield (("strong", path),)
    last = ""
    for one in origins:
        key = one.key if one.key != last else ""
        last = one.key
        origin = f"{one.origin}, line {one.line}" if one.line else one.origin
        lines = wrapped(one.value or "-", look.width - _KEY - 2)
        for number, line in enumerate(lines):
            yield (
                ("", f"  {key if not number else ''}".ljust(_KEY + 2) + line),
                *_beside(line, origin, number, lines, look),
            )
        if not _beside(lines[-1], origin, len(lines) - 1, lines, look):
            yield (("", " " * (_KEY + 2)), ("faint", origin))


def _beside(line: str, origin: str, number: int, lines: list[str], look: Look) -> Row:
    """The origin at the right edge of the last line of a value, if there is room."""
    room = look.width - _KEY - 2 - cells(line) - cells(origin)
    return (("faint", " " * room + origin),) if number == len(lines) - 1 and room >= 2 else ()


def origins_data(path: str, origins: tuple[Origin, ...], tool: str) -> str:
    """The settings as one JSON text in ASCII."""
    rows = [{"key": one.key, "value": one.value, "origin": one.origin, "line": one.line} for one in origins]
    whole = {"report": "settings", "version": VERSION, "tool": tool, "collection": path, "settings": rows}
    return json.dumps(whole, indent=2, ensure_ascii=True) + "\n"
