"""Cases: an edited and disguised formula as text, the formulas around it, and what is expected of it."""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from pathlib import Path
from random import Random

from msgspec import Struct
from msgspec.structs import replace
from ruamel.yaml import YAML

from brimline.document.neat import neaten
from edit_bench.disguises import CHAINS, chosen
from edit_bench.judge import terms
from edit_bench.kinds import KINDS, Edit, Kind, Tested
from edit_bench.rows import decided
from edit_bench.sheet import Sheet, sheet_of, write

BEFORE = "before.formula"
POOL = ("formulas/tested", "tests/published", "tests/cases/tested")
SUBJECTS = [
    "fruit",
    "juice",
    "peel",
    "vegetable",
    "dried-fruit",
    "nut",
    "sweetener",
    "acid",
    "pectin",
    "gelling",
    "firming",
    "thickener",
    "liquid",
    "spirit",
    "fat",
    "egg",
    "dairy",
    "meat",
    "salt",
    "spice",
    "herb",
    "condiment",
    "flavouring",
    "colour",
    "jar",
    "fill",
    "prepare",
    "headspace",
    "lid",
    "process",
    "finish",
    "keep",
    "batch",
    "product",
]
_TRIES = 400
_MOST_DISGUISES = (0, 1, 1, 2, 2, 3)


class Case(Struct, frozen=True):
    """One formula to be reviewed, and what the decision table says of it.

    `texts` are the formulas around it by path, its own earlier text as BEFORE, `path` names the one to review. `level` is the level that must be found,
    `silent` where nothing may hold it back. `rows` are the rows whose finding names the edit. `unsure` cases are
    uncertain by design and count neither as false alarms nor as silent ones.
    """

    number: int
    kind: str
    row: str
    level: str
    rows: frozenset[str]
    disguises: tuple[str, ...]
    factor: Fraction | None
    unsure: bool
    path: str
    texts: Mapping[str, str]

    @property
    def text(self) -> str:
        """The formula under review."""
        return self.texts[self.path]


def pool(root: Path) -> tuple[Tested, ...]:
    """Every tested formula that may be edited, in order of its path.

    Left out are those that are known to be held back by themselves, because every edit of them would be.
    """
    held = _held_back(root / "tests" / "published" / "expected.yaml")
    found = []
    for folder in POOL:
        for path in sorted((root / folder).glob("*.formula")):
            text = path.read_text(encoding="utf-8")
            sheet = sheet_of(text)
            if sheet.header("standing") == "tested" and path.stem not in held:
                found.append(Tested(f"{folder}/{path.name}", sheet, text, terms(sheet)))
    return tuple(found)


def _held_back(path: Path) -> set[str]:
    if not path.is_file():
        return set()
    with path.open(encoding="utf-8") as stream:
        known = YAML(typ="safe").load(stream)["expected"]
    return {name for name, one in known.items() if one.get("holds")}


def kinds(names: Sequence[str] = ()) -> list[Kind]:
    """The kinds of edit, all or those of some rows or names, each row's first kind before the further ones."""
    wanted = [one for one in KINDS if not names or one.name in names or one.row in names]
    first = {one.row: one for one in reversed(wanted)}
    return [*first.values(), *(one for one in wanted if first[one.row] is not one)]


def cases(formulas: Sequence[Tested], count: int, seed: int, names: Sequence[str] = ()) -> Iterator[Case]:
    """So many cases, every kind in turn; the same for the same seed."""
    wanted = kinds(names)
    made = number = 0
    while made < count and number < count * 3:
        case = _case(wanted[number % len(wanted)], formulas, number, seed)
        number += 1
        if case is not None:
            made += 1
            yield case


def _case(kind: Kind, formulas: Sequence[Tested], number: int, seed: int) -> Case | None:
    dice = Random(f"{seed} {number} {kind.name}")  # noqa: S311 - seeded on purpose
    for _ in range(_TRIES):
        tested = dice.choice(formulas)
        edit = kind.make(tested, dice)
        if edit is not None and (edit.alone or edit.undeclared or _differs(edit, tested)):
            return _dressed(replace(edit, kind=kind.name), tested, dice, number)
    return None


def _differs(edit: Edit, tested: Tested) -> bool:
    """Whether the edit changed anything; those of the writing need not."""
    return edit.row in ("units", "wording") or edit.tested is not None or edit.sheet != tested.sheet


def adapted(sheet: Sheet, code: str, adapts: str, undeclared: str = "") -> Sheet:
    """The sheet as an adaptation that owns up to every subject but one."""
    headers = [row for row in sheet.headers if row[0] not in ("standing", "adapts")]
    headers[1:1] = [("standing", "adapted"), ("adapts", adapts)]
    changes = tuple((subject, "as the class asked") for subject in SUBJECTS if subject != undeclared)
    evidence = tuple(row for row in sheet.evidence if row[0] == "source")
    return replace(
        sheet, code=code, headers=tuple(headers), changes=changes, evidence=(*evidence, ("review-by", "2028-06-30"))
    )


def _dressed(edit: Edit, tested: Tested, dice: Random, number: int) -> Case:
    if edit.alone:
        texts = {"edited.formula": write(replace(edit.sheet, code="ED-1"))}
        if edit.before is not None:
            texts[BEFORE] = write(replace(edit.before, code="ED-1"))
        return _as_case(edit, number, (), texts)
    most = 0 if edit.plain else dice.choice(_MOST_DISGUISES) + (2 if edit.row in ("units", "wording") else 0)
    worn = chosen(edit, tested, dice, most)
    parent = edit.tested or tested.sheet
    texts = {"tested.formula": write(parent) if edit.tested else tested.text}
    sheet, code, names = edit.sheet, parent.code, [one.name for one in worn]
    chain = dice.choice(CHAINS) if most and dice.random() < 0.15 else ""
    if chain and chain not in edit.ban:
        between = edit.half if chain == "two-generations" and edit.half is not None else edit.sheet
        texts["between.formula"] = write(adapted(between, "BT-1", code))
        code = "BT-1"
        names.append("two-generations" if between is edit.half else "lenient-parent")
    for one in worn:
        sheet = one.change(sheet, tested, dice)
    text = write(adapted(sheet, "ED-1", code, edit.undeclared))
    if most and dice.random() < 0.3:
        text = neaten("edited.formula", text.encode("utf-8")).after.decode("utf-8")
        names.append("neat")
    texts["edited.formula"] = text
    edit = replace(edit, unsure=edit.unsure or any(one.unsure for one in worn))
    return _as_case(edit, number, tuple(names), texts)


def _as_case(edit: Edit, number: int, names: tuple[str, ...], texts: Mapping[str, str]) -> Case:
    rows = frozenset({edit.row, *edit.rows})
    return Case(
        number, edit.kind, edit.row, edit.level, rows, names, edit.factor, edit.unsure, "edited.formula", dict(texts)
    )


def missing_rows(names: Sequence[str] = ()) -> list[str]:
    """The rows of the decision table that no kind of edit stands for; empty if all are there."""
    made = {one.row for one in KINDS}
    return [] if names else [row for row in decided() if row not in made]
