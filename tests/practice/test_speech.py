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
from brimline.rules.meaning import Reading, _hidden, readings
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
        ("use pints of jam.", "jar"),
        ("fill twelve pints.", "jar"),
        ("pour 2 pints water.", "jar"),
        ("now pour 2 pints water.", "jar"),
        ("fill all twelve pints.", "jar"),
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
        ("all the jars are then closed.", ["all the jars are then closed", "."]),
        ("fill the hot, clean jars.", ["fill the hot , clean jars", "."]),
        ("fill the hot, small jars.", ["fill the hot", ", small jars", "."]),
        ("fill the jars, clean the rims.", ["fill the jars", ", clean the rims", "."]),
        ("now fill the jars, clean the rims.", ["now fill the jars", ", clean the rims", "."]),
        ("wipe them but close them.", ["wipe them", "but close them", "."]),
        ("it is — fine.", ["it is", "— fine", "."]),
        ("the jars are so hot.", ["the jars are", "so hot", "."]),
        ("fill the hot (clean) jars.", ["fill the hot", "( clean", ") jars", "."]),
        ("fill the hot; clean jars.", ["fill the hot", "; clean jars", "."]),
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


@pytest.mark.parametrize(
    "text",
    [
        "the pints.",
        "fill pints.",
        "fill pints with jam.",
        "five pint jars.",
        "a quart jar.",
        "pints of jam.",
        "a pint jar of jam.",
        "ten half pints.",
    ],
)
def test_a_pint_that_measures_nothing_is_a_jar(text: str) -> None:
    assert said(text, "jar") != []


@pytest.mark.parametrize(
    ("text", "name", "found"),
    [
        # Three words may stand between `microwave` and the jars, none between `bake` and `canning`, one after `oven`.
        ("microwave jars.", "zapjar", ["microwave jars"]),
        ("microwave one two three jars.", "zapjar", ["microwave one two three jars"]),
        ("microwave one two three four jars.", "zapjar", []),
        ("oven for canning.", "ovencan", ["oven for canning"]),
        ("oven used for canning.", "ovencan", []),
        ("bake canning.", "ovencan", ["bake canning"]),
        ("bake the canning.", "ovencan", []),
        # Only what stands behind, only in the clause, unless it may leave it; each with each.
        ("jars microwave.", "zapjar", []),
        ("microwave, then jars.", "zapjar", []),
        ("the lid, once cool, pings.", "pinglid", ["lid , once cool , pings"]),
        ("microwave jars and jars.", "zapjar", ["microwave jars", "microwave jars and jars"]),
        ("microwave a jar, microwave a jar.", "zapjar", ["microwave a jar", "microwave a jar"]),
        # What hides hides only what it covers, and the longest hides the shorter.
        ("the dutch oven in the oven.", "oven", ["oven"]),
        ("a rubber ring and a ring.", "band", ["ring"]),
        ("a big pot of water.", "pan", ["big pot"]),
        ("pressure canner lid.", "canner", ["pressure canner"]),
        # What stands inside the first of two is no second.
        ("cap them quick.", "closelid", []),
        ("put the lids on.", "closelid", []),
        # Inside the longest no other begins or ends, but one that goes on behind it is there too.
        ("past fingertip tight.", "fingertip", []),
        ("past fingertip tight.", "force", []),
        ("zinc caps with.", "capw", ["caps with"]),
        # Any word may stand before `takes`, only `'s` behind `each jar`; of words that may be left out one may stand.
        ("no powder takes the place.", "gapneg", ["no powder takes"]),
        ("water to each jar and lids.", "partcover", []),
        ("leave them in hot pot water.", "inpot", ["in hot pot"]),
        # A phrase of which one word stands is that word alone, and hides none of its meanings.
        ("now cook in the pan.", "cook", ["cook"]),
    ],
)
def test_what_is_made_of_words(text: str, name: str, found: list[str]) -> None:
    """As `figures/tables/speech.yaml` has the words, and how many may stand between."""
    assert said(text, name) == found


@pytest.mark.parametrize(
    ("text", "name", "found"),
    [
        ("fill the jars. leave them.", "jar", True),
        ("leave them.", "jar", True),
        ("fill the jars. put on the lids. leave them.", "jar", True),
        ("fill the jars. put on the lids. leave them.", "lid", True),
        ("fill the jars. put on the bands. leave them.", "jar", True),
        ("fill the jars. put on lids and bands. leave them.", "jar", True),
        ("fill the jars. put on lids and plums. leave them.", "jar", False),
        ("fill the pan. put on the lids. leave them.", "jar", False),
        ("fill the jars. peel the plums. leave them.", "jar", False),
        ("wipe the jars and lids. leave them.", "lid", True),
        ("wipe the lids. peel the plums and jars. leave them.", "lid", False),
        ("fill the jars, heat the canner and leave it.", "jar:it", False),
        ("fill the jars, heat the canner and leave them.", "jar:them", True),
        ("heat the water, lift the jar and leave it.", "jar:it", True),
    ],
)
def test_what_a_pronoun_stands_for(text: str, name: str, found: bool) -> None:
    last = readings(text)[-1]
    kind, _, word = name.partition(":")
    assert any(last.tokens[start:end] == [word or "them"] for start, end in last.spots.get(kind, ())) is found


@pytest.mark.parametrize(
    ("text", "inherited"),
    [
        ("wait.", [{"jar"}]),
        ("fill the jars, wait.", [set(), {"jar"}]),
        ("fill the jars, leave it, wait.", [set(), set(), {"jar"}]),
        ("fill the jars, peel plums, wait.", [set(), set(), set()]),
        ("fill the pan. wait.", [set()]),
        ("fill the jars, then lids, wait.", [set(), {"jar"}, set(), {"jar", "lid"}]),
    ],
)
def test_a_clause_that_names_nothing_speaks_of_what_was_named(text: str, inherited: list[set[str]]) -> None:
    found = readings(text)[-1].inherited
    # The full stop is a clause, and so is the one that `read` adds.
    assert [set(one) for one in found[: len(inherited)]] == inherited


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


def test_the_longest_phrase_hides_wherever_it_begins() -> None:
    found = meaning._hidden([(0, 2, "short"), (1, 5, "long")])
    assert found == {0: (0, 2), 1: (1, 5), 2: (1, 5), 3: (1, 5), 4: (1, 5)}


def test_of_two_phrases_that_share_a_word_the_longer_has_it() -> None:
    # Words 3 to 5 are one phrase, 5 to 8 a longer one.
    assert _hidden([(3, 6, "one"), (5, 9, "other")]) == {3: (3, 6), 4: (3, 6), **dict.fromkeys(range(5, 9), (5, 9))}
