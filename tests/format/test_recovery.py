"""A fault stays where it is: misspelt sections, lost indents, lines without a home, steps without a dash."""

import pytest

from brimline.document import Read, read

HEAD = "formula KV-1 A\nstanding draft\n"


def told(result: Read) -> list[tuple[int, str]]:
    return [(one.line, one.copy) for one in result.findings]


@pytest.mark.parametrize("word", ["tkae", "Take", "takes", "taek", "take:", "tak"])
def test_a_misspelt_section_is_named_and_its_lines_are_read(word: str) -> None:
    result = read("x", f"{HEAD}{word}\n  fruit 1 cup plums\n  acid 5..2 cup x\n".encode())
    assert told(result) == [(3, "take"), (5, "")]
    assert result.document is not None
    assert [line.item for line in result.document.take] == ["plums"]


def test_a_misspelt_process_keeps_its_method() -> None:
    result = read("x", f"{HEAD}proces boiling-water\n  pint: 5 min to 1000 ft, 10 min above\n".encode())
    assert told(result) == [(3, "process boiling-water")]


def test_a_section_nobody_knows_is_reported_once() -> None:
    result = read("x", f"{HEAD}ingredients\n  1 cup plums\n  2 cups sugar\npack\n  fill hot\n".encode())
    assert told(result) == [(3, "")]
    assert result.findings[0].says.startswith("`ingredients` is not a section; the sections are take, make, pack,")
    assert result.document is not None
    assert result.document.pack.fill is not None


def test_a_line_that_lost_its_indent_leaves_its_section_open() -> None:
    result = read("x", f"{HEAD}take\nfruit 1 cup plums\n    or 1 cup damsons\n  acid 1 tbsp lemon juice\n".encode())
    assert told(result) == [(4, "  fruit 1 cup plums")]
    assert result.document is not None
    assert [line.item for line in result.document.take] == ["lemon juice"]


def test_lines_in_no_section_are_reported_once() -> None:
    result = read("x", f"  # fine\n{HEAD}  fruit 1 cup plums\n  product jam\n".encode())
    assert [one.line for one in result.findings] == [4]


def test_an_indented_header_is_offered_at_the_left_edge() -> None:
    assert told(read("x", f"{HEAD}  product jam\n".encode())) == [(3, "product jam")]


def test_what_stands_under_a_faulty_line_goes_with_it() -> None:
    text = f"{HEAD}take\n  fruit 1 cup plums\n  acid two.. tbsp x\n    or 1 tsp citric acid\n    note stir\n"
    result = read("x", text.encode())
    assert [one.line for one in result.findings] == [5]
    assert result.document is not None
    (line,) = result.document.take
    assert (line.other, line.note) == ((), ())


@pytest.mark.parametrize("word", ["or 1 cup plums", "from 1 cup plums", "note x", "or any mix of: a, b"])
def test_a_line_under_nothing_is_named(word: str) -> None:
    (finding,) = read("x", f"{HEAD}take\n  {word}\n".encode()).findings
    assert finding.says == f"`{word.split(maxsplit=1)[0]}` belongs under an ingredient line, and none stands above."


def test_steps_and_their_continuations() -> None:
    text = (
        f"{HEAD}make\n  no dash\n  - Wash # 2 times,\n    then   drain.\n\n  # a remark\n    Dry.  # well\n  2. Boil\n"
    )
    result = read("x", text.encode())
    assert told(result) == [(4, "  - no dash"), (10, "  - Boil")]
    assert result.document is not None
    assert [step.text for step in result.document.make] == ["Wash # 2 times, then   drain. Dry."]
    assert result.document.comments == ((8, "a remark"), (9, "well"))


def test_comments_open_after_two_blanks_or_a_tab_only() -> None:
    text = f"{HEAD}take\n  fruit 1 cup plums  # one\n  acid 1 tsp citric acid\t# two\n  note report # 3\n  spice some mace #four\n"
    result = read("x", text.encode())
    assert told(result) == [(7, "  spice some mace  #four")]
    assert result.document is not None
    assert result.document.comments == ((4, "one"), (5, "two"))
    assert result.document.take[1].note == ("report # 3",)


def test_several_slips_in_one_line_are_mended_together() -> None:
    text = f"{HEAD}take\n  Sweetener: 5-1/2 cups (1,1 kg) of sugar, granulated.\n"
    assert told(read("x", text.encode())) == [(4, "  sweetener 5 1/2 cups = 1.1 kg sugar, granulated")]


def test_all_faults_of_a_file_are_named_in_one_run_in_order() -> None:
    text = f"{HEAD}take\n" + "  fruit 5..2 cup plums\n  fruit 1 cup plums\n" * 40
    assert list(range(4, 84, 2)) == [one.line for one in read("x", text.encode()).findings]
