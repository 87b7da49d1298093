"""From the names of two revisions to the difference between them: where snapshots and the comparison meet."""

from collections.abc import Callable, Iterable
from datetime import date
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from brimline.gate.git import Repository, opened
from brimline.gate.request import gate
from brimline.gate.snapshot import read_commits, read_working_tree, scope
from brimline.gate.values import Gated, Snapshot
from brimline.review.fingerprint import fingerprint
from brimline.review.values import Reviewed

Progress = Callable[[int, int], None]


class Revisions(Struct, frozen=True):
    """What is compared.

    `policy` is the commit that the base names, whose records decide; `bases` are the commits that both sides have last
    in common, `starts` their snapshots; `head` the commit looked at, `end` its snapshot; with `working` the snapshot is
    that of the working tree on top of it. `folder` is the folder looked at from the top of the repository, with a slash
    at the end, and `name` what it is called. `top` is the uppermost folder, None in a bare repository.
    """

    policy: str
    rules: Snapshot
    bases: tuple[str, ...]
    starts: tuple[Snapshot, ...]
    head: str
    end: Snapshot
    working: bool
    folder: str
    name: str
    top: Path
    shallow: bool


def revisions(folder: Path, base: str, head: str = "") -> Revisions:
    """Both sides of a request, read from the repository that a folder lies in; without `head` the working tree.

    Raises Trouble where there is nothing to compare: no repository, no such commit, no history in common.
    """
    repository = opened(folder)
    policy = repository.commit(base)
    last = repository.commit(head or "HEAD")
    bases = repository.merge_bases(policy, last)
    place = scope(repository, policy)
    rules, end, *starts = read_commits(repository, [policy, last, *bases], place)
    if not head:
        end = read_working_tree(repository, place, end.submodules)
    shown = place.decode("utf-8", "surrogateescape")
    return Revisions(
        policy=policy,
        rules=rules,
        bases=bases,
        starts=tuple(starts),
        head=last,
        end=end,
        working=not head,
        folder=shown,
        name=_name(repository, shown),
        top=repository.top,
        shallow=repository.shallow,
    )


def gated(both: Revisions, today: date, progress: Progress | None = None, everything: bool = False) -> Gated:
    """The difference between both sides; with several commits in common, what is new against any of them."""
    several = [gate(start, both.end, both.rules, today, both.name, progress, everything) for start in both.starts]
    return replace(_joined(several), notes=tuple(_notes(both)))


def _notes(both: Revisions) -> Iterable[str]:
    if len(both.bases) > 1:
        yield (
            f"The two branches crossed: they have {len(both.bases)} last commits in common. What is new against any of "
            "them counts as new."
        )
    if both.shallow:
        yield "This clone is shallow. If more is called new than the request brings, fetch the whole history."


def _joined(several: list[Gated]) -> Gated:
    """One answer from several: the union of what is new."""
    first = several[0]
    if len(several) == 1:
        return first
    return replace(
        first,
        formulas=_union(one.formulas for one in several),
        files=_union(one.files for one in several),
        known=min(one.known for one in several),
        mended=min(one.mended for one in several),
        changed=_paths(one.changed for one in several),
        dependents=_paths(one.dependents for one in several),
        removed=_paths(one.removed for one in several),
        renamed=tuple(sorted({pair for one in several for pair in one.renamed})),
        aside=_paths(one.aside for one in several),
    )


def _union(several: Iterable[tuple[Reviewed, ...]]) -> tuple[Reviewed, ...]:
    found: dict[str, Reviewed] = {}
    for formulas in several:
        for one in formulas:
            old = found.setdefault(one.path, one)
            seen = {fingerprint(old.code, finding) for finding in old.findings}
            more = tuple(finding for finding in one.findings if fingerprint(one.code, finding) not in seen)
            found[one.path] = replace(old, findings=(*old.findings, *more), held_back=old.held_back or one.held_back)
    return tuple(one for _, one in sorted(found.items()))


def _paths(several: Iterable[tuple[str, ...]]) -> tuple[str, ...]:
    return tuple(sorted({path for paths in several for path in paths}))


def _name(repository: Repository, folder: str) -> str:
    """What the folder looked at is called: by its own name, or that of the repository's folder."""
    own = folder.rstrip("/").rpartition("/")[2]
    return own or repository.top.name
