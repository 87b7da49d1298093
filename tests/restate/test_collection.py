"""Every tested formula, restated: it reads again, the review finds nothing graver than in what it came from, and no
amount, time or headspace is on its wrong side.

The sides are computed here from the lines as written, with conversion factors of NIST SP 811 (from memory).
"""

from collections.abc import Iterator
from datetime import date
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest

from brimline.batch.resolve import item
from brimline.document import read
from brimline.document.values import Document, Line
from brimline.findings import Level
from brimline.review.engine import review_one
from brimline.review.restate.restated import restate
from brimline.review.restate.values import Restated
from brimline.shelf import Book, Shelf, load_shelf

ROOT = Path(__file__).parents[2]
TODAY = date(2026, 1, 15)
SHARES = (Fraction(1, 2), Fraction(1), Fraction(2, 3))
# The rule on the size of the batch may speak; at these shares of a tested batch it holds nothing back.
BATCH_ROWS = {"batch-larger", "batch-smaller"}
FACTORS = {
    "tsp": "4.928922", "tbsp": "14.78676", "fl oz": "29.57353", "cup": "236.5882", "pint": "473.1765", "qt": "946.3529",
    "gal": "3785.412", "ml": "1", "l": "1000", "g": "1", "kg": "1000", "oz": "28.34952", "lb": "453.5924",
}  # fmt: skip
PRINTED = Fraction(1, 1_000_000)
TWO_PERCENT = Fraction(2, 100)


@cache
def shelf(folder: str) -> Shelf:
    return load_shelf([str(ROOT / folder)], TODAY)


def formulas_tested() -> Iterator[tuple[Shelf, Book]]:
    for folder in ("formulas", "tests/published"):
        for book in shelf(folder).formulas:
            document = book.read.document
            if document is not None and document.standing in ("tested", "draft"):
                yield shelf(folder), book


@cache
def made(units: str) -> tuple[tuple[Shelf, Book, Restated], ...]:
    return tuple(
        (one, book, restate(one, book, by, units))
        for one, book in formulas_tested()
        for by in (SHARES[:1] if units == "both" else SHARES)
    )


def document(one: Restated) -> Document:
    again = read("restated", one.text.encode("utf-8"))
    assert again.document is not None
    return again.document


def amounts(line: Line) -> Iterator[tuple[Fraction, Fraction]]:
    """Least and most of each statement of an amount, in ml or g; counts and packages left out."""
    if line.amount is None or line.amount.some:
        return
    for parts in (line.amount.parts, *line.amount.also):
        if all(part.unit in FACTORS and part.pack is None for part in parts):
            yield (
                sum((part.low * Fraction(FACTORS[part.unit]) for part in parts), Fraction(0)),
                sum((part.high * Fraction(FACTORS[part.unit]) for part in parts), Fraction(0)),
            )


def lines(doc: Document) -> list[Line]:
    return [one for line in doc.take for one in (line, *line.made_of, *line.other)]


def pairs(units: str) -> Iterator[tuple[Restated, Line, Fraction, Fraction]]:
    """Every measured amount: the line as written, exact at the share, as restated."""
    for _, book, one in made(units):
        source = book.read.document
        assert source is not None
        for was, now in zip(lines(source), lines(document(one)), strict=True):
            before, after = list(amounts(was)), list(amounts(now))
            per = was.amount.per if was.amount else None
            by = Fraction(1) if per else one.by
            if before and after:
                for end in (0, 1):
                    for stated in after[:1]:
                        yield one, was, before[0][end] * by, stated[end]


def test_there_is_something_to_try() -> None:
    assert len(list(formulas_tested())) >= 80


@pytest.mark.parametrize("units", ["us", "metric", "both"])
def test_it_reads_again_and_the_review_finds_nothing_graver(units: str) -> None:
    worse = []
    for one_shelf, book, one in made(units):
        own = {(found.rule, found.row) for found in review_one(one_shelf, book).findings}
        assert one.reviewed is not None, (one.path, one.by, one.unwritten)
        worse += [
            (one.path, str(one.by), found.level.word, found.row, found.says)
            for found in one.reviewed.findings
            if found.level is not Level.FORM and (found.rule, found.row) not in own and found.row not in BATCH_ROWS
        ]
    assert worse == []


@pytest.mark.parametrize("units", ["us", "metric"])
def test_acid_is_never_less(units: str) -> None:
    tried = 0
    for one, line, exact, now in pairs(units):
        known = item(line)
        if known.sort == "acid" and known.tags & {"lemon", "lime", "vinegar", "citric"}:
            tried += 1
            assert now >= exact * (1 - PRINTED), (one.path, line.item)
    assert tried > 100


@pytest.mark.parametrize("units", ["us", "metric"])
def test_low_acid_food_and_water_are_never_more(units: str) -> None:
    tried = 0
    for one, line, exact, now in pairs(units):
        known = item(line)
        tomato = known.tags & {"tomato", "tomatillo"}
        if (
            (known.safety in ("low-acid", "borderline") or known.sort == "liquid")
            and not tomato
            and known.sort != "acid"
        ):
            tried += 1
            assert now <= exact * (1 + PRINTED), (one.path, line.item)
    assert tried > 100


@pytest.mark.parametrize("units", ["us", "metric"])
def test_sugar_is_within_2_percent(units: str) -> None:
    tried = 0
    for one, line, exact, now in pairs(units):
        if item(line).sort == "sweetener":
            tried += 1
            assert abs(now - exact) <= exact * TWO_PERCENT, (one.path, line.item)
    assert tried > 100


def minutes(doc: Document, altitude_ft: int) -> list[tuple[str, Fraction | None]]:
    """The time of each jar at an altitude, as the bands say."""
    return [
        (jar.name, next((b.minutes for b in row.bands if b.up_to_ft is None or altitude_ft <= b.up_to_ft), None))
        for process in doc.process
        for row in process.rows
        for jar in row.jars
    ]


@pytest.mark.parametrize("units", ["us", "metric", "both"])
def test_times_are_never_shorter_and_headspace_never_larger(units: str) -> None:
    for _, book, one in made(units):
        source, again = book.read.document, document(one)
        assert source is not None
        for altitude in (0, 900, 990, 1000, 1001, 2000, 3000, 4200, 5990, 6000, 6001, 8000, 10_000):
            for (jar, was), (same, now) in zip(minutes(source, altitude), minutes(again, altitude), strict=True):
                assert jar == same
                # Within 10 m below an edge the next band may begin already; without one the edge is left as it is.
                assert was is None or now is None or now >= was, (one.path, jar, altitude)
        spaces = zip(source.pack.headspace, again.pack.headspace, strict=True)
        # Headspace within a sixteenth of an inch is the same (decision table, `same`).
        assert all(0 <= old.inches - new.inches <= Fraction(1, 16) for old, new in spaces)
        assert [process.method for process in again.process] == [process.method for process in source.process]
        assert [line.strength for line in lines(again)] == [line.strength for line in lines(source)]
        assert [jar.name for jar in again.pack.jars] == [jar.name for jar in source.pack.jars]


@pytest.mark.parametrize("units", ["us", "metric"])
def test_the_yield_follows_the_batch_in_whole_jars(units: str) -> None:
    for _, book, one in made(units):
        source, again = book.read.document, document(one)
        if source is None or source.yields is None or again.yields is None:
            continue
        assert again.yields.low <= max(source.yields.low * one.by, 1)
        assert again.yields.high >= source.yields.high * one.by
        assert again.yields.high - source.yields.high * one.by < 1


def test_no_step_names_an_amount_of_the_whole_batch_unsaid() -> None:
    """A half batch whose step says `measure 6 cups` is no half batch; what cannot be restated is pointed out."""
    silent = []
    for _, book, one in made("us"):
        source = book.read.document
        if source is None or one.by != Fraction(1, 2):
            continue
        for line in lines(source):
            part = line.amount.parts[0] if line.amount and line.amount.parts and not line.amount.per else None
            if part is None or part.unit != "cup" or part.low != part.high or len(line.amount.parts) > 1:  # type: ignore[union-attr]
                continue
            whole, rest = divmod(part.low, 1)
            text = f"{whole or ''} {rest or ''}".strip() + " cup"
            said = " ".join(one.left)
            kept = {now.amount.parts[0].low for now in lines(document(one)) if now.amount and now.amount.parts}
            for step in one.document.make:
                if (
                    f" {text}" in f" {step.text}"
                    and text not in said
                    and part.low not in kept
                    and f"1 {text}" not in step.text
                ):
                    silent.append((one.path, text, step.text))
    assert silent == []
