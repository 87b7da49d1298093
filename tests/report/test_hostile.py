"""Every way of printing meets every hostile text."""

import json
import re
import unicodedata

import pytest

from brimline.report.data import review_data
from brimline.report.lines import lines
from brimline.report.look import Look
from brimline.report.people import people
from brimline.report.table import table
from brimline.review.values import Comparison, MoveRow

_COLOUR = re.compile("\x1b\\[[0-9;]*m")


def check(printed: str) -> None:
    unseen = {"Cc", "Cf", "Cs", "Zl", "Zp"}
    assert not [letter for letter in printed.replace("\n", "") if unicodedata.category(letter) in unseen]
    assert not [line for line in printed.split("\n") if line.lstrip().startswith("::")]
    assert "##[" not in printed


@pytest.mark.parametrize("colour", [False, True])
def test_text_and_lines_and_table(hostile_review, hostile: str, colour: bool) -> None:
    review = hostile_review(hostile)
    look = Look(colour=colour, written=lambda *_: hostile, prefix="f/")
    move = MoveRow(*(hostile,) * 5, False, 3, 4)
    compared = Comparison(review.formulas[0], *(hostile,) * 4, (move,))
    for printed in (people(review, look), table(compared, look), lines(review, look)):
        check(_COLOUR.sub("", printed) if colour else printed)
    assert "\x1b" not in lines(review, look)


def test_json_keeps_the_text_exactly_and_is_ascii(hostile_review, hostile: str) -> None:
    printed = review_data(hostile_review(hostile), "brimline")
    assert printed.isascii()
    assert not [letter for letter in printed if letter < " " and letter != "\n"]
    kept = json.loads(printed)["formulas"][0]["title"]
    # Half characters cannot be kept: JSON has no way to write a byte that is not text.
    assert kept == re.sub("[\ud800-\udfff]", "?", hostile)
