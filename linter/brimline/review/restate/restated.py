"""A formula of a shelf restated and judged by the same review as any adaptation."""

from fractions import Fraction

from msgspec.structs import replace

from brimline.document import units as unit_table
from brimline.document.printer import UnprintableError, printed
from brimline.document.values import Amount, Document, Line
from brimline.findings import Level
from brimline.review.engine import review_one
from brimline.review.restate.amounts import Order, exact, restated
from brimline.review.restate.formula import made
from brimline.review.restate.values import Restated, RestatedJar, RestatedLine, RestateError
from brimline.review.restate.ways import share, way
from brimline.review.rows import row_of
from brimline.review.values import Reviewed
from brimline.shelf import Book, Shelf

UNITS = ("both", "us", "metric")
LEAST, MOST = Fraction(1, 20), Fraction(20)
# A batch up to a tenth larger is the tested one (row batch-larger); half of it is common practice (row batch-smaller).
_LARGER, _SMALLER = Fraction(11, 10), Fraction(1, 2)


def restate(shelf: Shelf, book: Book, by: Fraction, units: str) -> Restated:
    """One formula at a share of its batch, in one system of units or both. Raises RestateError."""
    source = _source(shelf, book, by)
    document, left = made(source, by, units)
    text, unwritten = "", ""
    try:
        text = printed(document)
    except UnprintableError as fault:
        unwritten = str(fault)
    return Restated(
        path=book.path,
        code=source.code,
        title=source.title,
        standing=source.standing,
        by=by,
        units=units,
        source=source,
        document=document,
        lines=tuple(_lines(source, by)),
        jars=tuple(RestatedJar(jar, (unit_table.metric_jar(jar.name) or ("",))[0]) for jar in source.pack.jars),
        left=tuple(dict.fromkeys(left)),
        text=text,
        unwritten=unwritten,
        reviewed=_reviewed(shelf, book, text) if text else None,
        caution=row_of("batch-larger") if by > _LARGER else row_of("batch-smaller") if by < _SMALLER else None,
    )


def _source(shelf: Shelf, book: Book, by: Fraction) -> Document:
    document = book.read.document
    if document is None or any(one.level is Level.UNREADABLE for one in book.read.findings):
        raise RestateError(f"{book.path} cannot be read whole, so it is not restated; brimline review shows where")
    if not LEAST <= by <= MOST:
        raise RestateError("a formula is restated from a twentieth to twenty times its batch")
    if not document.code:
        raise RestateError(f"{book.path} has no code, so nothing can depart from it; give it one")
    if document.standing == "retired":
        after = f"; {document.successor} took its place" if document.successor else ""
        raise RestateError(f"{document.code} is retired ({document.retired}) and is not handed out any more{after}")
    if len(shelf.by_code(document.code, book)) > 1:
        raise RestateError(f"two formulas have the code {document.code}; brimline review shows which")
    return document


def _reviewed(shelf: Shelf, book: Book, text: str) -> Reviewed:
    """The review of the restated text, as a formula of the same collection that departs from the one it was made of."""
    return review_one(shelf, Book("restated", "", book.collection, data=text.encode("utf-8")))


def _lines(source: Document, by: Fraction) -> list[RestatedLine]:
    out = []
    for line in source.take:
        out.append(_line(line, source, by, " ".join(line.flags), 0))
        out.extend(_line(sub, source, by, "from", 1) for sub in line.made_of)
        out.extend(_line(sub, source, by, "or", 1) for sub in line.other)
    return out


def _line(line: Line, source: Document, by: Fraction, lead: str, depth: int) -> RestatedLine:
    side, by = way(line, source), share(line, source, by)
    amount = line.amount
    us, metric = (None if amount is None else restated(amount, Order(by, units, side)) for units in ("us", "metric"))
    per_jar = amount is not None and amount.per is not None and amount.per.of == "jar"
    return RestatedLine(
        lead=lead,
        item=", ".join([line.item, *line.forms]),
        written=amount,
        us=us,
        metric=metric,
        way=side,
        exact=""
        if amount is None or not amount.parts
        else f"{exact(amount, Fraction(1) if amount.per else by)} {amount.parts[0].unit}",
        kept=_kept(line, us, metric),
        depth=depth,
        doses=tuple(_doses(amount, source, side)) if per_jar and amount is not None else (),
    )


def _kept(line: Line, us: Amount | None, metric: Amount | None) -> str:
    """Why an amount stays as written; empty if it does not."""
    amount = line.amount
    if amount is None:
        return "part of the mix above"
    if amount.some:
        return "left to the cook in the formula, and left so here"
    if amount.per is not None and amount.per.of != "jar":
        return "a ratio: it holds at any batch, in any measure of the same kind"
    return (
        "no measure is near enough, so it stands as written for the whole batch"
        if us is None and metric is None
        else ""
    )


def _doses(amount: Amount, source: Document, side: str) -> list[tuple[str, Amount | None, Amount | None]]:
    """The dose of every jar of the formula, by its volume, from a dose stated for one of them."""
    stated = amount.per
    known = unit_table.jar_named(stated.unit) if stated and stated.number == 1 else None
    if stated is None or known is None:
        return []
    out = []
    for jar in source.pack.jars:
        if not jar.volume_ml:
            continue
        share = jar.volume_ml / known.ml
        plain = replace(amount, per=None)
        large = unit_table.metric_jar(jar.name)
        more = max(large[1] / jar.volume_ml, Fraction(1)) if large else Fraction(1)
        us = restated(plain, Order(share, "us", side))
        out.append((jar.name, us, restated(plain, Order(share * more, "metric", side))))
    return out
