"""Every difference between an adaptation and its tested formula as a list of moves, for `compare` and declarations."""

from collections.abc import Iterable, Iterator
from fractions import Fraction
from typing import Protocol, TypeVar

from brimline.batch.values import Item
from brimline.batch.words import amount, decimal, feet, finish_words, listed, number, percent
from brimline.document.values import Document, Keep, Packing, Times
from brimline.figures.values import Interval
from brimline.findings import Span
from brimline.moves.pair import by_name
from brimline.moves.scale import HIGH
from brimline.moves.times import TEN_METRES_FT, same_size, same_times
from brimline.moves.values import Contrast, Move, Pair, grams

SIXTEENTH = Fraction(1, 16)
EMPTY = Span(0, 0)


def moves(tested: Document, adapted: Document, contrast: Contrast) -> tuple[Move, ...]:
    """All moves in the order of the adaptation's text; things left out come at the section they are missing from."""
    declared = frozenset(change.subject for change in adapted.changes)
    found = [
        *_scale(tested, adapted, contrast, declared),
        *(move for pair in contrast.pairs for move in _ingredient(pair, contrast, adapted, declared)),
        *_per_jar(contrast, adapted, declared),
        *_headers(tested, adapted, declared),
        *_packing(tested, adapted, declared),
        *_process(tested, adapted, declared),
        *_keeping(tested, adapted, declared),
    ]
    return tuple(sorted(found, key=lambda move: (move.at.start, move.subject, move.kind)))


def section(document: Document, *words: str) -> Span:
    """The place of something missing: the section word it should be under, else the formula's first line."""
    for word in words:
        if word in document.sections:
            return document.sections[word]
    return document.headers.get("formula", EMPTY)


class Placed(Protocol):
    """Anything that stands at a place of a formula."""

    @property
    def span(self) -> Span:
        """Where it stands."""


T = TypeVar("T")


def first(lines: Iterable[Placed], none: T) -> Span | T:
    """Where the first of some lines stands; `none` if there is none."""
    return next((one.span for one in lines), none)


def _scale(tested: Document, adapted: Document, contrast: Contrast, declared: frozenset[str]) -> Iterator[Move]:
    if contrast.scale == 1:
        return
    change = Interval(contrast.scale, contrast.scale)
    yield Move(
        "batch",
        "batch",
        "one batch",
        f"{number(contrast.scale)} batch",
        percent(change),
        change,
        section(adapted, "take"),
        section(tested, "take"),
        "batch" in declared,
    )


def stated(items: Iterable[Item]) -> str:
    """The amounts of some lines as written, added with `+`, options and fates said."""
    texts = []
    for one in items:
        text = f"{amount(one.line.amount)} {one.line.item}"
        if one.line.forms:
            text += f", {', '.join(one.line.forms)}"
        if one.optional:
            text = f"optional {text}"
        texts.append(text)
    return " + ".join(texts) or "none"


def roles(pair: Pair) -> tuple[str, ...]:
    """The author's roles of a pair, the adaptation's first."""
    return tuple(dict.fromkeys(one.line.role for one in (*pair.now, *pair.was)))


def changed(pair: Pair) -> bool:
    """Whether anything about a pair's amount, option or fate differs beyond kitchen rounding."""
    renamed = {one.name for one in pair.was} != {one.name for one in pair.now}
    if pair.snapped:
        return renamed or {one.optional for one in pair.was} != {one.optional for one in pair.now}
    return renamed or not all(one.loose for one in (*pair.was, *pair.now))


def _ingredient(pair: Pair, contrast: Contrast, adapted: Document, declared: frozenset[str]) -> Iterator[Move]:
    if not changed(pair):
        return
    told = pair.now and not any(one.loose for one in (*pair.was, *pair.now))
    ratio = contrast.quotient(grams(pair.now_most), grams(pair.was_most)) if told else None
    if ratio is not None:
        ratio = Interval(ratio.low / contrast.scale, ratio.high / contrast.scale)
    change = "added" if pair.added else "left out" if pair.dropped else percent(ratio) if ratio else "changed"
    if not pair.kept:
        change += f", {pair.stay}"
    words = roles(pair)
    yield Move(
        subject=words[0],
        kind=pair.name,
        was=stated(pair.was),
        now=stated(pair.now),
        change=change,
        ratio=ratio,
        at=first((one.line for one in pair.now), section(adapted, "take")),
        before=first((one.line for one in pair.was), None),
        declared=any(word in declared for word in words),
    )


def _per_jar(contrast: Contrast, adapted: Document, declared: frozenset[str]) -> Iterator[Move]:
    """Amounts stated per jar, compared by what a millilitre of jar gets."""
    was, now = by_name(contrast.tested.per_jar), by_name(contrast.adapted.per_jar)
    pairs = [(name, was.get(name, []), now.get(name, [])) for name in {**now, **was}]
    for name, old, new in (pair for pair in pairs if not _same_dose(*pair[1:])):
        here = (new or old)[0]
        yield Move(
            here.line.role,
            f"{name} per jar",
            _doses(old),
            _doses(new),
            "changed" if old and new else "added" if new else "left out",
            None,
            first((one.line for one in new), section(adapted, "take")),
            first((one.line for one in old), None),
            here.line.role in declared,
        )


def _doses(items: list[Item]) -> str:
    return listed([amount(one.line.amount) for one in items]) or "none"


def _same_dose(was: list[Item], now: list[Item]) -> bool:
    if not was or not now:
        return False
    doses = [_density(one) for one in (*was, *now)]
    return max(doses) <= min(doses) * HIGH and _optional(was) == _optional(now)


def _optional(items: list[Item]) -> bool:
    return any(one.optional or one.loose for one in items)


def _density(one: Item) -> Fraction:
    """What a millilitre of jar gets, in ml, g or pieces."""
    amount_ = next((low for _, low, _ in one.quantity.dims), Fraction(0))
    return amount_ / one.per_jar[1] if one.per_jar else amount_


def _plain(subject: str, was: str, now: str, at: Span, before: Span | None, declared: frozenset[str]) -> Iterator[Move]:
    if was != now:
        yield Move(
            subject, subject, was or "not stated", now or "not stated", "changed", None, at, before, subject in declared
        )


def _headers(tested: Document, adapted: Document, declared: frozenset[str]) -> Iterator[Move]:
    at = adapted.headers.get("product", section(adapted))
    # The changes section has no word for the product; kind/changed speaks of it.
    before = tested.headers.get("product")
    yield from _plain("product", tested.product, adapted.product, at, before, frozenset({"product"}))
    was, now = tested.finish, adapted.finish
    at = now.span if now else section(adapted)
    old, new = (finish_words(finish) if finish else "" for finish in (was, now))
    yield from _plain("finish", old, new, at, was.span if was else None, declared)


def _packing(tested: Document, adapted: Document, declared: frozenset[str]) -> Iterator[Move]:
    was, now = tested.pack, adapted.pack
    place = section(adapted, "pack")
    new = [jar for jar in now.jars if not any(same_size(jar, old) for old in was.jars)]
    gone = [jar for jar in was.jars if not any(same_size(jar, one) for one in now.jars)]
    if new or gone:
        yield from _plain("jar", _jars(was), _jars(now), first(new, place), first(was.jars, None), declared)
    for subject, old, here in (("fill", was.fill, now.fill), ("lid", was.lid, now.lid)):
        at = here.span if here else place
        yield from _plain(
            subject, old.value if old else "", here.value if here else "", at, old.span if old else None, declared
        )
    at, before = first(now.prepare, place), first(was.prepare, None)
    yield from _plain("prepare", _prepared(was), _prepared(now), at, before, declared)
    left, right = (tuple(h.inches for h in side.headspace) for side in (was, now))
    if len(left) != len(right) or any(abs(a - b) > SIXTEENTH for a, b in zip(left, right, strict=False)):
        at, before = first(now.headspace, place), first(was.headspace, None)
        yield from _plain("headspace", _inches(left), _inches(right), at, before, declared)


def _jars(pack: Packing) -> str:
    return listed([jar.name for jar in pack.jars])


def _prepared(pack: Packing) -> str:
    return "; ".join(sorted(f"{one.kind} {listed([jar.name for jar in one.jars])}".strip() for one in pack.prepare))


def _inches(values: tuple[Fraction, ...]) -> str:
    return listed([f"{number(value)} in" for value in values])


def _process(tested: Document, adapted: Document, declared: frozenset[str]) -> Iterator[Move]:
    was = listed(sorted({process.method for process in tested.process}))
    now = listed(sorted({process.method for process in adapted.process}))
    at, before = first(adapted.process, section(adapted, "pack")), first(tested.process, None)
    yield from _plain("process", was, now, at, before, declared)
    # A method that came or went is a move of its own; the times of a method that stayed are compared.
    kept = {process.method for process in tested.process} & {process.method for process in adapted.process}
    left, right = _table(tested, kept), _table(adapted, kept)
    for jar in {**right, **left}:
        old, new = left.get(jar), right.get(jar)
        if new is None:
            # The time of a jar that is no longer used is a move of the jar, and of nothing else.
            told = jar.partition(",")[0] in {one.name for one in adapted.pack.jars}
        else:
            # A jar without a time of its own takes a listed one; that it is there at all is a move of the jar.
            told = not any(same_times(one.bands, new.bands) for one in ([old] if old else left.values()))
        if told:
            was, now = (_times(jar, row) if row else "" for row in (old, new))
            yield from _plain("process", was, now, new.span if new else at, old.span if old else before, declared)


def _table(document: Document, methods: set[str]) -> dict[str, Times]:
    """Each jar's row of times by some methods, by any if there are none, keyed by jar and fill."""
    out: dict[str, Times] = {}
    for process in document.process:
        for row in process.rows if not methods or process.method in methods else ():
            for jar in row.jars:
                out[f"{jar.name}{', ' + row.fill if row.fill else ''}"] = row
    return out


def _times(jar: str, row: Times) -> str:
    """A jar's times as text."""
    bands = [
        f"{decimal(band.minutes)} min "
        + (f"to {feet(_rounded(band.up_to_ft), 'ft')}" if band.up_to_ft is not None else "above")
        + (f" at {band.gauge} {decimal(band.psi)} psi" if band.psi is not None else "")
        for band in row.bands
    ]
    return f"{jar}: {', '.join(bands)}"


def _rounded(altitude: Fraction) -> Fraction:
    """The altitude in feet, to the nearest hundred if that is within ten metres."""
    near = Fraction(round(float(altitude) / 100) * 100)
    return near if abs(near - altitude) <= TEN_METRES_FT else altitude


def _keeping(tested: Document, adapted: Document, declared: frozenset[str]) -> Iterator[Move]:
    was = {keep.kind: keep for keep in tested.keep}
    for keep in adapted.keep:
        old = was.get(keep.kind)
        if old is not None and _life(old) != _life(keep):
            yield from _plain("keep", old.text, keep.text, keep.span, old.span, declared)


def _life(keep: Keep) -> tuple[object, ...]:
    return (keep.low_h, keep.high_h)
