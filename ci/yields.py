"""How far the estimated jars are from the printed yields of published formulas; it judges nothing.

python3 ci/yields.py            those whose printed figures can be right
python3 ci/yields.py --all      those with a printed figure marked ODD too

`solids` is what the printed yield would mean: the per cent solids at which the same batch fills just that.

Nothing in the model is fitted to these: the share that boils off comes from the power of a stove, the solids at the gel
point from the boiling point of sugar mixtures, cup weights from the table of ingredients. The error is the middle of the
estimate against the middle of the printed yield; a yield printed as one small whole number is itself rounded by a tenth.

No model of the gel point can come much nearer to the boiled-down ones, and the last line shows it: the least error of
all is printed, the one that the best per cent solids, the same for all of them, would leave. Printed yields disagree
with each other: 4 cups of crushed berries with 4 cups of sugar give 3 to 4 half-pints at 8 F over boiling water in one
publication and 4 at 9 F, which is thicker, in another; apple jelly gives as many half-pints as six-ounce glasses.
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
# Printed yields that stand in no published formula of the tests: publication, whether it was read, and the batch.
FURTHER = {
    "blackberry jam, 9 F above": (
        "USDA or extension formula, read", "jam", "gel point 9 F above", "4",
        ("fruit 4 cup blackberries, crushed", "sweetener 4 cup sugar, granulated"),
    ),
    "berry jam, 9 to 6 cups": (
        "USDA or extension formula, read", "jam", "gel point", "7 to 8",
        ("fruit 9 cup blackberries, crushed", "sweetener 6 cup sugar, granulated"),
    ),
    "grape jelly": (
        "USDA Complete Guide to Home Canning, Guide 7, from memory", "jelly", "gel point", "3 to 4",
        ("juice 4 cup grape juice", "sweetener 3 cup sugar, granulated"),
    ),
}  # fmt: skip
PUBLISHED = ROOT / "tests" / "published"
GROUPS = {"boiled briefly": "added pectin, full rolling boil", "gel point": "boiled down to the gel point"}


@dataclass(frozen=True)
class Row:
    """One published formula: printed and estimated jars with their ends, and what the printed yield would mean.

    `pot` is what the middle run holds, in g: soluble solids and pulp; `jar` is ml. `means` are the per cent solids at which the middle batch fills the middle of the printed yield; `odd` if the file says
    that a printed figure cannot be right.
    """

    name: str
    way: str
    printed: tuple[float, float]
    jars: tuple[float, float, float]
    most: float
    means: float
    odd: bool
    pot: tuple[float, float]
    jar: float

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

    read = [(path.stem, path.name, path.read_bytes()) for path in sorted(folder.glob("*.formula"))]
    written = [(name, "further.formula", text(*one).encode()) for name, one in FURTHER.items()]
    for name, file, data in read + written:
        found = weighing(Book(file, data=data))
        if found is None or found.fill is None or found.fill.most is None or isinstance(found.finished, NoFigure):
            continue
        jars, stated, pot = found.finished.jars, found.fill.stated, held(found.finished)
        if jars is not None and found.finished.way in GROUPS:
            jar = found.finished.ml.middle / jars.middle
            yield Row(
                name=name,
                way=found.finished.way,
                printed=(float(stated.low), float(stated.high)),
                jars=(jars.low, jars.middle, jars.high),
                most=float(found.fill.most),
                means=meant(pot, float(stated.middle) * jar),
                odd=b"# ODD" in data,
                pot=pot,
                jar=jar,
            )


def text(source: str, product: str, finish: str, jars: str, take: tuple[str, ...]) -> str:
    """A printed batch as a formula."""
    lines = [f"formula FURTHER {product}", f"# {source}", f"product {product}", "standing draft", f"finish {finish}",
             f"yield {jars} half-pint", "", "take", *(f"  {line}" for line in take), ""]  # fmt: skip
    return "\n".join(lines)


def held(done: "Finished") -> tuple[float, float]:
    """Soluble solids and pulp of the middle run, in g: liquid + pulp = mass, and their volumes add."""
    from brimline.batch.models.density import volume

    share, pulp = done.solids_share.middle, volume(0, 0, 1)
    per_liquid = share * volume(0, 1, 0) + (1 - share) * volume(1, 0, 0)
    liquid = (done.ml.middle - done.mass.middle * pulp) / (per_liquid - pulp)
    return liquid * share, done.mass.middle - liquid


def filled(pot: tuple[float, float], percent: float) -> float:
    """Millilitres, hot, of a pot boiled down to so many per cent solids of its liquid part."""
    from brimline.batch.models.density import volume

    solids, pulp = pot
    return volume(solids * (100 / percent - 1), solids, pulp)


def meant(pot: tuple[float, float], ml: float) -> float:
    """Per cent solids of the liquid part at which a pot fills so many ml."""
    from brimline.batch.models.density import volume

    solids, pulp = pot
    left = (ml - volume(0, solids, pulp)) / volume(1, 0, 0)
    return 100 * solids / (solids + left) if left > 0 else 100.0


def least(group: list[Row]) -> tuple[float, float]:
    """The root mean square error that the best per cent solids, one for all of a group, would leave; and those solids."""
    found = [
        (sqrt(mean((filled(row.pot, percent) / row.jar / mean(row.printed) - 1) ** 2 for row in group)), percent)
        for percent in (tenths / 10 for tenths in range(550, 800))
    ]
    return min(found)


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
        if way == "gel point":
            rms, percent = least(group)
            print(
                "the least that any solids would leave:".ljust(38), f"RMS {rms:.1%}, at {percent:g} % for all of them"
            )
    return 0


if __name__ == "__main__":
    sys.path.insert(0, str(ROOT / "ci"))
    import _environment

    _environment.enter("try", "msgspec", "lark")
    sys.exit(main())
