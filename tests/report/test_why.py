"""The page of a rule and the list of all of them."""

import pytest

from brimline.figures.values import Row
from brimline.findings import Source
from brimline.report.look import Look, cells
from brimline.report.why import Example, Reason, contents, page
from brimline.report.writing import BEFORE_RULES

ROW = Row(
    id="acid-cut",
    edit="added acid per base cut by more than 2 %",
    levels=(("protects", "unsafe"), ("doubtful", "untested"), ("sets", "untested")),
    harms=(("", "illness"),),
    basis=(Source("vinegar", "A published guide", "page 5", "read"), Source("own", "own", "", "judgement")),
    side="edit",
    kinds=("salsa",),
    note="",
    **({"advice": "keep it"} if "advice" in Row.__slots__ else {}),  # the table may give advice with each row
)
REASON = Reason(
    "acid/cut",
    "Every kilogram that the acid must protect gets at least the acid of the tested formula.",
    "Less acid can lift the pH to where the spores that cause botulism grow.",
    (ROW,),
    (
        Example("acid  1/4 cup  lemon juice, bottled", bad=True, shows="half the acid"),
        Example("acid  8 tbsp   lemon juice, bottled", bad=False, shows="the same in spoons"),
    ),
)


def flat(text: str) -> str:
    return " ".join(text.split())


def test_a_page_says_what_must_hold_why_what_is_decided_on_whose_word_and_shows_both_examples() -> None:
    text = flat(page(REASON, Look()))
    places = [
        text.index(part)
        for part in (
            "acid/cut",
            REASON.must,
            REASON.why,
            "acid-cut: Added acid per base cut",
            "unsafe where the acid protects",
            "A published guide, page 5.",
            "Our judgement, on the cautious side",
            "Flagged Half the acid.",
            "1/4 cup",
            "Accepted The same in spoons.",
            "8 tbsp",
        )
    ]
    assert places == sorted(places)


def test_the_list_has_every_rule_once_under_its_group() -> None:
    lines = contents((*BEFORE_RULES, REASON), Look()).splitlines()
    groups = [line.partition(":")[0] for line in lines]
    assert [group for group in groups if group in {"evidence", "writing", "acid"}] == ["evidence", "writing", "acid"]
    for reason in (*BEFORE_RULES, REASON):
        assert sum(line.split()[:1] == [reason.name] for line in lines) == 1


@pytest.mark.parametrize("width", [40, 80, 100])
def test_no_line_is_wider_than_the_screen(width: int) -> None:
    printed = page(REASON, Look(width=width)) + contents((*BEFORE_RULES, REASON), Look(width=width))
    assert all(cells(line) <= width for line in printed.splitlines())


def test_what_is_found_before_any_rule_has_a_name_what_must_hold_and_why() -> None:
    assert len({reason.name for reason in BEFORE_RULES}) == len(BEFORE_RULES)
    for reason in BEFORE_RULES:
        assert reason.must
        assert reason.why
