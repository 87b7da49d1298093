"""The page of a weighing: charts with title, description and table; read in grey, on paper, by a screen reader.

Rules of the page: WCAG 2.1 level AA (1.1.1, 1.3.1, 1.4.1, 1.4.3, 1.4.11, 2.4.2, 3.1.1, 4.1.1); memory.
"""

import re
from base64 import b64encode
from collections.abc import Iterator
from datetime import date
from fractions import Fraction
from hashlib import sha256
from html.parser import HTMLParser
from pathlib import Path

import pytest
from msgspec import Struct
from msgspec.structs import replace

from brimline.report import drawing
from brimline.report.look import Look
from brimline.report.markup import HTML_TAGS, document, element, rendered
from brimline.report.weighing_page import HELD_BACK, STYLE, weighing_page
from brimline.report.words import NOTICE
from brimline.review.beside import beside
from brimline.review.weighing import weighing
from brimline.shelf import Settings, shelf_of

VOID = {"meta"}
DEMONSTRATION = "Demonstration. Not tested. Do not preserve from this."


class Page(HTMLParser):
    """The tags of a page in order, each with its attributes, its words and the tags it stands in."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[tuple[str, dict[str, str], tuple[str, ...], list[str]]] = []
        self._open: list[tuple[str, dict[str, str], tuple[str, ...], list[str]]] = []
        self.feed(text)
        self.close()
        assert self._open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        made = (tag, {name: value or "" for name, value in attrs}, tuple(one[0] for one in self._open), [])
        self.tags.append(made)
        if tag not in VOID:
            self._open.append(made)

    def handle_endtag(self, tag: str) -> None:
        assert self._open.pop()[0] == tag

    def handle_data(self, data: str) -> None:
        for one in self._open:
            one[3].append(data)

    def all(self, tag: str) -> Iterator[tuple[dict[str, str], str, tuple[str, ...]]]:
        for name, attributes, above, words in self.tags:
            if name == tag:
                yield attributes, " ".join("".join(words).split()), above

    def ids(self) -> dict[str, str]:
        return {at["id"]: " ".join("".join(words).split()) for _, at, _, words in self.tags if "id" in at}


@pytest.fixture
def page(run, formulas: Path):
    """The page of a formula of the collection, parsed, and its text."""

    def call(name: str, *options: str) -> tuple[Page, str]:
        status, text, said = run("weigh", formulas / f"{name}.formula", "--as", "page", *options)
        assert (status, said) == (0, "")
        return Page(text), text

    return call


# A tested jam, an adaptation, one that is held back, a tomato product with acid in each jar.
SHOWN = ["tested/kv-101", "adapted/kv-203", "classroom/kv-301", "tested/kv-130"]


@pytest.mark.parametrize("name", SHOWN)
def test_every_chart_has_title_description_and_a_table_of_its_own(page, name: str) -> None:
    parsed, _ = page(name)
    ids = parsed.ids()
    charts = list(parsed.all("svg"))
    assert len(charts) >= 2
    for attributes, _, above in charts:
        assert attributes["role"] == "img"
        title, description = attributes["aria-labelledby"].split()
        assert ids[title]
        assert len(ids[description].split()) > 8
        assert "figure" in above
    figures = len(list(parsed.all("figure")))
    assert figures == len(charts)
    in_figures = [above for _, _, above in parsed.all("table") if "figure" in above]
    assert len(in_figures) == figures
    for kind in ("title", "desc"):
        assert len([above for _, _, above in parsed.all(kind) if "svg" in above]) == figures


@pytest.mark.parametrize("name", SHOWN)
def test_tables_and_headings_can_be_walked(page, name: str) -> None:
    parsed, text = page(name)
    tags = [tag for tag, _, _, _ in parsed.tags]
    assert tags.count("h1") == 1
    assert [at.get("lang") for at, _, _ in parsed.all("html")] == ["en"]
    assert "h2" not in tags[: tags.index("h1")]
    assert len(list(parsed.all("table"))) == len(list(parsed.all("caption"))) == tags.count("thead")
    assert {at.get("scope") for at, _, _ in parsed.all("th")} == {"col", "row"}
    assert all(words for _, words, _ in parsed.all("th"))
    assert all(words for _, words, _ in parsed.all("td"))
    ids = [at["id"] for _, at, _, _ in parsed.tags if "id" in at]
    assert len(ids) == len(set(ids))
    for _, at, _, _ in parsed.tags:
        for name_ in ("aria-labelledby", "aria-describedby"):
            assert set(at.get(name_, "").split()) <= set(ids)
        assert set(re.findall(r"url\(#([^)]*)\)", at.get("fill", ""))) <= set(ids)
    assert text.isascii()
    assert text.startswith("<!doctype html>\n")


def test_a_wide_table_scrolls_by_keyboard_and_has_a_name(page) -> None:
    parsed, _ = page("adapted/kv-203")
    wide = [at for at, _, _ in parsed.all("div") if at.get("class") == "wide"]
    assert wide
    assert all((at["role"], at["tabindex"]) == ("region", "0") and at["aria-label"] for at in wide)


@pytest.mark.parametrize("name", SHOWN)
def test_the_notice_and_the_demonstration_line_stand_on_the_page(page, name: str) -> None:
    parsed, _ = page(name)
    ((_, words, _),) = [one for one in parsed.all("div") if one[0].get("role") == "note"]
    assert NOTICE in words
    strong = [words for _, words, _ in parsed.all("strong")]
    assert strong.count(DEMONSTRATION) == 2
    assert not re.search(r"\bsafe\b", " ".join(words for _, words, _ in parsed.all("body")))


def test_a_formula_that_is_held_back_says_so_first(page) -> None:
    assert HELD_BACK in page("classroom/kv-301")[1]
    assert HELD_BACK not in page("adapted/kv-203")[1]


def test_nothing_runs_and_nothing_is_loaded(page) -> None:
    parsed, text = page("classroom/kv-301")
    (policy,) = [at["content"] for at, _, _ in parsed.all("meta") if at.get("http-equiv") == "Content-Security-Policy"]
    (style,) = [words for tag, _, _, words in parsed.tags if tag == "style"]
    digest = b64encode(sha256("".join(style).encode()).digest()).decode()
    assert policy == f"default-src 'none'; style-src 'sha256-{digest}'; base-uri 'none'; form-action 'none'"
    for tag, at, _, _ in parsed.tags:
        assert tag not in {"script", "link", "img", "iframe", "object", "embed", "form", "a", "use", "image", "base"}
        assert not {name for name in at if name.startswith("on")} | (set(at) & {"href", "src", "style", "xlink:href"})
    assert not re.search(r"https?:|//|@import|url\((?!#)", text.replace("<!doctype html>", ""))


def test_the_same_formula_gives_the_same_bytes(page) -> None:
    assert page("adapted/kv-203")[1] == page("adapted/kv-203")[1]


# Colours.


def luminance(colour: str) -> float:
    """Relative luminance of the WCAG 2.1 formula."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_the_formula_for_contrast_is_the_published_one() -> None:
    # Black on white is 21, white on white 1; #767676 is the lightest grey that passes on white (4.54).
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21)
    assert contrast("#FFFFFF", "#FFFFFF") == 1
    assert contrast("#767676", "#FFFFFF") == pytest.approx(4.54, abs=0.01)


def test_every_colour_can_be_read_on_white(page) -> None:
    used = set(re.findall(r"#[0-9A-Fa-f]{6}\b", STYLE))
    for name in SHOWN:
        used |= {
            value for _, at, _, _ in page(name)[0].tags for value in at.values() if re.fullmatch("#[0-9A-F]{6}", value)
        }
    used |= set(drawing.LEVEL_INK.values())
    assert "#000000" in used
    assert [colour for colour in used - {"#FFFFFF"} if contrast(colour, "#FFFFFF") < 4.5] == []


def test_meaning_is_never_in_the_colour_alone(page) -> None:
    # Taking every colour away leaves each level as a word, each series with a shape or dash of its own.
    parsed, _ = page("classroom/kv-301")
    said = [words for _, words, above in parsed.all("text") if "svg" in above]
    assert any("untested: sugar/cut" in words for words in said)
    assert any(words.startswith("tested KV-102") for words in said)
    assert any(words.startswith("adapted KV-301") for words in said)
    inks = {at["fill"] for at, _, _ in parsed.all("text")}
    assert inks <= {"#000000", *drawing.LEVEL_INK.values()}
    bars = [at["fill"] for at, _, _ in parsed.all("rect") if at.get("fill", "").startswith("url")]
    assert len({fill.rpartition("-")[2] for fill in bars}) >= 3


# What a chart shows is what the weighing says.


def test_the_tables_hold_the_figures_of_the_text(run, page, formulas: Path) -> None:
    text = " ".join(run("weigh", formulas / "tested" / "kv-101.formula")[1].split())
    parsed, _ = page("tested/kv-101")
    cells = [words for _, words, _ in parsed.all("td")]
    assert "1.28 to 1.56 kg" in cells
    assert "1.28 to 1.56 kg 6 cup gooseberries, crushed" in text
    assert "62 % (57 to 69)" in cells
    assert "when done 62 % (57 to 69)" in text
    assert {"up to 1,000 ft", "up to 6,000 ft", "above 6,000 ft"} <= set(cells)


def test_an_altitude_without_a_time_is_said(run, tmp_path: Path, formulas: Path) -> None:
    text = (formulas / "tested" / "kv-101.formula").read_text(encoding="utf-8").replace(", 15 min above", "")
    file = tmp_path / "kv-101.formula"
    file.write_text(text, encoding="utf-8")
    parsed = Page(run("weigh", file, "--as", "page")[1])
    assert "no tested time" in [words for _, words, _ in parsed.all("td")]


def test_a_formula_without_amounts_or_process_has_words_instead_of_charts(run, tmp_path: Path) -> None:
    file = tmp_path / "xx-1.formula"
    file.write_text("formula XX-1 Bare\nstanding draft\ntake\n  fruit some apples\n", encoding="utf-8")
    status, text, _ = run("weigh", file, "--as", "page")
    parsed = Page(text)
    assert status == 0
    assert "no figure" in [words for _, words, _ in parsed.all("td")]
    paragraphs = [words for _, words, _ in parsed.all("p")]
    assert "The formula has no process table: no tested time." in paragraphs
    assert "There is no figure for a mark between sugar and acid." in paragraphs


# Hostile text.

PAYLOADS = [
    "<script>alert(1)</script>",
    "</title><script>alert(1)</script>",
    '" onload="alert(1)',
    "' onmouseover='alert(1)",
    "</svg></figure><img src=x onerror=alert(1)>",
    "<!-- -->",
    "]]><![CDATA[",
    "&lt;script&gt; &amp; &#60;b&#62;",
    "url(javascript:alert(1))",
    "</style><style>*{display:none}",
]
HOSTILE = """\
formula XX-1 {payload}
product   jam
standing  tested
finish    other {payload}
yield     8 half-pint
sold-as   {payload}, US

take
  fruit      1 kg   strawberries, {form}
  sweetener  800 g  sugar, granulated
  spice      some   cinnamon
    note     {payload}

make
  - {payload}

pack
  jar        half-pint
  fill       hot

process boiling-water
  half-pint: 5 min to 1000 ft

keep
  opened     4 weeks, {keep}

evidence
  source     {payload}
"""


@pytest.mark.parametrize("payload", PAYLOADS)
def test_words_of_a_formula_stay_words(run, tmp_path: Path, payload: str) -> None:
    quoted = payload.replace("'", "''")
    (tmp_path / "collection.yaml").write_text(f"name: Hostile\nnotice: '{quoted}'\n", encoding="utf-8")
    file = tmp_path / "xx-1.formula"
    file.write_text(HOSTILE.format(payload=payload, form="hulled", keep="cold"), encoding="utf-8")
    status, text, _ = run("weigh", file, "--as", "page")
    assert status == 0
    parsed = Page(text)
    assert {tag for tag, _, _, _ in parsed.tags} <= HTML_TAGS | {tag.lower() for tag in HTML_TAGS}
    ((_, heading, _),) = parsed.all("h1")
    assert heading == f"XX-1 {' '.join(payload.split())}"
    assert [words for at, words, _ in parsed.all("strong")].count(" ".join(payload.split())) == 2
    tags = [tag for tag, _, _, _ in parsed.tags]
    assert (tags.count("style"), tags.count("meta")) == (1, 4)


def put_everywhere(value: object, payload: str) -> object:
    """A value with every word in it replaced, but for the few that choose a sentence of ours."""
    chosen = {"acid_class", "pectin", "stands", "state", "way"}
    if isinstance(value, str):
        return payload
    if isinstance(value, tuple):
        return tuple(put_everywhere(one, payload) for one in value)
    if isinstance(value, Struct):
        return replace(value, **{
            name: one if name in chosen else put_everywhere(one, payload)
            for name in value.__struct_fields__ if (one := getattr(value, name)) is not None
        })  # fmt: skip
    return value


@pytest.mark.parametrize("payload", PAYLOADS)
def test_no_word_of_a_weighing_reaches_the_page_as_markup(formulas: Path, payload: str) -> None:
    # Whatever stands in any word of the values, the page has the same elements as with plain words.
    found = {path.name: path.read_text(encoding="utf-8") for path in formulas.glob("*/*.formula")}
    shelf = shelf_of({"kv-305.formula": found["kv-305.formula"], "kv-121.formula": found["kv-121.formula"]},
                     date(2026, 1, 15), Settings(), ["kv-121.formula"])  # fmt: skip
    weighed = weighing(shelf.formulas[0], Fraction(4200))
    assert weighed is not None
    shown = beside(shelf, shelf.formulas[0], weighed, (Fraction(4200), None), None)
    assert shown.comparison is not None
    shapes = []
    for words in ("plain words", payload):
        text = weighing_page(put_everywhere(shown, words), Look(), words, [words])
        shapes.append([(tag, sorted(at)) for tag, at, _, _ in Page(text).tags if tag != "text"])
    assert shapes[0] == shapes[1]


def test_characters_that_do_not_show_are_made_visible() -> None:
    # Direction marks, zero-width blanks, half characters and control characters.
    for letter, shown in (
        ("\u202e", "&lt;U+202E&gt;"),
        ("\u200b", "&lt;U+200B&gt;"),
        ("\x1b", "&lt;U+001B&gt;"),
        ("\ud800", "&lt;U+D800&gt;"),
    ):
        assert rendered(element("p", f"a{letter}b")) == f"<p>a{shown}b</p>\n"
        assert f"a{shown}b" in rendered(element("p", class_=f"a{letter}b"))
    assert rendered(element("p", "jalapeño")) == "<p>jalape&#241;o</p>\n"


@pytest.mark.parametrize(
    "made",
    [
        lambda: element("script", "alert(1)"),
        lambda: element("p", onclick="alert(1)"),
        lambda: element("a", "x", href="https://example.invalid"),
        lambda: element("p", style="color:red"),
        lambda: document(element("html", element("style")), "</style>"),
    ],
)
def test_a_page_cannot_hold_what_runs_or_loads(made) -> None:
    with pytest.raises(ValueError, match="may hold"):
        made()
