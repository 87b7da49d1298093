"""However a formula is spaced, it neatens to the same text; whatever else a file holds, it ends in words."""

from functools import cache
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.lark import from_lark
from lark import Lark
from neat.strategies import LETTERS, MARKS, bare, documents, prose

from brimline.document import read
from brimline.document.neat import neaten
from brimline.document.printer import printed
from brimline.text import decode
from brimline.tree import STARTS, Row, parse
from brimline.tree.grammar import grammar_text
from brimline.tree.rows import rows

TOP = Path(__file__).parents[2]
BROKEN = sorted((TOP / "tests" / "format" / "broken").glob("*.txt"))
# The parts of a line in which blanks belong to the author.
FREE = frozenset({"TEXT", "NAME", "FORM", "WHERE", "PART"})

blanks = st.text(" \t", min_size=1, max_size=4)
gaps = st.sampled_from(("\n", " \n", "\t \n", "\n\n"))


@st.composite
def scrambled(draw: st.DrawFn, text: str, comments: bool) -> str:
    """A neat text with other blanks, blank lines and line ends, and comments or none."""
    out: list[str] = []
    decoded, _ = decode("a.formula", text.encode())
    assert decoded is not None
    for row in rows(decoded):
        if not row.body:
            continue
        if draw(st.integers(0, 3)) == 0:
            out.append(draw(gaps))
        if comments and draw(st.integers(0, 4)) == 0:
            out.append(f"{draw(st.just('') | blanks)}#{draw(prose())}\n")
        out.append((draw(blanks) if row.indent else "") + _body(draw, row))
        if comments and draw(st.integers(0, 4)) == 0:
            out.append(f"  #{draw(prose())}")
        out.append(draw(st.sampled_from(("", " ", "\t"))) + draw(st.sampled_from(("\n", "\n", "\r\n"))))
    out.append(draw(st.just("") | gaps))
    return "".join(out)


def _body(draw: st.DrawFn, row: Row) -> str:
    """A body with other blanks between its parts; those inside free words, and before a number sign, stay."""
    if row.kind == "step" and row.body[2] != "#":
        return f"-{draw(blanks)}{row.body[2:]}"
    tree = parse(row.kind, row.body).tree if row.kind in STARTS else None
    if tree is None:
        return row.body
    out, end = "", 0
    for token in tree.scan_values(lambda _: True):
        between = row.body[end : token.start_pos]
        if between and token[0] != "#":
            sign = between.strip(" ")
            before = draw(st.sampled_from(("", " ", "\t"))) if sign else ""
            between = before + sign + draw(blanks)
        words = token.rstrip()
        out += between + (words if token.type in FREE else draw(blanks).join(words.split()))
        end = token.start_pos + len(words)
    return out


@given(st.data(), documents())
def test_every_spacing_neatens_to_the_same_text(data: st.DataObject, document: object) -> None:
    text = printed(document)
    written = data.draw(scrambled(text, comments=False))
    made = neaten("a.formula", data.draw(st.sampled_from((b"", b"\xef\xbb\xbf"))) + written.encode())
    assert made.refusal == ""
    assert made.after.decode() == text


@settings(max_examples=30)
@given(st.data(), documents())
def test_comments_change_nothing_and_are_all_kept(data: st.DataObject, document: object) -> None:
    text = printed(document)
    written = data.draw(scrambled(text, comments=True)).encode()
    made = neaten("a.formula", written)
    before, after = read("a.formula", written).document, read("a.formula", made.after).document
    assert made.refusal == ""
    assert before is not None
    assert after is not None
    assert bare(after) == bare(before) == bare(document)
    assert [said for _, said in after.comments] == [said for _, said in before.comments]
    assert neaten("a.formula", made.after).is_neat


def _sound(data: bytes) -> None:
    """Whatever the bytes are: words, or a text that says the same, is neat, and keeps what could not be read."""
    made = neaten("a.formula", data)
    if made.refusal:
        assert made.after == data
        assert "fault of brimline" not in made.refusal
        return
    assert neaten("a.formula", made.after).is_neat
    assert b"".join(made.after.split()) == b"".join(data.removeprefix(b"\xef\xbb\xbf").split())
    lines = made.after.decode().split("\n")
    for one in made.left:
        assert data.decode("utf-8-sig").split("\n")[one.line - 1].removesuffix("\r") in lines


@given(st.binary(max_size=200))
def test_any_bytes(data: bytes) -> None:
    _sound(data)


signs = st.sampled_from([*LETTERS, *MARKS, " ", "\t", "\n", "\n  ", "\r\n", "\r", "  #", "½", "\u202e", "\xa0"])
some_words = st.sampled_from(
    [
        "formula",
        "take",
        "make",
        "pack",
        "process",
        "keep",
        "evidence",
        "changes",
        "fruit",
        "or",
        "from",
        "note",
        "any",
        "mix",
        "of",
        "jar",
        "5",
        "1/2",
        "cup",
        "to",
        "per",
        "of",
        "-",
        ",",
        ":",
        "#",
    ]
)


@given(st.lists(st.one_of(signs, some_words, st.just(" "), st.just("\n  ")), max_size=60).map("".join))
def test_any_text(text: str) -> None:
    _sound(text.encode())


@settings(max_examples=30)
@given(st.data(), documents())
def test_any_damage_to_a_formula(data: st.DataObject, document: object) -> None:
    text = printed(document)
    place = data.draw(st.integers(0, len(text)))
    length = data.draw(st.integers(0, 12))
    _sound((text[:place] + "".join(data.draw(st.lists(signs, max_size=4))) + text[place + length :]).encode())


def test_every_broken_sample() -> None:
    assert len(BROKEN) > 20
    for path in BROKEN:
        _sound(path.read_bytes())


NUMBER_WORDS = {
    "INT": st.sampled_from(("1", "7", "12")),
    "FRACTION": st.sampled_from(("1/2", "3/4")),
    "GLYPH": st.sampled_from("½¼"),
    "DECIMAL": st.sampled_from(("0.75", "3.1")),
    "THOUSANDS": st.just("1,000"),
    "PACKED": st.just("of"),
    "OF_WHAT": st.sampled_from(("juice", "of strained juice")),
    "DATE": st.dates().map(lambda day: day.isoformat()),
    "UNIT": st.sampled_from(("cup", "g", "each", "min", "ft", "half-pint", "F", "ripe", "fl oz")),
}


@cache
def made_lines(start: str) -> st.SearchStrategy[str]:
    """Lines as the grammar itself makes them, with odd spacing; most of them are not what any author would write."""
    lark = Lark(grammar_text(), start=start, parser="lalr", lexer="contextual", maybe_placeholders=False)
    known = {terminal.name for terminal in lark.terminals}
    explicit = {name: words for name, words in NUMBER_WORDS.items() if name in known}
    return from_lark(lark, start=start, explicit=explicit, alphabet=st.characters(codec="ascii"))


@settings(max_examples=30)
@given(st.sampled_from([start for start in STARTS if start not in ("header", "section")]), st.data())
def test_lines_made_from_the_grammar(start: str, data: st.DataObject) -> None:
    said = data.draw(st.lists(made_lines(start), min_size=1, max_size=4))
    opening = "process steam" if start == "process" else start
    _sound("\n  ".join([f"formula KV-1 Jam\n{opening}", *said]).encode())
