"""Commands as values: what they take and what their help says; parsing, help and completion are made from these."""

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, NoReturn

from msgspec import Struct

if TYPE_CHECKING:
    from argparse import ArgumentParser

    from brimline.faces.console import Console


class Misuse(Exception):
    """The command was not given what it needs; the message says what to write instead."""


class Option(Struct, frozen=True):
    """An option of a command: its name, what stands for its value (empty for a switch), a sentence, its choices."""

    name: str
    value: str
    says: str
    choices: tuple[str, ...] = ()
    default: str = ""
    files: bool = False

    @property
    def key(self) -> str:
        """The name a command finds the value under."""
        return self.name.lstrip("-").replace("-", "_")


class Given(Struct, frozen=True):
    """What a command is given without an option name: how it is called, a sentence, how many, what it can be."""

    name: str
    says: str
    least: int = 1
    most: int | None = 1
    choices: tuple[str, ...] = ()
    files: bool = False

    @property
    def shown(self) -> str:
        """The name as it stands in the line of use: `PATH...`, `[RULE]`."""
        many = f"{self.name}..." if self.most is None else self.name
        return many if self.least else f"[{many}]"


class Command(Struct, frozen=True):
    """One verb: its name, what it does in one line, one example, what it takes, more help, what runs it.

    `run` returns 0, 1 or 2 as `brimline --help` explains.
    """

    name: str
    does: str
    example: str
    run: Callable[["Arguments", "Console"], int]
    given: Given | None = None
    options: tuple[Option, ...] = ()
    more: str = ""


class Arguments(Struct, frozen=True):
    """What a command was called with: the words without option names, and the options by key."""

    given: tuple[str, ...]
    options: dict[str, str]

    def __getitem__(self, key: str) -> str:
        return self.options[key]


COLOUR = Option(
    "--color",
    "WHEN",
    "auto (on a terminal, unless NO_COLOR is set), always or never",
    ("auto", "always", "never"),
    "auto",
)
ENDS = "Ends with 0 if nothing is held back, 1 if something is held back, 2 if something\ncould not be run."


def parse(command: Command, words: Sequence[str]) -> Arguments:
    """What a command was called with. Raises Misuse with the nearest thing that would have been right."""
    if not any(word.startswith("-") for word in words):
        # The parser's library takes longer to load than many a review; where no option is given there is nothing to parse.
        _check_given(command, tuple(words))
        return Arguments(
            tuple(words), {option.key: option.default if option.value else "" for option in command.options}
        )
    parser = _parser()
    for option in command.options:
        if option.value:
            parser.add_argument(option.name, dest=option.key, default=option.default)
        else:
            parser.add_argument(option.name, dest=option.key, default="", action="store_const", const="given")
    parser.add_argument("given", nargs="*")
    named, after = _split(words)
    read, unknown = parser.parse_known_intermixed_args(named)
    given = (*read.given, *after)
    if unknown:
        known = [option.name for option in command.options]
        raise Misuse(f"there is no option {unknown[0].partition('=')[0]}{nearest(unknown[0], known)}")
    for option in command.options:
        value = getattr(read, option.key)
        if option.choices and value not in option.choices:
            raise Misuse(f"{option.name} cannot be {value}; it is one of {', '.join(option.choices)}")
    _check_given(command, given)
    return Arguments(given, {option.key: getattr(read, option.key) for option in command.options})


def usage(command: Command) -> str:
    """The help of one command."""
    given = f" {command.given.shown}" if command.given else ""
    rows = [(command.given.shown, command.given.says)] if command.given else []
    rows += [(f"{one.name} {one.value}".rstrip(), one.says) for one in command.options]
    parts = [
        f"brimline {command.name}: {command.does}",
        f"  brimline {command.name}{' [OPTION...]' if command.options else ''}{given}",
        columns(rows),
        *([command.more] if command.more else []),
        f"Example:\n  {command.example}",
    ]
    return "\n\n".join(part for part in parts if part) + "\n"


def columns(rows: Sequence[tuple[str, str]], width: int = 80) -> str:
    """Names and what they mean, in two columns."""
    from textwrap import wrap

    left = max((len(name) for name, _ in rows), default=0) + 4
    lines = []
    for name, says in rows:
        parts = wrap(says, width - left, break_on_hyphens=False)
        lines.append(f"  {name}".ljust(left) + parts[0])
        lines += [" " * left + part for part in parts[1:]]
    return "\n".join(lines)


def nearest(word: str, known: Sequence[str]) -> str:
    """`; did you mean X?` where something known is close, else nothing."""
    from difflib import get_close_matches

    close = get_close_matches(word, known, n=1, cutoff=0.6)
    return f"; did you mean {close[0]}?" if close else ""


def _parser() -> "ArgumentParser":
    """A parser that hands its complaints on instead of printing them and ending the program."""
    from argparse import ArgumentParser

    class Parser(ArgumentParser):
        def error(self, message: str) -> NoReturn:
            raise Misuse(message.removeprefix("argument "))

    return Parser(add_help=False, allow_abbrev=False)


def _split(words: Sequence[str]) -> tuple[list[str], list[str]]:
    """The words before `--`, and those after it, which are never options."""
    listed = list(words)
    if "--" not in listed:
        return listed, []
    place = listed.index("--")
    return listed[:place], listed[place + 1 :]


def _check_given(command: Command, given: tuple[str, ...]) -> None:
    expected = command.given
    if expected is None:
        if given:
            raise Misuse(f"{command.name} takes nothing more, but was given {given[0]}")
        return
    if len(given) < expected.least:
        raise Misuse(f"{command.name} needs {expected.name}: {expected.says}")
    if expected.most is not None and len(given) > expected.most:
        raise Misuse(f"{command.name} takes one {expected.name}, but was also given {given[expected.most]}")
    for word in given:
        if expected.choices and word not in expected.choices:
            raise Misuse(f"{expected.name} cannot be {word}; it is one of {', '.join(expected.choices)}")
