"""Matching the groups of two batches, and stating both sides of each pair in one common measure."""

from collections.abc import Iterable, Sequence
from fractions import Fraction

from msgspec import Struct, field

from brimline import figures
from brimline._remember import remembered
from brimline.batch.linear import ONE, Linear, total
from brimline.batch.values import Batch, Item
from brimline.figures.values import Interval
from brimline.moves.values import Pair, Parts

CUP_ML = Fraction("236.5882365")
# Words of a table name that do not make it another food: the same fruit frozen, peeled, yellow.
PLAIN_PARTS = frozenset({"frozen", "peeled", "tart", "yellow", "red ripe", "fresh", "salted", "unsalted", "bottled"})
ZERO = Fraction(0)


class Unknowns(Struct):
    """The cup weights met in a comparison, with their bounds, collected while the forms are built."""

    bounds: dict[str, Interval] = field(default_factory=dict)
    missing: set[str] = field(default_factory=set)

    def grams_in(self, one: Item, state: str, unit: str, pool: str) -> str:
        """The name of the unknown `grams of this food, in this state, in one UNIT`, entered with its bounds."""
        name = f"{pool}||{unit}" if pool else f"{one.name}|{state}|{unit}"
        found = _grams(one, state, unit) or _piece(one, unit)
        if found is None:
            self.missing.add(one.line.item)
            # A wide guess, so that the result is uncertain and is said to be: puffed to syrupy for a cup, a berry to
            # a melon for a piece.
            found = Interval(Fraction(60), Fraction(360)) if unit == "cup" else Interval(Fraction(1), Fraction(2000))
        old = self.bounds.get(name)
        self.bounds[name] = found if old is None else Interval(min(old.low, found.low), max(old.high, found.high))
        return name


def _grams(one: Item, state: str, unit: str) -> Interval | None:
    """Grams in one unit of what a line names, by the published table or that of the collection."""
    if one.entry is None:
        return None
    if one.entry.name in figures.entries():
        return _weight(one.entry.name, state, unit)
    # A collection gives one weight for each unit, whatever the cut.
    return figures.weigh(one.entry, (), unit)


def _piece(one: Item, unit: str) -> Interval | None:
    """The weight of the piece that a line counts by its name: `6 each garlic cloves` are cloves."""
    pieces = [word.removesuffix("s") for word in one.line.item.lower().split()] if unit == "each" else []
    return next((found for piece in pieces if (found := _grams(one, "", piece))), None)


@remembered
def _weight(name: str, state: str, unit: str) -> Interval | None:
    """Grams in one unit of an entry, remembered."""
    return figures.weigh(figures.entries()[name], (state,) if state else (), unit)


def pool(one: Item, kind: str) -> str:
    """The name under which a line is matched: its table name, or the pool of things compared by their total.

    Peppers of every kind count together (guidance: same total, never more), so do bottled and other lemon and lime
    juice, vinegars, sugars of equal strength, and in a salsa tomatoes and tomatillos.
    """
    tags = one.tags
    if one.entry is None:
        return one.name
    if one.sort == "acid" and tags & {"lemon", "lime"}:
        return "lemon or lime juice"
    if "vinegar" in tags:
        return "vinegar"
    if tags & {"pepper-sweet", "pepper-hot"} and one.sort == "vegetable":
        return "peppers"
    if kind == "salsa" and tags & {"tomato", "tomatillo"} and "tomato-product" not in tags:
        return "tomatoes"
    if "sugar" in tags:
        return "sugar"
    if one.sort == "salt":
        return "salt"
    if "nut" in tags:
        return "nuts"
    parts = [part.strip() for part in one.name.split(",")]
    return ", ".join([parts[0], *(part for part in parts[1:] if part not in PLAIN_PARTS)])


def sides(batch: Batch, kind: str) -> dict[tuple[str, str], list[Item]]:
    """The lines of a batch by (pool, stay), in order."""
    out: dict[tuple[str, str], list[Item]] = {}
    for group in batch.groups:
        for one in group.items:
            out.setdefault((pool(one, kind), one.stay), []).append(one)
    return out


def by_name(items: Iterable[Item]) -> dict[str, list[Item]]:
    """Lines by what they name, in order."""
    out: dict[str, list[Item]] = {}
    for one in items:
        out.setdefault(one.name, []).append(one)
    return out


def dimensions(items: Sequence[Item], pooled: bool) -> list[str]:
    """The dimensions in which every line of a side is stated; a pool forgets the measuring state of volumes."""
    found = [{_plain(dim, pooled) for dim, _, _ in one.quantity.dims} for one in items if not one.loose]
    if not found:
        return []
    shared = set.intersection(*found)
    if pooled:
        # Pieces of different kinds are not pieces of one thing: five bell peppers are not five jalapenos.
        shared &= {"mass", "volume:"}
    return sorted(shared, key=_preference)


def _plain(dim: str, pooled: bool) -> str:
    return "volume:" if pooled and dim.startswith("volume:") else dim


def _preference(dim: str) -> tuple[int, str]:
    order = ("mass", "volume", "count", "package")
    word = dim.partition(":")[0]
    return (order.index(word) if word in order else len(order), dim)


def common(was: Sequence[Item], now: Sequence[Item], pooled: bool) -> list[tuple[str, str]]:
    """The dimensions both sides state, as (tested, adapted) names.

    A volume whose measuring state is not written on one side is taken to be in the other side's state.
    """
    left, right = dimensions(was, pooled), dimensions(now, pooled)
    out = [(dim, dim) for dim in left if dim in right]
    if not any(dim.startswith("volume:") for dim, _ in out):
        here, there = (next((dim for dim in side if dim.startswith("volume:")), "") for side in (left, right))
        if here and there and _one_state(here, there, was[0]):
            out.append((here, there))
    return out


def _one_state(left: str, right: str, of: Item) -> bool:
    """Whether two measuring states can be compared cup for cup: one is not written, or the table has one weight."""
    if "volume:" in (left, right):
        return True
    one, other = (_grams(of, dim.partition(":")[2], "cup") for dim in (left, right))
    return one is not None and one == other


def form(one: Item, dim: str, least: bool, unknowns: Unknowns, pool_name: str, as_dim: str) -> Linear:
    """Grams of one line as a linear form, read in `dim`, or in the best dimension that it states if it lacks that.

    Best is mass, then volume, then pieces, then packages.

    `least` is the low end of a range, else the high one; `as_dim` is the tested side's name for the dimension, so
    that one unknown stands for both sides.
    """
    if not one.quantity.dims:
        return {}
    row = next((r for r in one.quantity.dims if dim == _plain(r[0], bool(pool_name))), None)
    if row is None:
        row = min(one.quantity.dims, key=lambda r: _preference(r[0]))
        as_dim = row[0]
    amount = row[1] if least else row[2]
    word, _, rest = as_dim.partition(":")
    if word == "mass":
        return {ONE: amount}
    if word == "volume":
        name = unknowns.grams_in(one, one.state if pool_name else rest, "cup", pool_name)
        return {name: amount / CUP_ML}
    return {unknowns.grams_in(one, one.state, rest, ""): amount}


def parts(items: Iterable[Item], dim: str, least: bool, unknowns: Unknowns, pool_name: str, as_dim: str) -> Parts:
    """The lines of a side as (line, grams) at their least or their most."""
    return tuple(
        (one, form(one, dim, least, unknowns, pool_name, as_dim))
        for one in items
        if not (one.loose or (least and one.optional))
    )


def build(
    key: tuple[str, str], was: tuple[Item, ...], now: tuple[Item, ...], unknowns: Unknowns
) -> tuple[Pair, list[tuple[str, str]]]:
    """A pair before scaling, in the first dimension both sides share, and all shared dimensions."""
    name, stay = key
    head = (now or was)[0]
    pooled = len({one.name for one in (*was, *now)}) > 1
    shared = common(was, now, pooled)
    dim, now_dim = shared[0] if shared else ("", "")
    pool_name = name if pooled and dim.startswith("volume:") else ""
    pair = Pair(
        name=name,
        stay=stay,
        sort=head.sort,
        safety=_gravest((*was, *now)),
        family=head.family,
        tags=frozenset().union(*(one.tags for one in (*was, *now))),
        was=was,
        now=now,
        was_least=parts(was, dim, True, unknowns, pool_name, dim),
        was_most=parts(was, dim, False, unknowns, pool_name, dim),
        now_least=parts(now, now_dim, True, unknowns, pool_name, dim),
        now_most=parts(now, now_dim, False, unknowns, pool_name, dim),
        dim=dim,
        snapped=False,
    )
    return pair, shared


def _gravest(items: Sequence[Item]) -> str:
    order = ("acidulant", "neutral", "high-acid", "borderline", "unknown", "low-acid")
    return max((one.safety for one in items), key=order.index)


def masses(batch: Batch, unknowns: Unknowns) -> dict[str, Linear]:
    """Grams of every group of one batch taken alone, optional lines counted, keyed `name|stay`."""
    return {
        f"{group.name}|{group.stay}": total(alone(one, unknowns) for one in group.items if not one.loose)
        for group in batch.groups
    }


_last: list[tuple[Batch, dict[str, Linear], Unknowns]] = []


def weighed(batch: Batch) -> tuple[dict[str, Linear], Unknowns]:
    """The masses of a batch and the unknowns in them; kept for the batch asked about last, which is asked about again."""
    for one, grams, unknowns in _last:
        if one is batch:
            return grams, unknowns
    unknowns = Unknowns()
    grams = masses(batch, unknowns)
    _last[:] = [(batch, grams, unknowns)]
    return grams, unknowns


def alone(one: Item, unknowns: Unknowns) -> Linear:
    """Grams of one line taken alone, in the best dimension it states, at its most."""
    return form(one, "", False, unknowns, "", "")
