"""Any document the format can write is written, read back the same, and neat as it comes."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from msgspec.structs import replace
from neat.strategies import NOWHERE, bare, documents

from brimline.document import read
from brimline.document.neat import neaten
from brimline.document.printer import UnprintableError, amount, printed
from brimline.document.same import difference
from brimline.document.values import Amount, Document, Evidence, Finish, Header, Line, Measure, Packing, Per, Step
from brimline.findings import Level


def so_much(number: str, unit: str = "cup") -> Amount:
    return Amount((Measure(Fraction(number), Fraction(number), unit),))


def plain_line(item: str = "plums", how_much: Amount | None = None, **more: object) -> Line:
    how_much = how_much or so_much("4")
    return Line("fruit", how_much, item, (), NOWHERE, NOWHERE, NOWHERE, **more)


def formula(**parts: object) -> Document:
    return Document("a.formula", code="KV-1", title="Plum jam", standing="draft", **parts)


@given(documents())
def test_a_document_printed_and_read_is_the_same(document: Document) -> None:
    text = printed(document)
    again = read("a.formula", text.encode())
    assert again.document is not None
    assert bare(again.document) == bare(document)
    assert [one.says for one in again.findings if one.rule != "writing/shape" and one.level is Level.UNREADABLE] == []
    assert printed(again.document) == text
    assert neaten("a.formula", text.encode()).is_neat


@settings(max_examples=20)
@given(documents(), documents())
def test_two_documents_differ_exactly_if_what_they_say_differs(one: Document, other: Document) -> None:
    first, second = (read("a.formula", printed(document).encode()) for document in (one, other))
    assert difference(first, first) == ""
    differs = difference(replace(first, findings=()), replace(second, findings=()))
    assert bool(differs) == (bare(one) != bare(other))


def test_every_part_of_a_document_is_compared() -> None:
    before = read("a.formula", printed(formula(take=(plain_line(),), make=(Step("Wash.", NOWHERE),))).encode())
    assert before.document is not None
    for change in (
        {"code": "KV-2"},
        {"title": "Plum jelly"},
        {"standing": "tested"},
        {"take": (plain_line("damsons"),)},
        {"take": (plain_line(flags=("optional",)),)},
        {"take": (plain_line(note=("ripe",)),)},
        {"take": (plain_line(how_much=so_much("5")),)},
        {"make": (Step("Wash well.", NOWHERE),)},
        {"pack": Packing(fill=Header("hot", NOWHERE), span=NOWHERE)},
        {"evidence": (Evidence("source", "source a book", NOWHERE),)},
        {"comments": ((1, "not tested"),)},
    ):
        changed = replace(before, document=replace(before.document, **change))
        assert difference(before, changed), change


@pytest.mark.parametrize(
    "document",
    [
        formula(take=(plain_line(how_much=so_much("7/27")),)),
        formula(take=(plain_line(how_much=so_much("100000", "g")),)),
        formula(take=(plain_line("pectin no. 2"),)),
        formula(take=(plain_line("plums, ripe"),)),
        formula(take=(plain_line("per piece"),)),
        formula(take=(plain_line("juice of plums", Amount((), some=True), flags=("infused", "optional")),)),
        formula(take=(plain_line("juice pulp", replace(so_much("1", "g"), per=Per(Fraction(1), "kg", ""))),)),
        formula(take=(plain_line(note=("ripe  # or not",)),)),
        formula(make=(Step("Fill.\n- Invert.", NOWHERE),)),
        formula(make=(Step("Fill.  # Invert.", NOWHERE),)),
        formula(finish=Finish("rolling", NOWHERE, Fraction(1, 7), Fraction(1, 7))),
        replace(formula(), title=""),
        replace(formula(), title="Plum\u202ejam"),
    ],
)  # fmt: skip
def test_what_the_format_cannot_say_exactly_is_refused(document: Document) -> None:
    with pytest.raises(UnprintableError):
        printed(document)


@pytest.mark.parametrize(
    ("low", "unit", "written"),
    [
        ("11/2", "cup", "5 1/2 cup"),
        ("3/2", "kg", "1.5 kg"),
        ("1/4", "l", "0.25 l"),
        ("7/3", "kg", "2 1/3 kg"),
        ("3/16", "tsp", "3/16 tsp"),
        ("13/10", "cup", "1.3 cup"),
        ("1", "cup", "1 cup"),
    ],
)
def test_numbers_are_written_as_kitchens_do(low: str, unit: str, written: str) -> None:
    assert amount(so_much(low, unit)) == written
