"""Reading tests/edges/*.yaml: a tested formula, what is changed in it, and what must be said of that, in words."""

from functools import cache
from pathlib import Path
from typing import Any

from msgspec import Struct

from brimline.document import read
from brimline.document.shape import schema
from brimline.findings import Finding
from brimline.review.engine import compare, review_one
from brimline.review.values import MoveRow
from brimline.shelf import Settings, Shelf, shelf_of
from rule_cases import CASES, TODAY

EDGES = Path(__file__).parent / "edges"
STEPS = (
    "make",
    "  - Combine everything and cook as the finish says.",
    "  - Fill the jars, leaving the headspace, and wipe the rims.",
    "  - Start the time when the water boils.",
    "  - Let the jars stand, then check the seals.",
)
SECTIONS = ("changes", "take", "make", "pack", "process", "keep", "evidence")


class Edge(Struct, frozen=True):
    """One entry: where it stands, both texts, the text before the change if evidence is compared, what must be said and, if asked for, what `compare` must list."""

    name: str
    tested: str
    adapted: str
    says: tuple[str, ...]
    moves: tuple[str, ...] | None = None
    before: str = ""

    def shelf(self) -> Shelf:
        """Both formulas as a collection of which the second one is asked for; or a tested formula alone."""
        if not self.adapted:
            return shelf_of({"t.formula": self.tested}, TODAY, Settings())
        return shelf_of({"t.formula": self.tested, "a.formula": self.adapted}, TODAY, Settings(), ["t.formula"])


@cache
def edges() -> tuple[Edge, ...]:
    """Every entry of every file."""
    from ruamel.yaml import YAML

    out = []
    for path in sorted(EDGES.glob("*.yaml")):
        for number, raw in enumerate(YAML(typ="safe").load(path.read_text(encoding="utf-8")), 1):
            out.append(_edge(f"{path.stem}-{number}-{raw['of']}", raw))
    return tuple(out)


def _edge(name: str, raw: dict[str, Any]) -> Edge:
    known = {"of", "why", "first", "before", "change", "says", "moves", "steps", "declare"}
    if set(raw) - known or not raw.get("why"):
        raise ValueError(f"{name}: {set(raw) - known or 'no why'}")
    text = (CASES / "tested" / f"{raw['of']}.formula").read_text(encoding="utf-8")
    tested = _changed(name, [line for line in text.splitlines() if line[:1] != "#"], raw.get("first", {}))
    says = tuple(raw.get("says") or ())
    if "change" not in raw:
        before = _changed(name, tested, raw["before"]) if "before" in raw else []
        return Edge(name, "\n".join(tested) + "\n", "", says, before="\n".join(before))
    adapted = _changed(name, _adapted(tested, raw.get("steps", "plain"), raw.get("declare", "all")), raw["change"])
    moves = tuple(raw["moves"]) if "moves" in raw else None
    return Edge(name, "\n".join(tested) + "\n", "\n".join(adapted) + "\n", says, moves)


def _adapted(lines: list[str], steps: str, declare: str) -> list[str]:
    """An adaptation that changes nothing, owns up to everything and says its steps in general words."""
    out, section = [], ""
    subjects = schema()["properties"]["changes"]["items"]["properties"]["subject"]["enum"]
    for line in lines:
        word = line.split(" ")[0]
        if word in SECTIONS:
            section = word
            if word == "take" and declare == "all":
                out += ["changes", *(f"  {subject} as asked" for subject in subjects), ""]
            if word == "make" and steps == "plain":
                out += [*STEPS, ""]
        if section == "evidence" or (section == "make" and steps == "plain"):
            continue
        if word == "formula":
            line = f"formula AD-1 {line.split(' ', 2)[2]}, adapted"
        elif word == "standing":
            line = "standing adapted"
        out.append(line)
    code = lines[[line.split(" ")[0] for line in lines].index("formula")].split()[1]
    out.insert(next(n for n, line in enumerate(out) if line.startswith("standing")) + 1, f"adapts {code}")
    return out


def _changed(name: str, lines: list[str], change: dict[str, Any]) -> list[str]:
    """Lines with each of some replaced: by another, by several, or by none. A line is found by its first words, else by some."""
    for old, new in change.items():
        hits = [number for number, line in enumerate(lines) if flat(line).startswith(flat(old))]
        hits = hits or [number for number, line in enumerate(lines) if flat(old) in flat(line)]
        if len(hits) != 1:
            raise ValueError(f"{name}: {old!r} is on {len(hits)} lines")
        given = [] if new is None else [new] if isinstance(new, str) else list(new)
        lead = lines[hits[0]][: len(lines[hits[0]]) - len(lines[hits[0]].lstrip())]
        lines = [*lines[: hits[0]], *(f"{lead}{one}" for one in given), *lines[hits[0] + 1 :]]
    return lines


def flat(text: str) -> str:
    """A line with single spaces."""
    return " ".join(text.split())


def reviewed(edge: Edge, shelf: Shelf) -> tuple[list[str], list[str]]:
    """What differs between what is said and what must be, and the same for the moves."""
    previous = read("t.formula", edge.before.encode()).document if edge.before else None
    found = list(review_one(shelf, shelf.formulas[0], previous).findings)
    moves: list[str] = []
    if edge.moves is not None:
        table = compare(shelf, "a.formula")
        assert table is not None
        moves = _moves(edge, table.moves)
    return _said(edge, found), moves


def _said(edge: Edge, found: list[Finding]) -> list[str]:
    out = []
    for wanted in edge.says:
        head, *words = [part.strip() for part in wanted.split("|")]
        also = head.startswith("also ")
        hit = next((one for one in found if _is(edge, one, head.removeprefix("also "), words)), None)
        if hit is not None:
            found = [one for one in found if one is not hit]
        elif not also:
            out.append(f"not said: {wanted}")
    return out + [f"said: {_shown(edge, one)}" for one in found]


def _is(edge: Edge, one: Finding, head: str, words: list[str]) -> bool:
    head, _, before = head.partition(" < ")
    head, _, at = head.partition(" @ ")
    row = " ".join(part for part in ("" if one.certain else "may", one.level.word, one.row or one.rule) if part)
    here = edge.adapted or edge.tested
    told = [one.says, *(flat(f"{figure.name} {figure.value} {figure.unit}") for figure in one.figures)]
    if row != flat(head) or not all(any(word in text for text in told) for word in words):
        return False
    return (not at or flat(at) in line(here, one.line)) and (
        not before or flat(before) in line(edge.tested, one.before_line)
    )


def line(text: str, number: int) -> str:
    """A line of a text by its number, with single spaces; empty for none."""
    return flat(text.splitlines()[number - 1]) if number else ""


def _shown(edge: Edge, one: Finding) -> str:
    here, before = line(edge.adapted or edge.tested, one.line), line(edge.tested, one.before_line)
    may = "" if one.certain else "may "
    return f"{may}{one.level.word} {one.row or one.rule} @ {here} < {before} | {one.says} {[(f.name, f.value, f.unit) for f in one.figures]}"


def _moves(edge: Edge, rows: tuple[MoveRow, ...]) -> list[str]:
    """Both lists of moves, as far as they differ. A wanted one may name its lines: `kind | was | now | change @ here < tested`."""
    left, out = list(rows), []
    for wanted in edge.moves or ():
        head, _, before = wanted.partition(" < ")
        head, _, at = head.partition(" @ ")
        parts = [part.strip() for part in head.split("|")]
        hit = next((row for row in left if [row.subject, row.tested, row.here, row.change] == parts), None)
        if hit is None or flat(at) not in line(edge.adapted, hit.line) or flat(before) not in line(edge.tested, hit.tested_line):
            out.append(f"not listed: {wanted}")
        else:
            left.remove(hit)
    shown = (
        f"{row.subject} | {row.tested} | {row.here} | {row.change} @ {line(edge.adapted, row.line)} < {line(edge.tested, row.tested_line)}"
        for row in left
    )
    return out + [f"listed: {one}" for one in shown]
