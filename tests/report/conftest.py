"""Findings and reviews to print, made up for these tests; the sentences are the trade's, the figures are not used."""

from collections.abc import Callable
from typing import Any

import pytest

from brimline.findings import Figure, Finding, Harm, Level, Place, Source, Span
from brimline.review.values import Comparison, MoveRow, Refusal, Review, Reviewed

Make = Callable[..., Any]

# Texts that steer terminals, logs, markup and eyes: control sequences, title and clipboard tricks, log commands,
# direction marks, invisible letters, stray bytes, line ends of every kind.
HOSTILE = (
    "\x1b[2K\x1b[1A0 held back",
    "\x1b]0;title\x07\x1b]52;c;QUJD\x07",
    "a\rb\x08\x7f\x00",
    "\x9b31m\x85\u2028next\u2029line",
    "one\n::error file=x::two\n",
    "::add-mask::x",
    "##[error]x",
    "\u202e\u2066abc\u2069\u200b\u200d\ufeff\u00ad\U000e0041",
    "odd\udcff",
    "<script>alert(1)</script> & `x` | $(reboot) %0A",
)


@pytest.fixture(params=HOSTILE)
def hostile(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture
def finding() -> Make:
    def make(**changes: Any) -> Finding:
        usual: dict[str, Any] = {
            "at": Place("adapted/kv-214.formula", Span(40, 50)),
            "level": Level.UNSAFE,
            "rule": "acid/dropped",
            "harm": Harm.ILLNESS,
            "says": "The tested formula adds 4.1 g acid (as citric) per kg of fruit; this one adds none.",
            "why": "Figs are not acid enough by themselves; too little acid lets the spores that cause botulism grow.",
            "instead": "keep the tested amount, or keep the batch refrigerated or frozen",
            "formula": "KV-214",
            "row": "acid-dropped",
            "line": 7,
            "column": 3,
            "section": "take",
            "sources": (Source("guide", "A published guide", "section 2, page 5", "read"),),
        }
        return Finding(**{**usual, **changes})

    return make


@pytest.fixture
def reviewed() -> Make:
    def make(*findings: Finding, **changes: Any) -> Reviewed:
        usual: dict[str, Any] = {
            "path": "adapted/kv-214.formula",
            "code": "KV-214",
            "title": "Fig jam, no lemon",
            "standing": "adapted",
            "departs_from": "KV-114",
            "root": "KV-114",
            "scale": "1.00",
            "held_back": any(one.level.holds_back for one in findings),
            "findings": findings,
        }
        return Reviewed(**{**usual, **changes})

    return make


@pytest.fixture
def hostile_review(finding: Make, reviewed: Make) -> Callable[[str], Review]:
    """A review in which every text that an author can choose is the same hostile one."""

    def make(text: str) -> Review:
        one = finding(
            at=Place(text, Span(0, 1)),
            level=Level.UNREADABLE,
            says=text,
            why=text,
            instead=text,
            formula=text,
            section=text,
            copy=text,
            certain=False,
            before=Place(text, Span(0, 1)),
            before_line=2,
            figures=(Figure(text, text, text),),
            sources=(Source(text, text, text, "memory"),),
        )
        whole = reviewed(one, path=text, code=text, title=text, departs_from=text, root=text, scale=text)
        return Review((whole,), (Refusal(text, text, text),), (text,), (text,))

    return make


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
