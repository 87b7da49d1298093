"""What one serving of a spread weighs and holds, and how many are in a jar. Estimates for a label, no nutrition panel."""

from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction

from brimline.batch.linear import value
from brimline.batch.models import balance, density
from brimline.batch.models.values import Estimate, NoFigure
from brimline.batch.values import Batch, Item
from brimline.figures import identity as contents
from brimline.figures import label as table
from brimline.findings import Source
from brimline.review.counting import in_pot
from brimline.review.sums import WHOLE, Sums
from brimline.review.weighed import Amount, Finished, Served

ROOM_C = 20.0
SALTS = frozenset({"salt, table", "salt, canning", "salt, kosher"})
# What brings energy and fat that nobody here has figures for.
UNCOUNTED = frozenset({"nut", "egg", "dairy", "meat", "condiment", "spirit", "thickener"})


def served(batch: Batch, sums: Sums, finished: Finished | NoFigure) -> Served | None:
    """One serving; None for kinds without one, or where the end of cooking is not known."""
    one = table.serving(batch.kind)
    if one is None or isinstance(finished, NoFigure):
        return None
    weights = [_litre(share, ROOM_C) for share in _three(finished.solids_share)]
    hot = [_litre(share, density.HOT_C) for share in _three(finished.solids_share)]
    if None in weights or None in hot:
        return None
    grams = Estimate(*(float(one.ml) * (weight or 0) for weight in weights))
    jar = batch.document.yields.jar if batch.document.yields is not None else None
    net = Estimate(*(float(jar.volume_ml) * (weight or 0) for weight in hot)) if jar and jar.volume_ml else None
    whole = Fraction(round(grams.middle))
    per_jar = _words(table.servings(Fraction(end), whole) for end in _three(net)) if net is not None else ()
    amounts = tuple(_amounts(batch, sums, finished, float(whole)))
    sources = (*one.sources, *table.rounding_sources(), *(source for amount in amounts for source in amount.sources))
    return Served(
        one.words, grams, jar.name if jar else "", net, per_jar if all(per_jar) else (), amounts,
        _unknown(batch), tuple(dict.fromkeys(sources)),
    )  # fmt: skip


def _amounts(batch: Batch, sums: Sums, finished: Finished, grams: float) -> Iterator[Amount]:
    """Calories, fat, sodium of salt and added sugars of a serving of so many g, as far as the formula tells them."""
    pot = in_pot(batch)
    if not _unknown(batch):
        fats = [one for one in pot if one.sort == "fat"]
        fat = _part(
            fats, sums, finished, grams, lambda one: contents.content("fat", one.entry.name if one.entry else "")
        )
        if fat is not None:
            solids, of_fat, source = table.energy()
            share = finished.solids_share
            ends = (
                float(solids) * grams * end + float(of_fat) * part
                for end, part in zip(_three(share), _three(fat), strict=True)
            )
            yield _amount("calories", "", Estimate(*ends), (source,))
        if fat is not None and fats:
            source_ = contents.content_source("fat")
            yield _amount("fat", "g", fat, () if source_ is None else (source_,))
    if salts := [one for one in pot if one.sort == "salt"]:
        per_gram, source = table.sodium()
        sodium = _part(salts, sums, finished, grams, lambda one: per_gram * WHOLE if one.name in SALTS else None)
        if sodium is not None:
            yield _amount("sodium", "mg", sodium, (source,))
    sugar = finished.sugar_share
    yield _amount("added sugars", "g", Estimate(*(grams * end for end in _three(sugar))), ())


def _part(
    lines: list[Item], sums: Sums, finished: Finished, grams: float, share: Callable[[Item], Fraction | None]
) -> Estimate | None:
    """How much of a content (per cent of each line) is in a serving; None if a line has no weight or no figure."""
    low = middle = high = Fraction(0)
    for one in lines:
        form, percent = sums.grams(one), share(one)
        if form is None or percent is None:
            return None
        span = value(form, sums.bounds)
        low, middle, high = (
            low + span.low * percent / WHOLE, middle + span.middle * percent / WHOLE, high + span.high * percent / WHOLE
        )  # fmt: skip
    mass = finished.mass
    # What sticks to the pot is less jam, and no stronger jam.
    stuck = 0.0 if finished.way == "not boiled" else balance.LEFT_BEHIND
    least = min(mass.low / (1 - stuck), mass.middle)
    return Estimate(float(low) / mass.high * grams, float(middle) / mass.middle * grams, float(high) / least * grams)


def _unknown(batch: Batch) -> tuple[str, ...]:
    """Lines whose energy and fat nobody here knows; sweeteners that are no sugar among them."""
    return tuple(
        dict.fromkeys(
            one.line.item
            for one in in_pot(batch)
            if one.sort in UNCOUNTED or one.entry is None or "non-sugar" in one.tags or "mixture" in one.tags
        )
    )


def _amount(name: str, unit: str, found: Estimate, sources: tuple[Source, ...]) -> Amount:
    return Amount(
        name, unit, found, _words(table.rounded(name, Fraction(end)) for end in (found.low, found.high)), sources
    )


def _words(texts: Iterable[str]) -> tuple[str, ...]:
    """What is said of both ends: once if it is the same."""
    said = list(texts)
    return tuple(dict.fromkeys((said[0], said[-1])))


def _three(one: Estimate) -> tuple[float, float, float]:
    return one.low, one.middle, one.high


def _litre(share: float, celsius: float) -> float | None:
    """Grams in a millilitre of product of so many solids, as a share; None beyond the range of the equation."""
    found = density.product_density(100 * share, celsius)
    return None if isinstance(found, NoFigure) else found / 1000
