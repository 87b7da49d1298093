"""What must hold for any text: no exception, faults stay on their lines, places cut their own text, exact amounts."""

import json
import subprocess
import sys
from fractions import Fraction
from pathlib import Path
from typing import Any

from hypothesis import example, given, settings
from hypothesis import strategies as st

from brimline.document import read, to_json
from brimline.document.values import Document, Line
from brimline.text import decode
from brimline.tree import Row
from brimline.tree import read as read_tree

SAMPLES = Path(__file__).parent / "samples"
GOOD = {path.stem: path.read_text(encoding="utf-8") for path in sorted(SAMPLES.glob("*.formula"))}

WORDS = [
    "formula",
    "KV-1",
    "product",
    "jam",
    "standing",
    "draft",
    "finish",
    "yield",
    "take",
    "make",
    "pack",
    "process",
    "boiling-water",
    "keep",
    "changes",
    "evidence",
    "fruit",
    "acid",
    "sweetener",
    "optional",
    "infused",
    "or",
    "from",
    "note",
    "any",
    "mix",
    "of:",
    "some",
    "5",
    "1/2",
    "½",
    "0.75",
    "1e9",
    "4-5",
    "cup",
    "tbsp",
    "T",
    "c",
    "each",
    "ripe",
    "half-pint",
    "12",
    "oz",
    "500",
    "ml",
    "jar",
    "=",
    "+",
    "per",
    "to",
    "at",
    "dial",
    "psi",
    "above",
    "ft",
    "m",
    ",",
    ":",
    "#",
    "%",
    "(",
    ")",
    "plums,",
    "crushed",
    "lemon",
    "juice",
    "5",
    "%",
    "-",
    "sealed",
    "12",
    "months",
    "pH",
    "3.1",
    "on",
    "2025-06-14",
    "source",
    "review-by",
    "tested",
    "reading",
    "Brix",
    "65",
    "start",
    "180",
    "F",
    "to",
    "the",
    "boil",
    "prepare",
    "sterile",
]
NASTY = st.text(st.sampled_from("½⅐１٣\u200b\u202e\u00ad\ufeff\u2044сο\x00\x1b\r\n\t #éñ🍓"), max_size=3)
LINE = st.lists(st.one_of(st.sampled_from(WORDS), NASTY), max_size=9).map(" ".join)
INDENTED = st.tuples(st.sampled_from(["", "  ", "    ", "\t"]), LINE).map("".join)
FILE = st.tuples(st.lists(INDENTED, max_size=25), st.sampled_from(["\n", "\r\n", "\n\n"])).map(
    lambda p: p[1].join(p[0])
)


@settings(max_examples=150, deadline=None)
@given(st.binary(max_size=400))
@example(b"\xef\xbb\xbf\xef\xbb\xbfformula KV-1 x")
@example(b"take\n  fruit 1 cup\r\r\n")
def test_any_bytes_end_in_findings(data: bytes) -> None:
    result = read("x", data)
    assert (result.document is None) <= bool(result.findings)


@settings(max_examples=250, deadline=None)
@given(FILE)
def test_any_text_ends_in_findings_at_true_places(content: str) -> None:
    result = read("x", content.encode())
    text, _ = decode("x", content.encode())
    for finding in result.findings:
        span = finding.at.span
        assert (finding.line, finding.column) == (text.line_column(span.start) if text else (1, 1))
        assert 0 <= span.start <= span.end <= max(len(content), 0)
        assert finding.says
        assert finding.instead
    if text is not None:
        assert text.content == read_tree(text)[0].text
        assert list(result.findings) == sorted(result.findings, key=lambda one: one.key)
    if result.document is not None:
        assert text is not None
        every_place_cuts_its_own_text(result.document, text.content)


def every_place_cuts_its_own_text(document: Document, content: str) -> None:
    def cut(line: Line) -> None:
        assert line.item == content[line.item_span.start : line.item_span.end]
        assert line.span.start <= line.amount_span.start <= line.amount_span.end <= line.span.end
        for under in (*line.other, *line.made_of):
            cut(under)

    for line in document.take:
        cut(line)
    for key in ("code", "title", "product", "standing", "adapts", "sold_as", "retired", "successor"):
        if value := getattr(document, key):
            span = document.at[f"/{key}"]
            assert value == content[span.start : span.end]
    for step in document.make:
        assert step.text.split() == content[step.span.start : step.span.end].split() or "#" in content
    for change in document.changes:
        assert content[change.span.start : change.span.end].startswith(change.subject)
    for row in document.evidence:
        assert content[row.span.start : row.span.end].startswith(row.kind)


# A number as an author writes it, with its value.
DIGITS = st.integers(0, 99_999)
PROPER = st.sampled_from([(a, b) for b in (2, 3, 4, 5, 6, 8, 16) for a in range(1, b)])
NUMBER = st.one_of(
    DIGITS.map(lambda n: (str(n), Fraction(n))),
    PROPER.map(lambda p: (f"{p[0]}/{p[1]}", Fraction(*p))),
    st.tuples(DIGITS, PROPER).map(lambda t: (f"{t[0]} {t[1][0]}/{t[1][1]}", t[0] + Fraction(*t[1]))),
    st.tuples(DIGITS, st.integers(0, 9999)).map(lambda t: (f"{t[0]}.{t[1]:04d}", t[0] + Fraction(t[1], 10_000))),
    st.tuples(
        DIGITS,
        st.sampled_from([("½", Fraction(1, 2)), ("⅓", Fraction(1, 3)), ("⅝", Fraction(5, 8)), ("¾", Fraction(3, 4))]),
    ).map(lambda t: (f"{t[0]}{t[1][0]}", t[0] + t[1][1])),
)
COUNT = st.one_of(
    NUMBER.map(lambda n: (n[0], n[1], n[1])),
    st.tuples(NUMBER, NUMBER)
    .map(lambda t: sorted(t, key=lambda n: n[1]))
    .map(lambda t: (f"{t[0][0]} to {t[1][0]}", t[0][1], t[1][1])),
)
UNITS = st.sampled_from(
    [("cup", "cup"), ("cups", "cup"), ("tbsp", "tbsp"), ("fl oz", "fl oz"), ("kg", "kg"), ("each", "each")]
)
PART = st.tuples(COUNT, UNITS).map(lambda t: (f"{t[0][0]} {t[1][0]}", (t[0][1], t[0][2], t[1][1])))
SUM = st.lists(PART, min_size=1, max_size=3).map(lambda ps: (" + ".join(p[0] for p in ps), [p[1] for p in ps]))
AMOUNT = st.lists(SUM, min_size=1, max_size=3).map(lambda ss: (" = ".join(s[0] for s in ss), [s[1] for s in ss]))
NAME = st.sampled_from(["plums", "lemon juice", "jalapeño peppers", "half-and-half", "of-type sugar", "performed milk"])
FORMS = st.lists(st.sampled_from(["crushed", "5 %", "1 inch cubes", "bottled"]), max_size=3)


@settings(max_examples=150, deadline=None)
@given(amount=AMOUNT, name=NAME, forms=FORMS, gap=st.sampled_from([" ", "    ", "\t"]))
def test_every_amount_is_read_as_it_is_written(
    amount: tuple[str, list[Any]], name: str, forms: list[str], gap: str
) -> None:
    words, stated = amount
    item = ", ".join([name, *forms])
    result = read("x", f"formula KV-1 A\nstanding draft\ntake\n  fruit{gap}{words}{gap}{item}\n".encode())
    assert result.findings == ()
    assert result.document is not None
    (line,) = result.document.take
    assert line.amount is not None
    groups = [line.amount.parts, *line.amount.also]
    assert stated == [[(one.low, one.high, one.unit) for one in group] for group in groups]
    assert (name, tuple(forms), Fraction(5) if "5 %" in forms else None) == (line.item, line.forms, line.strength)


BROKEN = {
    "header": ["product", "finish 5..2", "yield nine", "standing\t"],
    "take": ["fruit 5..2 cup plums", "fruit 3/ cup plums", "acid 1 cup +", "!!stir it", "3 cup plums"],
    "under": ["or 2 cup", "note", "from fruit 5..2 cup plums", "or any mix of"],
    "make": ["-No blank", "3. Numbered", "-"],
    "pack": ["jar", "fill cold", "headspace wide", "!!", "lid"],
    "process": ["half-pint 5 min", "half-pint: 5 min", "pint: 5 to 9 min", "5 min above", "!!"],
    "keep": ["sealed", "sealed 12", "buried 3 days", "!!"],
    "changes": ["weather fine", "!!"],
    "evidence": ["tested yesterday", "reading 3.1 pH", "review-by 2028-02-31", "source", "!!"],
}


@settings(max_examples=120, deadline=None)
@given(name=st.sampled_from(sorted(GOOD)), data=st.data())
def test_broken_lines_are_reported_and_spoil_no_other(name: str, data: st.DataObject) -> None:
    lines = GOOD[name].splitlines()
    kinds = {row.number: kind_of(row) for row in rows_of(GOOD[name])}
    targets = [number for number, kind in kinds.items() if kind in BROKEN]
    broken = data.draw(st.lists(st.sampled_from(targets), min_size=1, max_size=6, unique=True))
    for number in broken:
        indent = lines[number - 1][: len(lines[number - 1]) - len(lines[number - 1].lstrip())]
        # A header keeps its first word, or it would be another header said twice.
        word = lines[number - 1].split()[0]
        choices = [word] if kinds[number] == "header" else BROKEN[kinds[number]]
        lines[number - 1] = indent + data.draw(st.sampled_from(choices))
    spoilt = read("x", "\n".join(lines).encode())
    assert sorted(broken) == sorted({one.line for one in spoilt.findings})
    assert len(broken) == len(spoilt.findings)
    assert spoilt.document is not None
    assert expected_without(GOOD[name], set(broken)) == values(spoilt.document)


def kind_of(row: Row) -> str:
    if row.kind == "take" and row.word in ("or", "from", "note"):
        return "under"
    return {"step": "make"}.get(row.kind, row.kind)


def values(document: Document) -> dict[str, list[str]]:
    """Each value of a document on its own, as text, by section; ingredients without the lines under them."""
    out: dict[str, list[str]] = {}
    for key, value in to_json(document).items():
        if key == "take":
            for line in value:
                for under in ("other", "made_of", "note"):
                    out.setdefault(under, []).extend(json.dumps(one) for one in line.pop(under, []))
                out.setdefault(key, []).append(json.dumps(line))
        elif key == "process":
            for one in value:
                out.setdefault("rows", []).extend(json.dumps(row) for row in one.pop("rows", []))
                out.setdefault(key, []).append(json.dumps(one))
        elif key == "pack":
            out |= {f"pack/{part}": [json.dumps(one)] for part, one in value.items()}
        else:
            out[key] = [json.dumps(one) for one in value] if isinstance(value, list) else [json.dumps(value)]
    return {key: rows for key, rows in out.items() if rows}


def expected_without(content: str, broken: set[int]) -> dict[str, list[str]]:
    """The values of a whole document less those of some lines: the same file with these lines taken out.

    With an ingredient go the lines under it, with a step the lines that go on from it.
    """
    kept, orphaned = [], False
    for row in rows_of(content):
        belongs = kind_of(row) in ("more", "under", "blank")
        if not belongs:
            orphaned = row.number in broken
        if row.number not in broken and not (belongs and orphaned):
            kept.append(row.text)
    rest = read("x", "".join(kept).encode()).document
    assert rest is not None
    return values(rest)


def test_a_clean_file_loads_no_library_it_does_not_need() -> None:
    code = (
        "import sys, pathlib; from brimline.document import read;"
        "early = set(sys.modules);"
        "result = read('x', pathlib.Path(sys.argv[1]).read_bytes());"
        "assert result.findings == ();"
        "print(sorted({'lark'} & early), "
        "sorted({'pint', 'ruamel.yaml', 'jsonschema', 'fastjsonschema', 'difflib'} & set(sys.modules)))"
    )
    command = [sys.executable, "-c", code, str(SAMPLES / "gooseberry.formula")]
    root = Path(__file__).parents[2]
    done = subprocess.run(command, cwd=root / "linter", capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[] []"


def test_the_samples_hold_every_kind_of_line_and_are_read_without_a_fault() -> None:
    for content in GOOD.values():
        assert read("x", content.encode()).findings == ()
    kinds = {kind_of(row) for content in GOOD.values() for row in rows_of(content)}
    assert set(BROKEN) | {"blank", "section", "more"} == kinds


def rows_of(content: str) -> tuple[Row, ...]:
    text, _ = decode("x", content.encode())
    assert text is not None
    return read_tree(text)[0].rows
