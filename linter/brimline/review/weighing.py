"""What one batch is, as values: masses, solids, acid, class, jars at most, minutes for a jar, gel point. No verdict."""

from collections.abc import Iterator
from fractions import Fraction

from brimline import figures
from brimline.batch import classes, words
from brimline.batch.add import add_up
from brimline.batch.classes import acid_class, counts_as_sour, counts_in_base, is_gelled, pectin_kind
from brimline.batch.models import air, balance, boiling, density
from brimline.batch.models.acid import as_citric
from brimline.batch.models.values import NoFigure
from brimline.batch.models.water_activity import NORRISH
from brimline.batch.values import Batch, Group, Item
from brimline.document.values import Document, Jar
from brimline.figures.values import Interval
from brimline.findings import Level, Source
from brimline.moves.pair import Unknowns, masses
from brimline.moves.times import at, columns, listed_for
from brimline.review import finishing
from brimline.review.identity import claim
from brimline.review.label import label
from brimline.review.sums import WHOLE, Sums
from brimline.review.weighed import Acid, Finished, Gel, Minutes, WeighedLine, Weighing
from brimline.shelf import Book

NO_TIME = "no tested time"
# What a label counts as fruit; water in the base is none.
FRUIT = frozenset({"fruit", "juice", "peel"})


def weighing(
    book: Book, altitude_ft: Fraction | None = None, jar: Jar | None = None, water_f: Fraction | None = None
) -> Weighing | None:
    """One formula weighed, for one jar or for all it names; None if no line of it can be read.

    The place is an altitude in feet, or what a thermometer shows there in boiling water, in degrees F, or both.
    """
    document = book.read.document
    if document is None or not document.take:
        return None
    batch, sums = add_up(document), Sums()
    pot = [one for one in batch.items if one.stay == "kept" and one.per_jar is None and one.per_finished is None]
    sweet = [one for one in pot if one.sort == "sweetener" and "non-sugar" not in one.tags]
    base = [one for g in batch.groups if counts_in_base(g, batch) for one in g.items]
    sour = [one for g in batch.groups if counts_as_sour(g) for one in g.items]
    grams = [sums.grams(one) for one in pot]
    solids, liquid = [sums.solids(one) for one in pot], [sums.liquid(one) for one in pot]
    no_solids = tuple(sums.no_solids)
    unweighed = tuple(one.line.item for one, form in zip(pot, grams, strict=True) if form is None)
    share = None if any(_matters(one) and sums.grams(one) is None for one in pot) else sums.share(solids, liquid)
    sure = Unknowns()
    acid = acid_class(batch, masses(batch, sure), sure.bounds)
    missing = tuple(one.line.item for one in pot if _matters(one) and one.line.item in unweighed)
    loaded = finishing.load(pot, sweet, missing, sums)
    gelled, pectin = is_gelled(batch), pectin_kind(batch)
    finished = finishing.finished(batch, loaded, gelled, pectin)
    return Weighing(
        path=book.path,
        code=document.code,
        title=document.title,
        standing=document.standing,
        kind=batch.kind,
        lines=tuple(_line(one, sums) for one in batch.items),
        total=sums.added(grams),
        sugar=sums.added(sums.solids(one) for one in sweet),
        sugar_share=None if share is None else sums.share([sums.solids(one) for one in sweet], grams),
        solids=sums.added(solids),
        solids_share=share,
        unweighed=unweighed,
        no_solids=no_solids,
        alternatives=tuple(one.line.item for one in batch.items if one.line.other),
        acids=tuple(_acid(one, sums) for one in classes.acid_lines(batch)),
        base=_whole(base, sums),
        sour=_whole(sour, sums),
        sour_share=_part(sour, base, sums),
        acid_class=acid,
        acid_why=_why(batch, acid, sums) + _guessed(sure),
        gelled=gelled,
        pectin=pectin,
        fill=finishing.fill(document, loaded),
        finished=finished,
        minutes=tuple(_minutes(document, altitude_ft, jar)),
        altitude_ft=altitude_ft,
        gel=_gel(document, altitude_ft, water_f),
        sources=tuple(_sources(batch, altitude_ft, water_f is not None, finished)),
        unread=sum(one.level is Level.UNREADABLE for one in book.read.findings),
        label=label(batch, sums, _whole([one for one in base if one.sort in FRUIT], sums), finished),
        claim=claim(batch),
    )


def _matters(one: Item) -> bool:
    """Whether a line is of a kind that fills jars, so that without its weight nothing can be said of the whole."""
    return one.sort not in ("spice", "salt", "colour", "flavouring", "firming", "herb")


def _line(one: Item, sums: Sums) -> WeighedLine:
    fates = [one.stay] if one.stay != "kept" else []
    fates += ["optional"] if one.optional else []
    fates += [f"per {one.per_jar[0]} jar"] if one.per_jar else ["per finished measure"] if one.per_finished else []
    grams, solids = sums.grams(one), sums.solids(one) if one.stay == "kept" else None
    return WeighedLine(
        one.line.role,
        words.amount(one.line.amount),
        ", ".join([one.line.item, *one.line.forms]),
        None if grams is None else sums.added([grams]),
        None if solids is None else sums.added([solids]),
        ", ".join(fates),
    )


def _whole(items: list[Item], sums: Sums) -> Interval | None:
    """What some lines weigh together; None if one of them has no weight."""
    grams = [sums.grams(one) for one in items]
    return None if None in grams else sums.added(grams)


def _part(part: list[Item], whole: list[Item], sums: Sums) -> Interval | None:
    """The sour part as a share of the base; None if a line of either has no weight."""
    if any(sums.grams(one) is None for one in (*part, *whole)):
        return None
    return sums.share([sums.grams(one) for one in part], [sums.grams(one) for one in whole])


def _acid(one: Item, sums: Sums) -> Acid:
    volume = next(((low, high) for dim, low, high in one.quantity.dims if dim.startswith("volume:")), None)
    form = sums.grams(one)
    grams = None if form is None else sums.added([form])
    entry, percent, unknown = one.entry, one.strength, ""
    if percent is None and entry is not None and not entry.tags & {"unstated", "home-made"}:
        percent = entry.acid
    share = None
    if percent is None:
        unknown = "its strength is not stated"
    elif entry is None or isinstance(found := as_citric(percent, entry.acid_as), NoFigure):
        unknown = "which acid it holds is not known"
    else:
        share = found
        unknown = "what it weighs is not known" if grams is None else ""
    citric = None if grams is None or share is None else Interval(grams.low * share / WHOLE, grams.high * share / WHOLE)
    per = f"{one.per_jar[0]} jar" if one.per_jar else ""
    ml = Interval(*volume) if volume else None
    return Acid(", ".join([one.line.item, *one.line.forms]), ml, grams, citric, unknown, per)


def _why(batch: Batch, acid: str, sums: Sums) -> str:
    """In words, what puts the acid of the batch in its class; the class itself is decided elsewhere."""
    if acid == "doubtful":
        return "bottled juice, citric acid or a low-sugar pectin was written, though sour fruit carries the acid"
    if acid == "sets":
        return "sour fruit carries the acid, and no low-acid food to speak of is in it"
    if batch.kind in classes.ALWAYS_PROTECTS:
        return f"a {batch.kind} always depends on its acid"
    if any(classes.is_acid(one) for one in batch.per_jar):
        return "acid is put into every jar"
    low = [g.name for g in batch.groups if _low(g, batch)]
    base = [one for g in batch.groups if counts_in_base(g, batch) for one in g.items]
    fruit = [g for g in batch.groups if g.sort in ("fruit", "juice") and g.safety == "high-acid"]
    if low:
        return f"it holds food of little acid: {words.listed(low)}"
    share = _part([one for g in fruit if counts_in_base(g, batch) for one in g.items], base, sums)
    if share is not None and 3 * share.middle < 1:
        return "sour fruit and juice are less than a third of its base"
    return "it is sealed without any sugar that has to go in, or nothing else in it is sour"


def _guessed(sure: Unknowns) -> str:
    """That the class rests on a wide guess of what something weighs, if it does."""
    return f"; told with a wide guess of what {words.listed(sorted(sure.missing))} weighs" if sure.missing else ""


def _low(group: Group, batch: Batch) -> bool:
    low = group.safety in ("low-acid", "borderline") and not classes.is_minor(group, batch)
    return low and classes.stays_or_leaches(group)


def _minutes(document: Document, altitude_ft: Fraction | None, jar: Jar | None) -> Iterator[Minutes]:
    fill = document.pack.fill.value if document.pack.fill else ""
    for process in document.process:
        if process.method in ("freezer", "refrigerator"):
            continue
        listed = columns(process)
        wanted = (jar,) if jar else document.pack.jars or tuple(one.jar for one in listed)
        for one in wanted:
            column = listed_for(one, fill, listed) if one.volume_ml else None
            if column is None:
                yield Minutes(process.method, one.name, "", None, None, (), NO_TIME)
                continue
            band = at(column.row.bands, altitude_ft) if altitude_ft is not None else None
            says = NO_TIME if altitude_ft is not None and band is None else ""
            minutes, psi = (band.minutes, band.psi) if band else (None, None)
            yield Minutes(process.method, one.name, column.jar.name, minutes, psi, column.row.bands, says)


def _gel(document: Document, altitude_ft: Fraction | None, water_f: Fraction | None) -> Gel | None:
    """The temperatures of a place, by its altitude or by what boiling water reads there; None if neither is known."""
    if altitude_ft is None and water_f is None:
        return None
    used = document.finish is not None and document.finish.kind == "gel"
    stated = document.finish.low if used and document.finish is not None else None
    above = Fraction(8) if stated is None else stated
    published = None if altitude_ft is None else figures.gel_temperature(int(altitude_ft))
    standard = None if altitude_ft is None else air.pressure(float(altitude_ft))
    here = standard if water_f is None else air.pressure_of_reading(air.celsius(float(water_f)))
    return Gel(
        water=_water(here),
        model=here if isinstance(here, NoFigure) else boiling.gel_point(here or 0.0, float(above)),
        above=above,
        published=published,
        used=used,
        read=water_f is not None,
        standard=None if standard is None else _water(standard),
    )


def _water(pascal: float | NoFigure | None) -> float | NoFigure:
    """Degrees F of boiling water under a pressure in Pa."""
    found = pascal if isinstance(pascal, NoFigure) else air.boiling_at(pascal or 0.0)
    return found if isinstance(found, NoFigure) else air.fahrenheit(found)


def _own_sources(batch: Batch, own: dict[str, str]) -> Iterator[Source]:
    """Where the figures of a collection's own ingredients come from, by their names."""
    for name in dict.fromkeys(one.entry.name for one in batch.items if one.entry is not None):
        if name in own:
            how, _, title = own[name].partition(" ")
            yield Source("own", f"{title}, as the collection states it", "", how.rstrip(","))


def _sources(batch: Batch, altitude_ft: Fraction | None, read: bool, finished: Finished | NoFigure) -> Iterator[Source]:
    """Where the figures come from, each source once."""
    ids: dict[str, None] = {}
    own = {one.names[0]: one.source for one in batch.document.own}
    yield from _own_sources(batch, own)
    for one in batch.items:
        if one.entry is None or one.entry.name in own:
            continue
        units = {dim.partition(":")[0] for dim, _, _ in one.quantity.dims}
        if "mass" not in units:
            ids |= dict.fromkeys(weight.source for weight in one.entry.weights)
        named = dict(one.entry.sources)
        wanted = ("solids", "insoluble", *(("acid",) if one.sort == "acid" else ()))
        ids |= dict.fromkeys(named[key].partition(" ")[2] for key in wanted if key in named)
    for id_ in ids:
        if id_:
            yield figures.source(id_)
    yield density.SOLUTION
    if isinstance(finished, Finished):
        if finished.way == "boiled briefly":
            yield balance.STOVE
        if finished.way == "gel point":
            yield from (NORRISH, boiling.INVERSION, air.STEAM)
        if finished.window is not None:
            yield finished.window.source
    if altitude_ft is not None:
        yield figures.published("table_f" if altitude_ft <= 4000 else "table_f_higher").source
        yield air.AIR
    if altitude_ft is not None or read:
        yield air.STEAM
