"""What has to be reviewed before a date: by the formula's own review date, or by the interval its collection sets."""

from calendar import monthrange
from datetime import date

from msgspec import Struct

from brimline.document.values import Document
from brimline.shelf import Book, Shelf

# A chain of adaptations is followed so far; a longer one is a fault that the review reports.
_GENERATIONS = 16


class Due(Struct, frozen=True):
    """One formula and the day by which it has to be reviewed.

    `by` is None where nothing says so. `state` is `overdue`, `due` or `no date`. `days` counts from today to that day,
    negative if it is past. `basis` says where the date comes from, `office` who looks after the collection, by role;
    `collection` is the collection's name.
    """

    path: str
    code: str
    title: str
    standing: str
    by: date | None
    state: str
    days: int | None
    basis: str
    office: str
    collection: str


def due(shelf: Shelf, before: date | None) -> tuple[Due, ...]:
    """Formulas to be reviewed before a day (all of them without one), overdue first, then those without any date.

    Retired formulas and drafts are left out: nobody hands them out.
    """
    found = [one for book in shelf.formulas if (one := _due(shelf, book)) is not None]
    kept = [one for one in found if one.by is None or before is None or one.by < before]
    return tuple(sorted(kept, key=lambda one: (one.by is None, one.by or date.max, one.code, one.path)))


def _due(shelf: Shelf, book: Book) -> Due | None:
    document, settings = book.read.document, shelf.settings(book)
    if document is not None and (document.standing in ("retired", "draft") or document.retired):
        return None
    by, basis = (None, "it cannot be read") if document is None else review_date(shelf, book, document)
    state = "no date" if by is None else "overdue" if by < shelf.today else "due"
    collection = shelf.collections[book.collection] if shelf.collections else None
    return Due(
        path=book.path,
        code=document.code if document else book.code,
        title=document.title if document else "",
        standing=document.standing if document else "",
        by=by,
        state=state,
        days=None if by is None else (by - shelf.today).days,
        basis=basis,
        office=settings.office,
        collection=settings.name or (collection.folder.name if collection and not collection.ad_hoc else ""),
    )


def review_date(shelf: Shelf, book: Book, document: Document) -> tuple[date | None, str]:
    """The day by which a formula has to be reviewed, and where that comes from.

    Its own review date; else so long after its latest dated evidence as the collection says; else the day of the
    formula it adapts.
    """
    of = ""
    for _ in range(_GENERATIONS):
        stated = [day for row in document.evidence if row.kind == "review-by" and (day := _day(row.date))]
        if stated:
            return min(stated), f"review-by{of}"
        months = shelf.settings(book).review_months
        seen = [day for row in document.evidence if row.kind != "review-by" and (day := _day(row.date))]
        if months and seen:
            return later(max(seen), months), f"{months} months after its evidence of {max(seen).isoformat()}{of}"
        parents = shelf.by_code(document.adapts, book) if document.adapts else ()
        parent = parents[0].read.document if len(parents) == 1 else None
        if parent is None:
            break
        book, document, of = parents[0], parent, f" of {parent.code}, which it adapts"
    return None, "no review date, and no dated evidence to count an interval from"


def later(day: date, months: int) -> date:
    """So many months after a day; the last of the month where the month is shorter. Never past the year 9999."""
    count = day.year * 12 + day.month - 1 + months
    year, month = min(count // 12, date.max.year), count % 12 + 1
    return date(year, month, min(day.day, monthrange(year, month)[1]))


def _day(text: str) -> date | None:
    try:
        return date.fromisoformat(text) if text else None
    except ValueError:
        return None
