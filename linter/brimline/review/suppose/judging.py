"""A formula with edits, as an adaptation in memory: printed, read again, and reviewed beside the tested formula by the rules."""

from collections.abc import Callable, Sequence
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from brimline.document.printer import UnprintableError, printed
from brimline.document.values import Change, Document
from brimline.findings import Span
from brimline.review.engine import review_one
from brimline.review.suppose import edit_heat, edit_jars, edit_pot, edit_put, edit_sweet, edit_take
from brimline.review.suppose.decide import Decided, decided, touched
from brimline.review.suppose.values import Asked, AskError, Made
from brimline.review.values import Reviewed
from brimline.shelf import Book, Shelf
from brimline.shelf.loading import stack

Edit = Callable[[Document, Asked], Made]
EDITS: dict[str, Edit] = {
    "batch": edit_pot.batch,
    "amount": edit_put.much,
    "part": edit_put.some,
    "out": edit_take.out,
    "fresh": edit_take.fresh,
    "frozen": edit_take.frozen,
    "sweeten": edit_sweet.sweeten,
    "swap": edit_put.swap,
    "add": edit_put.add,
    "thicken": edit_put.thicken,
    "name": edit_put.name,
    "pectin": edit_pot.pectin,
    "jar": edit_jars.jar,
    "prepare": edit_heat.prepare,
    "fill": edit_heat.fill,
    "headspace": edit_heat.headspace,
    "lid": edit_heat.lid,
    "time": edit_heat.time,
    "method": edit_heat.method,
    "altitude": edit_heat.altitude,
}
PATH = "supposed.formula"


class Judged(Struct, frozen=True):
    """A formula with some edits and its review beside that of the formula as it stands (`base`).

    The text that was reviewed is empty where nothing was edited.
    """

    document: Document
    text: str
    reviewed: Reviewed
    base: Reviewed
    decided: Decided


def made_of(document: Document, edits: Sequence[Asked]) -> tuple[Document, tuple[Made, ...]]:
    """The formula with all edits, the batch first, and what each edit made, in the order they were asked."""
    made: dict[int, Made] = {}
    for number, one in sorted(enumerate(edits), key=lambda pair: (pair[1].kind != "batch", pair[0])):
        made[number] = EDITS[one.kind](document, one)
        document = made[number].document
    return document, tuple(made[number] for number in range(len(edits)))


def adapted(tested: Document, edited: Document, made: Sequence[Made]) -> Document:
    """The edited formula as an adaptation of the tested one that owns up to all it changes."""
    subjects = dict.fromkeys(subject for one in made for subject in one.subjects)
    changes = tuple(Change(subject, "as the caller asks", Span(0, 0)) for subject in subjects)
    return replace(
        edited,
        path=PATH,
        code=_code(tested.code),
        title=f"{tested.title}, as a caller asks",
        standing="adapted",
        adapts=tested.code,
        retired="",
        successor="",
        changes=changes,
        evidence=(),
        comments=(),
    )


def _code(code: str) -> str:
    groups = code.split("-")
    return "-".join([*groups[:4], "ASKED"])


def judged(shelf: Shelf, book: Book, tested: Document, edits: Sequence[Asked]) -> tuple[Judged, tuple[Made, ...]]:
    """The formula with some edits, through the whole pipeline. Raises AskError for an edit that cannot be written."""
    edited, made = made_of(tested, edits)
    at = [one.high for one in edits if one.kind == "altitude" and one.high is not None]
    around = _at(shelf, book, max(at)) if at else shelf
    base = review_one(around, book)
    if not any(one.phrase and not one.absent for one in made) or edited == tested:
        return Judged(tested, "", base, base, decided(base, base)), made
    document = adapted(tested, edited, made)
    try:
        text = printed(document)
    except UnprintableError as fault:
        raise AskError(f"that change cannot be written as a formula: {fault}") from fault
    supposed = Book(PATH, document.code, book.collection, data=text.encode("utf-8"))
    known = [one for one in (*shelf.formulas, *shelf.known) if one.path != PATH]
    one_more = stack([supposed], known, around.collections, shelf.today, base=shelf.base)
    reviewed = review_one(one_more, supposed)
    again = supposed.read.document or document
    subjects = [subject for one in made for subject in one.subjects]
    return Judged(again, text, reviewed, base, decided(reviewed, base, touched(tested, again, subjects))), made


def _at(shelf: Shelf, book: Book, feet: Fraction) -> Shelf:
    """The shelf as if its collection lay at an altitude."""
    collections = list(shelf.collections)
    if book.collection < len(collections):
        here = collections[book.collection]
        collections[book.collection] = replace(here, settings=replace(here.settings, altitude_ft=feet))
    return replace(shelf, collections=tuple(collections))
