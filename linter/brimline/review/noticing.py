"""What changed between two versions of a formula that matters to somebody who holds the old one, the gravest first."""

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from brimline.document import Read
from brimline.document.values import Change, Document
from brimline.findings import Finding, Level
from brimline.moves.case import against, alone
from brimline.moves.times import gaps
from brimline.moves.values import Case, Move
from brimline.review.engine import review_one
from brimline.review.stamp import Stamp
from brimline.review.values import Reviewed
from brimline.rules import registered
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

    `findings` are what the review says of the new version beside the old one, `of_old` what it says of the old version
    beside the new one: that is what somebody needs to know who made jars by the old sheet.
    """

    subject: str
    about: str
    was: str
    now: str
    way: str
    findings: tuple[Finding, ...] = ()
    of_old: tuple[Finding, ...] = ()

    @property
    def level(self) -> Level | None:
        """The level of the gravest finding either way, None if the review finds nothing."""
        return min((one.level for one in (*self.findings, *self.of_old)), default=None)


class Notice(Struct, frozen=True):
    """The changes from one version of a formula to the next, in the order of harm; `reviewed` is the new one's review.

    `also` are findings about the new version beside the old one that belong to no single change, `also_old` those about
    the old one beside the new.
    """

    old_path: str
    new_path: str
    code: str
    title: str
    old_title: str
    changes: tuple[Noticed, ...]
    also: tuple[Finding, ...]
    also_old: tuple[Finding, ...]
    reviewed: Reviewed


class NoticeError(ValueError):
    """The two cannot be compared; the message says why."""


class _Beside(Struct, frozen=True):
    """One version judged beside the other: its moves, the findings of each, the findings of none, the review."""

    moves: tuple[Move, ...]
    case: Case
    found: dict[tuple[str, ...], tuple[Finding, ...]]
    rest: tuple[Finding, ...]
    reviewed: Reviewed


def notice(old: Book, new: Book, settings: Settings, today: str) -> Notice:
    """The changes from `old` to `new`, each version judged as an adaptation of the other. Raises NoticeError."""
    was, now = _document(old), _document(new)
    forth, back = _beside(old, new, settings, today), _beside(new, old, settings, today)
    changes = [_noticed(moves, was, now, forth, back) for moves in _together(forth.moves)]
    changes.extend(_evidence(was, now, new, today))
    return Notice(
        old_path=old.path,
        new_path=new.path,
        code=now.code or was.code,
        title=now.title,
        old_title=was.title if now.code == was.code else f"{was.code} {was.title}".strip(),
        changes=tuple(sorted(changes, key=_harm)),
        also=tuple(one for one in forth.rest if one.level.holds_back),
        also_old=tuple(one for one in back.rest if one.level.holds_back),
        reviewed=forth.reviewed,
    )


def _together(moves: tuple[Move, ...]) -> list[tuple[Move, ...]]:
    """The moves, the times of all jars taken as one."""
    times = tuple(move for move in moves if move.subject == "process")
    return [*((move,) for move in moves if move.subject != "process"), *([times] if times else [])]


def _noticed(moves: tuple[Move, ...], was: Document, now: Document, forth: _Beside, back: _Beside) -> Noticed:
    first = moves[0]
    return Noticed(
        subject=_ROLES.get(first.subject, "other") or first.subject,
        about=first.kind,
        was="; ".join(dict.fromkeys(move.was for move in moves)),
        now="; ".join(dict.fromkeys(move.now for move in moves)),
        way=_way(first, was, now, forth.case),
        findings=_about(moves, forth),
        of_old=_about(moves, back),
    )


def _about(moves: tuple[Move, ...], side: _Beside) -> tuple[Finding, ...]:
    """What a review says about some moves, in whichever direction they were listed, each rule's word once."""
    found = [one for move in moves for one in side.found.get(_key(move), ())]
    return tuple({(one.rule, one.row, one.level): one for one in reversed(found)}.values())[::-1]


def _key(move: Move) -> tuple[str, ...]:
    return (move.subject, move.kind, *sorted((move.was, move.now)))


def _beside(first: Book, second: Book, settings: Settings, today: str) -> _Beside:
    """The second version as an adaptation of the first, owning up to everything."""
    was, now = _document(first), _document(second)
    code = was.code or now.code or "OLD-1"
    before = replace(was, code=code, standing="tested", adapts="", retired="")
    after = replace(now, code="NEW-1", standing="adapted", adapts=code, retired="", changes=_all_owned(now))
    reviewed = _reviewed(first, second, before, after, settings, today)
    cases, _ = against(before, after, settings.altitude_ft, today)
    moves = tuple(dict.fromkeys(move for case in cases for move in case.moves))
    left = [one for one in reviewed.findings if one.row != "undeclared"]
    found: dict[tuple[str, ...], tuple[Finding, ...]] = {}
    for move in moves:
        here = [one for one in left if move.at.start <= one.at.span.start and one.at.span.end <= move.at.end]
        found[_key(move)] = tuple(here)
    used = {id(one) for several in found.values() for one in several}
    return _Beside(moves, cases[0], found, tuple(one for one in left if id(one) not in used), reviewed)


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

    first = Book(old.path, before.code, data=b"", _read=Read(before, old.read.text))
    second = Book(f"{new.path}, beside it", after.code, data=b"", _read=Read(after, new.read.text))
    shelf = stack([second], [first], (Collection(Path(), settings, ad_hoc=True),), date.fromisoformat(today))
    return review_one(shelf, second)


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


def _evidence(was: Document, now: Document, new: Book, today: str) -> Iterator[Noticed]:
    """Rows of evidence that came or went, and what the review says when evidence is raised without a new test."""
    old, fresh = ({" ".join(row.text.split()) for row in document.evidence} for document in (was, now))
    gone, come = sorted(old - fresh), sorted(fresh - old)
    if not gone and not come:
        return
    rule = next(one for one in registered() if "source-gone" in one.decides)
    case = replace(alone(now, None, today), previous=was)
    stamp = Stamp(new.path, now, new.read.text)
    found = [stamp.finding(rule, flag, case) for flag in rule.check(case)]
    yield Noticed(
        subject="evidence",
        about="evidence",
        was="; ".join(gone) or "nothing more",
        now="; ".join(come) or "nothing more",
        way="changed",
        findings=tuple(one for one in found if one is not None),
    )


def _harm(one: Noticed) -> tuple[int, int, str]:
    grave = int(one.level) if one.level is not None else int(max(Level)) + 1
    return grave, ORDER.index(one.subject), one.about
