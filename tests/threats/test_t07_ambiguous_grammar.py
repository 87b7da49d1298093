"""T7: a grammar that can be read in many ways takes longer and longer; ours can be read in one way only."""

import time

import pytest

from brimline.tree import STARTS
from brimline.tree.grammar import _parse, built, grammar


def test_the_parser_is_of_the_kind_that_never_tries_two_ways() -> None:
    for one in (grammar(), built()):
        assert (one.options.parser, one.options.lexer) == ("lalr", "contextual")


@pytest.mark.parametrize("start", STARTS)
@pytest.mark.parametrize("one", ["1 cup + ", "1 cup = ", "a, ", "to 1 ", "or ", "1/2 "])
def test_four_times_the_line_takes_about_four_times_as_long(start: str, one: str) -> None:
    def seconds(times: int) -> float:
        body = f"fruit {one * times}gooseberries"
        took = []
        for _ in range(3):
            began = time.process_time()
            _parse(start, body)
            took.append(time.process_time() - began)
        return min(took)

    seconds(1)
    assert seconds(200) < 16 * max(seconds(50), 2e-3)
