"""What a request changes, and which other formulas have to be looked at again because of it."""

from collections.abc import Iterable

from brimline.gate.scan import adapts_in, successor_in
from brimline.gate.shelves import codes
from brimline.gate.values import Leaf, Snapshot
from brimline.shelf import Book, Shelf

Key = tuple[int, str]


def changed(base: Snapshot, head: Snapshot) -> frozenset[str]:
    """The paths of formulas that are new, gone or otherwise written; other line ends alone are no change."""
    paths = {*base.formulas, *head.formulas}
    return frozenset(path for path in paths if not _same(base.formulas.get(path), head.formulas.get(path)))


def affected(base: Shelf, head: Shelf, paths: frozenset[str]) -> frozenset[str]:
    """The changed paths, and those of every formula whose review can come out otherwise because of them.

    These are the formulas that depart from a changed one, by whatever chain, in the base or in the head, or name it as
    their successor; formulas that share a code or a title with one of them; and file names that only now differ from
    another in nothing but capitals.
    """
    was = [book for book in _books(base) if book.path in paths]
    now = _books(head)
    children: dict[Key, list[Book]] = {}
    for book in (*now, *was):
        for named in filter(None, (adapts_in(book), successor_in(book))):
            children.setdefault((book.collection, named), []).append(book)
    before, after = codes(base), codes(head)
    waiting = [_key(book) for book in (*was, *now) if book.path in paths and book.code]
    seen: set[Key] = set()
    found = set(paths)
    while waiting:
        key = waiting.pop()
        if key in seen:
            continue
        seen.add(key)
        found.update(book.path for book in (*before.get(key, ()), *after.get(key, ())))
        for book in children.get(key, ()):
            found.add(book.path)
            waiting.extend([_key(book)] if book.code else [])
    titles = {(book.collection, book.title) for book in (*was, *now) if book.path in paths and book.title}
    found.update(book.path for book in (*_books(base), *now) if (book.collection, book.title) in titles)
    return frozenset(found | _names(base, head))


def _books(shelf: Shelf) -> tuple[Book, ...]:
    return (*shelf.formulas, *shelf.known)


def _key(book: Book) -> Key:
    return (book.collection, book.code)


def _names(base: Shelf, head: Shelf) -> set[str]:
    """Paths whose file name is troublesome on one side only, or for another reason."""
    before, after = base.awkward(), head.awkward()
    return {path for path in {*before, *after} if before.get(path) != after.get(path)}


def _same(one: Leaf | None, other: Leaf | None) -> bool:
    if one is None or other is None:
        return one is other
    if one.data is None or other.data is None:
        return (one.data, one.trouble, one.size) == (other.data, other.trouble, other.size)
    return one.data == other.data or _unix(one.data) == _unix(other.data)


def _unix(data: bytes) -> bytes:
    return data.replace(b"\r\n", b"\n")


def renamed(before: Iterable[Book], after: Iterable[Book]) -> tuple[tuple[str, str], ...]:
    """Formulas that changed their path and kept their code (or, without a code, every byte), as pairs, sorted."""
    old, new = list(before), list(after)
    stayed = {book.path for book in old} & {book.path for book in new}
    gone = {(_key(book), b"" if book.code else book.data): book.path for book in old if book.path not in stayed}
    pairs = []
    for book in new:
        was = gone.pop((_key(book), b"" if book.code else book.data), "")
        if was and book.path not in stayed:
            pairs.append((was, book.path))
    return tuple(sorted(pairs))
