"""How far the estimated jars are from the printed yields of published formulas; it judges nothing.

python3 ci/yields.py            those whose printed figures can be right
python3 ci/yields.py --all      those with a printed figure marked ODD too

`solids` is what the printed yield would mean: the per cent solids at which the same batch fills just that.

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
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from brimline.review.weighed import Finished

ROOT = Path(__file__).resolve().parent.parent
sys.path[:0] = [str(ROOT / "linter")]

SOLIDS_MOST = 75
PUBLISHED = ROOT / "tests" / "published"
GROUPS = {"boiled briefly": "added pectin, full rolling boil", "gel point": "boiled down to the gel point"}


@dataclass(frozen=True)
class Row:
    """One published formula: printed and estimated jars with their ends, and what the printed yield would mean.

    `means` are the per cent solids at which the middle batch fills the middle of the printed yield; `odd` if the file says
    that a printed figure cannot be right.
    """

    name: str
    way: str
    printed: tuple[float, float]
    jars: tuple[float, float, float]
    most: float
    means: float
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
                means=meant(found.finished, float(stated.middle) / jars.middle),
                odd=b"# ODD" in data,
            )


def meant(done: "Finished", times: float) -> float:
    """Per cent solids of the liquid part if the same batch filled so many times what its middle run fills."""
    from brimline.batch.models.density import volume

    share, water = done.solids_share.middle, volume(1, 0, 0)
    sugar, pulp = volume(0, 1, 0), volume(0, 0, 1)
    # The pulp from what the middle run weighs and fills: liquid + pulp = mass, and their volumes add.
    per_liquid = share * sugar + (1 - share) * water
    liquid = (done.ml.middle - done.mass.middle * pulp) / (per_liquid - pulp)
    solids = liquid * share
    left = (times * done.ml.middle - solids * sugar - (done.mass.middle - liquid) * pulp) / water
    return 100 * solids / (solids + left) if left > 0 else 100.0


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
        print(f"\n{title}\n{'':<38}{'printed':>9}  {'estimated':>18}  {'at most':>7}  {'error':>6}  {'solids':>6}")
        for row in group:
            printed = "-".join(f"{one:g}" for one in sorted(set(row.printed)))
            low, middle, high = row.jars
            notes = " ODD" * row.odd + " apart" * row.apart + " beyond the ceiling" * (row.printed[0] > row.most)
            print(
                f"{row.name:<38}{printed:>9}  {middle:>5.1f} ({low:4.1f}-{high:4.1f})  {row.most:>7.1f}  {row.error:>+6.0%}  {row.means:>6.0f}{notes}"
            )
        print("all of these:".ljust(38), spread([row.error for row in group]))
        # Above 75 % the mixture would boil some 15 F over water, so such a yield and such an end cannot both be right.
        fit = [row.error for row in group if row.means <= SOLIDS_MOST]
        if len(fit) < len(group):
            print(f"whose yield means at most {SOLIDS_MOST} %:".ljust(38), spread(fit))
    return 0


if __name__ == "__main__":
    import _environment

    _environment.enter("try", "msgspec", "lark")
if __name__ == "__main__":
    sys.path.insert(0, str(ROOT / "ci"))
    import _environment

    _environment.enter("try", "msgspec", "lark")
    sys.exit(main())
