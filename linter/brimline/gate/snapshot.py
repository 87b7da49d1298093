"""Snapshots of a collection: from the objects of a repository, or from its working tree, always as bytes."""

import os
import re
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

from brimline.gate.git import Entry, Repository
from brimline.gate.values import DEEPEST, Leaf, Snapshot, Trouble
from brimline.shelf.books import load
from brimline.shelf.records import RECORDS
from brimline.shelf.strict import LARGEST
from brimline.shelf.walk import MOST_FILES, SETTINGS, SUFFIX, trouble_with
from brimline.text import MOST_BYTES

_LINK = "is a link to another place, and links are not followed"
_LONGEST_TARGET = 4096
# Letters without a width, which a file system of another computer may leave out of a name.
_WITHOUT = re.compile("[\u00ad\u034f\u200b-\u200f\u202a-\u202e\u2060-\u206f\ufeff]")
_LEADS_OUT = frozenset({"", ".", ".."})
_FILE, _LINKED, _SUBMODULE = "100", "120000", "160000"


def scope(repository: Repository, commit: str) -> bytes:
    """The folder to look at: that of the nearest collection around the one given, by the base; else the one given.

    As bytes from the top of the repository, with a slash at the end, empty for the top.
    """
    parts = repository.inside.split(b"/")[:-1]
    around = [b"".join(part + b"/" for part in parts[:count]) for count in range(len(parts), -1, -1)]
    name = SETTINGS.encode("ascii")
    entries = repository.tree(commit, [folder + name for folder in around], deep=False)
    there = {one.path for one in entries if one.mode.startswith(_FILE)}
    return next((folder for folder in around if folder + name in there), repository.inside)


def read_commits(repository: Repository, commits: Sequence[str], folder: bytes) -> tuple[Snapshot, ...]:
    """Snapshots of a folder in several commits, given by hash; what they share is read once. Raises Trouble."""
    under = [folder] if folder else []
    wanted = {
        commit: [one for one in (_Named(entry, folder) for entry in repository.tree(commit, under)) if one.kind]
        for commit in dict.fromkeys(commits)
    }
    blobs = dict(repository.blobs(one.entry.hash for tree in wanted.values() for one in tree if one.readable))
    made = {commit: _snapshot(tree, blobs) for commit, tree in wanted.items()}
    return tuple(made[commit] for commit in commits)


def read_working_tree(repository: Repository, folder: bytes, recorded: Mapping[str, str]) -> Snapshot:
    """The snapshot of a folder as it lies on disk; `recorded` are the submodules that the last commit names.

    Links are not followed, folders whose name starts with a dot and other repositories are not entered.
    """
    start = repository.top / os.fsdecode(folder)
    formulas: dict[str, Leaf] = {}
    records: dict[str, Leaf] = {}
    links: dict[str, str] = {}
    modules = {path: value for path, value in recorded.items() if os.path.lexists(start / path)}
    odd: dict[str, str] = {}
    waiting = [""]
    while waiting:
        here = waiting.pop()
        if here.count("/") >= DEEPEST:
            odd[here.rstrip("/")] = _TOO_DEEP
            continue
        for name in _listed(start / here):
            path = f"{here}{name}"
            kind = trouble_with(start / path)
            if kind == "is a folder":
                if path in modules or os.path.lexists(start / path / ".git"):
                    modules.setdefault(path, "a repository that is not recorded")
                else:
                    waiting.append(f"{path}/")
                continue
            if kind == _LINK:
                links[path] = _target(start / path)
            if name.lower().endswith(SUFFIX):
                formulas[path] = _leaf(start / path, kind, MOST_BYTES)
                _check_count(len(formulas))
            elif record := passes_for(name):
                odd[path] = _PASSES.format(record)
            elif name in RECORDS:
                records[path] = _leaf(start / path, kind, LARGEST)
    return Snapshot(formulas, records, links, modules, odd)


_PASSES = "is taken for {} on some computers, which would put it in its place"
_TOO_DEEP = f"lies in more than {DEEPEST} folders, one within the other"


def passes_for(name: str) -> str:
    """The record that a name is taken for by a system that drops capitals, invisible letters or points at its end."""
    if name in RECORDS or not (seen := _WITHOUT.sub("", name)):
        return ""
    alike = unicodedata.normalize("NFKC", seen).casefold().partition(":")[0].rstrip(". ")
    return alike if alike in RECORDS else ""


class _Named:
    """An entry with its path in the folder looked at, and what it is: formula, record, link, submodule, odd or nothing."""

    __slots__ = ("entry", "kind", "path", "reason")

    def __init__(self, entry: Entry, folder: bytes) -> None:
        self.entry = entry
        self.path = entry.path[len(folder) :].decode("utf-8", "surrogateescape")
        self.reason = ""
        self.kind = self._kind(entry.path.startswith(folder))

    @property
    def readable(self) -> bool:
        """Whether its contents are to be read."""
        most = {"formula": MOST_BYTES, "record": LARGEST, "link": _LONGEST_TARGET}.get(self.kind, -1)
        return self.entry.size <= most

    def _kind(self, inside: bool) -> str:
        parts = self.path.split("/")
        name = parts[-1]
        looked_at = name.lower().endswith(SUFFIX) or name in RECORDS or passes_for(name) != ""
        linked = self.entry.mode == _LINKED
        if not inside or not (looked_at or linked or self.entry.mode == _SUBMODULE):
            return ""
        if not _LEADS_OUT.isdisjoint(parts):
            self.reason = "has a part that leads out of its folder"
        elif "/." in f"/{self.path}":
            return ""
        elif len(parts) > DEEPEST:
            self.reason = _TOO_DEEP
        elif record := passes_for(name):
            self.reason = _PASSES.format(record)
        if self.reason:
            return "odd"
        if linked or self.entry.mode == _SUBMODULE:
            return "link" if linked else "submodule"
        return "formula" if name.lower().endswith(SUFFIX) else "record"


def _snapshot(tree: Iterable[_Named], blobs: Mapping[str, bytes]) -> Snapshot:
    formulas: dict[str, Leaf] = {}
    records: dict[str, Leaf] = {}
    links: dict[str, str] = {}
    modules: dict[str, str] = {}
    odd: dict[str, str] = {}
    for one in tree:
        data = blobs.get(one.entry.hash) if one.readable else None
        if one.kind == "formula":
            formulas[one.path] = Leaf(data, size=one.entry.size)
        elif one.kind == "record":
            records[one.path] = Leaf(data, size=one.entry.size)
        elif one.kind == "submodule":
            modules[one.path] = one.entry.hash[:12]
        elif one.kind == "odd":
            odd[one.path] = one.reason
        else:
            links[one.path] = (data or b"").decode("utf-8", "surrogateescape")
            name = one.path.rpartition("/")[2]
            where = formulas if name.lower().endswith(SUFFIX) else records if name in RECORDS else {}
            where[one.path] = Leaf(None, _LINK)
        _check_count(len(formulas))
    return Snapshot(formulas, records, links, modules, odd)


def _check_count(number: int) -> None:
    if number > MOST_FILES:
        raise Trouble(f"the collection holds more than {MOST_FILES:,} formulas", "Name a smaller folder.")


def _listed(folder: Path) -> list[str]:
    try:
        return sorted(one.name for one in folder.iterdir() if not one.name.startswith("."))
    except OSError as error:
        raise Trouble(
            f"the folder {folder.as_posix()} cannot be opened ({error.strerror})", "Ask for access to it."
        ) from error


def _leaf(file: Path, trouble: str, most: int) -> Leaf:
    if trouble:
        return Leaf(None, trouble)
    try:
        with file.open("rb") as stream:
            data = stream.read(most + 1)
        size = file.lstat().st_size
    except OSError:
        return Leaf(None, load(file)[1] or "is no longer there")
    return Leaf(data, size=len(data)) if len(data) <= most else Leaf(None, size=max(size, len(data)))


def _target(file: Path) -> str:
    try:
        return str(file.readlink())
    except OSError:
        return ""
