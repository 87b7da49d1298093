"""One formula by its code or its path: what people have at hand is the code printed on a sheet."""

import os
import re
from collections.abc import Iterable
from datetime import date
from pathlib import Path

from brimline._patterns import pattern
from brimline.shelf.books import Book
from brimline.shelf.loading import STDIN, load_shelf
from brimline.shelf.values import Refusal, Shelf
from brimline.shelf.walk import nearest

_CODE = pattern(r"[A-Z0-9]{1,12}(?:-[A-Z0-9]{1,12}){1,4}", re.ASCII)


class NotNamed(Exception):
    """There is not exactly one formula of this name; the message says what there is and what to write.

    `refusals` are what could not be looked at, if that is the reason.
    """

    def __init__(self, says: str, refusals: tuple[Refusal, ...] = ()) -> None:
        """Say why; `refusals` are printed by the report that prints all of them."""
        super().__init__(says)
        self.refusals = refusals


def is_code(word: str) -> bool:
    """Whether a word is written as a code, in small letters too, and is no path."""
    return not os.path.lexists(word) and _CODE.fullmatch(word.upper()) is not None


def named(word: str, today: date, stdin: bytes | None = None, beside: str = "") -> tuple[Shelf, Book]:
    """The formula of a path or a code, with its shelf. Raises NotNamed."""
    if word != STDIN and is_code(word):
        return by_code(word.upper(), today)
    if word != STDIN and not os.path.lexists(word):
        raise NotNamed(f"{word} is neither the code of a formula nor a file\nWrite a code such as KV-101, or a path.")
    shelf = load_shelf((word,), today, stdin=stdin, beside=beside)
    if shelf.refusals:
        raise NotNamed(f"{word} cannot be looked at", shelf.refusals)
    if len(shelf.formulas) != 1:
        raise NotNamed(f"one formula is needed, but there are {len(shelf.formulas):,} under {word}")
    return shelf, shelf.formulas[0]


def by_code(code: str, today: date) -> tuple[Shelf, Book]:
    """The formula of a code: in the collection around the working folder, in `formulas`, in the formulas shipped.

    Raises NotNamed, with the nearest codes.
    """
    near: list[str] = []
    for folder in places():
        shelf = load_shelf((folder,), today)
        books = (*shelf.formulas, *shelf.known)
        several = [book for book in books if book.code == code]
        if len(several) > 1:
            paths = ", ".join(book.path for book in several)
            raise NotNamed(
                f"{len(several)} formulas have the code {code}: {paths}\nName the path of the one that is meant."
            )
        if several:
            return shelf.only((several[0],)), several[0]
        near.extend(book.code for book in books if book.code)
    raise NotNamed(f"there is no formula {code}{_nearest(code, near)}\nName its code, or the path of its file.")


def places() -> list[str]:
    """Where a code is looked up, in order: the collection at hand, then the formulas shipped."""
    from brimline._data import folder

    shipped = folder("formulas")
    return list(dict.fromkeys([*at_hand(), *([str(shipped.resolve())] if isinstance(shipped, Path) else [])]))


def at_hand() -> list[str]:
    """The collection around the working folder, and the folder `formulas` in it; empty if there is neither.

    What is said of a whole collection is never said of the formulas shipped because none was named.
    """
    around, beside = nearest(Path.cwd()), Path("formulas")
    found = [around, beside if beside.is_dir() else None]
    return [str(one) for one in dict.fromkeys(one.resolve() for one in found if one is not None)]


def _nearest(code: str, codes: Iterable[str]) -> str:
    from difflib import get_close_matches

    close = get_close_matches(code, list(codes), 3, 0.6)
    return f"; the nearest are {', '.join(close)}" if close else ""
