"""What a comparison must never depend on: how a formula is written down. Every clause is tried on many formulas.

Each adaptation here is made from a tested formula by one change that means nothing (or a known thing), and owns up to
every subject under `changes`, so that only the meaning of the change can speak.
"""

import re
from collections.abc import Callable
from datetime import date
from fractions import Fraction
from functools import cache
from pathlib import Path
from random import Random

from hypothesis import assume, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from brimline.document import read
from brimline.document.printer import UnprintableError, printed
from brimline.document.shape import schema
from brimline.document.values import Amount, Change, Document, Evidence, Line, Measure
from brimline.findings import Level, Span
from brimline.moves.case import against
from brimline.review.engine import review_one
from brimline.review.values import Reviewed
from brimline.shelf import Book, Settings, shelf_of

HERE = Path(__file__).parent
FILES = sorted(
    [*(HERE.parent / "formulas" / "tested").glob("*.formula"), *(HERE / "cases" / "tested").glob("*.formula")]
)
TODAY = date(2026, 1, 15)
NOWHERE = Span(0, 0)
HOLDING = {Level.UNREADABLE, Level.UNSAFE, Level.UNTESTED}
SUBJECTS = schema()["properties"]["changes"]["items"]["properties"]["subject"]["enum"]

# One finding as a reader tells it from others, without its place: a change of the text moves places.
Said = tuple[str, str, bool]


@cache
def original(path: Path) -> Document:
    """A tested formula as a document."""
    document = read(path.name, path.read_bytes()).document
    assert document is not None
    return document


@cache
def adapted(path: Path) -> Document:
    """An adaptation that changes nothing and owns up to everything."""
    own = original(path)
    evidence = tuple(row for row in own.evidence if row.kind in ("source", "review-by"))
    if all(row.kind != "source" for row in evidence):
        evidence = (Evidence("source", "source  Kestrel Valley tested formulas, 3rd edition", NOWHERE), *evidence)
    changes = tuple(Change(subject, "as the exercise asks", NOWHERE) for subject in SUBJECTS)
    return replace(
        own,
        code="AD-1",
        title=f"{own.title}, adapted"[:200],
        standing="adapted",
        adapts=own.code,
        changes=changes,
        evidence=evidence,
        comments=(),
    )


def reviewed(path: Path, text: str) -> Reviewed:
    """What the whole pipeline says of an adaptation beside its tested formula."""
    texts = {"t.formula": path.read_text(encoding="utf-8"), "a.formula": text}
    shelf = shelf_of(texts, TODAY, Settings(), ["t.formula"])
    return review_one(shelf, shelf.formulas[0])


def said(review: Reviewed) -> set[Said]:
    """The findings without their places."""
    return {(one.level.word, one.row or one.rule, one.certain) for one in review.findings}


@cache
def unchanged(path: Path) -> frozenset[Said]:
    """What an adaptation that changes nothing is told."""
    return frozenset(said(reviewed(path, printed(adapted(path)))))


@cache
def alone(path: Path) -> frozenset[Said]:
    """What the tested formula is told by itself."""
    shelf = shelf_of({"t.formula": path.read_text(encoding="utf-8")}, TODAY, Settings())
    return frozenset(said(review_one(shelf, shelf.formulas[0])))


def written(document: Document) -> str:
    """The text of a document; an amount that kitchen measures cannot say is no example."""
    try:
        return printed(document)
    except UnprintableError:
        assume(False)
        raise


def amounts(lines: tuple[Line, ...], change: Callable[[Amount], Amount]) -> tuple[Line, ...]:
    """Lines with their amounts, and those of the lines under them, changed."""
    return tuple(
        replace(
            line,
            amount=None if line.amount is None else change(line.amount),
            other=amounts(line.other, change),
            made_of=amounts(line.made_of, change),
        )
        for line in lines
    )


def times(amount: Amount, factor: Fraction) -> Amount:
    """An amount so many times; what is stated per jar or left to the cook stays."""
    if amount.some or amount.per is not None:
        return amount
    parts = tuple(_times(part, factor) for part in amount.parts)
    return replace(amount, parts=parts, also=tuple(tuple(_times(part, factor) for part in one) for one in amount.also))


def _times(part: Measure, factor: Fraction) -> Measure:
    return replace(part, low=part.low * factor, high=part.high * factor)


def three_digits(value: Fraction) -> Fraction:
    """A value rounded to three digits that count: at most 0.5 % off."""
    return Fraction(f"{float(value):.3g}")


formulas = st.sampled_from(FILES)
SCALES = [Fraction(*pair) for pair in ((1, 2), (2, 3), (1, 3), (3, 4), (3, 2), (2, 1), (3, 1))]

# Exact customary ratios, and the metric ones from the inch, the US gallon and the pound by definition (NIST Handbook
# 44, Appendix C): 1 US gallon is 3.785411784 l, 1 lb is 453.59237 g.
CUP_ML = Fraction("236.5882365")
POUND_G = Fraction("453.59237")
UNITS: dict[str, list[tuple[str, Fraction]]] = {
    "cup": [("tbsp", Fraction(16)), ("ml", CUP_ML), ("fl oz", Fraction(8))],
    "tbsp": [("tsp", Fraction(3)), ("ml", CUP_ML / 16), ("cup", Fraction(1, 16))],
    "tsp": [("ml", CUP_ML / 48), ("tbsp", Fraction(1, 3))],
    "pint": [("cup", Fraction(2)), ("ml", CUP_ML * 2)],
    "qt": [("cup", Fraction(4)), ("pint", Fraction(2)), ("ml", CUP_ML * 4)],
    "lb": [("oz", Fraction(16)), ("g", POUND_G), ("kg", POUND_G / 1000)],
    "oz": [("g", POUND_G / 16), ("lb", Fraction(1, 16))],
    "kg": [("g", Fraction(1000))],
    "g": [("kg", Fraction(1, 1000))],
}


def other_unit(part: Measure, pick: int) -> Measure:
    """The same amount in another unit of its dimension, metric ones to three digits."""
    choices = UNITS.get(part.unit, []) if part.pack is None else []
    if not choices:
        return part
    unit, factor = choices[pick % len(choices)]
    low, high = part.low * factor, part.high * factor
    if unit in ("ml", "g", "kg"):
        low, high = three_digits(low), three_digits(high)
    return Measure(low, high, unit)


class TestNothingChanged:
    """A formula compared with itself is exactly itself: no moves, and nothing to say that it is not told alone."""

    @settings(max_examples=len(FILES) * 2)
    @given(formulas)
    def test_no_moves(self, path: Path) -> None:
        cases, _ = against(original(path), adapted(path), None, TODAY.isoformat())
        assert [move for case in cases for move in case.moves] == []

    @settings(max_examples=len(FILES) * 2)
    @given(formulas)
    def test_nothing_more_to_say(self, path: Path) -> None:
        assert unchanged(path) <= alone(path)


class TestWholeBatch:
    """All amounts times one factor is the same food: only the size of the batch may be spoken of."""

    @settings(max_examples=90)
    @given(formulas, st.sampled_from(SCALES))
    def test_only_the_batch_is_spoken_of(self, path: Path, factor: Fraction) -> None:
        own = adapted(path)
        text = written(replace(own, take=amounts(own.take, lambda amount: times(amount, factor))))
        new = said(reviewed(path, text)) - unchanged(path)
        # The yield is left as it was, and another size of batch does not fill so many jars.
        assert {row for _, row, _ in new} <= {
            "batch-larger",
            "batch-smaller",
            "whole-scaled",
            "yield-too-high",
            "yield-far",
        }
        assert not {word for word, _, _ in new} & {"unreadable", "unsafe"}


class TestUnits:
    """The same amount in another unit of its dimension, exact or rounded to three digits, is the same amount."""

    @settings(max_examples=90)
    @given(formulas, st.data())
    def test_units_of_one_dimension(self, path: Path, data: st.DataObject) -> None:
        own = adapted(path)
        number = data.draw(st.integers(0, len(own.take) - 1))
        pick = data.draw(st.integers(0, 2))

        def change(amount: Amount) -> Amount:
            return replace(amount, parts=tuple(other_unit(part, pick) for part in amount.parts))

        line = own.take[number]
        assume(line.amount is not None and line.amount.per is None)
        take = (*own.take[:number], *amounts((line,), change), *own.take[number + 1 :])
        assert said(reviewed(path, written(replace(own, take=take)))) == unchanged(path)


class TestLines:
    """What goes into the pot does not depend on the order of the lines, nor on one amount standing in two lines."""

    @settings(max_examples=75)
    @given(formulas, st.randoms(use_true_random=False))
    def test_order(self, path: Path, random: Random) -> None:
        own = adapted(path)
        take = list(own.take)
        random.shuffle(take)
        assert said(reviewed(path, written(replace(own, take=tuple(take))))) == unchanged(path)

    @settings(max_examples=90)
    @given(formulas, st.data(), st.sampled_from([Fraction(1, 2), Fraction(1, 4), Fraction(1, 3)]))
    def test_one_amount_in_two_lines(self, path: Path, data: st.DataObject, share: Fraction) -> None:
        own = adapted(path)
        plain = [n for n, line in enumerate(own.take) if line.amount and not line.other and not line.made_of]
        number = data.draw(st.sampled_from(plain))
        line = own.take[number]
        assert line.amount is not None
        assume(not line.amount.some and line.amount.per is None)
        parts = [replace(line, amount=times(line.amount, one)) for one in (share, 1 - share)]
        take = (*own.take[:number], *parts, *own.take[number + 1 :])
        assert said(reviewed(path, written(replace(own, take=take)))) == unchanged(path)


WORDS = st.sampled_from(
    ["For the fair", "Grandmother's way", "A winter favourite", "Bright and early", "From the upper orchard", "No. 7"]
)


class TestWords:
    """Titles, notes and comments are the author's own and change nothing; nor do blank lines and blanks."""

    @settings(max_examples=75)
    @given(formulas, WORDS, WORDS, st.data())
    def test_title_and_notes_and_comments(self, path: Path, title: str, note: str, data: st.DataObject) -> None:
        own = adapted(path)
        number = data.draw(st.integers(0, len(own.take) - 1))
        line = own.take[number]
        line = replace(line, note=(*line.note, note.lower()))
        changed = replace(own, title=title, take=(*own.take[:number], line, *own.take[number + 1 :]))
        text = written(changed).replace("\ntake\n", f"\n# {note}\ntake\n")
        assert f"# {note}" in text
        assert said(reviewed(path, text)) == unchanged(path)

    @settings(max_examples=75)
    @given(formulas, st.data())
    def test_blank_lines_and_blanks(self, path: Path, data: st.DataObject) -> None:
        rows = written(adapted(path)).splitlines()
        for _ in range(data.draw(st.integers(1, 6))):
            at = data.draw(st.integers(0, len(rows) - 1))
            match data.draw(st.sampled_from(["line", "end", "inside"])):
                case "line":
                    rows.insert(at, "" if data.draw(st.booleans()) else "   ")
                case "end":
                    rows[at] += "  "
                case _:
                    rows[at] = re.sub(r"(?<=\S) +(?=\S)", "   ", rows[at], count=1)
        ending = data.draw(st.sampled_from(["\n", "\r\n"]))
        assert said(reviewed(path, ending.join(rows) + ending)) == unchanged(path)


def _acids(document: Document) -> list[int]:
    """The lines of acid that every reader of the formula would add: not optional, no alternative, for the batch."""
    return [
        number
        for number, line in enumerate(document.take)
        if line.role == "acid"
        and line.amount is not None
        and not (line.amount.some or line.amount.per or line.flags or line.other or line.made_of)
        and all(part.unit in UNITS and part.pack is None for part in line.amount.parts)
    ]


SOUR = [path for path in FILES if _acids(original(path))]


def _with_acid(document: Document, number: int, factor: Fraction) -> Document:
    """A formula with one line of acid changed, in millilitres or grams to three digits."""
    line = document.take[number]
    assert line.amount is not None
    metric = []
    for part in line.amount.parts:
        unit, many = next(one for one in [(part.unit, Fraction(1)), *UNITS[part.unit]] if one[0] in ("ml", "g"))
        low, high = (three_digits(end * many * factor) for end in (part.low, part.high))
        metric.append(Measure(low, high, unit))
    line = replace(line, amount=Amount(tuple(metric)))
    return replace(document, take=(*document.take[:number], line, *document.take[number + 1 :]))


class TestAcid:
    """More of the acid that is there never makes too little of it; clearly less always does."""

    @settings(max_examples=75)
    @given(st.sampled_from(SOUR), st.data(), st.integers(101, 300))
    def test_more_is_enough(self, path: Path, data: st.DataObject, percent: int) -> None:
        own = adapted(path)
        number = data.draw(st.sampled_from(_acids(own)))
        review = reviewed(path, written(_with_acid(own, number, Fraction(percent, 100))))
        held = [one.row for one in review.findings if one.level in HOLDING and one.rule.startswith("acid/")]
        assert held == []

    @settings(max_examples=75)
    @given(st.sampled_from(SOUR), st.data(), st.integers(5, 94))
    def test_less_holds_back(self, path: Path, data: st.DataObject, percent: int) -> None:
        own = adapted(path)
        number = data.draw(st.sampled_from(_acids(own)))
        review = reviewed(path, written(_with_acid(own, number, Fraction(percent, 100))))
        assert review.held_back


class TestAnyBytes:
    """Whatever a file holds, the answer is findings; the program never stops with an exception."""

    @staticmethod
    def _review(data: bytes, path: Path) -> Reviewed:
        texts = {"t.formula": path.read_text(encoding="utf-8"), "a.formula": "formula AD-1 A\n"}
        shelf = shelf_of(texts, TODAY, Settings(), ["t.formula"])
        book = Book("a.formula", "AD-1", data=data)
        return review_one(replace(shelf, formulas=(book,)), book)

    @settings(max_examples=100)
    @given(st.binary(max_size=600), formulas)
    def test_raw_bytes(self, data: bytes, path: Path) -> None:
        review = self._review(data, path)
        assert review.findings
        assert all(one.row != "rule-failed" for one in review.findings)

    @settings(max_examples=90)
    @given(formulas, st.data())
    def test_damaged_formula(self, path: Path, data: st.DataObject) -> None:
        good = bytearray(printed(adapted(path)).encode("utf-8"))
        for _ in range(data.draw(st.integers(1, 8))):
            at = data.draw(st.integers(0, len(good) - 1))
            end = min(len(good), at + data.draw(st.integers(0, 12)))
            good[at:end] = data.draw(
                st.binary(max_size=6) | st.sampled_from([b"\n", b"1/0", b"9" * 30, b" = ", b"some"])
            )
            assume(good)
        review = self._review(bytes(good), path)
        assert all(one.row != "rule-failed" for one in review.findings)

    @settings(max_examples=60)
    @given(st.text(max_size=300), formulas)
    def test_any_text_through_a_shelf(self, text: str, path: Path) -> None:
        assume(not any("\ud800" <= letter <= "\udfff" for letter in text))
        review = reviewed(path, text)
        assert review.findings
