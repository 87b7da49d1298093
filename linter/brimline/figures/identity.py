"""The standards of identity: what a food must hold to be sold under a name. None of them is a rule of safety."""

from fractions import Fraction
from functools import lru_cache
from typing import Any

from msgspec import Struct

from brimline.figures._made import made
from brimline.findings import Source


class Limit(Struct, frozen=True):
    """The least of something: as a number, as printed (`47/55`), for which fruits (none: every other), from where.

    Where it is for the country of sale to say, `sure` is what is enough in every one; else it equals `least`. `most` is
    the upper end of a band, None where there is none.
    """

    least: Fraction
    sure: Fraction
    says: str
    of: tuple[str, ...]
    source: Source
    most: Fraction | None = None


class Mix(Struct, frozen=True):
    """What may be mixed: at most so many fruits (0: any number), each at least `share` of the fruit or its own share.

    `most_of` are the greatest shares, `never` the fruits that may not be mixed at all.
    """

    most_fruits: int
    share: Fraction
    share_of: tuple[tuple[str, Fraction], ...]
    most_of: tuple[tuple[str, Fraction], ...]
    never: tuple[str, ...]
    source: Source


class Standard(Struct, frozen=True):
    """One standard of identity.

    `counts` says what of the fruit counts: `prepared`, `factor`, `extract`, `citrus`, `dried` (vine fruit and peel), or
    `none` where no amount of fruit is asked for; there are no `limits` then. `per` is `sweetener` (limits are
    parts of fruit to one of sweetener solids) or `kg` (limits are g in each kg of the finished product). `mixing` says
    which limit a mix has: `least`, `highest`, or `share` for the limits in proportion. Soluble solids in per cent,
    `endocarp` in g per kg. `factors` turn soluble solids into fruit as it came, fruit by fruit. `never_counts`
    are the fruits whose pits are no fruit; `out_sorts` and `out_tags` are what is on no list of its ingredients. `joins` are fruits without a limit that may join others.
    `holds` are further things it asks for, g in each kg: `fat`, `yolk` (solids of egg yolk), `suet` (fat as weighed).
    """

    id: str
    place: str
    names: tuple[str, ...]
    title: str
    counts: str
    factors: tuple[tuple[str, Fraction], ...]
    per: str
    mixing: str
    limits: tuple[Limit, ...]
    mixing_source: Source
    count_sources: tuple[Source, ...]
    never_counts: tuple[str, ...]
    never_source: Source | None
    out_sorts: tuple[str, ...]
    out_tags: tuple[str, ...]
    out_source: Source | None
    joins: tuple[str, ...]
    mix: Mix | None
    solids: Limit
    endocarp: Limit | None
    holds: tuple[tuple[str, Limit], ...] = ()

    def limit(self, fruit: str) -> Limit | None:
        """The limit of a fruit: its own, else the one for every other; None if the standard does not have the fruit."""
        own = next((one for one in self.limits if fruit in one.of), None)
        return own or next((one for one in self.limits if not one.of), None)


def standard(name: str, place: str) -> Standard | None:
    """The standard of a name in a place (`jam`, `EU`), whatever the case of the letters; None if there is none."""
    for id_, raw in made("identity")["standards"].items():
        if raw["place"].lower() == place.lower() and name.lower() in raw["names"]:
            return _standard(id_)
    return None


def standards() -> tuple[Standard, ...]:
    """Every standard, in the order of the table."""
    return tuple(_standard(id_) for id_ in made("identity")["standards"])


def fruit_of(entry: str) -> str:
    """What the standards call the fruit of an entry of the ingredient table; empty if none of them names it."""
    return str(made("identity")["fruits"].get(entry, ""))


def content(about: str, entry: str) -> Fraction | None:
    """Per cent of `fat` or `yolk` (solids of egg yolk) in an entry of the ingredient table; None where nobody says."""
    found = made("identity")["contents"][about]["of"].get(entry)
    return None if found is None else Fraction(found)


def content_source(about: str) -> Source | None:
    """Where the contents of `fat` or `yolk` come from; None for what has no such table."""
    found = made("identity")["contents"].get(about)
    return None if found is None else Source(f"content {about}", *found["source"])


@lru_cache(maxsize=64)
def _standard(id_: str) -> Standard:
    raw = made("identity")["standards"][id_]
    never, mix, factors, out = raw["never-counts"], raw["mix"], raw["factors"], raw["leaves-out"]
    return Standard(
        id=id_,
        place=raw["place"],
        names=tuple(raw["names"]),
        title=raw["title"],
        counts=raw["counts"],
        factors=tuple((fruit, Fraction(value)) for fruit, value in factors["of"].items()) if factors else (),
        per=raw["per"],
        mixing=raw["mixing"],
        limits=tuple(_limit(id_, one) for one in raw["limits"]),
        mixing_source=Source(id_, *raw["mixing-source"]),
        count_sources=(Source(id_, *factors["source"]), Source(id_, *raw["count-source"])) if factors else (),
        never_counts=tuple(never["of"]) if never else (),
        never_source=Source(id_, *never["source"]) if never else None,
        out_sorts=tuple(out["sorts"]) if out else (),
        out_tags=tuple(out["tags"]) if out else (),
        out_source=Source(id_, *out["source"]) if out else None,
        joins=tuple(raw["joins"]),
        mix=_mix(id_, mix) if mix else None,
        solids=_limit(id_, raw["solids"]),
        endocarp=_limit(id_, raw["endocarp"]) if raw["endocarp"] else None,
        holds=tuple((about, _limit(id_, limit)) for about, limit in raw["holds"].items()),
    )


def _limit(id_: str, raw: dict[str, Any]) -> Limit:
    least, sure = Fraction(raw["least"]), Fraction(raw["sure"])
    most = None if raw["most"] is None else Fraction(raw["most"])
    return Limit(least, sure, raw["says"], tuple(raw["of"]), Source(id_, *raw["source"]), most)


def _mix(id_: str, raw: dict[str, Any]) -> Mix:
    return Mix(
        most_fruits=raw["most-fruits"],
        share=Fraction(raw["share"]),
        share_of=tuple((fruit, Fraction(part)) for fruit, part in raw["share-of"].items()),
        most_of=tuple((fruit, Fraction(part)) for fruit, part in raw["most-of"].items()),
        never=tuple(raw["never-mixed"]),
        source=Source(id_, *raw["source"]),
    )
