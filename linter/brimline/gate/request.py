"""Two snapshots and the rules of the base in, the difference out: what a request changes, and what of it is new."""

from collections.abc import Callable, Iterable
from datetime import date

from msgspec import Struct
from msgspec.structs import replace

from brimline.findings import Finding
from brimline.gate.affected import affected, changed, renamed
from brimline.gate.difference import Known
from brimline.gate.own import about_files
from brimline.gate.shelves import ruling, shelf_for
from brimline.gate.tested import on_first_header, own_findings, touched
from brimline.gate.values import Gated, Snapshot
from brimline.review.engine import review_one
from brimline.review.holding import held_levels, holds
from brimline.review.values import Refusal, Reviewed
from brimline.shelf import Book, Shelf

Progress = Callable[[int, int], None]
_NAME_ANOTHER = "Name the folder of the collection."


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
    if not (base.formulas or head.formulas or head.odd or head.submodules):
        # A folder named by mistake must not look like a request that changes nothing.
        return Gated(refusals=(Refusal(folder, "holds no formula on either side", _NAME_ANOTHER),))
    was = shelf_for(base, rules, today)
    now = shelf_for(head, rules, today, was)
    paths = changed(base, head)
    changes = touched(was, now, paths)
    reached = affected(was, now, paths)
    run = _Run(
        was=was,
        now=now,
        looked_at=frozenset({*base.formulas, *head.formulas}) if everything else reached,
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
    """The reviews of both sides, that of the head beside the tested formulas as they were, too."""

    was: Shelf
    now: Shelf
    looked_at: frozenset[str]
    progress: Progress | None

    def compared(self) -> tuple[dict[str, Reviewed], int, int]:
        """The formulas of the head with their new findings only, by path; how many were known, how many are gone."""
        before = [book for book in self.was.formulas if book.path in self.looked_at]
        after = [book for book in self.now.formulas if book.path in self.looked_at]
        total = len(before) + len(after)
        old = []
        for done, book in enumerate(before, start=1):
            old.append((review_one(self.was, book), held_levels(self.was.settings(book))))
            self._tell(done, total)
        known = Known(old)
        out: dict[str, Reviewed] = {}
        for done, book in enumerate(after, start=len(before) + 1):
            levels = held_levels(self.now.settings(book))
            formula = review_one(self.now, book, base=self.was)
            new = known.new(formula, levels)
            held = any(holds(one, formula.standing, levels) for one in new)
            out[book.path] = replace(formula, findings=new, held_back=held)
            self._tell(done, total)
        return out, known.met, known.left

    def _tell(self, done: int, total: int) -> None:
        if self.progress is not None:
            self.progress(done, total)


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
    return Reviewed(path, "", "", "", "", "", "", any(one.level.holds_back for one in several), several)


def _books(shelf: Shelf) -> tuple[Book, ...]:
    return (*shelf.formulas, *shelf.known)


def _gravest(one: Finding) -> tuple[int, int, str, str]:
    return (int(one.level), one.at.span.start, one.rule, one.says)
