"""The dictionary of the reader: every meaning is known and used, forms are made, phrases hide what stands inside them."""

import re
from pathlib import Path

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimline._speech import words
from brimline.rules import meaning
from brimline.rules.habits import HABITS
from brimline.rules.meaning import Reading, readings
from brimline.rules.practice import worst
from brimline.rules.prose import instructs
from brimline.rules.standins import NO_LID, OTHER, REPLACES, replaces_process
from brimline.rules.unfamiliar import ABOUT, USUAL

RULES = Path(meaning.__file__).parent
ALL = (*HABITS, *REPLACES, *NO_LID, *OTHER)


def known() -> set[str]:
    table = words()
    singles = {name for row in table.single.values() for name in row.split()}
    phrases = {msgspec.json.decode(raw)[0] for raw in table.patterns}
    return singles | phrases | set(table.joined)


def asked() -> set[str]:
    """The meanings that habits, the net and other meanings are made of."""
    rows = [row for habit in ALL for row in (habit.act, *habit.beside, habit.unless)]
    names = {word.lstrip("=<~!-") for row in rows for word in row.split()}
    return names | ABOUT | {name for row in USUAL for part in row for name in part}


def test_every_meaning_that_a_habit_names_is_in_the_dictionary() -> None:
    assert asked() - known() == set()


def test_no_meaning_of_the_dictionary_is_idle() -> None:
    code = " ".join(
        (RULES / name).read_text(encoding="utf-8")
        for name in ("meaning.py", "prose.py", "voices.py", "asides.py", "brought.py", "handled.py", "less.py")
    )
    named = asked() | set(re.findall(r'"(\w+)"', code)) | {"nothing", "notneedless"}
    named |= {part for rows in words().joined.values() for a, _, b, _ in rows for part in (a, b)}
    assert known() - named == set()


def only(text: str) -> Reading:
    (found,) = readings(text)
    return found


def said(text: str, name: str) -> list[str]:
    found = only(text)
    return [" ".join(found.tokens[start:end]) for start, end in found.spots.get(name, ())]


@pytest.mark.parametrize("form", ["flip", "flips", "flipped", "flipping"])
def test_a_verb_is_known_in_all_its_forms(form: str) -> None:
    assert said(f"{form} the jars.", "invertv") == [form]


@pytest.mark.parametrize(
    ("text", "name"), [("berries", "food"), ("halves", "food"), ("shelves", "shelf"), ("jars", "jar")]
)
def test_a_noun_is_known_in_the_plural(text: str, name: str) -> None:
    assert said(f"{text}.", name) == [text]


@pytest.mark.parametrize(
    ("text", "hidden"),
    [
        ("a dutch oven.", "oven"),
        ("wax beans.", "wax"),
        ("two pints of water.", "jar"),
        ("2 pints water.", "jar"),
        ("three quarts water.", "jar"),
        ("a pint of water.", "jar"),
        ("the boiling-water bath.", "basin"),
    ],
)
def test_a_phrase_hides_the_words_inside_it(text: str, hidden: str) -> None:
    assert said(text, hidden) == []


@pytest.mark.parametrize(
    ("text", "clauses"),
    [
        ("wipe the rims, and close the jars.", ["wipe the rims", ", and close the jars", "."]),
        ("wipe the rims and then close the jars.", ["wipe the rims and", "then close the jars", "."]),
        ("the jars are then closed.", ["the jars are then closed", "."]),
        ("fill the hot, clean jars.", ["fill the hot , clean jars", "."]),
        ("fill the hot, small jars.", ["fill the hot", ", small jars", "."]),
        ("fill the jars, clean the rims.", ["fill the jars", ", clean the rims", "."]),
        ("wipe them but close them.", ["wipe them", "but close them", "."]),
    ],
)
def test_a_clause_ends_where_something_new_is_said(text: str, clauses: list[str]) -> None:
    """Common practice, no source: what belongs together in a sentence is a matter of language."""
    found = only(text)
    parts = [
        " ".join(token for token, one in zip(found.tokens, found.clauses, strict=True) if one == number)
        for number in sorted(set(found.clauses))
    ]
    # The last one is what `read` adds.
    assert parts[:-1] == clauses


@pytest.mark.parametrize("text", ["the pints.", "fill pints.", "five pint jars.", "a quart jar."])
def test_a_pint_that_measures_nothing_is_a_jar(text: str) -> None:
    assert said(text, "jar") != []


def test_a_pronoun_stands_for_what_was_named_last() -> None:
    jars = readings("fill the jars. leave them head down.")
    slices = readings("peel the slices. leave them head down.")
    assert ("jar" in jars[1].spots, "jar" in slices[1].spots) == (True, False)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("Turn the jars upside down.", True),
        ("We always turn the jars upside down.", True),
        ("The jars are then turned upside down.", True),
        ("Turn the jars upside down, or mold may grow.", True),
        ("Do not forget to turn the jars upside down.", True),
        ("Grandma swore by it, so turn the jars upside down.", True),
        ("Do not shake the jars or turn them upside down.", False),
        ("Rather than turning the jars upside down, process them.", False),
        ("Turning the jars upside down is not a substitute.", False),
        ("It is dangerous to turn the jars upside down.", False),
        ("My aunt turns the jars upside down.", False),
        ("The old card says to turn the jars upside down.", False),
        ("Jars were turned upside down in those days.", False),
        ("Should we turn the jars upside down?", False),
        ('"Turn the jars upside down," a neighbour will say.', False),
    ],
)
def test_whether_the_cook_is_told_to_do_it(text: str, told: bool) -> None:
    """Common practice, no source: what counts as an instruction is a matter of language."""
    found = only(text)
    assert any(instructs(found, act) for act in found.spots["upside"]) is told
    assert (replaces_process(text) == "inversion") is told


@given(st.lists(st.sampled_from(sorted(words().single)), max_size=30).map(" ".join), st.text(max_size=60))
def test_any_text_is_read(cooks: str, other: str) -> None:
    for text in (cooks, other, f"{cooks}, {other}. {cooks}?"):
        for found in readings(text):
            assert len(found.clauses) == len(found.tokens)
            assert all(0 <= a < b <= len(found.tokens) for spots in found.spots.values() for a, b in spots)
        worst(text)
