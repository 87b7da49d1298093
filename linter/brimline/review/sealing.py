"""What has to be done so that the register holds a tested formula as it is, and the seal that would say so."""

from collections.abc import Mapping
from datetime import date

from msgspec import Struct

from brimline.document.meaning import Seal, evidence_rows, fingerprint
from brimline.document.values import Document
from brimline.findings import Level
from brimline.review.engine import review_one
from brimline.shelf import Book, Shelf

# Findings that sealing is there to settle; everything else that holds a formula back keeps it from being sealed.
_SETTLED = frozenset({"seal-missing", "seal-broken", "evidence-changed", "evidence-unsealed", "evidence-stale"})


class Sealing(Struct, frozen=True):
    """One formula and the register.

    `state` is `sealed` (nothing to do), `new`, `more` (rows of evidence were added), `changed` (it is not what was
    sealed, or evidence is gone), `refused` or `skipped` (not a tested formula). `says` tells which part; `seal` is the
    entry to write, None where there is none.
    """

    path: str
    code: str
    state: str
    says: str = ""
    seal: Seal | None = None


def sealing(shelf: Shelf, book: Book, today: date, anew: str = "") -> Sealing:
    """What to do about one formula; `anew` is the reason for sealing what has changed, empty if that is not wanted."""
    document = book.read.document
    collection = shelf.collection(book)
    if document is None or collection is None or collection.ad_hoc:
        why = "it cannot be read" if document is None else "it belongs to no collection"
        return Sealing(book.path, book.code, "refused", why)
    if document.standing != "tested":
        printed = fingerprint(document)
        says = f"it is {document.standing or 'of no standing'}, not tested; its fingerprint is {printed}"
        return Sealing(book.path, document.code, "skipped", says)
    seals: Mapping[str, Seal] = collection.register or {}
    old = seals.get(document.code)
    state, says = _state(document, old)
    if state == "sealed" or (state == "changed" and not anew):
        return Sealing(book.path, document.code, state, says)
    if held := _held_back(shelf, book):
        return Sealing(book.path, document.code, "refused", f"it is held back ({held}); brimline review says why")
    seal = _seal(document, old, today, anew)
    if old is not None and not any(
        of == seal.fingerprint and row.startswith(("tested ", "source ")) for row, of in seal.evidence
    ):
        says = "nothing vouches for it as it is now; add a `tested` or `source` row that does"
        return Sealing(book.path, document.code, "refused", says)
    return Sealing(book.path, document.code, state, says, seal)


def _state(document: Document, old: Seal | None) -> tuple[str, str]:
    """How a formula and its seal differ."""
    if old is None:
        return "new", ""
    if old.fingerprint != fingerprint(document):
        return "changed", f"it is not what was sealed on {old.sealed}"
    here, there = evidence_rows(document), [row for row, _ in old.evidence]
    if gone := [row for row in there if row not in here]:
        return "changed", f"evidence of the register is gone: {gone[0]}"
    added = [row for row in here if row not in there]
    return ("more", f"evidence added: {added[0]}") if added else ("sealed", "")


def _seal(document: Document, old: Seal | None, today: date, anew: str) -> Seal:
    """The entry of a formula as it is; rows that the register had keep the version they were made for."""
    printed = fingerprint(document)
    made_for = dict(old.evidence) if old else {}
    same = old is not None and old.fingerprint == printed
    return Seal(
        code=document.code,
        fingerprint=printed,
        sealed=old.sealed if old is not None and same else today.isoformat(),
        evidence=tuple((row, made_for.get(row, printed)) for row in evidence_rows(document)),
        reason=anew if old is not None and anew else old.reason if old is not None else "",
    )


def _held_back(shelf: Shelf, book: Book) -> str:
    """The gravest rule that holds a formula back, apart from what sealing settles; empty if none does."""
    for one in review_one(shelf, book).findings:
        if one.level <= Level.UNTESTED and one.varied is None and one.row not in _SETTLED:
            return f"{one.level.word} {one.rule}"
    return ""
