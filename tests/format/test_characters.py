"""Text that does not show what it says is refused by the Unicode name of the character, at its place."""

import pytest

from brimline.document import read

HEAD = "formula KV-1 A\nstanding draft\ntake\n"


@pytest.mark.parametrize(
    ("line", "name", "column", "copy"),
    [
        ("  fruit １ cup plums", "FULLWIDTH DIGIT ONE (U+FF11)", 9, "  fruit 1 cup plums"),
        ("  fruit ٣ cup plums", "ARABIC-INDIC DIGIT THREE (U+0663)", 9, ""),
        ("  fruit 𝟏 cup plums", "MATHEMATICAL BOLD DIGIT ONE (U+1D7CF)", 9, "  fruit 1 cup plums"),
        ("  fruit 1\u200b0 cup plums", "ZERO WIDTH SPACE (U+200B)", 10, "  fruit 10 cup plums"),
        ("  fruit 1\u00ad0 cup plums", "SOFT HYPHEN (U+00AD)", 10, "  fruit 10 cup plums"),
        ("  fruit 1\ufeff0 cup plums", "ZERO WIDTH NO-BREAK SPACE (U+FEFF)", 10, "  fruit 10 cup plums"),
        ("  fruit 1 cup \u202eplums", "RIGHT-TO-LEFT OVERRIDE (U+202E)", 15, "  fruit 1 cup plums"),
        ("  fruit 1 cup \u2066plums", "LEFT-TO-RIGHT ISOLATE (U+2066)", 15, "  fruit 1 cup plums"),
        ("  fruit 1 cup \u061cplums", "ARABIC LETTER MARK (U+061C)", 15, "  fruit 1 cup plums"),
        ("  fruit 1 cup \u200eplums", "LEFT-TO-RIGHT MARK (U+200E)", 15, "  fruit 1 cup plums"),
        ("  fruit 1 cup plums\U000e0041", "TAG LATIN CAPITAL LETTER A (U+E0041)", 20, "  fruit 1 cup plums"),
        ("  fruit 1⁄2 cup plums", "FRACTION SLASH (U+2044)", 10, "  fruit 1/2 cup plums"),
        ("  fruit 1∕2 cup plums", "DIVISION SLASH (U+2215)", 10, "  fruit 1/2 cup plums"),
        ("  fruit ⅟2 cup plums", "FRACTION NUMERATOR ONE (U+215F)", 9, ""),
        ("  fruit ⅐ cup plums", "VULGAR FRACTION ONE SEVENTH (U+2150)", 9, ""),
        ("  fruit 1² cup plums", "SUPERSCRIPT TWO (U+00B2)", 10, ""),
        ("  fruit Ⅳ cup plums", "ROMAN NUMERAL FOUR (U+2163)", 9, ""),
        ("  fruit 1 сup plums", "CYRILLIC SMALL LETTER ES (U+0441)", 11, ""),
        ("  fruit 1 cup plοms", "GREEK SMALL LETTER OMICRON (U+03BF)", 17, ""),
        ("  fruit 1 cup сосоа", "CYRILLIC SMALL LETTER ES (U+0441)", 15, ""),
        ("  fruit 1 cup ｐlums", "FULLWIDTH LATIN SMALL LETTER P (U+FF50)", 15, "  fruit 1 cup plums"),
        ("  fruit 1 cup 𝐩lums", "MATHEMATICAL BOLD SMALL P (U+1D429)", 15, "  fruit 1 cup plums"),
        ("  fruit 1\u00a0cup plums", "NO-BREAK SPACE (U+00A0)", 10, "  fruit 1 cup plums"),
        ("  fruit 1\u2009cup plums", "THIN SPACE (U+2009)", 10, "  fruit 1 cup plums"),
        ("  fruit 1 cup plums\x1b[2K", "ESCAPE (U+001B)", 20, ""),
        ("  fruit 1 cup\u2028plums", "LINE SEPARATOR (U+2028)", 14, ""),
        ("  fruit 1 cup\x0bplums", "LINE TABULATION (U+000B)", 14, ""),
        ("  fruit 1 cup\rplums", "CARRIAGE RETURN without a line feed (U+000D)", 14, ""),
        ("  fruit 1\u0338 cup plums", "COMBINING LONG SOLIDUS OVERLAY (U+0338)", 10, ""),
        ("  fruit 1 cup plu\u0489ms", "COMBINING CYRILLIC MILLIONS SIGN (U+0489)", 18, ""),
        ("  # 1\u200b0", "ZERO WIDTH SPACE (U+200B)", 6, "  # 10"),
    ],
)
def test_refused_by_name_at_its_place(line: str, name: str, column: int, copy: str) -> None:
    result = read("x", f"{HEAD}{line}\n  acid 2 tbsp lemon juice\n".encode())
    (finding,) = result.findings
    assert finding.says.startswith(f"{name} stands here")
    assert ("writing/characters", 4, column, copy) == (finding.rule, finding.line, finding.column, finding.copy)
    assert result.document is not None
    assert [one.item for one in result.document.take] == ["lemon juice"]


def test_one_finding_a_line_however_many_characters() -> None:
    (finding,) = read("x", f"{HEAD}  fruit １２ cup p\u200blums\n".encode()).findings
    assert finding.says.startswith("FULLWIDTH DIGIT ONE (U+FF11) stands here")
    assert "2 more such characters follow in the line" in finding.says


@pytest.mark.parametrize(
    "line",
    [
        "  vegetable 6 each jalapeño peppers, seeded",
        "  fruit 1 cup plum purée",
        "  fruit 1 cup plum pure\u0301e",
        "  flavouring 1 tsp crème de cassis, Señor’s",
        "  fruit 5½ cup plums",
        "  fruit 5 ½ cup plums",
        "  fruit ⅔ cup plums  # “quoted” – 180 °C … ™",
        "  fruit 1 cup plums  # слива",
        "  fruit 1 cup plums  # \u6885",
    ],
)
def test_honest_text_is_read(line: str) -> None:
    assert read("x", f"{HEAD}{line}\n".encode()).findings == ()


def test_vulgar_fractions_are_read_without_moving_any_place() -> None:
    content = f"{HEAD}  fruit 5½ cup plums\n"
    document = read("x", content.encode()).document
    assert document is not None
    (line,) = document.take
    assert line.amount is not None
    assert (
        str(line.amount.parts[0].low),
        content[line.amount_span.start : line.amount_span.end],
        content[line.item_span.start : line.item_span.end],
    ) == ("11/2", "5½ cup", "plums")
