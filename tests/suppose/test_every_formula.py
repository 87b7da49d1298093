"""Every kind of edit on every formula: an answer in two sentences, never a go-ahead, never a fault."""

import re

import pytest
from suppose.desk import found, shelf

from brimline.review.suppose.answer import answered
from brimline.review.suppose.judging import EDITS
from brimline.review.suppose.patterns import understood
from brimline.review.suppose.values import Answer, AskError

WORDS = (
    "half the sugar", "a third less sugar", "no sugar", "1 tbsp less sugar", "honey", "honey for a third",
    "corn syrup for a quarter of the sugar", "low-sugar sweetener", "brown sugar instead of sugar", "no lemon", "no acid",
    "fresh lemon", "half the vinegar", "lime juice for lemon juice", "vinegar for lemon juice", "more lemon juice",
    "water for the vinegar", "add 2 jalapenos", "add 1 tsp basil", "add basil", "add 1 tsp cinnamon", "add walnuts",
    "thicken with cornstarch", "hot peppers for sweet peppers", "half the onions", "no salt", "no butter", "frozen fruit",
    "other pectin", "liquid pectin", "low-sugar pectin", "no pectin", "double", "1 1/2 batches", "half a batch",
    "pint jars", "quart", "4 oz jars", "12 oz jars", "300 ml jars", "smaller jars", "larger jars", "half-gallon",
    "5,200 ft", "1600 m", "between 4,000 and 6,500 ft", "12,000 ft", "steam canner", "pressure canner", "no processing",
    "oven", "turn the jars upside down", "freeze it", "refrigerate it", "5 minutes less", "half the time",
    "10 minutes more", "wax", "old lids", "clean jars", "raw pack", "1/2 inch headspace", "it did not set",
    "grandmother's recipe", "may I sell it", "it did not seal", "mold on top", "how long does it keep", "for a baby",
    "half the sugar, pint jars and double at 5,200 ft", "no lemon and honey for half the sugar in 4 oz jars",
)  # fmt: skip
TESTED = [(book.code, n) for n, book in enumerate(shelf("formulas/tested").formulas)]
PUBLISHED = [(book.code, n) for n, book in enumerate(shelf("tests/published").formulas)]
# Each published formula meets a quarter of the edits and each edit a quarter of the formulas.
QUARTER = 4
GO_AHEAD = re.compile(r"\b(?:yes|safe|safely|go ahead|fine to|all right to|ok(?:ay)? to)\b", re.IGNORECASE)
ENDS = re.compile(r"[.!?](?=\s+[A-Z]|\s*$)")


def answers(code: str, words: str) -> tuple[Answer, ...]:
    place, book = found(code)
    try:
        return answered(place, book, words).answers
    except AskError as refused:
        # A draft has nothing to compare with, and a spoon cannot be taken from less than a spoon: both are told.
        if re.search(r"is a draft|has only|ask for a share|measures its|no smaller jar", str(refused)):
            return ()
        raise


def faults(given: Answer, code: str, words: str) -> list[str]:
    text = " ".join([*given.says, given.instead, *(says for _, says in given.also)])
    held = given.verdict in ("unsafe", "untested", "unreadable")
    checks = {
        "a go-ahead": not GO_AHEAD.search(text),
        "two sentences": [len(ENDS.findall(one)) for one in given.says] == [1, 1],
        "no source": bool(given.sources),
        "no choice": bool(given.instead),
        "keeping what was tested is no choice": bool(
            re.search(r"tested|keep|leave it out|use boiling water", given.instead)
        )
        or given.verdict == "talk",
        "verdict and review differ": given.held_back is held,
        "a rule failed": not given.reviewed or all(one.row != "rule-failed" for one in given.reviewed.findings),
        "not readable": given.verdict != "unreadable",
        "a slot": "{" not in text and "  " not in text and "( " not in text,
    }
    return [f"{code}, {words}: {what}: {text}" for what, fine in checks.items() if not fine]


@pytest.mark.parametrize(("code", "number"), TESTED, ids=[code for code, _ in TESTED])
def test_every_edit_of_a_tested_formula_is_answered(code: str, number: int) -> None:
    del number
    found_faults = [fault for words in WORDS for given in answers(code, words) for fault in faults(given, code, words)]
    assert found_faults == []


@pytest.mark.parametrize(("code", "number"), PUBLISHED, ids=[code for code, _ in PUBLISHED])
def test_edits_of_a_published_formula_are_answered(code: str, number: int) -> None:
    some = [words for place, words in enumerate(WORDS) if (place + number) % QUARTER == 0]
    assert [fault for words in some for given in answers(code, words) for fault in faults(given, code, words)] == []


def test_every_kind_of_edit_is_among_them() -> None:
    asked = {one.kind for words in WORDS if (one := understood(words.lower().replace("-", " ").replace(",", "")))}
    assert {*EDITS, "talk"} - asked <= {"name"}
