"""Finds formula files under a folder and the collection each belongs to; follows no link and enters no dot-folder."""

import os
import stat
from collections.abc import Callable
from pathlib import Path

from msgspec import Struct

from brimline.shelf.books import because

SETTINGS = "collection.yaml"
SUFFIX = ".formula"
# More files than this and the run stops looking, says so, and counts as not run.
MOST_FILES = 100_000
# The mark Windows puts on a folder that is really another one.
_JUNCTION = 0xA0000003


class Found(Struct, frozen=True):
    """A formula file: where it is, its collection's folder (None if it is in none), what keeps it from being read."""

    file: Path
    root: Path | None
    trouble: str = ""


class Walk(Struct, frozen=True):
    """What a walk came to.

    `files` in order of their paths, `whole` the collections whose every file is among them, `closed` the folders that
    could not be opened, each with the reason, `full` whether the limit of files was reached.
    """

    files: tuple[Found, ...]
    whole: frozenset[Path]
    closed: tuple[tuple[Path, str], ...]
    full: bool = False


def nearest(folder: Path) -> Path | None:
    """The nearest folder, this one or above it, that holds `collection.yaml`."""
    return next((one for one in (folder, *folder.parents) if _is_plain_file(one / SETTINGS)), None)


def walk(start: Path, most: int = MOST_FILES, nested: bool = True) -> Walk:
    """The formula files under a folder; `nested` enters collections inside this one too."""
    root = nearest(start)
    whole = {start} if root == start else set()
    found: list[Found] = []
    closed: list[tuple[Path, str]] = []
    waiting = [(start, root)]
    while waiting:
        folder, root = waiting.pop()
        try:
            with os.scandir(folder) as entries:
                inside = sorted((one for one in entries if not one.name.startswith(".")), key=lambda one: one.name)
        except OSError as error:
            closed.append((folder, because(error)))
            continue
        if folder != start and any(one.name == SETTINGS and _kind(one.stat) == "file" for one in inside):
            if not nested:
                continue
            root = folder
            whole.add(folder)
        for one in inside:
            kind = _kind(one.stat)
            if kind == "folder":
                waiting.append((Path(one.path), root))
            elif one.name.lower().endswith(SUFFIX):
                if len(found) == most:
                    return Walk(_in_order(found), frozenset(), tuple(closed), full=True)
                found.append(Found(Path(one.path), root, _TROUBLE[kind]))
    return Walk(_in_order(found), frozenset(whole), tuple(closed))


def trouble_with(file: Path) -> str:
    """What keeps a path from being read as a file (`is a link`, `is not a file`, ...); empty if nothing does."""
    return _TROUBLE[_kind(lambda follow_symlinks: os.stat(file, follow_symlinks=follow_symlinks))]


_TROUBLE = {
    "file": "",
    "folder": "is a folder",
    "link": "is a link to another place, and links are not followed",
    "device": "is not a file but a pipe or a device",
    "gone": "is no longer there",
}


def _kind(look: Callable[..., os.stat_result]) -> str:
    try:
        seen = look(follow_symlinks=False)
    except OSError:
        return "gone"
    if stat.S_ISLNK(seen.st_mode) or getattr(seen, "st_reparse_tag", 0) == _JUNCTION:
        return "link"
    if stat.S_ISDIR(seen.st_mode):
        return "folder"
    return "file" if stat.S_ISREG(seen.st_mode) else "device"


def _is_plain_file(path: Path) -> bool:
    return not trouble_with(path)


def _in_order(found: list[Found]) -> tuple[Found, ...]:
    return tuple(sorted(found, key=lambda one: one.file.as_posix()))
