"""From the paths a person gives to a shelf, or from bytes by path: which files, which collections, what else is in them."""

import os
from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from pathlib import Path

from msgspec.structs import replace

from brimline.shelf.asking import request
from brimline.shelf.books import Book, code_in, load, title_in
from brimline.shelf.filenames import awkward
from brimline.shelf.records import RECORDS, collection_of, files_in
from brimline.shelf.values import Collection, Refusal, Settings, Shelf
from brimline.shelf.walk import MOST_FILES, SETTINGS, SUFFIX, Found, nearest, walk

STDIN = "-"
STDIN_PATH = "<stdin>"
# Formulas are small; up to this many bytes of them are kept from the first look so that no file is opened twice.
_KEEP = 64 * 1024 * 1024


def load_shelf(
    paths: Sequence[str],
    today: date,
    stdin: bytes | None = None,
    beside: str = "",
    most: int = MOST_FILES,
) -> Shelf:
    """The shelf for these paths: files, folders, collections, or `-` for the formula in `stdin`.

    A formula from a pipe belongs to the collection around the folder `beside`, or else around the working folder, and
    stands in for the formula of the same code there. What a collection sets aside is reviewed only if a path leads there.
    What cannot be looked at becomes a refusal; nothing is raised.
    """
    named = request([path for path in paths if path != STDIN], most)
    asked, others, refusals = list(named.asked), list(named.others), list(named.refusals)
    piped = STDIN in paths and stdin is not None
    place = nearest(Path(os.path.abspath(beside or "."))) if piped else None
    if piped and beside and place is None:
        refusals.append(Refusal(beside, "belongs to no collection", f"Name a folder that holds {SETTINGS}."))
    if place and all(found.root != place for found in asked):
        others.extend(found for found in walk(place, most, nested=False).files if found.root == place)
    roots = sorted({found.root for found in (*asked, *others) if found.root} | ({place} if place else set()))
    ad_hoc = bool(named.loose) or (piped and place is None)
    folders = [*roots, *([_common(named.loose) or Path(os.path.abspath("."))] if ad_hoc else [])]
    base = folders[0] if len(folders) == 1 else _common(folders) or Path(os.path.abspath(os.sep))
    collections = []
    for root in roots:
        files, troubles = files_in(root)
        shown = _shown(root / SETTINGS, base).removesuffix(SETTINGS)
        collection, unused = collection_of(root, files, shown, troubles)
        collections.append(collection)
        refusals.extend(unused)
    if ad_hoc:
        collections.append(Collection(folders[-1], Settings(), ad_hoc=True))
    aside = {found.file for found in asked if _is_aside(found, named.given, collections)}
    left_out = [found for found in asked if found.file in aside]
    if left_out and len(left_out) == len(asked) and not piped:
        refusals.append(Refusal(paths[0], "holds only formulas set aside", "Name their own folder to review them."))
    numbers: dict[Path | None, int] = {root: number for number, root in enumerate(roots)}
    numbers[None] = len(roots)
    books = _books([found for found in asked if found.file not in aside], base, numbers)
    known = _books([*others, *left_out], base, numbers)
    if piped and stdin is not None:
        book = Book(STDIN_PATH, code_in(stdin), numbers[place], data=stdin, title=title_in(stdin))
        books, known = [book, *_without(book, books)], _without(book, known)
    shelf = stack(books, known, tuple(collections), today, tuple(refusals), base)
    return replace(shelf, left_out=tuple(sorted(_shown(found.file, base) for found in left_out)))


def _is_aside(found: Found, given: Iterable[Path], collections: Iterable[Collection]) -> bool:
    """Whether a file is in a folder that its collection sets aside, and no path given leads into that folder."""
    for collection in collections:
        for name in collection.settings.set_aside if collection.folder == found.root else ():
            folder = collection.folder / name
            if found.file.is_relative_to(folder):
                into = (path for path in given if path.is_relative_to(folder))
                return not any(found.file.is_relative_to(path) for path in into)
    return False


def _without(piped: Book, books: Iterable[Book]) -> list[Book]:
    """The books but for the file that a formula from a pipe stands in for."""
    return [one for one in books if not piped.code or (one.collection, one.code) != (piped.collection, piped.code)]


def shelf_of(
    texts: Mapping[str, str],
    today: date,
    settings: Settings | None = None,
    known: Iterable[str] = (),
    records: Mapping[str, bytes] | None = None,
) -> Shelf:
    """A shelf of one collection from texts by path, without any file; paths named in `known` are not reviewed.

    `records` are the collection's own files by name, in place of `settings`.
    """
    books = [_book(path, text.encode("utf-8"), 0) for path, text in texts.items()]
    aside = set(known)
    collection, refusals = collection_of(Path("collection"), records or {})
    collection = replace(collection, settings=settings) if settings else collection
    return stack(
        [book for book in books if book.path not in aside],
        [book for book in books if book.path in aside],
        (collection,),
        today,
        refusals,
    )


def shelf_from(
    files: Mapping[str, bytes],
    today: date,
    records: Mapping[str, bytes] | None = None,
    asked: Iterable[str] | None = None,
) -> Shelf:
    """A shelf from bytes by path, without any folder: the formulas of `files` judged by the rules in `records`.

    Paths are relative, with forward slashes. `records` holds the collections' own files (`collection.yaml`,
    `register.json`, `variances.yaml`) by path, for instance those of the base revision of a change; they are taken from
    `files` if it is None, and from `records` alone otherwise. Which collection a formula is in follows from where the
    `collection.yaml` of `records` lie. Only the formulas of `asked` are reviewed, the others are known; without it all are
    but those in folders set aside.
    """
    ruling = {path: data for path, data in (files if records is None else records).items() if _name(path) in RECORDS}
    roots = sorted({path.removesuffix(SETTINGS) for path in ruling if _name(path) == SETTINGS})
    formulas = [path for path in files if path.lower().endswith(SUFFIX)]
    inside = {path: max((root for root in roots if path.startswith(root)), key=len, default=None) for path in formulas}
    collections: list[Collection] = []
    refusals: list[Refusal] = []
    for root in roots:
        own = {_name(path): data for path, data in ruling.items() if path.removesuffix(_name(path)) == root}
        collection, unused = collection_of(Path(root), own, root)
        collections.append(collection)
        refusals.extend(unused)
    if None in inside.values():
        collections.append(Collection(Path(), Settings(), ad_hoc=True))
    numbers: dict[str | None, int] = {root: number for number, root in enumerate(roots)}
    numbers[None] = len(roots)
    aside = {
        path
        for path, root in inside.items()
        for folder in (collections[numbers[root]].settings.set_aside if root is not None else ())
        if path.startswith(f"{root}{folder}/")
    }
    wanted = set(formulas) - aside if asked is None else set(asked)
    books = [_book(path, files[path], numbers[inside[path]]) for path in formulas]
    shelf = stack(
        [book for book in books if book.path in wanted],
        [book for book in books if book.path not in wanted],
        tuple(collections),
        today,
        tuple(refusals),
    )
    return replace(shelf, left_out=tuple(sorted(aside - wanted)))


def _book(path: str, data: bytes, number: int) -> Book:
    return Book(path, code_in(data), number, data=data, title=title_in(data))


def _name(path: str) -> str:
    return path.rpartition("/")[2]


def stack(
    asked: Iterable[Book],
    known: Iterable[Book],
    collections: tuple[Collection, ...],
    today: date,
    refusals: tuple[Refusal, ...] = (),
    base: Path | None = None,
) -> Shelf:
    """Put books on a shelf: sorted, found by their codes, their file names looked at."""
    formulas = tuple(sorted(asked, key=lambda book: book.path))
    others = tuple(sorted(known, key=lambda book: book.path))
    books = sorted((*formulas, *others), key=lambda book: book.path)
    codes: dict[tuple[int, str], tuple[Book, ...]] = {}
    titles: dict[tuple[int, str], tuple[Book, ...]] = {}
    for book in books:
        if book.title:
            titles[book.collection, book.title] = (*titles.get((book.collection, book.title), ()), book)
        if book.code:
            key = (book.collection, book.code)
            codes[key] = (*codes.get(key, ()), book)
    names: dict[str, str] = {}
    for number, collection in enumerate(collections):
        inside = {}
        for book in books:
            if book.collection == number:
                book.own = collection.settings.own
                if book.path != STDIN_PATH:
                    inside[_shown(book.file or Path(book.path), collection.folder)] = book.path
        names.update((inside[path], reason) for path, reason in awkward(sorted(inside)).items())
    paths = {book.path: book for book in books}
    return Shelf(
        formulas,
        others,
        collections,
        today,
        refusals,
        base or Path(),
        _codes=codes,
        _names=names,
        _paths=paths,
        _titles={key: several for key, several in titles.items() if len(several) > 1},
    )


def _books(found: Iterable[Found], base: Path, numbers: Mapping[Path | None, int]) -> list[Book]:
    books, kept = [], 0
    for one in found:
        data, trouble = (None, one.trouble) if one.trouble else load(one.file)
        kept += len(data or b"")
        code = code_in(data) if data else ""
        book = Book(_shown(one.file, base), code, numbers[one.root], one.file, data if kept <= _KEEP else None, trouble)
        book.title = title_in(data) if data else ""
        books.append(book)
    return books


def _shown(file: Path, base: Path) -> str:
    whole, start = file.as_posix(), base.as_posix().rstrip("/") + "/"
    return whole.removeprefix(start)


def _common(folders: Sequence[Path]) -> Path | None:
    try:
        return Path(os.path.commonpath(folders)) if folders else None
    except ValueError:  # folders on two drives of a Windows computer
        return None
