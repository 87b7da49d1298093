"""One line per finding, in the form of the GNU coding standards: file:line:column: message."""

import re

import pytest
from report_making import make_variance

from brimline.findings import Level, Place, Span
from brimline.report.lines import lines
from brimline.report.look import Look
from brimline.review.values import Review

# GNU coding standards, "Formatting Error Messages": sourcefile:lineno:column: message
GNU = re.compile(r"(?P<file>.+?):(?P<line>[1-9]\d*):(?P<column>[1-9]\d*): (?P<message>.+)")


def test_every_finding_is_one_line(finding, reviewed) -> None:
    review = Review((reviewed(finding(), finding(level=Level.FORM, rule="kind/jam", line=0, column=0)),))
    printed = lines(review, Look()).splitlines()
    found = [GNU.fullmatch(line) for line in printed]
    assert [one and one.group("file", "line", "column") for one in found] == [
        ("adapted/kv-214.formula", "7", "3"),
        ("adapted/kv-214.formula", "1", "1"),
    ]
    assert "unsafe acid/dropped: The tested formula adds 4.1 g" in printed[0]
    assert "Instead: Keep the tested amount" in printed[0]


def test_the_file_can_be_opened_from_where_one_stands(finding, reviewed) -> None:
    assert lines(Review((reviewed(finding()),)), Look(prefix="../f/")).startswith("../f/adapted/kv-214.formula:7:3: ")


@pytest.mark.parametrize(
    ("inside", "path"), [("adapted", "kv-214.formula"), ("tested/old", "../../adapted/kv-214.formula")]
)
def test_no_way_leads_out_of_a_folder_and_in_again(finding, reviewed, inside: str, path: str) -> None:
    look = Look(prefix="../", inside=inside)
    assert lines(Review((reviewed(finding()),)), look).startswith(f"{path}:7:3: ")


def test_a_pipe_keeps_its_name(finding, reviewed) -> None:
    one = reviewed(finding(at=Place("<stdin>", Span(0, 1))), path="<stdin>")
    assert lines(Review((one,)), Look(prefix="f/")).startswith("<stdin>:7:3: ")


def test_doubt_and_the_line_to_write_are_said(finding, reviewed) -> None:
    printed = lines(Review((reviewed(finding(certain=False, copy="  acid 1/2 cup lemon juice, bottled")),)), Look())
    assert ": may be unsafe acid/dropped: " in printed
    assert "Write: acid 1/2 cup lemon juice, bottled" in printed


def test_a_clean_review_prints_nothing(reviewed) -> None:
    assert lines(Review((reviewed(),)), Look()) == ""


def test_the_gravest_come_first_among_very_many(finding, reviewed) -> None:
    forms = tuple(reviewed(finding(level=Level.FORM), path=f"a{n}") for n in range(500))
    unsafe = reviewed(finding(at=Place("z.formula", Span(0, 1))), path="z.formula")
    assert lines(Review((*forms, unsafe)), Look()).startswith("z.formula:7:3: unsafe")


@pytest.mark.parametrize("path", ["::warning::x", "-o", ":x"])
def test_a_name_cannot_make_the_line_something_else(finding, reviewed, path: str) -> None:
    printed = lines(Review((reviewed(finding(at=Place(path, Span(0, 1))), path=path),)), Look())
    assert printed.startswith(f"./{path}:7:3: ")


def test_what_is_let_stand_says_so(finding, reviewed) -> None:
    printed = lines(Review((reviewed(finding(varied=make_variance())),)), Look())
    assert "It stands until 2027-03-31 by a variance of the collection curator" in printed
