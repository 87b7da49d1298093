"""What the gate itself finds: changes to the rules, the evidence and the shape of a collection, whatever they say."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from brimline.findings import Finding, Harm, Level, Place, Source, Span
from brimline.gate.values import Leaf, Snapshot
from brimline.shelf.walk import SETTINGS


class Kind(NamedTuple):
    """One sort of finding: its rule, what must hold, why it matters, what to do, its level."""

    rule: str
    must: str
    why: str
    instead: str
    level: Level = Level.UNTESTED


# No publication says how a collection is to be looked after; these are ours, on the cautious side.
OURS = Source("judgement", "our judgement, on the cautious side", "", "judgement")
_APART = "send it by itself, so that someone who looks after the collection can decide on it"
SETTINGS_KIND = Kind(
    "gate/settings",
    "A request does not change the settings that it is judged by",
    "The settings say what is held back and what an ingredient is, so a request may not choose its own; those of the base "
    "were used.",
    _APART,
)
REGISTER_KIND = Kind(
    "gate/register",
    "A request does not change the register that its formulas are judged by",
    "The register says which tested formulas are to be trusted, so a request may not enter itself; that of the base was "
    "used.",
    _APART,
)
VARIANCES_KIND = Kind(
    "gate/variances",
    "A request does not give itself a variance",
    "A variance lets a finding stand, so somebody other than its author has to give it; those of the base were used.",
    _APART,
)
TESTED = Kind(
    "gate/tested",
    "A request leaves tested formulas as they were tested, and calls none tested that no seal stands for",
    "A tested formula is the evidence that adaptations are measured against, and it stands for what was tried and kept.",
    "leave the tested formula as it was tested, or send the change by itself with the new test, for someone of the "
    "collection to seal",
)
REMOVED = TESTED._replace(
    why="Readers hold copies, and adaptations depart from it; a formula that is gone cannot say why.",
    instead="keep the file and write `standing retired` with the date, the reason and a successor",
)
TOGETHER = Kind(
    "gate/together",
    "What is measured and what it is measured by are not changed in one request",
    "When the measure and what is measured change in one request, each makes the other pass.",
    "send two requests: first the one, and the other when that is decided",
)
LINK = Kind(
    "gate/link",
    "A collection holds files, not links",
    "A link can lead out of the collection, and is never followed, so nothing behind it was looked at.",
    "put the files themselves there",
    Level.FORM,
)
SUBMODULE = Kind(
    "gate/submodule",
    "A collection holds its formulas itself, not another repository",
    "What is in another repository was not looked at, and can change without a request here.",
    "put the formulas themselves there, or keep the other repository out of the collection",
)
PATH = Kind(
    "gate/path",
    "A file has a path that stays in its folder",
    "A file whose path leads elsewhere may be written where nobody expects it.",
    "give it a plain name in a folder of the collection",
    Level.UNREADABLE,
)
KINDS = (SETTINGS_KIND, REGISTER_KIND, VARIANCES_KIND, TESTED, TOGETHER, LINK, SUBMODULE, PATH)
_RECORDS = {SETTINGS: SETTINGS_KIND, "register.json": REGISTER_KIND, "variances.yaml": VARIANCES_KIND}


def finding(kind: Kind, path: str, says: str, code: str = "", field: str = "") -> Finding:
    """A finding of the gate about a file, placed on its first line."""
    return Finding(
        at=Place(path, Span(0, 0)),
        level=kind.level,
        rule=kind.rule,
        harm=Harm.RECORD,
        says=says,
        why=kind.why,
        instead=kind.instead,
        formula=code,
        line=1,
        column=1,
        field=field,
        sources=(OURS,),
    )


def about_files(base: Snapshot, head: Snapshot, formulas: int) -> dict[str, list[Finding]]:
    """What a request does to files that are no formulas, by path; `formulas` is how many formulas it changes too."""
    found: dict[str, list[Finding]] = {}
    for one in (*_records(base, head, formulas), *_shape(base, head)):
        found.setdefault(one.at.path, []).append(one)
    return found


def _records(base: Snapshot, head: Snapshot, formulas: int) -> Iterator[Finding]:
    for path in sorted({*base.records, *head.records}):
        was, now = base.records.get(path), head.records.get(path)
        if same_record(was, now):
            continue
        name = path.rpartition("/")[2]
        deed = "added" if was is None else "removed" if now is None else "changed"
        kind = _RECORDS.get(name, SETTINGS_KIND)
        yield finding(kind, path, f"The file {name} is {deed} by this request.")
        if name == SETTINGS and formulas:
            also = f"{formulas:,} formula{'s' if formulas > 1 else ''}"
            yield finding(TOGETHER, path, f"The file {name} and {also} are changed in one request.")


def same_record(one: Leaf | None, other: Leaf | None) -> bool:
    """Whether a record says the same in two snapshots; other line ends alone are no change."""
    if one is None or other is None or one.data is None or other.data is None:
        return one == other
    return one.data.replace(b"\r\n", b"\n") == other.data.replace(b"\r\n", b"\n")


def _shape(base: Snapshot, head: Snapshot) -> Iterable[Finding]:
    """Links, other repositories and paths that no file may have, as far as they are new or lead elsewhere."""
    for path, target in sorted(head.links.items()):
        if base.links.get(path) != target and not path.lower().endswith(".formula"):
            yield finding(LINK, path, f"The request makes this a link to {target or 'nothing'}.")
    for path, revision in sorted(head.submodules.items()):
        if base.submodules.get(path) != revision:
            yield finding(SUBMODULE, path, f"The request puts another repository here ({revision}).")
    for path, reason in sorted(head.odd.items()):
        if path not in base.odd:
            yield finding(PATH, path, f"The path {reason}, and the file was not looked at.")
