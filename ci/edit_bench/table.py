"""The benchmark's table: for every kind of edit how many, how many found, how many false alarms, which rules."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence

from msgspec import Struct, field

from edit_bench.score import Score

WANTED = {"unsafe": 1.0, "untested": 0.995}
MOST_ALARMS = 0.005


class Tally(Struct):
    """Counts of one kind of edit or one level."""

    count: int = 0
    found: int = 0
    named: int = 0
    harmless: int = 0
    alarms: int = 0
    unsure: int = 0
    unsure_alarms: int = 0
    graver: int = 0
    by: Counter[str] = field(default_factory=Counter)

    def add(self, one: Score) -> None:
        """Count one case."""
        if one.case.level == "silent":
            if one.case.unsure:
                self.unsure += 1
                self.unsure_alarms += one.alarm
            else:
                self.harmless += 1
                self.alarms += one.alarm
            return
        self.count += 1
        self.found += one.found
        self.named += one.named
        self.graver += one.graver
        self.by.update(one.by[:1])


def by_kind(scores: Iterable[Score]) -> dict[tuple[str, str], Tally]:
    """The tallies by kind of edit and level expected."""
    tallies: dict[tuple[str, str], Tally] = defaultdict(Tally)
    for one in scores:
        tallies[(one.case.kind, one.case.level)].add(one)
    return dict(tallies)


def by_level(scores: Iterable[Score]) -> dict[str, Tally]:
    """The tallies by level expected."""
    tallies: dict[str, Tally] = defaultdict(Tally)
    for one in scores:
        tallies[one.case.level].add(one)
    return dict(tallies)


def _share(part: int, whole: int) -> str:
    return f"{100 * part / whole:.1f} %" if whole else "-"


def lines(scores: Sequence[Score]) -> list[str]:
    """The table as lines of text."""
    head = f"{'kind of edit':<48} {'expected':<9} {'cases':>5} {'recall':>8} {'named':>8} {'alarms':>7}  caught by"
    out = [head, "-" * len(head)]
    for (kind, level), one in sorted(by_kind(scores).items()):
        rules = ", ".join(f"{name} {count}" for name, count in one.by.most_common(3))
        number = one.count + one.harmless + one.unsure
        alarms = str(one.alarms) if one.harmless else (f"({one.unsure_alarms})" if one.unsure else "-")
        row = (
            f"{kind:<48.48} {level:<9} {number:>5} {_share(one.found, one.count):>8} {_share(one.named, one.count):>8}"
        )
        out.append(f"{row} {alarms:>7}  {rules}"[:200])
    out.append("")
    levels = by_level(scores)
    for level in ("unsafe", "untested", "quality", "form"):
        one = levels.get(level, Tally())
        says = f"{level:<9} {one.count:>5} cases, recall {_share(one.found, one.count)}, named by row {_share(one.named, one.count)}"
        out.append(says + (f", held back {one.graver}" if level in ("quality", "form") else ""))
    quiet = levels.get("silent", Tally())
    out.append(
        f"harmless  {quiet.harmless:>5} cases, false alarms {quiet.alarms} ({_share(quiet.alarms, quiet.harmless)})"
    )
    out.append(
        f"uncertain {quiet.unsure:>5} cases, held back {quiet.unsure_alarms} (volume restated as mass; not counted)"
    )
    return out


def reached(scores: Sequence[Score]) -> bool:
    """Whether the wanted figures are reached."""
    levels = by_level(scores)
    recall = all(
        levels[level].found >= share * levels[level].count for level, share in WANTED.items() if level in levels
    )
    quiet = levels.get("silent", Tally())
    readable = not any(one.unreadable for one in scores)
    return recall and readable and quiet.alarms <= MOST_ALARMS * quiet.harmless


def is_miss(one: Score) -> bool:
    """Whether a case went wrong: not found, held back though harmless, or not readable."""
    return one.unreadable or not one.found or (one.alarm and not one.case.unsure)


def shown(one: Score) -> str:
    """A case that went wrong, whole: what it was, what was said, the texts."""
    case = one.case
    size = f", factor {float(case.factor):.4f}" if case.factor is not None else ""
    parts = [
        f"# case {case.number}: {case.kind} ({case.row}), expected {case.level}{size}; {', '.join(case.disguises) or 'plain'}"
    ]
    parts.extend(f"# said: {said}" for said in one.said or ("nothing",))
    for path, text in case.texts.items():
        parts.append(f"# ---- {path}\n{text}")
    return "\n".join(parts)
