"""Unsafe habits in sentences: every instruction is seen, advice and reports are let alone.

Every set was read once before the reader was corrected on it. The first reader, of patterns, missed on first sight 8 of
15 unsafe sentences of the second set, 4 of 20 of the third, 4 of 10 of the fourth, 2 of 10 of the fifth, 2 of 8 of the
sixth and 6 of 10 of the seventh, and 59 of 108 of the eighth; of the others it took 5 of 26, 6 of 40, 4 of 20, 3 of 20,
4 of 16, 2 of 18 and 9 of 102 for instructions. The reader of meanings, which took its place, was made on the sets one
to six and missed 28 of 108 of the eighth on first sight, and took 17 of 102 for instructions. It has been corrected on
all but the seventh and the last three, which measure what the reader does with words it has never met: of the tenth,
eleventh and twelfth it misses 9 of 161 on first sight and takes 9 of 177 for instructions, where the reader of patterns
missed 57 and took 13. (One author wrote each set; none of them saw the reader.)
"""

from pathlib import Path

import pytest
from ruamel.yaml import YAML

from brimline.rules.meaning import sentences
from brimline.rules.practice import worst
from brimline.rules.standins import no_lid, other_container, replaces_process
from brimline.rules.unfamiliar import unknown

HERE = Path(__file__).parent
# How many sentences of each set may be taken for an instruction, and how many unsafe ones may be missed.
FILES = {
    "sentences.yaml": (1, 0),
    "more.yaml": (1, 0),
    "third.yaml": (1, 0),
    "fourth.yaml": (0, 0),
    "fifth.yaml": (0, 0),
    "sixth.yaml": (0, 0),
    "eighth.yaml": (2, 2),
    "author.yaml": (3, 8),
}


def rows(name: str) -> list[dict[str, str]]:
    return list(YAML(typ="safe").load((HERE / name).read_text(encoding="utf-8")))


def seen(text: str) -> str:
    habit = worst(text)
    return replaces_process(text) or no_lid(text) or other_container(text) or (habit.name if habit else "")


@pytest.mark.parametrize("name", FILES)
def test_every_unsafe_instruction_is_seen(name: str) -> None:
    """An instruction to follow an unsafe habit does not pass unseen."""
    missed = [row["text"] for row in rows(name) if row["kind"] == "unsafe" and not seen(row["text"])]
    assert len(missed) <= FILES[name][1], missed


@pytest.mark.parametrize("name", FILES)
def test_advice_and_reports_are_let_alone(name: str) -> None:
    """Good advice, history, questions and harmless uses of the same words raise next to nothing."""
    false = [(seen(row["text"]), row["text"]) for row in rows(name) if row["kind"] != "unsafe" and seen(row["text"])]
    assert len(false) <= FILES[name][0], false


# Of the sets it was not corrected on: how many may be missed, missed without a form note, taken for an instruction.
HELD_OUT = {"seventh.yaml": (6, 3, 2), "tenth.yaml": (2, 2, 1), "eleventh.yaml": (3, 3, 5), "twelfth.yaml": (4, 3, 3)}


@pytest.mark.parametrize("name", HELD_OUT)
def test_a_set_it_was_not_corrected_on_reads_no_worse(name: str) -> None:
    """A change that reads new words worse shows here; one that lists these sentences would spoil the measure."""
    held_out = rows(name)
    missed = [row["text"] for row in held_out if row["kind"] == "unsafe" and not seen(row["text"])]
    unseen = [text for text in missed if not any(unknown(one) for one in sentences(text))]
    false = [row["text"] for row in held_out if row["kind"] != "unsafe" and seen(row["text"])]
    found = (len(missed), len(unseen), len(false))
    assert all(one <= most for one, most in zip(found, HELD_OUT[name], strict=True)), (found, missed, false)
