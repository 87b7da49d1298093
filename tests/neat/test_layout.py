"""The canonical layout, line by line, and what is never touched."""

import pytest

from brimline.document import read
from brimline.document.neat import neaten

HEAD = "formula KV-1 Plum jam\nproduct   jam\nstanding  draft\n"


def neat(text: str) -> str:
    result = neaten("a.formula", text.encode())
    assert result.refusal == ""
    return result.after.decode()


def body(text: str) -> str:
    """What stands below the headers once the text is neat."""
    made = neat(HEAD + "\n" + text)
    assert made.startswith(f"{HEAD}\n")
    return made.removeprefix(f"{HEAD}\n")


@pytest.mark.parametrize(
    ("section", "written", "wanted"),
    [
        ("take", " fruit 5 1/2 cup=1.3 kg gooseberries,crushed", "  fruit      5 1/2 cup = 1.3 kg   gooseberries, crushed"),
        ("take", "\tpectin\t1 box of 1 3/4 oz\tpectin,   regular", "  pectin     1 box of 1 3/4 oz    pectin, regular"),
        ("take", " sweetener 1 cup+2 tbsp sugar", "  sweetener  1 cup + 2 tbsp       sugar"),
        ("take", "  optional   fat  1/2  tsp  butter", "  optional fat 1/2 tsp            butter"),
        ("take", " acid 1 tbsp per pint jar lemon juice", "  acid       1 tbsp per pint jar  lemon juice"),
        ("take", " acid 2 tbsp per quart jar lemon juice", "  acid       2 tbsp per quart jar  lemon juice"),
        ("take", " salt some salt", "  salt       some                 salt"),
        ("take", " dried-fruit 2 to 3 cup raisins", "  dried-fruit 2 to 3 cup          raisins"),
        ("take", " flavouring 5½  tsp vanilla  extract", "  flavouring 5½ tsp               vanilla  extract"),
        ("take", " acid 2 cup vinegar ,white,5 %", "  acid       2 cup                vinegar, white, 5 %"),
        ("pack", " jar half-pint ,300 ml", "  jar        half-pint, 300 ml"),
        ("pack", " prepare sterile:half-pint,pint", "  prepare    sterile: half-pint, pint"),
        ("pack", " headspace 1/4 in", "  headspace  1/4 in"),
        ("pack", " lid #70 lids", "  lid #70 lids"),
        ("process boiling-water", "   pint ,hot :5 min to 1,000 ft,10 min above", "  pint, hot: 5 min to 1,000 ft, 10 min above"),
        ("process freezer", "   start   180 F,25 to 30 min to  the boil", "  start 180 F, 25 to 30 min to the boil"),
        ("keep", " sealed 12 months,cool ,in a  dark place", "  sealed     12 months, cool, in a  dark place"),
        ("changes", "   jar    pints, for the fair", "  jar        pints, for the fair"),
        ("changes", " fruit", "  fruit"),
        ("evidence", " tested 2025-06-14,test kitchen", "  tested     2025-06-14, test kitchen"),
        ("evidence", " review-by\t2028-06-30", "  review-by  2028-06-30"),
        ("evidence", " source  A book.  Its  blanks stay.", "  source     A book.  Its  blanks stay."),
        ("make", " -   Wash;  crush.", "  - Wash;  crush."),
    ],
)  # fmt: skip
def test_a_line(section: str, written: str, wanted: str) -> None:
    made = body(f"{section}\n{written}\n")
    assert made == f"{section}\n{wanted}\n"
    assert [one for one in read("a", (HEAD + made).encode()).findings if one.rule != "writing/shape"] == []


def test_headers_start_at_one_column() -> None:
    written = (
        "formula   KV-1    Plum jam,  spiced\nproduct jam\nstanding\tretired\nadapts KV-2\nfinish gel  point 9 F above\n"
        "yield 4 to 5   half-pint\nsold-as jam, EU\nretired 2026-01-15,replaced\nsuccessor KV-3\n"
    )
    assert neat(written) == (
        "formula KV-1 Plum jam,  spiced\nproduct   jam\nstanding  retired\nadapts    KV-2\nfinish    gel point 9 F above\n"
        "yield     4 to 5 half-pint\nsold-as   jam, EU\nretired   2026-01-15, replaced\nsuccessor KV-3\n"
    )


def test_what_stands_under_a_line_is_indented_once_more() -> None:
    written = (
        "take\n fruit 4 cup plums\n from 2 qt plums,whole\n from liquid 1 cup water\n or 4 cup damsons\n or any mix of plums,damsons\n"
        " note #1 grade, ripe\nmake\n - Wash.\n crush,\n\tand measure.\n"
    )
    assert body(written) == (
        "take\n  fruit      4 cup                plums\n    from     2 qt                 plums, whole\n"
        "    from liquid 1 cup             water\n    or       4 cup                damsons\n"
        "    or       any mix of plums, damsons\n    note #1 grade, ripe\n"
        "\nmake\n  - Wash.\n    crush,\n    and measure.\n"
    )


def test_one_blank_line_between_sections_and_none_inside() -> None:
    written = "\n\n\nformula KV-1 Plum jam\n\nproduct jam\nstanding draft\ntake\n\n fruit 4 cup plums\n \t \n\n acid 1 tsp lemon juice\npack\n fill hot\n\n\n"
    assert neat(written) == HEAD + (
        "\ntake\n  fruit      4 cup                plums\n  acid       1 tsp                lemon juice\n\npack\n  fill       hot\n"
    )


def test_comments_stay_with_their_line() -> None:
    written = (
        "# Demonstration.\n\n# Not tested.\nformula KV-1 Plum jam   # of damsons\nproduct jam\n  # why a draft\nstanding draft\n"
        "take   # all of it\n\n     # the fruit\n fruit 4 cup plums      # ripe  # or not\n      # how many\n note  two baskets\n"
        "# a thought at the edge\n acid 1 tsp lemon juice\n   # the last of take\n#of the jars\n\npack\n fill hot\n\n# closing word\n"
    )
    wanted = (
        "# Demonstration.\n# Not tested.\nformula KV-1 Plum jam  # of damsons\nproduct   jam\n# why a draft\nstanding  draft\n"
        "\ntake  # all of it\n  # the fruit\n  fruit      4 cup                plums  # ripe  # or not\n    # how many\n"
        "    note     two baskets\n# a thought at the edge\n  acid       1 tsp                lemon juice\n  # the last of take\n"
        "\n#of the jars\npack\n  fill       hot\n\n# closing word\n"
    )
    assert neat(written) == wanted
    assert neat(wanted) == wanted


def test_a_line_that_cannot_be_read_stays_as_it_is() -> None:
    written = (
        "take\n fruit 4 cup plums\n   sweetener   2 cup 5 % honey   # half\n\tacid  3 lemons \n spice 2  ripe cloves\n note  whole\n"
        "mkae\n -  Wash.\nmethod\n\n   one   thing\n\n\n and  another\n"
    )
    result = neaten("a.formula", (HEAD + "\n" + written).encode())
    assert result.refusal == ""
    assert result.after.decode() == HEAD + (
        "\ntake\n  fruit      4 cup                plums\n   sweetener   2 cup 5 % honey   # half\n\tacid  3 lemons \n spice 2  ripe cloves\n"
        "    note     whole\n\nmkae\n  - Wash.\n\nmethod\n\n   one   thing\n\n\n and  another\n"
    )
    assert {one.line for one in result.left} == {7, 8, 9, 11, 13}


def test_line_ends_and_the_byte_order_mark_go() -> None:
    made = neaten("a.formula", b"\xef\xbb\xbf" + (HEAD + "\npack\n  fill       hot").replace("\n", "\r\n").encode())
    assert made.after == (HEAD + "\npack\n  fill       hot\n").encode()
    assert made.lines == ()
    assert set(made.also) == {"line ends", "the byte order mark", "the end of the last line"}


def test_what_is_to_be_changed_is_said_by_line() -> None:
    made = neaten("a.formula", (HEAD + "pack\n fill hot\n").encode())
    assert (made.lines, made.also) == ((5,), ("blank lines",))
    assert not made.is_neat
    again = neaten("a.formula", made.after)
    assert (again.is_neat, again.lines, again.also) == (True, (), ())


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"\n \n",
        b"\x00\x01",
        "formula KV-1 Plum jam\n".encode("utf-16"),
        b"formula KV-1 Plum jam\nproduct jam\nsold-as caf\xe9\n",
        b"Dear all,\n\nhere is my formula.\n",
        b"formula KV-1 Plum jam\n" * 20_000,
    ],
)
def test_what_is_no_formula_is_refused_and_handed_back(data: bytes) -> None:
    made = neaten("a.formula", data)
    assert made.after == data
    assert made.refusal.endswith(".")


def test_a_line_that_would_become_too_long_stays_as_it_is() -> None:
    long = f" note {'a' * 1990}\n"
    made = body(f"take\n fruit 4 cup plums\n{long}")
    assert made == f"take\n  fruit      4 cup                plums\n{long}"
