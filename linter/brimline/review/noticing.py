"""What changed between two versions of a formula that matters to somebody who holds the old one, the gravest first."""

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from brimline.document import Read
from brimline.document.values import Change, Document
from brimline.findings import Finding, Level
from brimline.moves.case import against
from brimline.moves.times import gaps
from brimline.moves.values import Case, Move
from brimline.review.engine import review_one
from brimline.review.values import Reviewed
from brimline.rules.evidence import evidence_is_not_raised
from brimline.shelf import Book, Collection, Settings
from brimline.shelf.loading import stack

# What can hurt most comes first, among changes that the review finds equally grave (edits.yaml, by harm).
ORDER = (
    "acid",
    "low-acid",
    "process",
    "jar",
    "fill",
    "prepare",
    "lid",
    "headspace",
    "sugar",
    "set",
    "finish",
    "keep",
    "other",
    "evidence",
)
_ROLES = {
    **dict.fromkeys(("vegetable", "meat", "egg", "dairy", "fat", "nut", "dried-fruit", "herb", "liquid"), "low-acid"),
    "thickener": "low-acid",
    "spirit": "low-acid",
    "acid": "acid",
    "sweetener": "sugar",
    **dict.fromkeys(("pectin", "gelling", "firming", "batch", "fruit", "juice", "peel"), "set"),
    **dict.fromkeys(("process", "jar", "fill", "prepare", "lid", "headspace", "finish", "keep"), ""),
}


class Noticed(Struct, frozen=True):
    """One change: its subject (a word of ORDER), what it is about, before and after, which way it went.

    `level` is that of the gravest finding of the review about it, None if the review finds nothing; `findings` are
    what the review says of it.
    """

    subject: str
    about: str
    was: str
    now: str
    way: str
    level: Level | None
    findings: tuple[Finding, ...] = ()


class Notice(Struct, frozen=True):
    """The changes from one version of a formula to the next, in the order of harm; `reviewed` is the new one's review.

    `also` are findings about the new version beside the old one that belong to no single change.
    """

    old_path: str
    new_path: str
    code: str
    title: str
    old_title: str
    changes: tuple[Noticed, ...]
    also: tuple[Finding, ...]
    reviewed: Reviewed


class NoticeError(ValueError):
    """The two cannot be compared; the message says why."""


def notice(old: Book, new: Book, settings: Settings, today: str) -> Notice:
    """The changes from `old` to `new`, judged as an adaptation of the old version would be. Raises NoticeError."""
    was, now = _document(old), _document(new)
    before = replace(was, code="OLD-1", standing="tested", adapts="", retired="")
    after = replace(now, code="NEW-1", standing="adapted", adapts="OLD-1", retired="", changes=_all_owned(now))
    reviewed = _reviewed(old, new, before, after, settings, today)
    cases, _ = against(before, after, settings.altitude_ft, today)
    moves = list(dict.fromkeys(move for case in cases for move in case.moves))
    left = {id(one): one for one in reviewed.findings if one.row != "undeclared"}
    changes = []
    for move in moves:
        here = [one for one in left.values() if move.at.start <= one.at.span.start and one.at.span.end <= move.at.end]
        changes.append(_noticed(move, here, _way(move, before, after, cases[0])))
    used = {id(one) for change in changes for one in change.findings}
    changes.extend(_evidence(was, now, today))
    return Notice(
        old_path=old.path,
        new_path=new.path,
        code=now.code or was.code,
        title=now.title,
        old_title=was.title,
        changes=tuple(sorted(changes, key=_harm)),
        also=tuple(one for key, one in left.items() if key not in used and one.level.holds_back),
        reviewed=reviewed,
    )


def _document(book: Book) -> Document:
    document = book.read.document
    if document is None or any(one.level is Level.UNREADABLE for one in book.read.findings):
        raise NoticeError(
            f"{book.path} cannot be read whole, so there is nothing to compare; brimline review shows where"
        )
    return document


def _all_owned(now: Document) -> tuple[Change, ...]:
    """Every subject owned up to: a new version is not an adaptation that hides something."""
    at = now.headers.get("formula")
    subjects = {line.role for line in now.take} | {key for key in _ROLES if not _ROLES[key]} | {"batch"}
    return tuple(Change(subject, "new version", at) for subject in sorted(subjects)) if at else ()


def _reviewed(old: Book, new: Book, before: Document, after: Document, settings: Settings, today: str) -> Reviewed:
    from datetime import date
    from pathlib import Path

    first = Book("old version", "OLD-1", data=b"", _read=Read(before, old.read.text))
    second = Book("new version", "NEW-1", data=b"", _read=Read(after, new.read.text))
    shelf = stack([second], [first], (Collection(Path(), settings, ad_hoc=True),), date.fromisoformat(today))
    return review_one(shelf, second)


def _noticed(move: Move, here: list[Finding], way: str) -> Noticed:
    subject = _ROLES.get(move.subject, "other") or move.subject
    return Noticed(
        subject=subject,
        about=move.kind if move.kind != move.subject else move.subject,
        was=move.was,
        now=move.now,
        way=way,
        level=min((one.level for one in here), default=None),
        findings=tuple(here),
    )


def _way(move: Move, was: Document, now: Document, case: Case) -> str:
    """Which way it went: added, left out, less, more, shorter, longer, larger, smaller, else changed."""
    if move.change.startswith(("added", "left out")):
        return move.change
    if move.subject == "process":
        return _times(was, now)
    if move.subject == "jar":
        return _larger([jar.volume_ml for jar in was.pack.jars], [jar.volume_ml for jar in now.pack.jars], "jar")
    if move.subject == "headspace":
        return _larger([row.inches for row in was.pack.headspace], [row.inches for row in now.pack.headspace], "space")
    if move.kind.endswith(" per jar"):
        return _dose(move, case)
    if move.ratio is not None and move.subject != "batch":
        if move.ratio.high < 1:
            return f"less ({move.change})"
        if move.ratio.low > 1:
            return f"more ({move.change})"
    return "changed"


def _times(was: Document, now: Document) -> str:
    """Whether some jar somewhere gets less time or pressure, or more."""
    shorter, longer = (any(True for _ in gaps(one, other)) for one, other in ((was, now), (now, was)))
    if shorter and longer:
        return "less in some places, more in others"
    return "less" if shorter else "more" if longer else "changed"


def _larger(was: list[Fraction], now: list[Fraction], what: str) -> str:
    """Which way the largest of some sizes went."""
    if not was or not now or max(was) == max(now):
        return "changed"
    more = max(now) > max(was)
    return {"jar": ("a smaller jar", "a larger jar"), "space": ("less", "more")}[what][more]


def _dose(move: Move, case: Case) -> str:
    """Whether a jar gets less or more of something, by its volume."""
    name = move.kind.removesuffix(" per jar")
    both = (case.compared.tested, case.compared.adapted)
    shares = [
        [
            one.quantity.dims[0][1] / one.per_jar[1]
            for one in batch.per_jar
            if one.name == name and one.per_jar and one.quantity.dims
        ]
        for batch in both
    ]
    if not all(shares) or min(shares[0]) == min(shares[1]):
        return "changed"
    return "less for each jar" if min(shares[1]) < min(shares[0]) else "more for each jar"


def _evidence(was: Document, now: Document, today: str) -> Iterator[Noticed]:
    """Rows of evidence that came or went, and what the review says when evidence is raised without a new test."""
    old, new = ({row.text for row in document.evidence} for document in (was, now))
    gone, come = sorted(old - new), sorted(new - old)
    if not gone and not come:
        return
    flags = list(evidence_is_not_raised(_alone(was, now, today)))
    yield Noticed(
        subject="evidence",
        about="evidence",
        was="; ".join(gone) or "nothing more",
        now="; ".join(come) or "nothing more",
        way="; ".join(flag.says for flag in flags) or "changed",
        level=Level.UNTESTED if flags else None,
    )


def _alone(was: Document, now: Document, today: str) -> Case:
    from brimline.moves.case import alone

    return replace(alone(now, None, today), previous=was)


def _harm(one: Noticed) -> tuple[int, int, str]:
    grave = int(one.level) if one.level is not None else int(max(Level)) + 1
    return grave, ORDER.index(one.subject), one.about
