"""Another jar: it takes a listed time, or that of the next larger listed jar, or none at all."""

from fractions import Fraction

from msgspec.structs import replace

from brimline.batch.words import listed
from brimline.document import units
from brimline.document.values import Document, Headspace, Jar, Packing, Prepare, Process, Times
from brimline.moves.times import columns, fits, listed_for, same_size
from brimline.review.suppose import speak
from brimline.review.suppose.lines import NOWHERE
from brimline.review.suppose.values import Asked, AskError, Made


def jar(document: Document, asked: Asked) -> Made:
    """Another jar; it takes its own time if it is listed, else that of the next larger listed jar, unshortened.

    A jar larger than every listed one is written with the longest row there is, so that the rules can refuse it.
    """
    known = listed_jars(document)
    size = _jar(asked, known)
    rows = [_for_jar(process, size) for process in document.process]
    pack = document.pack
    made = replace(document, pack=_packed(pack, size), process=tuple(rows))
    own = next((one for one in known if same_size(one, size)), None)
    named = listed([speak.jar(one) for one in known])
    fact = f"the formula lists {named}" if known else "the formula lists no jar"
    topics: tuple[str, ...] = (size.name,)
    silent: tuple[str, ...] = ()
    if own is None and any(fits(size, one) for one in known):
        silent = ("jar-between",)
    elif own is not None:
        topics = (*topics, "jar-listed")
    return Made(
        made, f"in {speak.jar(size)} jars", fact, ("jar", "process", "prepare", "headspace"), silent, topics=topics
    )


def listed_jars(document: Document) -> tuple[Jar, ...]:
    """The jars with a time of their own, each size once, or the jars of a formula that has no times; smallest first."""
    timed = [one.jar for process in document.process for one in columns(process)] or list(document.pack.jars)
    out: list[Jar] = []
    for one in sorted(timed, key=lambda jar: jar.volume_ml):
        if not any(same_size(one, other) for other in out):
            out.append(one)
    return tuple(out)


def _jar(asked: Asked, has: tuple[Jar, ...]) -> Jar:
    """The jar that is meant. Raises AskError for a size that is none."""
    if asked.what in ("smaller", "larger"):
        sizes_known = sorted(units.jars(), key=lambda one: one.ml)
        sizes = [one for one in sizes_known if not has or _beyond(one.ml, has, asked.what)]
        if not sizes:
            raise AskError(f"the table has no {asked.what} jar; say which: 4 oz jars, 8 oz jars, pint")
        best = sizes[-1] if asked.what == "smaller" else sizes[0]
        return Jar(best.name, best.ml, NOWHERE)
    if asked.number is not None and asked.unit:
        measure = units.units()[asked.unit]
        sized = units.jar_sized(asked.number, measure)
        if sized is None or not 30 <= sized[1] <= 20_000:
            raise AskError(f'"{asked.said}" is no size of a jar; say pint, quart, 4 oz or 500 ml')
        return Jar(*sized, NOWHERE)
    known_jar = units.jar_named(asked.what)
    if known_jar is None:
        raise AskError(f'"{asked.said}" is no jar of the table; say half-pint, pint, quart, 4 oz or 500 ml')
    return Jar(known_jar.name, known_jar.ml, NOWHERE)


def _beyond(ml: Fraction, has: tuple[Jar, ...], which: str) -> bool:
    volumes = [one.volume_ml for one in has]
    return ml < min(volumes) if which == "smaller" else ml > max(volumes)


def _for_jar(process: Process, size: Jar) -> Process:
    """A process with the times of one jar only."""
    found = columns(process)
    fills = dict.fromkeys(one.fill for one in found)
    rows = []
    for fill in fills:
        some = [one for one in found if one.fill == fill]
        column = listed_for(size, fill, some) or max(some, key=lambda one: one.jar.volume_ml)
        rows.append(Times((size,), fill, column.row.bands, NOWHERE))
    return replace(process, rows=tuple(rows))


def _packed(pack: Packing, size: Jar) -> Packing:
    """The pack section for one jar: what holds for the jar whose place it takes holds for it."""

    def row(one: Prepare | Headspace, among: tuple[Prepare | Headspace, ...]) -> bool:
        sizes = [jar for other in among for jar in other.jars]
        next_up = min((jar for jar in sizes if fits(size, jar)), key=lambda jar: jar.volume_ml, default=None)
        return not one.jars or next_up is None or any(same_size(jar, next_up) for jar in one.jars)

    prepare = tuple(replace(one, jars=()) for one in pack.prepare if row(one, pack.prepare))
    headspace = tuple(replace(one, jars=()) for one in pack.headspace if row(one, pack.headspace))
    return replace(pack, jars=(size,), prepare=prepare[-1:], headspace=headspace[-1:])
