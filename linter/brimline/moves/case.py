"""From two documents to the cases that rules are handed: every reading of the adaptation against its tested formula."""

from collections.abc import Iterator
from fractions import Fraction

from msgspec.structs import replace

from brimline.batch.add import add_up, choose, variants
from brimline.batch.classes import acid_class, is_gelled, pectin_kind
from brimline.batch.values import Batch, Mixture
from brimline.document.values import Document
from brimline.moves.contrast import classes, contrast
from brimline.moves.listing import moves
from brimline.moves.pair import weighed
from brimline.moves.published import has_times, shortfalls
from brimline.moves.times import gaps
from brimline.moves.values import Case, Contrast, Move


def alone(document: Document, altitude_ft: Fraction | None = None, today: str = "") -> Case:
    """A formula by itself, for the rules that also speak of a formula nobody compares."""
    batch = add_up(document)
    grams, unknowns = weighed(batch)
    return Case(
        document=document,
        batch=batch,
        acid_class=acid_class(batch, grams, unknowns.bounds),
        gelled=is_gelled(batch),
        kind=batch.kind,
        pectin=pectin_kind(batch),
        gaps=shortfalls(document),
        altitude_ft=altitude_ft,
        today=today,
    )


def against(
    tested: Document, adapted: Document, altitude_ft: Fraction | None = None, today: str = ""
) -> tuple[tuple[Case, ...], bool]:
    """One case for every reading of the adaptation's alternatives; whether there were too many to try them all.

    Kind, finish and thus the base are read from the tested formula, so that renaming the product changes nothing.
    """
    readings, too_many = variants(adapted)
    return tuple(_case(tested, adapted, reading, altitude_ft, today) for reading in readings), too_many


def _case(tested: Document, adapted: Document, reading: Batch, altitude_ft: Fraction | None, today: str) -> Case:
    was = choose(tested, reading)
    now = replace(reading, kind=was.kind, fixed_time=was.fixed_time)
    both = contrast(was, now)
    short = tuple(gaps(tested, adapted))
    grave, gelled, pectin = classes(was, now)
    other_fill = _fill(tested) != _fill(adapted)
    return Case(
        document=adapted,
        batch=now,
        tested=tested,
        contrast=both,
        acid_class=grave,
        gelled=gelled,
        kind=was.kind,
        pectin=pectin,
        moves=_fewest_undeclared(tested, adapted, both),
        gaps=short,
        altitude_ft=altitude_ft,
        today=today,
        mixtures=tuple(_mixtures(was, now)),
        fill_times=other_fill and has_times(adapted, tested),
        fill_short=shortfalls(adapted, tested) if other_fill else (),
    )


def _fill(document: Document) -> str:
    return document.pack.fill.value if document.pack.fill else ""


def _mixtures(was: Batch, now: Batch) -> Iterator[Contrast]:
    """The parts of each measured mixture of the tested formula beside those of the adaptation, in order."""
    for tested, adapted in zip(was.mixtures, now.mixtures, strict=False):
        yield contrast(_parts(was, tested), _parts(now, adapted))


def _parts(batch: Batch, mixture: Mixture) -> Batch:
    """The parts of a mixture as a batch of their own."""
    return replace(batch, items=mixture.parent.made_of, groups=mixture.parts, per_jar=(), mixtures=())


def _fewest_undeclared(tested: Document, adapted: Document, both: Contrast) -> tuple[Move, ...]:
    """The moves at the scale; where a whole batch has as many votes, the reading the author owns up to best."""
    found = moves(tested, adapted, both)
    if not both.tied:
        return found
    whole = moves(tested, adapted, contrast(both.tested, both.adapted, Fraction(1)))
    return min(found, whole, key=lambda some: sum(not move.declared for move in some))


def readings(document: Document) -> Iterator[Batch]:
    """Every reading of a formula's alternatives, for callers that only want the batches."""
    yield from variants(document)[0]
