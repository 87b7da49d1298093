"""The HTML page: read with an HTML reader, nothing in it but our own elements, nothing loaded, readable in grey."""

import re
from base64 import b64encode
from hashlib import sha256
from html.parser import HTMLParser
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from report_making import HOSTILE, handed, hostile_review, make_finding, make_reviewed, make_variance

from brimline.findings import Level
from brimline.report.page import STYLE, page
from brimline.report.words import NOTICE, WHAT_IT_DOES
from brimline.review.values import Refusal, Review

ALLOWED = {
    "html": {"lang"},
    "meta": {"charset", "http-equiv", "content", "name"},
    "section": {"aria-labelledby"},
    "nav": {"aria-label"},
    "h2": {"id"},
    "div": {"class"},
    "p": {"class"},
    "th": {"scope"},
    "a": {"href"},
}
PLAIN = "head title style body main footer h1 h3 table caption thead tbody tr td ul li dl dt dd code strong"
ALLOWED |= {name: set() for name in PLAIN.split(" ")}
EMPTY = {"meta"}


class Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[str] = []
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.text = ""
        self.faults: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))
        if tag not in ALLOWED or not {name for name, _ in attrs} <= ALLOWED[tag]:
            self.faults.append(f"<{tag} {attrs}>")
        if tag not in EMPTY:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.open.pop() != tag:
            self.faults.append(f"</{tag}>")

    def handle_data(self, data: str) -> None:
        self.text += data

    def handle_comment(self, data: str) -> None:
        self.faults.append(f"comment {data}")

    def handle_pi(self, data: str) -> None:
        self.faults.append(f"instruction {data}")


def read(review: Review) -> Reader:
    printed = page(handed(review))
    assert printed.isascii()
    reader = Reader()
    reader.feed(printed)
    reader.close()
    assert (reader.faults, reader.open) == ([], [])
    return reader


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_texts_stay_texts(text: str) -> None:
    reader = read(hostile_review(text))
    harmless = [tag for tag, _ in read(hostile_review("jam")).elements]
    assert [tag for tag, _ in reader.elements] == harmless
    assert all((attributes["href"] or "").startswith("#f") for tag, attributes in reader.elements if tag == "a")


@given(st.text(max_size=40))
def test_any_text_is_shown_as_it_is_or_made_visible(text: str) -> None:
    reader = read(Review((make_reviewed(make_finding(says=text), title=text),)))
    assert text.isprintable() <= (text.strip() in reader.text)


def test_nothing_is_loaded_and_nothing_runs() -> None:
    reader = read(Review((make_reviewed(make_finding()),)))
    policy = next(a["content"] or "" for tag, a in reader.elements if a.get("http-equiv") == "Content-Security-Policy")
    rules = dict(part.strip().split(" ", 1) for part in policy.split(";"))
    assert {name for name, source in rules.items() if source == "'none'"} == {"default-src", "base-uri", "form-action"}
    digest = b64encode(sha256(STYLE.encode()).digest()).decode()
    assert rules["style-src"] == f"'sha256-{digest}'"
    printed = page(handed(Review((make_reviewed(make_finding()),))))
    # The style is what stands between the tags, to the last character, or no browser would apply it.
    assert f"<style>{STYLE}</style>" in printed
    assert not re.search(r"url\(|@import|https?:|src=|<link", printed)


def test_it_reads_well_aloud() -> None:
    # WCAG 2.1: 2.4.2 a title, 3.1.1 a language, 1.3.1 headings in order, heads of tables named.
    reader = read(Review((make_reviewed(make_finding(), make_finding(level=Level.FORM)), make_reviewed(path="b"))))
    tags = [tag for tag, _ in reader.elements]
    assert dict(reader.elements)["html"] == {"lang": "en"}
    assert tags.count("h1") == tags.count("title") == tags.count("main") == 1
    levels = [int(tag[1]) for tag in tags if re.fullmatch(r"h\d", tag)]
    assert all(after <= before + 1 for before, after in pairwise(levels))
    assert all("scope" in attributes for tag, attributes in reader.elements if tag == "th")
    named = {attributes.get("id") for _, attributes in reader.elements}
    assert {str(a["href"])[1:] for tag, a in reader.elements if tag == "a"} <= named


def luminance(colour: str) -> float:
    """Relative luminance as WCAG 2.1 defines it."""
    parts = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_every_colour_of_text_can_be_read() -> None:
    # WCAG 2.1, 1.4.3 asks for 4.5 to 1; the ground is white.
    full = {f"#{c[1] * 2}{c[2] * 2}{c[3] * 2}" if len(c) == 4 else c for c in re.findall(r"#[0-9a-f]{3,6}\b", STYLE)}
    grounds = {"#ffffff"}
    assert len(full) >= 4
    assert all(1.05 / (luminance(colour) + 0.05) >= 4.5 for colour in full - grounds)


def test_levels_are_words_not_colours_alone() -> None:
    for level in Level:
        assert f"{level.word} acid/dropped" in read(Review((make_reviewed(make_finding(level=level)),))).text


def test_everything_a_reader_needs_is_there() -> None:
    review = Review(
        (make_reviewed(make_finding(copy="  acid  2 tbsp  lemon juice"), make_finding(varied=make_variance())),),
        (Refusal("gone.formula", "is not there", "Check the name."),),
        ("Kestrel Valley",),
        ("Demonstration. Not tested.",),
    )
    text = read(review).text
    for part in (
        *(WHAT_IT_DOES, NOTICE, "Demonstration. Not tested.", "gone.formula", "letter covers this batch"),
        *("Kestrel Valley: 1 of 1 formula held back", "acid  2 tbsp  lemon juice", "section 2, page 5"),
        *("take, line 7", "my formulas/adapted/kv-214.formula", "brimline 1.2.3, figures of 2026-01-31"),
    ):
        assert part in text
