"""Reading tests/edges/*.yaml: a tested formula, what is changed in it, and what must be said of that, in words."""

import re
from collections.abc import Callable
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

from msgspec import Struct
from rule_cases import CASES, TODAY

from brimline.document import read
from brimline.document.shape import schema
from brimline.findings import Finding
from brimline.review.engine import compare, review_one
from brimline.review.values import MoveRow
from brimline.shelf import Settings, Shelf, shelf_of

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
    """One entry: both texts, what must be said and, if asked for, what `compare` must list.

    `before` is the text of a formula before a change, where evidence is compared; `adapted` is empty where a tested
    formula is read alone.
    """

    name: str
    tested: str
    adapted: str
    says: tuple[str, ...]
    moves: tuple[str, ...] | None = None
    before: str = ""
    plain: bool = True
    altitude: int | None = None

    def shelf(self) -> Shelf:
        """Both formulas as a collection of which the second one is asked for; or a tested formula alone."""
        if not self.adapted:
            altitude = None if self.altitude is None else Fraction(self.altitude)
            return shelf_of({"t.formula": self.tested}, TODAY, Settings(altitude_ft=altitude))
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
    known = {"of", "why", "first", "before", "change", "says", "moves", "steps", "declare", "altitude"}
    if set(raw) - known or not raw.get("why"):
        raise ValueError(f"{name}: {set(raw) - known or 'no why'}")
    text = (CASES / "tested" / f"{raw['of']}.formula").read_text(encoding="utf-8")
    tested = _changed(name, [line for line in text.splitlines() if line[:1] != "#"], raw.get("first", {}))
    says = tuple(raw.get("says") or ())
    if "change" not in raw:
        before = _changed(name, tested, raw["before"]) if "before" in raw else []
        return Edge(name, "\n".join(tested) + "\n", "", says, before="\n".join(before), altitude=raw.get("altitude"))
    adapted = _changed(name, _adapted(tested, raw.get("steps", "plain"), raw.get("declare", "all")), raw["change"])
    moves = tuple(raw["moves"]) if "moves" in raw else None
    # Steps of its own name what is in the list, and where the batch is spoken of a few lines more would decide it.
    plain = raw.get("steps", "plain") == "plain" and not any("batch-" in one for one in says)
    return Edge(name, "\n".join(tested) + "\n", "\n".join(adapted) + "\n", says, moves, plain=plain)


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
        own = {
            "formula": f"formula AD-1 {line.partition(' ')[2].partition(' ')[2]}, adapted",
            "standing": "standing adapted",
        }
        out.append(own.get(word, line))
    code = lines[[line.split(" ")[0] for line in lines].index("formula")].split()[1]
    out.insert(next(n for n, line in enumerate(out) if line.startswith("standing")) + 1, f"adapts {code}")
    return out


def _changed(name: str, lines: list[str], change: dict[str, Any]) -> list[str]:
    """Lines with each of some replaced: by another, by several, or by none.

    A line is found by its first words, else by some of its words.
    """
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
    told = [
        one.says,
        f"harm {one.harm.value}",
        *(flat(f"{figure.name} {figure.value} {figure.unit}") for figure in one.figures),
    ]
    if row != flat(head) or not all(any(word in text for text in told) for word in words):
        return False
    return (not at or flat(at) in at_line(here, one.line)) and (
        not before or flat(before) in at_line(edge.tested, one.before_line)
    )


def at_line(text: str, number: int) -> str:
    """A line of a text by its number, with single spaces; empty for none."""
    return flat(text.splitlines()[number - 1]) if number else ""


def _shown(edge: Edge, one: Finding) -> str:
    here, before = at_line(edge.adapted or edge.tested, one.line), at_line(edge.tested, one.before_line)
    may = "" if one.certain else "may "
    figures = ", ".join(flat(f"{figure.name} {figure.value} {figure.unit}") for figure in one.figures)
    return f"{may}{one.level.word} {one.row or one.rule} @ {here} < {before} | {one.says} [{figures}]"


def _moves(edge: Edge, rows: tuple[MoveRow, ...]) -> list[str]:
    """Both lists of moves, as far as they differ.

    A wanted one may name its lines: `kind | was | now | change @ here < tested`.
    """
    left, out = list(rows), []
    for wanted in edge.moves or ():
        head, _, before = wanted.partition(" < ")
        head, _, at = head.partition(" @ ")
        parts = [part.strip() for part in head.split("|")]
        hit = next((row for row in left if [row.subject, row.tested, row.here, row.change] == parts), None)
        if (
            hit is None
            or flat(at) not in at_line(edge.adapted, hit.line)
            or flat(before) not in at_line(edge.tested, hit.tested_line)
        ):
            out.append(f"not listed: {wanted}")
        else:
            left.remove(hit)
    for row in left:
        here, before = at_line(edge.adapted, row.line), at_line(edge.tested, row.tested_line)
        out.append(f"listed: {row.subject} | {row.tested} | {row.here} | {row.change} @ {here} < {before}")
    return out


Found = set[tuple[str, str, bool, int, int]]


def found(tested: str, adapted: str) -> Found:
    """Row, level, certainty and both lines of every finding of an adaptation."""
    shelf = shelf_of({"t.formula": tested, "a.formula": adapted}, TODAY, Settings(), ["t.formula"])
    review = review_one(shelf, shelf.formulas[0])
    return {(one.row or one.rule, one.level.word, one.certain, one.line, one.before_line) for one in review.findings}


MEASURED = re.compile(
    r"^  (?P<flags>(?:optional |infused |discarded )*)(?P<role>[a-z][a-z-]*) +(?P<number>\d+(?: \d+/\d+)?|\d+/\d+) "
    r"(?P<unit>cup|tbsp|tsp|pint|qt|lb|oz|g|ml) +(?P<item>[^=].*)$"
)


def halved(text: str) -> tuple[str, dict[int, int]]:
    """A formula with every plain amount of its list written as two equal lines, and where the first of each stands."""
    out: list[str] = []
    places = {0: 0}
    lines = text.splitlines()
    for number, one in enumerate(lines, 1):
        places[number] = len(out) + 1
        match = MEASURED.match(one)
        half = _half(match["number"]) if match else ""
        below = lines[number].strip() if number < len(lines) else ""
        if match and half and "per " not in match["item"] and not below.startswith(("from ", "or ", "note ")):
            out += [f"  {match['flags']}{match['role']} {half} {match['unit']} {match['item']}"] * 2
        else:
            out.append(one)
    return "\n".join(out) + "\n", places


def _half(written: str) -> str:
    """Half of a number as a formula may write it; nothing if it cannot."""
    half = sum(map(Fraction, written.split()), Fraction(0)) / 2
    whole, rest = divmod(half, 1)
    if half.denominator == 1:
        return str(half)
    return f"{whole} {rest}".removeprefix("0 ") if half.denominator in (2, 3, 4, 6, 8, 16) else ""


EXTRA = (
    "  infused spice 1/4 tsp mustard seed",
    "  spice 1/4 tsp fennel seed",
    "  optional colour 1 drop food colouring, red",
)


def with_extra(text: str) -> tuple[str, dict[int, int]]:
    """A formula with three harmless lines at the head of its list, and where each of its own lines stands."""
    lines = text.splitlines()
    at = lines.index("take") + 1
    places = {0: 0} | {number: number + (len(EXTRA) if number > at else 0) for number in range(1, len(lines) + 1)}
    return "\n".join([*lines[:at], *EXTRA, *lines[at:]]) + "\n", places


def moved(edge: Edge, change: Callable[[str], tuple[str, dict[int, int]]]) -> tuple[Found, Found]:
    """What is said of an entry, at the places its lines went to, and what is said after both texts were changed."""
    (tested, before), (adapted, here) = change(edge.tested), change(edge.adapted)
    plain = {(*rest, here[at], before[of]) for *rest, at, of in found(edge.tested, edge.adapted)}
    return plain, found(tested, adapted)


def told_apart(edge: Edge) -> Found:
    """What is said otherwise once every amount stands in two lines; what is said of each line is said of both halves."""
    plain, split = moved(edge, halved)
    return (plain - split) | {(*rest, at, of) for *rest, at, of in split - plain if (*rest, at - 1, of) not in plain}


def told_more(edge: Edge) -> Found:
    """What is said otherwise once both formulas have a few harmless lines more."""
    plain, longer = moved(edge, with_extra) if edge.plain else (set(), set())
    return plain ^ longer
