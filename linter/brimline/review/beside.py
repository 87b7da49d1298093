"""A formula weighed and, if it is an adaptation, its tested formula weighed beside it with the moves between them."""

from fractions import Fraction

from msgspec import Struct

from brimline.document.values import Jar
from brimline.review.engine import compare
from brimline.review.values import Comparison
from brimline.review.weighed import Weighing
from brimline.review.weighing import weighing
from brimline.shelf import Book, Shelf


class Beside(Struct, frozen=True):
    """One formula weighed; `tested` and `comparison` are there for an adaptation whose tested formula was found."""

    weighed: Weighing
    tested: Weighing | None
    comparison: Comparison | None


def beside(
    shelf: Shelf, book: Book, weighed: Weighing, place: tuple[Fraction | None, Fraction | None], jar: Jar | None
) -> Beside:
    """The tested formula weighed at the same place (altitude in feet, reading of boiling water in F) for the same jar."""
    document = book.read.document
    if document is None or document.standing != "adapted":
        return Beside(weighed, None, None)
    comparison = compare(shelf, book.path)
    if comparison is None:
        return Beside(weighed, None, None)
    (parent,) = shelf.by_code(comparison.against, book)
    return Beside(weighed, weighing(parent, place[0], jar, place[1]), comparison)
