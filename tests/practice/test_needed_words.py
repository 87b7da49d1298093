"""The words a pattern needs are needed: whatever it matches holds them, so that asking for them first changes nothing."""

import importlib
import pkgutil
import re

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import brimline
from brimline import _patterns
from brimline.made.habit_words import NEEDED
from brimline.rules import practice, standins
from brimline.rules.prose import _holds, could_show, shows

HABITS = (*practice.HABITS, *standins.REPLACES, *standins.NO_LID, *standins.OTHER)
# Words of cooks, so that the texts generated around a match are like steps.
AROUND = st.text(alphabet="abcdefghijklmnopqrstuvwxyz ,.-", max_size=12)


@pytest.mark.parametrize("pattern", sorted(NEEDED), ids=lambda text: text[:40])
def test_what_a_pattern_matches_holds_the_words_it_needs(pattern: str) -> None:
    @settings(max_examples=25, suppress_health_check=list(HealthCheck), deadline=None)
    @given(AROUND, st.from_regex(pattern), AROUND)
    def holds(before: str, text: str, after: str) -> None:
        whole = before + text + after
        if re.search(pattern, whole):
            assert _holds(NEEDED[pattern], whole)

    holds()


def test_most_patterns_need_words_and_a_plain_step_has_them_for_few() -> None:
    texts = {text for habit in HABITS for text in (habit.words, habit.also) if text}
    assert len(set(NEEDED)) > 0.8 * len(texts)
    step = "fill the hot jars to 1/4 inch of the rim, wipe the rims and close with new lids and bands, fingertip tight."
    assert sum(could_show(habit, step) for habit in HABITS) < len(HABITS) / 4


def test_a_habit_is_shown_whether_or_not_its_words_are_asked_first() -> None:
    step = "turn the filled jars upside down for five minutes to seal them."
    assert [habit.name for habit in HABITS if shows(habit, step)]
    assert all(could_show(habit, step) for habit in HABITS if re.search(habit.words, step) and not habit.also)


def test_every_pattern_that_is_compiled_later_is_a_pattern() -> None:
    found = 0
    for module in pkgutil.walk_packages(brimline.__path__, "brimline."):
        if module.name.endswith("__main__"):
            continue
        for value in vars(importlib.import_module(module.name)).values():
            for one in value if isinstance(value, tuple) else (value,):
                if isinstance(one, _patterns._Later):
                    found += 1
                    re.compile(one.pattern, one._flags)
    assert found > 60
