"""Markdown for a comment: read back by a Markdown reader that lets markup and links through, so that none may be in it."""

import re
from collections.abc import Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt
from markdown_it.token import Token
from report_making import HOSTILE, handed, hostile_review, make_finding, make_reviewed, make_variance

from brimline.findings import Level, Place, Span
from brimline.report.comment import MOST, comment
from brimline.report.escaping import code_span, markdown
from brimline.report.words import NOTICE, WHAT_IT_DOES
from brimline.review.values import Refusal, Review

# Everything switched on that hosts switch on: markup, tables, struck-out text.
READER = MarkdownIt("commonmark", {"html": True}).enable(["table", "strikethrough"])
OURS = {"heading", "paragraph", "bullet_list", "list_item", "table", "thead", "tbody", "tr", "th", "td", "blockquote"}


def tokens(text: str) -> Iterator[Token]:
    for token in READER.parse(text):
        yield token
        yield from token.children or []


def kinds(text: str) -> set[str]:
    return {token.type.removesuffix("_open").removesuffix("_close") for token in tokens(text)}


def plain(text: str) -> str:
    """What a reader of the rendered text reads in one paragraph."""
    said = ""
    for token in tokens(text):
        if token.type in {"text", "code_inline"}:
            said += token.content
    return said


def blocks(text: str) -> list[tuple[str, str, int]]:
    return [(token.type, token.tag, token.level) for token in READER.parse(text) if token.type != "inline"]


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_texts_stay_texts(text: str) -> None:
    printed = comment(handed(hostile_review(text)))
    assert blocks(printed) == blocks(comment(handed(hostile_review("jam"))))
    assert kinds(printed) <= {*OURS, "inline", "text", "code_inline", "strong", "hardbreak", "softbreak"}


@given(st.text(st.sampled_from("#-+=*_>|~`1.) \tx<[]"), max_size=8))
def test_no_text_starts_anything_at_the_start_of_a_line(text: str) -> None:
    assert blocks(f"- word\\\n  {markdown(text)} x\n") == blocks("- word\\\n  jam x\n")
    assert blocks(f"word\n{markdown(text)}x\n") == blocks("word\njam x\n")


@pytest.mark.parametrize("text", HOSTILE)
def test_nothing_a_host_would_link_or_announce_stands_outside_a_code_span(text: str) -> None:
    outside = [token.content for token in tokens(comment(handed(hostile_review(text)))) if token.type == "text"]
    assert not [said for said in outside if re.search(r"@|://|www\.|#\w|\$", said)]


@given(st.text(st.characters(min_codepoint=32, max_codepoint=126), max_size=40))
def test_a_text_reads_as_it_was_written(text: str) -> None:
    # Blanks at the ends of a paragraph are no part of it.
    assert plain(f"x{markdown(text)}x") == f"x{text}x"


@given(st.text(st.sampled_from("` a\\|"), min_size=1, max_size=12).filter(lambda text: text.strip()))
def test_a_code_span_holds_backticks_of_any_number(text: str) -> None:
    (span,) = [token for token in tokens(f"x {code_span(text)} x") if token.type == "code_inline"]
    assert span.content.strip() == text.strip()


def test_it_says_what_is_held_back_why_and_what_to_do_instead() -> None:
    printed = comment(handed(Review((make_reviewed(make_finding()), make_reviewed(path="b", code="KV-2")))))
    assert printed.startswith("## 1 of 2 formulas held back\n")
    said = plain(printed)
    for part in (make_finding().says, make_finding().why, "Keep the tested amount", "A published guide", NOTICE):
        assert part in said
    assert WHAT_IT_DOES in said
    assert "my formulas/adapted/kv-214.formula" in said


def test_a_clean_review_says_so_in_few_words() -> None:
    printed = comment(handed(Review((make_reviewed(),), collections=("Kestrel Valley",), notices=("Demonstration.",))))
    assert printed.startswith("## 1 formula reviewed, none held back\n")
    assert "Demonstration." in printed
    assert NOTICE not in plain(printed)


def test_what_is_let_stand_and_what_is_a_draft_is_not_said_to_be_held_back() -> None:
    varied = comment(handed(Review((make_reviewed(make_finding(varied=make_variance())),))))
    assert "letter covers this batch" in varied
    draft = comment(handed(Review((make_reviewed(make_finding(), standing="draft", held_back=False),))))
    for printed in (varied, draft):
        assert "none held back" in printed
        assert "**unsafe" not in printed


def test_it_fits_a_comment_and_says_how_much_does_not() -> None:
    many = [make_finding(level=Level.FORM, at=Place("x", Span(n, n + 1)), says=f"Line {n}.") for n in range(2_000)]
    unsafe = make_finding(at=Place("x", Span(9_000, 9_001)), says="The one that matters.")
    printed = comment(handed(Review((make_reviewed(*many, unsafe),))))
    assert len(printed) <= MOST
    assert "The one that matters." in printed
    shown = len(re.findall(r"^- ", printed, re.MULTILINE))
    (left,) = re.findall(r"\*\*([\d,]+) more findings not shown here", printed)
    assert shown + int(left.replace(",", "")) == 2_001


def test_one_endless_finding_does_not_burst_it() -> None:
    printed = comment(handed(Review((make_reviewed(make_finding(says="x" * 100_000)),))))
    assert len(printed) <= MOST
    assert "1 more finding not shown" in printed


def test_what_was_not_looked_at_is_told() -> None:
    printed = comment(handed(Review((), (Refusal("gone.formula", "is not there", "Check the name."),))))
    assert "- Not looked at: `gone.formula` is not there. Check the name." in printed
