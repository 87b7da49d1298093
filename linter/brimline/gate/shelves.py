"""A snapshot and the rules of the base become a shelf; no rule is ever taken from the snapshot itself."""

from collections.abc import Mapping
from datetime import date
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from brimline.document import Read
from brimline.gate.values import Leaf, Snapshot
from brimline.shelf import Book, Collection, Refusal, Shelf
from brimline.shelf.books import code_in, title_in
from brimline.shelf.loading import stack
from brimline.shelf.records import collection_of
from brimline.shelf.walk import SETTINGS
from brimline.text import too_large


class Ruling(Struct, frozen=True):
    """The collections of the base and by what they are judged.

    `roots` are their folders, empty or with a slash at the end; the last of `collections` is made up for formulas that
    are in none. `refusals` are records that cannot be used.
    """

    roots: tuple[str, ...]
    collections: tuple[Collection, ...]
    refusals: tuple[Refusal, ...]

    def number(self, path: str) -> int:
        """Which of the collections a formula belongs to."""
        found = [root for root in self.roots if path.startswith(root)]
        return self.roots.index(max(found, key=len)) if found else len(self.roots)

    def is_aside(self, path: str) -> bool:
        """Whether the collection of a formula sets it aside."""
        number = self.number(path)
        folders = self.collections[number].settings.set_aside
        root = self.roots[number] if number < len(self.roots) else ""
        return any(path.startswith(f"{root}{folder}/") for folder in folders)


def ruling(base: Snapshot, folder: str) -> Ruling:
    """The collections as the records of the base describe them; `folder` is how the whole is called."""
    roots = tuple(sorted(path.removesuffix(SETTINGS) for path in base.records if _name(path) == SETTINGS))
    collections: list[Collection] = []
    refusals: list[Refusal] = []
    for root in roots:
        own = {_name(path): leaf for path, leaf in base.records.items() if path == root + _name(path)}
        files = {name: leaf.data for name, leaf in own.items() if leaf.data is not None}
        troubles = {name: _trouble(leaf) for name, leaf in own.items() if leaf.data is None}
        collection, unused = collection_of(Path(root or folder), files, root, troubles)
        collections.append(collection)
        refusals.extend(unused)
    collections.append(Collection(Path(folder), ad_hoc=True))
    return Ruling(roots, tuple(collections), tuple(refusals))


def shelf_for(snapshot: Snapshot, rules: Ruling, today: date, like: Shelf | None = None) -> Shelf:
    """The formulas of a snapshot on a shelf of the base's collections; those set aside are known, not reviewed.

    A formula that stands word for word on the shelf `like` is taken from there, so that it is read once.
    """
    books = []
    for path, leaf in snapshot.formulas.items():
        old = like.find(path) if like is not None and leaf.data is not None else None
        same = old is not None and old.data == leaf.data
        books.append(old if old is not None and same else book_of(path, leaf, rules.number(path)))
    aside = {book.path for book in books if rules.is_aside(book.path)}
    shelf = stack(
        [book for book in books if book.path not in aside],
        [book for book in books if book.path in aside],
        rules.collections,
        today,
    )
    return replace(shelf, left_out=tuple(sorted(aside)))


def book_of(path: str, leaf: Leaf, collection: int) -> Book:
    """One formula of a snapshot; one that is too large is known to be so and never read."""
    if leaf.data is None and not leaf.trouble:
        return Book(path, "", collection, _read=Read(None, None, (too_large(path, leaf.size),)))
    data = leaf.data or b""
    return Book(path, code_in(data), collection, data=leaf.data, trouble=leaf.trouble, title=title_in(data))


def codes(shelf: Shelf) -> Mapping[tuple[int, str], tuple[Book, ...]]:
    """The books of a shelf, reviewed or not, by collection and code."""
    found: dict[tuple[int, str], tuple[Book, ...]] = {}
    for book in (*shelf.formulas, *shelf.known):
        if book.code:
            key = (book.collection, book.code)
            found[key] = (*found.get(key, ()), book)
    return found


def _trouble(leaf: Leaf) -> str:
    return leaf.trouble or "is larger than 8 MiB"


def _name(path: str) -> str:
    return path.rpartition("/")[2]
