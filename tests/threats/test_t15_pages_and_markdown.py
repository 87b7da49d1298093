"""T15: a formula puts markup into a page or a comment: a script, a link, a picture, a forged heading or table."""

import xml.etree.ElementTree as ET
from html.parser import HTMLParser

import pytest
from hostile_run import FORMS, PLACES, run
from markdown_it import MarkdownIt
from report_making import HOSTILE

READER = MarkdownIt("commonmark", {"html": True}).enable(["table", "strikethrough"])
OPEN = {"script", "img", "svg", "iframe", "object", "embed", "form", "input", "link", "base", "details"}


class Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.bad: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        links = [value for name, value in attrs if name in {"href", "src"} and not (value or "").startswith("#f")]
        if tag in OPEN or links or any(name.startswith("on") or name == "style" for name, _ in attrs):
            self.bad.append(f"<{tag} {attrs}>")


@pytest.mark.parametrize("place", PLACES)
def test_no_markup_of_a_formula_is_in_the_page(place: str) -> None:
    for text in HOSTILE:
        reader = Reader()
        reader.feed(FORMS["html"](run(text, place)))
        assert reader.bad == []


@pytest.mark.parametrize("place", PLACES)
def test_no_markup_of_a_formula_is_in_the_comment(place: str) -> None:
    for text in HOSTILE:
        tokens = READER.parse(FORMS["markdown"](run(text, place)))
        inner = [child for token in tokens for child in token.children or []]
        kinds = {token.type.partition("_open")[0] for token in (*tokens, *inner)}
        assert not kinds & {"link", "image", "html_block", "html_inline", "fence", "code_block", "hr", "em", "s"}
        # One heading for the whole, one for the formula, and nothing else stands in a heading.
        assert sum(token.type == "heading_open" for token in tokens) <= 2


@pytest.mark.parametrize("place", PLACES)
def test_no_markup_of_a_formula_is_in_the_xml(place: str) -> None:
    for text in HOSTILE:
        root = ET.fromstring(FORMS["junit"](run(text, place)))
        tags = {element.tag for element in root.iter()}
        assert tags <= {
            *("testsuites", "testsuite", "properties", "property", "testcase", "failure", "error"),
            *("skipped", "system-out"),
        }


def test_the_reader_of_these_tests_sees_markup() -> None:
    reader = Reader()
    reader.feed('<p><a href="javascript:x">a</a><img src=x onerror=y></p>')
    assert len(reader.bad) == 2
    tokens = READER.parse("[a](https://example.invalid) <b>x</b>\n\n```\nx\n```\n")
    inner = [child.type for token in tokens for child in token.children or []]
    assert {"link_open", "html_inline"} <= set(inner)
    assert "fence" in [token.type for token in tokens]
