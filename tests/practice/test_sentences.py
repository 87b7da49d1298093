"""Unsafe habits in sentences: every instruction is seen, advice and reports are let alone.

Every set was read once before the reader was corrected on it. The first reader, of patterns, missed on first sight 8 of
15 unsafe sentences of the second set, 4 of 20 of the third, 4 of 10 of the fourth, 2 of 10 of the fifth, 2 of 8 of the
sixth and 6 of 10 of the seventh, and 59 of 108 of the eighth; of the others it took 5 of 26, 6 of 40, 4 of 20, 3 of 20,
4 of 16, 2 of 18 and 9 of 102 for instructions. The reader of meanings, which took its place, was made on the sets one
to six and missed 28 of 108 of the eighth on first sight, and took 17 of 102 for instructions. It has been corrected on
all but the seventh and the last three, which measure what the reader does with words it has never met: of the tenth,
eleventh and twelfth it misses 9 of 161 on first sight and takes 9 of 177 for instructions, where the reader of patterns
missed 57 and took 13; since then changes made for other sentences have set one of each right. (One author wrote each
set; none of them saw the reader.)
"""

from pathlib import Path

import pytest
from ruamel.yaml import YAML

from brimline.rules.practice import worst
from brimline.rules.standins import no_lid, other_container, replaces_process
from brimline.rules.unfamiliar import unknown

HERE = Path(__file__).parent
CORRECTED_ON = (
    "sentences.yaml",
    "more.yaml",
    "third.yaml",
    "fourth.yaml",
    "fifth.yaml",
    "sixth.yaml",
    "eighth.yaml",
    "author.yaml",
)
HELD_OUT = ("seventh.yaml", "tenth.yaml", "eleventh.yaml", "twelfth.yaml")


def rows(name: str) -> list[dict[str, str]]:
    return list(YAML(typ="safe").load((HERE / name).read_text(encoding="utf-8")))


def seen(text: str) -> str:
    habit = worst(text)
    return replaces_process(text) or no_lid(text) or other_container(text) or (habit.name if habit else "")


@pytest.mark.parametrize("name", [*CORRECTED_ON, *HELD_OUT])
def test_every_sentence_is_read_as_it_is_meant(name: str) -> None:
    """An instruction to follow an unsafe habit is seen, and advice, history and questions are let alone.

    Sentences marked `now: missed` or `now: taken` are known to be read wrongly; the mark goes when they are not.
    """
    wrong = {
        row["text"]: row.get("now", "")
        for row in rows(name)
        if (row["kind"] == "unsafe") is not bool(seen(row["text"]))
    }
    known = {row["text"]: row["now"] for row in rows(name) if "now" in row}
    assert set(wrong) == set(known)
    assert all((known[row["text"]] == "missed") is (row["kind"] == "unsafe") for row in rows(name) if "now" in row)


def test_how_much_is_read_wrongly() -> None:
    """At most 2 of a hundred of the sets it was corrected on, at most 7 of a hundred of those it was not but the seventh."""
    for names, most in ((CORRECTED_ON, 0.02), (HELD_OUT[1:], 0.07)):
        every = [row for name in names for row in rows(name)]
        assert len([row for row in every if "now" in row]) <= most * len(every), names


@pytest.mark.parametrize(
    ("name", "most"), [("seventh.yaml", 3), ("tenth.yaml", 2), ("eleventh.yaml", 3), ("twelfth.yaml", 3)]
)
def test_some_of_what_is_missed_is_shown_to_a_person(name: str, most: int) -> None:
    missed = [row["text"] for row in rows(name) if row.get("now") == "missed"]
    assert len([text for text in missed if not unknown(text)]) <= most
