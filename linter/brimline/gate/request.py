"""Two snapshots and the rules of the base in, the difference out: what a request changes, and what of it is new."""

from collections.abc import Callable, Iterable, Mapping
from datetime import date

from msgspec import Struct
from msgspec.structs import replace

from brimline.document.values import Document
from brimline.findings import Finding, Level
from brimline.gate.affected import affected, changed, renamed
from brimline.gate.difference import Known, holds
from brimline.gate.own import about_files
from brimline.gate.shelves import codes, ruling, shelf_for
from brimline.gate.tested import Key, Touched, as_tested, chain, on_first_header, own_findings, touched
from brimline.gate.values import Gated, Snapshot
from brimline.review.engine import review_one
from brimline.review.fingerprint import fingerprint
from brimline.review.values import Reviewed
from brimline.shelf import Book, Shelf

Progress = Callable[[int, int], None]
_AS_TESTED = "This is beside the tested formula as it stood before the request."
_ALWAYS = frozenset({Level.UNREADABLE, Level.UNSAFE, Level.UNTESTED})


def gate(
    base: Snapshot,
    head: Snapshot,
    policy: Snapshot,
    today: date,
    folder: str = "collection",
    progress: Progress | None = None,
    everything: bool = False,
) -> Gated:
    """Compare a request (`head`) with what it starts from (`base`), judged by the records of `policy`.

    Only changed formulas and those that depart from them are reviewed; with `everything` all are, and the answer is the
    same. Nothing but formulas is taken from `head`: its settings, register and variances are only compared.
    """
    rules = ruling(policy, folder)
    if rules.refusals:
        return Gated(refusals=rules.refusals)
    was, now = shelf_for(base, rules, today), shelf_for(head, rules, today)
    paths = changed(base, head)
    changes = touched(was, now, paths)
    reached = affected(was, now, paths)
    run = _Run(
        was=was,
        now=now,
        tested=as_tested(now, changes, rules, today) if changes else now,
        paths=paths,
        changes=changes,
        looked_at=frozenset({*base.formulas, *head.formulas}) if everything else reached,
        earlier=codes(was),
        progress=progress,
    )
    formulas, known, mended = run.compared()
    for path, own in own_findings(was, now, paths, changes).items():
        formulas[path] = _joined(formulas.get(path) or _gone(was, path), own, now)
    before, after = ([book for book in _books(shelf) if book.path in paths] for shelf in (was, now))
    moved = renamed(before, after)
    gone = {book.path for book in before} - {book.path for book in after}
    same = [pair for pair in moved if base.formulas[pair[0]] == head.formulas[pair[1]]]
    files = about_files(base, head, len(paths) - 2 * len(same))
    return Gated(
        formulas=tuple(one for _, one in sorted(formulas.items()) if one.findings),
        files=tuple(_file(path, several) for path, several in sorted(files.items())),
        known=known,
        mended=mended,
        changed=tuple(sorted(paths - gone - {new for _, new in same})),
        dependents=tuple(sorted((reached - paths) & {book.path for book in now.formulas})),
        removed=tuple(sorted(gone - {old for old, _ in moved})),
        renamed=moved,
        aside=tuple(sorted(paths & {*was.left_out, *now.left_out})),
        collections=now.names() or was.names(),
        notices=tuple(one.settings.notice for one in rules.collections if one.settings.notice),
    )


class _Run(Struct, frozen=True):
    """The reviews of both sides, and of the head beside the tested formulas as they were tested."""

    was: Shelf
    now: Shelf
    tested: Shelf
    paths: frozenset[str]
    changes: dict[Key, Touched]
    looked_at: frozenset[str]
    earlier: Mapping[Key, tuple[Book, ...]]
    progress: Progress | None

    def compared(self) -> tuple[dict[str, Reviewed], int, int]:
        """The formulas of the head with their new findings only, by path; how many were known, how many are gone."""
        before = [book for book in self.was.formulas if book.path in self.looked_at]
        after = [book for book in self.now.formulas if book.path in self.looked_at]
        total = len(before) + len(after)
        old = []
        for done, book in enumerate(before, start=1):
            old.append((review_one(self.was, book), _levels(self.was, book)))
            self._tell(done, total)
        known = Known(old)
        again = known.copy()
        out: dict[str, Reviewed] = {}
        for done, book in enumerate(after, start=len(before) + 1):
            out[book.path] = self._compared(book, known, again)
            self._tell(done, total)
        return out, known.met, known.left

    def _compared(self, book: Book, known: Known, again: Known) -> Reviewed:
        levels = _levels(self.now, book)
        formula = review_one(self.now, book, self._previous(book))
        new = known.new(formula, levels)
        if self._departs_from_changed(book):
            # Measured by the tested formula as the base has it, whatever the request makes of that.
            measured = again.new(review_one(self.tested, book), levels)
            seen = {fingerprint(formula.code, one) for one in new}
            more = [one for one in measured if fingerprint(formula.code, one) not in seen]
            new = (*new, *(replace(one, says=f"{one.says} {_AS_TESTED}") for one in more))
        held = any(holds(one, formula.standing, levels) for one in new)
        return replace(formula, findings=tuple(sorted(new, key=_gravest)), held_back=held)

    def _previous(self, book: Book) -> Document | None:
        """A formula as it stood in the base, if the request changes it."""
        found = self.earlier.get((book.collection, book.code), ()) if book.path in self.paths and book.code else ()
        return found[0].read.document if len(found) == 1 else None

    def _departs_from_changed(self, book: Book) -> bool:
        if not self.changes:
            return False
        return any(key in self.changes for key in (*chain(self.now, book), *chain(self.tested, book)))

    def _tell(self, done: int, total: int) -> None:
        if self.progress is not None:
            self.progress(done, total)


def _levels(shelf: Shelf, book: Book) -> frozenset[Level]:
    """The levels that the collection of a formula holds back."""
    return _ALWAYS | {Level[word.upper()] for word in shelf.settings(book).hold_back}


def _joined(formula: Reviewed, own: Iterable[Finding], now: Shelf) -> Reviewed:
    """A formula with what the gate itself found about it, which always holds back."""
    book = now.find(formula.path)
    placed = [on_first_header(book, one) if book is not None else one for one in own]
    findings = tuple(sorted((*formula.findings, *placed), key=_gravest))
    return replace(formula, findings=findings, held_back=True)


def _gone(was: Shelf, path: str) -> Reviewed:
    """A formula that is no longer there, as it was called."""
    book = was.find(path)
    document = book.read.document if book is not None else None
    if document is None:
        return Reviewed(path, "", "", "", "", "", "", True, ())
    return Reviewed(path, document.code, document.title, document.standing, document.adapts, "", "", True, ())


def _file(path: str, findings: Iterable[Finding]) -> Reviewed:
    """A file that is no formula, with what was found about it."""
    several = tuple(findings)
    return Reviewed(path, "", "", "", "", "", "", any(one.level in _ALWAYS for one in several), several)


def _books(shelf: Shelf) -> tuple[Book, ...]:
    return (*shelf.formulas, *shelf.known)


def _gravest(one: Finding) -> tuple[int, int, str, str]:
    return (int(one.level), one.at.span.start, one.rule, one.says)
