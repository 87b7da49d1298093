"""An amount as written to the amount restated: scaled exactly once, then rounded once for each system of units."""

from fractions import Fraction

from msgspec import Struct

from brimline.document import units
from brimline.document.values import Amount, Measure, Pack, Per
from brimline.review.restate import kitchen

Parts = tuple[Measure, ...]


class Order(Struct, frozen=True):
    """What is wanted of an amount: how much of it, in which units (`us`, `metric`, `both`), rounded which way."""

    by: Fraction
    units: str
    way: str


def restated(amount: Amount, order: Order) -> Amount | None:
    """The amount at the scale and in the units wanted; None where it has to stay as written.

    What is stated for a jar keeps to the jar, whatever the batch; a ratio to another line holds at any scale.
    """
    if amount.some or (amount.per is not None and amount.per.of != "jar"):
        return None
    if amount.per is not None:
        return _per_jar(amount, amount.per, order)
    by, way = order.by, order.way
    system = system_of(amount.parts) if order.units == "both" else order.units
    stated = [
        _parts(parts, by, way, system_of(parts) if order.units == "both" else order.units) for parts in _all(amount)
    ]
    if stated[0] is None:
        return None
    kept = [parts for parts in stated if parts is not None]
    if order.units == "both":
        kept.extend(_other(amount, order, system))
    return Amount(kept[0], tuple(_distinct(kept)[1:]))


def system_of(parts: Parts) -> str:
    """`metric` or `us`, by the first measure; `us` for counts, which both systems share."""
    return "metric" if parts[0].unit in kitchen.METRIC_UNITS else "us"


def exact(amount: Amount, by: Fraction) -> Fraction:
    """The exact low end at a scale in the unit of the first part, for tests and reports."""
    first = units.units()[amount.parts[0].unit].factor
    whole = sum((part.low * units.units()[part.unit].factor for part in amount.parts), Fraction(0))
    return whole * by / first


def _all(amount: Amount) -> tuple[Parts, ...]:
    return (amount.parts, *amount.also)


def _other(amount: Amount, order: Order, system: str) -> list[Parts]:
    """The first measure in the other system too, of the exact value, unless the author states one."""
    first = amount.parts[0]
    target = "us" if system == "metric" else "metric"
    dimension = _dimension(first.unit)
    if any(_dimension(parts[0].unit) == dimension and system_of(parts) == target for parts in amount.also):
        return []
    if first.pack is not None:
        return _packed_total(amount.parts, order, target)
    if dimension not in kitchen.LADDERS:
        return []
    made = _parts(amount.parts, order.by, order.way, target)
    return [made] if made is not None else []


def _packed_total(parts: Parts, order: Order, target: str) -> list[Parts]:
    """What some packages hold, in the other system."""
    if len(parts) != 1 or parts[0].pack is None or _dimension(parts[0].pack.unit) not in kitchen.LADDERS:
        return []
    pack = parts[0].pack
    holds = pack.number * units.units()[pack.unit].factor * order.by
    made = _measured(parts[0].low * holds, parts[0].high * holds, _dimension(pack.unit), order.way, target, "")
    return [made] if made is not None else []


def _distinct(stated: list[Parts]) -> list[Parts]:
    """The first measure in each dimension and system."""
    seen: dict[tuple[str, str, str], Parts] = {}
    for parts in stated:
        unit = parts[0].unit
        dimension = _dimension(unit)
        shared = unit if dimension not in kitchen.LADDERS else ""
        seen.setdefault((dimension, shared, system_of(parts)), parts)
    return list(seen.values())


def _dimension(unit: str) -> str:
    return units.units()[unit].dimension


def _parts(parts: Parts, by: Fraction, way: str, system: str) -> Parts | None:
    """One statement of an amount: the sum of its parts if they share a dimension, else each part by itself."""
    dimensions = {_dimension(part.unit) for part in parts}
    plain = all(part.pack is None for part in parts)
    if by == 1 and (system_of(parts) == system or not dimensions & set(kitchen.LADDERS)) and plain:
        return parts
    if len(dimensions) == 1 and plain and (dimension := next(iter(dimensions))) in kitchen.LADDERS:
        low = sum((part.low * units.units()[part.unit].factor for part in parts), Fraction(0)) * by
        high = sum((part.high * units.units()[part.unit].factor for part in parts), Fraction(0)) * by
        return _measured(low, high, dimension, way, system, parts[0].unit)
    made = [_single(part, by, way, system) for part in parts]
    return tuple(one for some in made for one in some or ()) if all(made) else None


def _measured(low: Fraction, high: Fraction, dimension: str, way: str, system: str, own: str) -> Parts | None:
    if system == "metric":
        return kitchen.metric(low, high, dimension, way)
    return kitchen.us(low, high, dimension, way, own) or _decimals(low, high, dimension, way, own)


def _decimals(low: Fraction, high: Fraction, dimension: str, way: str, own: str) -> Parts | None:
    """With decimals, in the unit it was written in: for amounts that no set of spoons has."""
    known = own in units.units() and own not in kitchen.METRIC_UNITS and _dimension(own) == dimension
    unit = own if known else {"volume": "tsp", "mass": "oz"}[dimension]
    size = units.units()[unit].factor
    ends = [kitchen.stepped(end / size, way) for end in (low, high)]
    if ends[0] is None or ends[1] is None or ends[0] > ends[1]:
        return None
    return (Measure(ends[0], ends[1], unit),)


def _single(part: Measure, by: Fraction, way: str, system: str) -> Parts | None:
    """A count, a package, or one part of a sum over two dimensions."""
    dimension = _dimension(part.unit)
    if part.pack is None and dimension in kitchen.LADDERS:
        factor = units.units()[part.unit].factor * by
        return _measured(part.low * factor, part.high * factor, dimension, way, system, part.unit)
    low, high = kitchen.number(part.low * by, way), kitchen.number(part.high * by, way)
    if low is None or high is None:
        return None
    return (Measure(low, high, part.unit, _pack(part.pack, way, system) if part.pack else None),)


def _pack(pack: Pack, way: str, system: str) -> Pack:
    """The size printed on a package, in the units wanted."""
    dimension = _dimension(pack.unit)
    if dimension not in kitchen.LADDERS or (pack.unit in kitchen.METRIC_UNITS) == (system == "metric"):
        return pack
    size = pack.number * units.units()[pack.unit].factor
    made = _measured(size, size, dimension, way, system, "")
    return Pack(made[0].low, made[0].unit) if made is not None and len(made) == 1 else pack


def jar_share(per: Per, system: str) -> Fraction:
    """How much more a jar of this name holds in the other system: a 1 l jar is the metric name of a quart."""
    sized = units.metric_jar(per.unit) if per.number == 1 and system == "metric" else None
    known = units.jar_named(per.unit)
    return sized[1] / known.ml if sized and known and sized[1] > known.ml else Fraction(1)


def _per_jar(amount: Amount, per: Per, order: Order) -> Amount | None:
    """A dose for one jar: not by the batch; in metric, enough for the metric jar of that name."""
    if order.units == "both":
        target = "us" if system_of(amount.parts) == "metric" else "metric"
        other = _parts(amount.parts, jar_share(per, target), order.way, target)
        first = amount.parts
        dimension = _dimension(first[0].unit)
        more = [other] if other is not None and dimension in kitchen.LADDERS and order.way != kitchen.UP else []
        return Amount(first, (*amount.also, *more), per)
    made = _parts(amount.parts, jar_share(per, order.units), order.way, order.units)
    return None if made is None else Amount(made, (), per)
