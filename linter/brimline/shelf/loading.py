"""From the paths a person gives to a shelf: which files, which collections, what else stands in them."""

import os
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from glob import glob
from pathlib import Path

from brimline.shelf.books import Book, code_in, load
from brimline.shelf.filenames import awkward
from brimline.shelf.settings import load_settings
from brimline.shelf.values import Collection, Refusal, Settings, Shelf
from brimline.shelf.walk import MOST_FILES, SETTINGS, SUFFIX, Found, nearest, trouble_with, walk

STDIN = "-"
STDIN_PATH = "<stdin>"
# Formulas are small; up to this many bytes of them are kept from the first look so that no file is opened twice.
_KEEP = 64 * 1024 * 1024


@dataclass(frozen=True, slots=True)
class _Request:
    """What the paths came to: files to be reviewed, other files of their collections, folders for paths in none."""

    asked: tuple[Found, ...]
    others: tuple[Found, ...]
    loose: tuple[Path, ...]
    refusals: tuple[Refusal, ...]


def load_shelf(
    paths: Sequence[str],
    today: date,
    stdin: bytes | None = None,
    beside: str = "",
    most: int = MOST_FILES,
) -> Shelf:
    """The shelf for these paths: files, folders, collections, or `-` for the formula in `stdin`.

    A formula from a pipe belongs to the collection around the folder `beside`, or else around the working folder, and
    stands in for the formula of the same code there. What cannot be looked at becomes a refusal; nothing is raised.
    """
    request = _request([path for path in paths if path != STDIN], most)
    asked, others, refusals = list(request.asked), list(request.others), list(request.refusals)
    piped = STDIN in paths and stdin is not None
    place = nearest(Path(os.path.abspath(beside or "."))) if piped else None
    if piped and beside and place is None:
        refusals.append(Refusal(beside, "belongs to no collection", f"Name a folder that holds {SETTINGS}."))
    if place and all(found.root != place for found in asked):
        others.extend(found for found in walk(place, most, nested=False).files if found.root == place)
    roots = sorted({found.root for found in (*asked, *others) if found.root} | ({place} if place else set()))
    loose = _common(request.loose)
    ad_hoc = bool(request.loose) or (piped and place is None)
    folders = [*roots, *([loose or Path(os.path.abspath("."))] if ad_hoc else [])]
    base = folders[0] if len(folders) == 1 else _common(folders) or Path(os.path.abspath(os.sep))
    collections = []
    for root in roots:
        settings, refusal = load_settings(root / SETTINGS, _shown(root / SETTINGS, base))
        collections.append(Collection(root, settings))
        refusals.extend([refusal] if refusal else [])
    if ad_hoc:
        collections.append(Collection(folders[-1], Settings(), ad_hoc=True))
    numbers: dict[Path | None, int] = {root: number for number, root in enumerate(roots)}
    numbers[None] = len(roots)
    shelf_books = _books(asked, base, numbers)
    known = _books(others, base, numbers)
    if piped and stdin is not None:
        book = Book(STDIN_PATH, code_in(stdin), numbers[place], data=stdin)
        shelf_books.append(book)
        known = [one for one in known if not book.code or (one.collection, one.code) != (book.collection, book.code)]
    return stack(shelf_books, known, tuple(collections), today, tuple(refusals), base)


def shelf_of(
    texts: Mapping[str, str], today: date, settings: Settings | None = None, known: Iterable[str] = ()
) -> Shelf:
    """A shelf of one collection from texts by path, without any file; paths named in `known` are not reviewed."""
    books = [Book(path, code_in(data), data=data) for path, data in ((p, t.encode("utf-8")) for p, t in texts.items())]
    aside = set(known)
    collection = Collection(Path("collection"), settings or Settings())
    return stack(
        [book for book in books if book.path not in aside],
        [book for book in books if book.path in aside],
        (collection,),
        today,
    )


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
    for book in books:
        if book.code:
            key = (book.collection, book.code)
            codes[key] = (*codes.get(key, ()), book)
    names: dict[str, str] = {}
    for number, collection in enumerate(collections):
        inside = {
            _shown(book.file, collection.folder): book.path for book in books if book.file and book.collection == number
        }
        names.update((inside[path], reason) for path, reason in awkward(sorted(inside)).items())
    paths = {book.path: book for book in books}
    return Shelf(formulas, others, collections, today, refusals, base or Path(), codes, names, paths)


def _request(paths: Sequence[str], most: int) -> _Request:
    asked: dict[str, Found] = {}
    others: dict[str, Found] = {}
    whole: set[Path] = set()
    roots: dict[Path, Path | None] = {}
    loose: list[Path] = []
    refusals: list[Refusal] = []
    for given in _expanded(paths):
        path = Path(os.path.abspath(given))
        kind = trouble_with(path)
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
    return _Request(tuple(asked.values()), tuple(others.values()), tuple(loose), tuple(refusals))


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


def _books(found: Iterable[Found], base: Path, numbers: Mapping[Path | None, int]) -> list[Book]:
    books, kept = [], 0
    for one in found:
        data, trouble = (None, one.trouble) if one.trouble else load(one.file)
        kept += len(data or b"")
        code = code_in(data) if data else ""
        book = Book(_shown(one.file, base), code, numbers[one.root], one.file, data if kept <= _KEEP else None, trouble)
        books.append(book)
    return books


def _shown(file: Path, base: Path) -> str:
    whole, start = file.as_posix(), base.as_posix().rstrip("/") + "/"
    return whole.removeprefix(start)


def _same(path: Path) -> str:
    return os.path.normcase(path)


def _common(folders: Sequence[Path]) -> Path | None:
    try:
        return Path(os.path.commonpath(folders)) if folders else None
    except ValueError:  # folders on two drives of a Windows computer
        return None
