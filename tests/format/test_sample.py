"""The sample of the format, read: every value as a person would read it off the page, every place on its own text."""

from fractions import Fraction
from pathlib import Path

from brimline.document import read, to_json
from brimline.document.values import Amount, Band, Document, Line, Measure, Pack
from brimline.text import decode
from brimline.tree import read as read_tree

PATH = Path(__file__).parent / "samples" / "gooseberry.formula"
DATA = PATH.read_bytes()
HALF_PINT = Fraction(
    473176473, 2_000_000
)  # ml: 231 cubic inches of 16.387064 ml to the gallon, 16 half-pints to the gallon


def sample() -> Document:
    result = read("tested/kv-101.formula", DATA)
    assert result.findings == ()
    assert result.document is not None
    return result.document


def one(low: str, unit: str, pack: Pack | None = None) -> Measure:
    number = sum((Fraction(part) for part in low.split()), Fraction(0))
    return Measure(number, number, unit, pack)


def test_headers() -> None:
    got = sample()
    assert (got.code, got.title) == ("KV-101", "Gooseberry jam with powdered pectin")
    assert (
        got.product,
        got.standing,
        got.adapts,
        got.sold_as,
        got.retired,
        got.successor,
    ) == ("jam", "tested", "", "", "", "")
    assert got.finish is not None
    assert ("rolling", Fraction(1), Fraction(1)) == (got.finish.kind, got.finish.low, got.finish.high)
    assert got.yields is not None
    assert (Fraction(9), Fraction(9), "half-pint", HALF_PINT) == (
        got.yields.low,
        got.yields.high,
        got.yields.jar.name,
        got.yields.jar.volume_ml,
    )


def test_amounts_are_exact() -> None:
    fruit, pectin, acid, sweetener, fat = sample().take
    assert Amount((one("5 1/2", "cup"),), ((one("1.3", "kg"),),)) == fruit.amount
    assert Amount((one("1", "box", Pack(Fraction(7, 4), "oz")),)) == pectin.amount
    assert Amount((one("2", "tbsp"),)) == acid.amount
    assert Amount((one("7", "cup"),)) == sweetener.amount
    assert Amount((one("1/2", "tsp"),)) == fat.amount


def test_lines_under_a_line_belong_to_it() -> None:
    fruit, pectin, acid, sweetener, fat = sample().take
    (whole,) = fruit.made_of
    assert ("fruit", Amount((one("2", "qt"),)), "gooseberries", ("whole",)) == (
        whole.role,
        whole.amount,
        whole.item,
        whole.forms,
    )
    (lime,) = acid.other
    assert (lime.role, lime.item, lime.forms, lime.index) == ("acid", "lime juice", ("bottled",), -1)
    assert (fat.flags, fat.note) == (("optional",), ("keeps foam down",))
    assert [line.index for line in (fruit, pectin, acid, sweetener, fat)] == [0, 1, 2, 3, 4]
    assert (pectin.item, pectin.forms) == ("pectin", ("regular powdered",))


def test_steps_pack_and_process() -> None:
    got = sample()
    assert len(got.make) == 5
    assert got.make[2].text == "Add the sugar all at once, return to a full rolling boil and boil hard for 1 minute."
    assert [jar.name for jar in got.pack.jars] == ["half-pint", "pint"]
    assert [prepared.kind for prepared in got.pack.prepare] == ["sterile"]
    assert got.pack.fill is not None
    assert got.pack.lid is not None
    assert ("hot", "two-piece", Fraction(1, 4)) == (
        got.pack.fill.value,
        got.pack.lid.value,
        got.pack.headspace[0].inches,
    )
    (process,) = got.process
    (row,) = process.rows
    assert process.method == "boiling-water"
    assert [(Fraction(5), Fraction(1000)), (Fraction(10), Fraction(6000)), (Fraction(15), None)] == [
        (b.minutes, b.up_to_ft) for b in row.bands
    ]
    assert [jar.volume_ml for jar in row.jars] == [HALF_PINT, 2 * HALF_PINT]


def test_keep_and_evidence() -> None:
    got = sample()
    assert [
        ("stand", Fraction(12), ()),
        ("sealed", Fraction(8766), ("cool", "dark", "dry")),
        ("opened", Fraction(672), ("refrigerated",)),
    ] == [(row.kind, row.low_h, row.where) for row in got.keep]
    assert [
        ("tested", "2025-06-14", "", None),
        ("reading", "2025-06-14", "pH", Fraction(31, 10)),
        ("reading", "2025-06-14", "Brix", Fraction(59)),
        ("source", "", "", None),
        ("review-by", "2028-06-30", "", None),
    ] == [(row.kind, row.date, row.quantity, row.value) for row in got.evidence]
    assert got.evidence[1].forms == ("finished", "3 batches", "meter")


def test_every_place_cuts_out_its_own_text() -> None:
    got = sample()
    content = DATA.decode()

    def cut(line: Line) -> None:
        assert content[line.item_span.start : line.item_span.end] == line.item
        whole = content[line.span.start : line.span.end]
        assert whole.endswith((line.forms or (line.item,))[-1])
        assert content[line.amount_span.start : line.amount_span.end] in whole
        for under in (*line.other, *line.made_of):
            cut(under)

    for line in got.take:
        cut(line)
    for key, value in (("/code", got.code), ("/title", got.title), ("/product", got.product)):
        assert content[got.at[key].start : got.at[key].end] == value
    for step in got.make:
        assert content[step.span.start : step.span.end] == step.text
    bands: list[Band] = [band for row in got.process[0].rows for band in row.bands]
    assert [content[band.span.start : band.span.end] for band in bands] == [
        "5 min to 1000 ft",
        "10 min to 6000 ft",
        "15 min above",
    ]
    for word in ("take", "make", "pack", "process", "keep", "evidence", "formula"):
        span = got.sections[word]
        assert content[span.start : span.end] == word


def test_rows_joined_are_the_file() -> None:
    text, _ = decode("x", DATA)
    assert text is not None
    tree, faults = read_tree(text)
    assert (DATA.decode(), ()) == (tree.text, faults)


def test_comments_are_kept_with_their_lines() -> None:
    assert sample().comments == ((1, "Demonstration. Not tested. Do not preserve from this."),)


def test_windows_line_ends_mark_and_missing_last_line_end_change_no_value() -> None:
    plain = to_json(sample())
    for data in (
        DATA.replace(b"\n", b"\r\n"),
        b"\xef\xbb\xbf" + DATA,
        DATA.rstrip(b"\n"),
        b"\xef\xbb\xbf" + DATA.replace(b"\n", b"\r\n").rstrip(b"\r\n"),
        DATA.replace(b"  ", b"\t"),
    ):
        result = read("x", data)
        assert result.findings == ()
        assert result.document is not None
        # The text of evidence rows keeps its blanks; everything else is the same.
        for row in (got := to_json(result.document))["evidence"]:
            row.pop("text")
        expected = {**plain, "evidence": [{k: v for k, v in row.items() if k != "text"} for row in plain["evidence"]]}
        assert expected == got
