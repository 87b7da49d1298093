"""An adaptation beside its tested formula."""

import pytest
from msgspec.structs import replace

from brimline.findings import Level
from brimline.report.look import Look, cells
from brimline.report.table import table
from brimline.report.words import NOTICE, WHAT_IT_DOES
from brimline.review.values import Comparison


def flat(text: str) -> str:
    return " ".join(text.split())


def test_the_table_names_both_formulas_the_scale_and_what_the_acid_is_for(comparison) -> None:
    text = flat(table(comparison, Look()))
    for part in ("KV-214", "KV-114 Fig jam", "read at 1.00 of its batch", "protects against illness"):
        assert part in text


def test_each_move_has_its_five_cells_in_one_row(comparison) -> None:
    lines = table(comparison, Look(width=100)).splitlines()
    head = next(n for n, line in enumerate(lines) if line.startswith("subject"))
    starts = [lines[head].index(word) for word in ("subject", "tested", "here", "change", "what it means")]
    cells_of = [lines[head + 2][a:b].strip() for a, b in zip(starts, [*starts[1:], 200], strict=True)]
    assert [bool(cell) for cell in cells_of] == [True] * 5
    assert cells_of[0] == "added acid"
    assert cells_of[1].startswith("4.1 g")
    assert cells_of[2] == "none, line 7"
    assert cells_of[3] == "-100 %"
    assert cells_of[4].startswith("unsafe")


def test_a_move_that_the_formula_does_not_own_up_to_is_marked(comparison) -> None:
    moves = table(comparison, Look(width=60)).partition("added acid")[2].partition("sweetener")
    assert "not listed under changes" in flat(moves[0])
    assert "not listed" not in flat(moves[2])


@pytest.mark.parametrize("width", [40, 60, 72, 80, 100])
def test_no_line_is_wider_than_the_screen(comparison, width: int) -> None:
    printed = table(comparison, Look(width=width))
    assert all(cells(line) <= width for line in printed.splitlines())
    assert "-100 %" in printed


def test_held_back_or_not_is_said_with_what_the_tool_cannot_do(comparison, reviewed) -> None:
    held = flat(table(comparison, Look()))
    assert "Held back: 1 unsafe." in held
    assert NOTICE in held
    clean = flat(table(Comparison(reviewed(), "KV-114", "Fig jam", "1.00", "sets", ()), Look()))
    assert "No change in anything that is compared. Not held back." in clean
    assert WHAT_IT_DOES in clean
    assert NOTICE not in clean


def test_a_finding_that_no_move_names_is_listed_below(comparison, finding, reviewed) -> None:
    share = finding(rule="sugar/cut", level=Level.UNTESTED, says="Sugar falls for the same fruit.", line=8)
    both = replace(comparison, reviewed=reviewed(finding(), share))
    text = flat(table(both, Look()))
    assert "Also found: untested sugar/cut, line 8: Sugar falls for the same fruit." in text
    assert text.count("acid/dropped") == 1
    assert "Also found" not in table(comparison, Look())


def test_a_formula_that_departs_from_none_says_so(reviewed) -> None:
    alone = Comparison(reviewed(departs_from="", scale=""), "", "", "", "", ())
    assert "no tested formula to compare with" in table(alone, Look())
