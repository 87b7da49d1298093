"""T8: a text made to keep a pattern busy. No pattern takes much more than its share of time for a longer text."""

import importlib
import pkgutil
import re
import time
from collections.abc import Iterator

import pytest

import brimline
from brimline import _patterns
from brimline.document import read

# What cooks' sentences are made of, over and over: whatever a pattern waits for comes and never ends.
PUMPS = (
    "a ", "jars ", "the jars ", "lid ", "1 ", "1/2 ", "process ", "not ", "until it ", "boil ", "and ", "stand ", "head ",
    "water ", "fill the jars ", "take off ", "add ", "turn ", "- ", ", ", "x", " ", "in the ", "old ", "they ", "over ",
)  # fmt: skip
SHORT, LONG = 500, 4_000


def patterns() -> Iterator[tuple[str, int]]:
    """Every pattern of the program that is kept under a name."""
    for module in pkgutil.walk_packages(brimline.__path__, "brimline."):
        if module.name.endswith("__main__"):
            continue
        for value in vars(importlib.import_module(module.name)).values():
            for one in value if isinstance(value, tuple) else (value,):
                if isinstance(one, _patterns._Later):
                    yield one.pattern, one._flags
                elif isinstance(one, re.Pattern) and isinstance(one.pattern, str):
                    yield one.pattern, one.flags


def seconds(shape: re.Pattern[str], text: str) -> float:
    """The least processor time of three searches."""
    took = []
    for _ in range(3):
        began = time.process_time()
        for _found in shape.finditer(text):
            pass
        took.append(time.process_time() - began)
    return min(took)


@pytest.mark.parametrize("pump", PUMPS)
def test_eight_times_the_text_takes_no_more_than_its_square(pump: str) -> None:
    slow = []
    for text, flags in dict.fromkeys(patterns()):
        shape = re.compile(text, flags)
        long = seconds(shape, pump * (LONG // len(pump)))
        # Short times cannot be told from nothing. The square is 64 times, the cube 512: a busy machine lies between.
        if long > 0.02 and long > 200 * max(seconds(shape, pump * (SHORT // len(pump))), 1e-4):
            slow.append((text[:60], long))
    assert slow == []


@pytest.mark.parametrize("pump", PUMPS)
def test_a_formula_whose_steps_are_as_long_as_may_be_is_judged(pump: str) -> None:
    from datetime import date

    from brimline.review.engine import review_one
    from brimline.shelf import Settings, shelf_of

    rows = "\n".join(f"    {pump * (1900 // len(pump))}".rstrip() + "." for _ in range(60))
    text = (
        "formula SL-1 Slow\nproduct jam\nstanding draft\n\ntake\n  fruit 1 cup gooseberries\n\nmake\n  - Boil.\n"
        f"{rows}\n\npack\n  jar half-pint\n"
    )
    assert read("sl-1.formula", text.encode()).document is not None
    began = time.process_time()
    shelf = shelf_of({"sl-1.formula": text}, date(2026, 1, 15), Settings(), [])
    review_one(shelf, shelf.formulas[0])
    # A hundred kilobytes of steps; a pattern that runs away takes hours.
    assert time.process_time() - began < 60
