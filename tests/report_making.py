"""Findings and reviews to print, made up for the tests of the reports; the sentences are the trade's, the figures unused."""

from typing import Any

from brimline.findings import Figure, Finding, Harm, Level, Place, Source, Span, Variance
from brimline.report.handed import Handed, Rule
from brimline.review.values import Refusal, Review, Reviewed

# Texts that steer terminals, logs, markup, spreadsheets and eyes: control sequences, title and clipboard tricks, log
# commands, direction marks, invisible letters, stray bytes and half characters, line ends of every kind, markup and
# links of every kind, ends of sections, formulas.
HOSTILE = (
    "\x1b[2K\x1b[1A0 held back",
    "\x1b]0;title\x07\x1b]52;c;QUJD\x07",
    "\x1b]8;;https://example.invalid\x1b\\press\x1b]8;;\x1b\\",
    "a\rb\x08\x7f\x00",
    "\x9b31m\x85\u2028next\u2029line",
    "one\n::error file=x::two\n",
    "::add-mask::x",
    "::stop-commands::x",
    "##[error]x and later ##[add-mask]y",
    "\u202e\u2066abc\u2069\u200b\u200d\ufeff\u00ad\U000e0041\u061c",
    "odd\udcff",
    "half\ud800 other\udfff",
    "<script>alert(1)</script> & `x` | $(reboot) %0A",
    '"><img src=x onerror=alert(1)>',
    "'><svg/onload=alert(1)>",
    "</style><script>alert(1)</script>",
    "]]></failure><testcase name='forged'/><![CDATA[",
    "<!-- --> --> <?xml?> <!DOCTYPE x [<!ENTITY a 'b'>]> &a; &#0; &lt;b&gt;",
    "\ufffe\uffff\x0b\x0c",
    "```\n# heading\n```\n~~~",
    "````` five ` one",
    "[press](javascript:alert(1)) ![pic](https://example.invalid/x.png) <https://example.invalid>",
    "[a]: https://example.invalid\n\n[a]",
    "https://example.invalid www.example.invalid mail@example.invalid @someone #12 $x^2$",
    "# heading\n\n- item\n1. item\n> quote\n***\n| a | b |\n| - | - |",
    "*bold* _it_ ~~gone~~ \\* **x** __y__",
    "<details><summary>0 held back</summary>",
    '=cmd|"/c calc"!A1',
    "+1+1",
    "-1-1",
    "@SUM(1)",
    "\t=1+1",
    "\r=1+1",
    "＝1+1",
    '",=1+1,"',
    "title=x,line=1::forged",
    "C:\\x\\..\\y:1:2 a//b ?q#f %41",
)


def make_finding(**changes: Any) -> Finding:
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
        "field": "/take/lemon-juice",
        "sources": (Source("guide", "A published guide", "section 2, page 5", "read"),),
    }
    return Finding(**{**usual, **changes})


def make_reviewed(*findings: Finding, **changes: Any) -> Reviewed:
    usual: dict[str, Any] = {
        "path": "adapted/kv-214.formula",
        "code": "KV-214",
        "title": "Fig jam, no lemon",
        "standing": "adapted",
        "departs_from": "KV-114",
        "root": "KV-114",
        "scale": "1.00",
        "held_back": any(one.level.holds_back and one.varied is None for one in findings),
        "findings": findings,
    }
    return Reviewed(**{**usual, **changes})


def make_variance(**changes: Any) -> Variance:
    usual: dict[str, Any] = {
        "rule": "acid/dropped",
        "formula": "KV-214",
        "fingerprint": "v1:0",
        "reason": "The process authority's letter covers this batch",
        "role": "collection curator",
        "until": "2027-03-31",
        "letter": "letter 7 in the office file",
        "path": "variances.yaml",
        "line": 4,
    }
    return Variance(**{**usual, **changes})


def hostile_review(text: str) -> Review:
    """A review in which every text that an author can choose is the same hostile one."""
    one = make_finding(
        at=Place(text, Span(0, 1)),
        level=Level.UNREADABLE,
        says=text,
        why=text,
        instead=text,
        formula=text,
        section=text,
        field=text,
        copy=text,
        certain=False,
        before=Place(text, Span(0, 1)),
        before_line=2,
        figures=(Figure(text, text, text),),
        sources=(Source(text, text, text, "memory"),),
    )
    let_stand = make_finding(
        at=Place(text, Span(2, 3)), says=text, varied=make_variance(reason=text, role=text, until=text, path=text)
    )
    lesser = make_finding(at=Place(text, Span(4, 5)), says=text, level=Level.FORM)
    whole = make_reviewed(
        one, let_stand, lesser, path=text, code=text, title=text, departs_from=text, root=text, scale=text
    )
    record = make_reviewed(lesser, path=text, code="", title="", standing="")
    return Review((whole,), (Refusal(text, text, text),), (text,), (text,), (record,))


def handed(review: Review, **changes: Any) -> Handed:
    """A review on its way out of a repository whose collection is the folder `my formulas`."""
    usual: dict[str, Any] = {
        "version": "1.2.3",
        "figures": "2026-01-31",
        "start": "my formulas/",
        "rules": (Rule("acid/dropped", "Acid stays", "It protects", Level.UNSAFE, ("A published guide",)),),
    }
    return Handed(review, **{**usual, **changes})
