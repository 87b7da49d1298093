"""The terminal and how it fails."""

import errno
import io

import pytest

from brimline.faces.console import Console


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


class Gone(io.StringIO):
    def __init__(self, number: int) -> None:
        super().__init__()
        self.number = number

    def write(self, text: str) -> int:
        raise OSError(self.number, "gone", text[:0])


@pytest.fixture(autouse=True)
def plain_environment(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("NO_COLOR", "TERM", "COLUMNS"):
        monkeypatch.delenv(name, raising=False)


@pytest.mark.parametrize("number", [errno.EPIPE, errno.EINVAL])
def test_a_reader_who_goes_away_is_forgotten(number: int) -> None:
    console = Console(Gone(number), io.StringIO())
    console.say("one")
    console.say("two")
    assert console.deaf


def test_a_full_disk_is_not_passed_over() -> None:
    with pytest.raises(OSError, match="gone"):
        Console(Gone(errno.ENOSPC), io.StringIO()).say("one")


def test_remarks_that_cannot_be_printed_change_nothing() -> None:
    Console(io.StringIO(), Gone(errno.EPIPE)).note("one")


def test_remarks_are_made_visible() -> None:
    err = io.StringIO()
    Console(io.StringIO(), err).note("path \x1b[2J is not there\nsecond line")
    assert err.getvalue() == "path <U+001B>[2J is not there\nsecond line\n"


@pytest.mark.parametrize(
    ("wish", "terminal", "environment", "colour"),
    [
        ("auto", False, {}, False),
        ("auto", True, {"NO_COLOR": "1"}, False),
        ("auto", True, {"TERM": "dumb"}, False),
        ("never", True, {}, False),
        ("always", False, {}, True),
        ("always", False, {"NO_COLOR": "1"}, True),
    ],
)
def test_when_colour_is_used(
    wish: str, terminal: bool, environment: dict[str, str], colour: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name, value in environment.items():
        monkeypatch.setenv(name, value)
    out = Terminal() if terminal else io.StringIO()
    assert Console(out, io.StringIO()).look(wish).colour is colour


def test_colour_is_used_on_a_terminal_that_understands_it(monkeypatch: pytest.MonkeyPatch) -> None:
    import brimline.faces.console

    monkeypatch.setattr(brimline.faces.console, "_understands_colour", lambda: True)
    assert Console(Terminal(), io.StringIO()).look().colour is True


@pytest.mark.parametrize(("columns", "width"), [("", 80), ("20", 40), ("93", 93), ("1000", 100), ("x", 80), ("0", 80)])
def test_the_width_is_the_one_asked_for_within_reason(
    columns: str, width: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", columns)
    assert Console(io.StringIO(), io.StringIO()).look().width == width


def test_progress_is_shown_on_a_terminal_after_a_while_and_taken_away() -> None:
    err = Terminal()
    console = Console(io.StringIO(), err)
    console.progress(1, 10)
    assert err.getvalue() == ""
    console._began -= 60
    console.progress(5, 10)
    assert "5 of 10" in err.getvalue()
    console.say("done\n")
    assert err.getvalue().endswith("\r")


def test_progress_is_never_written_to_a_file() -> None:
    err = io.StringIO()
    console = Console(io.StringIO(), err)
    console._began -= 60
    console.progress(5, 10)
    assert err.getvalue() == ""
