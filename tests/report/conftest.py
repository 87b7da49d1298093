"""What `report_making` makes, as fixtures, and a comparison."""

from collections.abc import Callable
from typing import Any

import pytest
from report_making import HOSTILE, hostile_review, make_finding, make_reviewed

from brimline.review.values import Comparison, MoveRow, Review

Make = Callable[..., Any]


@pytest.fixture(params=HOSTILE)
def hostile(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture
def finding() -> Make:
    return make_finding


@pytest.fixture
def reviewed() -> Make:
    return make_reviewed


@pytest.fixture(name="hostile_review")
def hostile_review_fixture() -> Callable[[str], Review]:
    return hostile_review


@pytest.fixture
def comparison(finding: Make, reviewed: Make) -> Comparison:
    moves = (
        MoveRow(
            "added acid",
            "4.1 g (as citric) per kg of fruit",
            "none",
            "-100 %",
            "unsafe: acid/dropped; too little acid lets the spores that cause botulism grow",
            False,
            7,
            9,
        ),
        MoveRow("sweetener", "6 cup", "6 cup", "same", "nothing in the table holds it back", True, 8, 8),
    )
    return Comparison(reviewed(finding()), "KV-114", "Fig jam", "1.00", "protects", moves)
