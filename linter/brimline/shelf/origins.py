"""Every setting of a collection with its value and where the value comes from; for showing, not for judging."""

from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction

from msgspec import Struct

from brimline.document.meaning import Seal
from brimline.findings import Level, Variance
from brimline.shelf.settings import LONGEST_INTERVAL, settings
from brimline.shelf.strict import Refused, decoded, read_yaml
from brimline.shelf.values import Settings
from brimline.shelf.walk import SETTINGS

FLOOR = "published floor"
NOT_SET = "not set"


class Origin(Struct, frozen=True):
    """One setting: its name, its value in words, where that comes from, and the line in the file (0 for none).

    `origin` is the name of a file, `published floor` for what no collection can loosen, or `not set`.
    """

    key: str
    value: str
    origin: str
    line: int = 0


def origins(
    data: bytes, register: Mapping[str, Seal] | None = None, variances: tuple[Variance, ...] = ()
) -> tuple[Origin, ...]:
    """The settings in the bytes of a `collection.yaml` with their origins. Raises Refused."""
    read = read_yaml(decoded(data))
    keys = read.value if read.value is not None else {}
    if not isinstance(keys, dict):
        raise Refused("is not a list of keys with their values, such as `name: Valley formulas`")

    def at(*path: object) -> tuple[str, int]:
        """Where a value comes from: the file and the line, or nowhere."""
        return (SETTINGS, read.line(*path)) if path[0] in keys else (NOT_SET, 0)

    return tuple(_origins(settings(keys), at, register, variances))


_At = Callable[..., tuple[str, int]]


def _origins(
    found: Settings, at: _At, register: Mapping[str, Seal] | None, variances: tuple[Variance, ...]
) -> Iterator[Origin]:
    yield Origin("name", found.name, *at("name"))
    yield Origin("notice", found.notice, *at("notice"))
    for text in found.office_block or ("",):
        yield Origin("office", text, *at("office"))
    yield from _altitudes(found, at)
    for level in Level:
        if level.holds_back:
            yield Origin("hold-back", level.word, FLOOR)
        elif level.word in found.hold_back:
            yield Origin("hold-back", level.word, *at("hold-back"))
    months = found.review_months
    longest = f"at most {LONGEST_INTERVAL} months"
    yield Origin(
        "review-interval", f"{months} months" if months else longest, *(at("review-interval") if months else (FLOOR,))
    )
    year = found.oldest_source_year
    yield Origin("oldest-source-year", str(year) if year else "", *at("oldest-source-year"))
    for word in found.identity or ("",):
        yield Origin("identity", word, *at("identity"))
    for number, own in enumerate(found.own):
        yield Origin(
            "ingredients", f"{own.names[0]}: {own.role}, {own.safety}; {own.source}", *at("ingredients", number)
        )
    yield Origin("ingredients", "every ingredient of the published table", FLOOR)
    for folder in found.set_aside or ("",):
        yield Origin("set-aside", folder, *at("set-aside"))
    sealed = "" if register is None else f"{len(register)} tested formulas sealed"
    yield Origin("register", sealed, NOT_SET if register is None else "register.json")
    for one in variances:
        words = f"{one.formula}, {one.rule}, until {one.until}, {one.role}"
        yield Origin("variances", words, "variances.yaml", one.line)


def _altitudes(found: Settings, at: _At) -> Iterator[Origin]:
    """The band of altitudes, and the places; the highest of all is what every table of times has to reach."""
    highest = next((one for one in found.places if one.altitude_ft == found.altitude_ft), None)
    yield Origin(
        "altitude",
        _feet(found.lowest_ft, found.altitude_ft),
        *(at("places", highest.name) if highest else at("altitude")),
    )
    if not found.places:
        yield Origin("places", "", *at("places"))
    for one in found.places:
        source = f" ({one.source})" if one.source else ""
        yield Origin(
            "places", f"{one.name}: {_feet(one.altitude_ft, one.altitude_ft)}{source}", *at("places", one.name)
        )


def _feet(low: Fraction | None, high: Fraction | None) -> str:
    if low is None or high is None:
        return ""
    return f"{round(high):,} ft" if low == high else f"{round(low):,} to {round(high):,} ft"
