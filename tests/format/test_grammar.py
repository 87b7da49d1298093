"""The grammar itself: no conflict, no recursion, every terminal said in words, no catastrophic pattern."""

import time

from lark import Lark
from lark.grammar import NonTerminal, Rule

from brimline.tree import STARTS, parse
from brimline.tree.faults import SAMPLES
from brimline.tree.grammar import built, grammar, grammar_text
from brimline.tree.words import WORDS, choices, expected


def test_the_grammar_is_built_once_without_any_conflict() -> None:
    strict = Lark(grammar_text(), start=list(STARTS), parser="lalr", lexer="contextual", strict=True)
    assert (strict.options.parser, strict.options.lexer) == ("lalr", "contextual")
    assert grammar() is grammar()
    assert (
        grammar().options.parser,
        grammar().options.lexer,
        grammar().options.cache,
    ) == ("lalr", "contextual", False)


def test_nothing_repeats_into_itself_but_flat_lists() -> None:
    # Lists written with `*` become rules that call themselves at their first place; they nest nothing in the tree.
    uses: dict[str, set[str]] = {}
    rules: list[Rule] = grammar().rules
    for rule in rules:
        name = str(rule.origin.name)
        under = {str(symbol.name) for symbol in rule.expansion if isinstance(symbol, NonTerminal)}
        uses.setdefault(name, set()).update(under - ({name} if name.startswith("__") else set()))

    def reach(name: str, above: tuple[str, ...]) -> None:
        assert name not in above, f"{name} repeats into itself"
        for under in uses[name]:
            reach(under, (*above, name))

    for name in list(uses):
        reach(name, ())


def test_every_terminal_is_said_in_words() -> None:
    names = {terminal.name for terminal in built().terminals} - set(built().ignore_tokens)
    numbers = {"INT", "FRACTION", "GLYPH", "DECIMAL"}
    assert set() == names - set(WORDS) - numbers
    assert set() == set(WORDS) - names - {"NUMBER", "$END"}


def test_no_terminal_name_reaches_a_reader() -> None:
    for terminal in grammar().terminals:
        said = expected({terminal.name})
        assert terminal.name not in said or terminal.name.lower() == said.strip("`")


def test_keywords_are_known_from_the_grammar_itself() -> None:
    assert choices(["METHOD"]) == ("boiling-water", "steam", "pressure", "freezer", "refrigerator")
    assert choices(["ROLLING_BOIL"]) == ("full rolling boil",)
    assert choices(["NAME", "UNIT", "INT", "COMMA"]) == ()


def test_the_sample_of_each_kind_of_line_is_read() -> None:
    assert set(STARTS) == set(SAMPLES)
    for start, body in SAMPLES.items():
        assert parse(start, body).fault is None


def test_a_keyword_ends_where_its_word_ends() -> None:
    for start, body in [
        ("take", "notes keep"),
        ("take", "fruits 1 cup plums"),
        ("take", "some-fruit 1 cup plums"),
        ("section", "takes"),
        ("keep", "standing 12 h"),
        ("header", "products jam"),
    ]:
        fault = parse(start, body).fault
        assert fault is not None
        assert fault.start == 0


def test_a_line_seen_before_is_not_parsed_again() -> None:
    assert parse("take", "fruit 3 cup sloes") is parse("take", "fruit " + "3 cup sloes")
    long = "note " + "x" * 500
    assert parse("take", long) is not parse("take", long)


def test_no_pattern_takes_long_on_any_repetition() -> None:
    pieces = [
        "a",
        "a ",
        "a-",
        "1 ",
        "1/",
        "1 a ",
        "1 cup + ",
        "a, ",
        "( ",
        "= ",
        "5 % ",
        "per a ",
        "A-",
        "1-",
        "5 min, ",
    ]
    began = time.process_time()
    for start in STARTS:
        for piece in pieces:
            for first in ("", "fruit ", "fruit 1 cup ", "finish ", "half-pint: ", "sealed ", "jar ", "tested "):
                parse(start, (first + piece * 1900)[:1990])
    assert time.process_time() - began < 60
