"""A fingerprint stays when lines move, layout changes or a sentence is reworded, and changes with everything else."""

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import fields, replace

from brimline.findings import Figure, Finding, Harm, Level, Place, Source, Span, Variance
from brimline.review import review
from brimline.review.fingerprint import counted, fingerprint
from brimline.shelf import shelf_of

DAY = date(2026, 11, 27)
FORMULAS = Path(__file__).parents[2] / "formulas"
TESTED = {
    path.relative_to(FORMULAS).as_posix(): path.read_text(encoding="utf-8")
    for path in sorted((FORMULAS / "tested").glob("*.formula"))
}
LESSONS = {path.name: path.read_text(encoding="utf-8") for path in sorted((FORMULAS / "classroom").glob("*.formula"))}

FINDING = Finding(
    at=Place("a.formula", Span(120, 130)),
    level=Level.UNSAFE,
    rule="acid/cut",
    harm=Harm.ILLNESS,
    says="This one adds half of it.",
    why="",
    instead="",
    formula="KV-1",
    row="acid-cut",
    line=9,
    field="/take/lemon-juice",
)
# What a fingerprint is made of, and what it must not know of; together these are all a finding has.
IN_IT: dict[str, object] = {
    "level": Level.UNTESTED,
    "rule": "acid/dropped",
    "row": "acid-dropped",
    "certain": False,
    "field": "/take/vinegar",
    "ordinal": 2,
}
NOT_IN_IT: dict[str, object] = {
    "at": Place("b/other.formula", Span(3, 4)),
    "harm": Harm.RECORD,
    "says": "Other words.",
    "why": "Another reason.",
    "instead": "another way out",
    "formula": "KV-2",
    "line": 77,
    "column": 5,
    "section": "pack",
    "before": Place("c.formula", Span(0, 1)),
    "before_line": 4,
    "copy": "acid 2 tbsp lemon juice, bottled",
    "figures": (Figure("acid left", "0.5", ""),),
    "sources": (Source("x", "A guide", "p. 1", "read"),),
    "varied": Variance("acid/cut", "KV-1", "m1-0", "a letter", "food safety educator", "2027-01-31"),
}


def prints(text: str, path: str = "lesson.formula") -> list[str]:
    """The fingerprints of a lesson reviewed beside all tested formulas, in order of their text."""
    shelf = shelf_of({**TESTED, path: text}, DAY, known=TESTED)
    return sorted(fingerprint(one.code, finding) for one in review(shelf).formulas for finding in one.findings)


def test_every_attribute_is_decided_on() -> None:
    assert {one.name for one in fields(Finding)} == {*IN_IT, *NOT_IN_IT}


@pytest.mark.parametrize("name", sorted(IN_IT))
def test_changes_with(name: str) -> None:
    assert fingerprint("KV-1", replace(FINDING, **{name: IN_IT[name]})) != fingerprint("KV-1", FINDING)


@pytest.mark.parametrize("name", sorted(NOT_IN_IT))
def test_knows_nothing_of(name: str) -> None:
    assert fingerprint("KV-1", replace(FINDING, **{name: NOT_IN_IT[name]})) == fingerprint("KV-1", FINDING)


def test_another_formula_has_another_fingerprint() -> None:
    assert fingerprint("KV-1", FINDING) != fingerprint("KV-11", FINDING)


def test_without_a_code_the_path_says_whose_it_is() -> None:
    moved = replace(FINDING, at=Place("b.formula", Span(0, 1)))
    assert fingerprint("", moved) != fingerprint("", FINDING)
    assert fingerprint("", replace(FINDING, at=Place("\udcff.formula", Span(0, 1)))).startswith("v1:")


def test_a_path_cannot_pass_for_a_code() -> None:
    assert fingerprint("", replace(FINDING, at=Place("KV-1", Span(0, 1)))) != fingerprint("KV-1", FINDING)


@given(st.lists(st.sampled_from([FINDING, replace(FINDING, says="x"), replace(FINDING, certain=False)]), max_size=8))
def test_no_two_findings_of_a_formula_share_a_fingerprint(several: list[Finding]) -> None:
    made = [fingerprint("KV-1", one) for one in counted(several)]
    assert len(set(made)) == len(several)
    assert counted(counted(several)) == counted(several)


def test_every_lesson_has_distinct_fingerprints() -> None:
    seen = [one for name, text in LESSONS.items() for one in prints(text, name)]
    assert len(seen) > 30
    assert len(set(seen)) == len(seen)


def scattered(text: str, draw: Callable[[st.SearchStrategy[int]], int]) -> str:
    """The same formula with blank lines, comments, wider indents and other line ends."""
    out = []
    for whole in text.split("\n"):
        line, choice = whole, draw(st.integers(0, 7))
        if choice == 0:
            out.append("")
        elif choice == 1:
            out.append("# a remark that was not there before")
        elif choice == 2 and line.strip() and "#" not in line:
            line += "   # beside it"
        elif choice == 3 and line.startswith(" ") and not line.strip().startswith(("or", "from", "note")):
            line = "    " + line
        out.append(line)
    return ("\n", "\r\n")[draw(st.integers(0, 1))].join(out)


@settings(max_examples=40, deadline=None)
@given(st.data(), st.sampled_from(sorted(LESSONS)))
def test_layout_is_no_matter(data: st.DataObject, name: str) -> None:
    text = LESSONS[name]
    assert prints(scattered(text, data.draw)) == prints(text)


@settings(max_examples=30, deadline=None)
@given(st.data(), st.sampled_from(sorted(LESSONS)))
def test_the_order_of_ingredients_is_no_matter(data: st.DataObject, name: str) -> None:
    head, take, rest = LESSONS[name].partition("\ntake\n")
    body, blank, end = rest.partition("\n\n")
    blocks: list[str] = []
    for line in body.split("\n"):
        if line.startswith("    ") and blocks:
            blocks[-1] += "\n" + line
        else:
            blocks.append(line)
    mixed = "\n".join(data.draw(st.permutations(blocks)))
    assert prints(head + take + mixed + blank + end) == prints(LESSONS[name])


def test_a_file_that_moves_keeps_its_fingerprints() -> None:
    for name, text in LESSONS.items():
        assert prints(text, f"elsewhere/{name}") == prints(text, name)


BROKEN = """formula A-1 Broken
product   jam
standing  tested
take
  fruit      4 cup   loganberries, crushed
  sweetener  4 cupz  sugar
  sweetener  3 cupz  honey
make
  - Boil.
pack
  jar        pint
"""


def test_a_line_that_cannot_be_read_is_known_by_its_first_word() -> None:
    found = review(shelf_of({"a.formula": BROKEN}, DAY)).formulas[0].findings
    assert [(one.field, one.ordinal) for one in found if one.section == "take"] == [
        ("/take/sweetener", 1),
        ("/take/sweetener", 2),
    ]
    assert prints(BROKEN.replace("formula A-1", "\n\n# words\nformula A-1")) == prints(BROKEN)


@pytest.mark.parametrize(
    ("lesson", "field"),
    [
        ("kv-304.formula", "/process/boiling-water/pint/to-1000-ft"),
        ("kv-301.formula", "/take/sugar"),
    ],
)
def test_fields_name_section_and_item(lesson: str, field: str) -> None:
    shelf = shelf_of({**TESTED, lesson: LESSONS[lesson]}, DAY, known=TESTED)
    assert field in {one.field for one in review(shelf).formulas[0].findings}
