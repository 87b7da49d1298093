"""How far the estimated jars are from the printed yields of published formulas; it judges nothing.

python3 ci/yields.py            those whose printed figures can be right
python3 ci/yields.py --all      those with a printed figure marked ODD too

Nothing in the model is fitted to these: the share that boils off comes from the power of a stove, the solids at the gel
point from the boiling point of sugar mixtures, cup weights from the table of ingredients. The error is the middle of the
estimate against the middle of the printed yield; a yield printed as one small whole number is itself rounded by a tenth.
"""

import sys
from collections.abc import Iterator
from dataclasses import dataclass
from math import sqrt
from pathlib import Path
from statistics import mean, median

ROOT = Path(__file__).resolve().parent.parent
sys.path[:0] = [str(ROOT / "linter")]

PUBLISHED = ROOT / "tests" / "published"
GROUPS = {"boiled briefly": "added pectin, full rolling boil", "gel point": "boiled down to the gel point"}


@dataclass(frozen=True)
class Row:
    """One published formula: printed jars and estimated jars, both with their ends; `odd` if a printed figure cannot be right."""

    name: str
    way: str
    printed: tuple[float, float]
    jars: tuple[float, float, float]
    most: float
    odd: bool

    @property
    def error(self) -> float:
        """The estimate's middle against the middle of the printed yield, as a share of it."""
        return self.jars[1] / (sum(self.printed) / 2) - 1

    @property
    def apart(self) -> bool:
        """Whether the printed range and the estimated one have nothing in common."""
        return self.printed[0] > self.jars[2] or self.printed[1] < self.jars[0]


def rows(folder: Path = PUBLISHED) -> Iterator[Row]:
    """Every published formula with a printed yield and an estimate."""
    from brimline.batch.models.values import NoFigure
    from brimline.review.weighing import weighing
    from brimline.shelf import Book

    for path in sorted(folder.glob("*.formula")):
        data = path.read_bytes()
        found = weighing(Book(path.name, data=data))
        if found is None or found.fill is None or found.fill.most is None or isinstance(found.finished, NoFigure):
            continue
        jars, stated = found.finished.jars, found.fill.stated
        if jars is not None and found.finished.way in GROUPS:
            yield Row(
                name=path.stem,
                way=found.finished.way,
                printed=(float(stated.low), float(stated.high)),
                jars=(jars.low, jars.middle, jars.high),
                most=float(found.fill.most),
                odd=b"# ODD" in data,
            )


def spread(errors: list[float]) -> str:
    """Root mean square, mean, median and the worst of some errors."""
    rms = sqrt(mean(one * one for one in errors))
    worst = max(errors, key=abs)
    return (
        f"RMS {rms:.1%}, mean {mean(errors):+.1%}, median {median(errors):+.1%}, worst {worst:+.1%}, n = {len(errors)}"
    )


def main(arguments: list[str] | None = None) -> int:
    """Print the table of each group."""
    every = "--all" in (sys.argv[1:] if arguments is None else arguments)
    found = [row for row in rows() if every or not row.odd]
    for way, title in GROUPS.items():
        group = [row for row in found if row.way == way]
        print(f"\n{title}\n{'':<38}{'printed':>9}  {'estimated':>18}  {'at most':>7}  {'error':>6}")
        for row in group:
            printed = "-".join(f"{one:g}" for one in sorted(set(row.printed)))
            low, middle, high = row.jars
            notes = " ODD" * row.odd + " apart" * row.apart + " beyond the ceiling" * (row.printed[0] > row.most)
            print(
                f"{row.name:<38}{printed:>9}  {middle:>5.1f} ({low:4.1f}-{high:4.1f})  {row.most:>7.1f}  {row.error:>+6.0%}{notes}"
            )
        print(spread([row.error for row in group]))
    return 0


if __name__ == "__main__":
    sys.exit(main())
