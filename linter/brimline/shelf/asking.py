"""What a person asked for: the files under the paths given, and the other files of the collections they are in."""

import os
from collections.abc import Iterable, Sequence
from glob import glob
from pathlib import Path

from msgspec import Struct

from brimline.shelf.values import Refusal
from brimline.shelf.walk import SUFFIX, Found, nearest, trouble_with, walk


class Request(Struct, frozen=True):
    """What the paths came to.

    `given` are the paths themselves, `asked` the files under them, `others` the other files of the same collections,
    `loose` the folders of files that are in no collection.
    """

    given: tuple[Path, ...]
    asked: tuple[Found, ...]
    others: tuple[Found, ...]
    loose: tuple[Path, ...]
    refusals: tuple[Refusal, ...]


def request(paths: Sequence[str], most: int) -> Request:
    """Look at every path; what cannot be looked at becomes a refusal."""
    asked: dict[str, Found] = {}
    others: dict[str, Found] = {}
    whole: set[Path] = set()
    roots: dict[Path, Path | None] = {}
    start: list[Path] = []
    loose: list[Path] = []
    refusals: list[Refusal] = []
    for given in _expanded(paths):
        path = Path(os.path.abspath(given))
        kind = trouble_with(path)
        start.append(path)
        if os.path.isdir(path):
            seen = walk(path, most)
            whole |= seen.whole
            asked.update((_same(found.file), found) for found in seen.files)
            loose.extend([path] if any(found.root is None for found in seen.files) else [])
            refusals.extend(_closed(seen.closed, given, path))
            if seen.full:
                refusals.append(Refusal(given, f"holds more than {most:,} formulas", "Name smaller folders."))
            elif not seen.files and not seen.closed:
                refusals.append(Refusal(given, "holds no formula", f"Formulas are files that end in {SUFFIX}."))
        elif kind == "is no longer there":
            refusals.append(Refusal(given, "is not there", "Check the spelling of the path."))
        elif kind:
            refusals.append(Refusal(given, kind, "Name the formula's own file, or send it through a pipe and write -."))
        else:
            if path.parent not in roots:
                roots[path.parent] = nearest(path.parent)
            asked[_same(path)] = Found(path, roots[path.parent])
            loose.extend([path.parent] if roots[path.parent] is None else [])
    for root in sorted({found.root for found in asked.values() if found.root} - whole):
        seen = walk(root, most, nested=False)
        others.update((_same(found.file), found) for found in seen.files if _same(found.file) not in asked)
        refusals.extend(_closed(seen.closed, str(root), root))
    return Request(tuple(start), tuple(asked.values()), tuple(others.values()), tuple(loose), tuple(refusals))


def _expanded(paths: Sequence[str]) -> list[str]:
    """The paths, with `*` and `?` filled in where the shell left that to the program, as those of Windows do."""
    several = []
    for path in paths:
        matches = sorted(glob(path)) if ("*" in path or "?" in path) and not os.path.lexists(path) else []
        several.extend(matches or [path])
    return several


def _closed(closed: Iterable[tuple[Path, str]], given: str, start: Path) -> list[Refusal]:
    return [
        Refusal(Path(given, folder.relative_to(start)).as_posix(), reason, "Ask for access to the folder, or leave it.")
        for folder, reason in closed
    ]


def _same(path: Path) -> str:
    return os.path.normcase(path)
