"""Which published process tables a formula's source names, and where its own times fall short of all of them."""

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction

from brimline import figures
from brimline._patterns import pattern
from brimline._remember import remembered
from brimline.document.values import Band, Document, Evidence
from brimline.figures.values import ProcessTable
from brimline.moves.times import TOP_FT
from brimline.moves.values import Gap

GUIDE = pattern(r"guide (\d)\b", re.IGNORECASE)
PAGE = pattern(r"\b(\d)-(\d{1,2})\b")
RANGE = pattern(r"\b(\d)-(\d{1,2}) to \1-(\d{1,2})\b")
# Sweet spreads whose published table is the same whatever the fruit: one page names it, another gives the amounts.
SPREADS = ("jelly", "jam", "preserves", "marmalade", "conserve")
AGENCIES = ("guide", "bulletin 56", "national center", "so easy to preserve", "extension")


def tables(document: Document) -> tuple[ProcessTable, ...]:
    """The published tables that the sources of a formula name by page, else those of its kind of sweet spread."""
    named: list[ProcessTable] = []
    sources = [row for row in document.evidence if row.kind == "source"]
    for row in sources:
        named.extend(_by_page(row, document.title))
    if named:
        return tuple(named)
    words = " ".join(row.text.lower() for row in sources)
    if document.product not in SPREADS or not any(agency in words for agency in AGENCIES):
        return ()
    return tuple(table for table in figures.process_tables().values() if table.kind == document.product and table.rows)


def _by_page(row: Evidence, title: str) -> Iterator[ProcessTable]:
    """Tables on a page that a source names; a page with several products is told apart by the words beside it."""
    if not GUIDE.search(row.text):
        return
    pages = _pages(row.text)
    found = [table for table in figures.process_tables().values() if pages & _pages(table.source.section)]
    words = _words(f"{row.text} {title}")
    best = max((_shared(table, words) for table in found), default=None)
    yield from (table for table in found if table.rows and _shared(table, words) == best)


@remembered
def _pages(text: str) -> frozenset[tuple[int, int]]:
    """The pages a text names, ranges filled in: `pp. 3-21 to 3-26` is six pages."""
    pages = {(int(guide), int(page)) for guide, page in PAGE.findall(text)}
    for guide, first, last in RANGE.findall(text):
        pages.update((int(guide), page) for page in range(int(first), int(last)))
    return frozenset(pages)


def _shared(table: ProcessTable, words: frozenset[str]) -> int:
    return len(words & _words(table.product))


@remembered
def _words(text: str) -> frozenset[str]:
    return frozenset(re.findall(r"[a-z]{4,}", text.lower()))


def shortfalls(document: Document, named_by: Document | None = None) -> tuple[Gap, ...]:
    """Stretches of altitude where a formula's own time is below every published table that a source names.

    The source is the formula's own, or that of another formula (`named_by`: the tested one).
    """
    published = tables(named_by or document)
    return tuple(gap for jar, fill, bands in _rows(document) for gap in _short(published, jar, fill, bands))


def has_times(document: Document, named_by: Document) -> bool:
    """Whether the published tables a tested formula names list every jar of an adaptation, filled as it says."""
    published = tables(named_by)
    rows = list(_rows(document))
    return bool(rows) and all(
        any(table.minutes(jar, fill, 0) is not None for table in published) for jar, fill, _ in rows
    )


def _rows(document: Document) -> Iterator[tuple[str, str, tuple[Band, ...]]]:
    """Every jar of a formula with its fill and its times."""
    fill = document.pack.fill.value if document.pack.fill else "hot"
    for process in document.process:
        if process.method in ("boiling-water", "steam"):
            for row in process.rows:
                for jar in row.jars:
                    yield jar.name, row.fill or fill, row.bands


def _short(published: tuple[ProcessTable, ...], jar: str, fill: str, bands: tuple[Band, ...]) -> Iterator[Gap]:
    shape = tuple((band.minutes, low, high) for low, high, band in stretches(bands))
    for place, tested in _short_of(tuple(table.id for table in published), jar, fill, shape):
        yield _gap(jar, shape[place][1], bands[place], tested)


@remembered
def _short_of(
    ids: tuple[str, ...], jar: str, fill: str, shape: tuple[tuple[Fraction, Fraction, Fraction], ...]
) -> tuple[tuple[int, int], ...]:
    """The bands (minutes, from and to feet) that are short: their number and the published minutes.

    Remembered, because the times of a table are copied into many formulas.
    """
    published = [figures.process_tables()[one] for one in ids]
    out = []
    for number, (minutes, low, high) in enumerate(shape):
        # Times rise with the altitude, so the top of a band decides, or its foot where a table ends below the top.
        for altitude in (low + 1, high):
            times = [table.minutes(jar, fill, int(altitude)) for table in published]
            known = [time for time in times if time is not None]
            if known and minutes < min(known):
                out.append((number, min(known)))
                break
    return tuple(out)


def stretches(bands: Sequence[Band]) -> Iterator[tuple[Fraction, Fraction, Band]]:
    """Each band with the altitudes in feet where it begins and ends; an open one ends at the top."""
    low = Fraction(0)
    for band in bands:
        high = TOP_FT if band.up_to_ft is None else band.up_to_ft
        yield low, high, band
        low = high


def _gap(jar: str, low: Fraction, band: Band, tested: int) -> Gap:
    return Gap(
        jar=jar,
        tested_jar=jar,
        low_ft=low,
        high_ft=band.up_to_ft,
        tested=Fraction(tested),
        here=band.minutes,
        tested_psi=None,
        here_psi=None,
        at=band.span,
        before=band.span,
        unit=band.unit,
        missing=False,
        edge=False,
    )
