"""The command line: picks the command, and turns whatever goes wrong into words and an exit status."""

import os
import sys
from collections.abc import Sequence

from brimline import __version__
from brimline.faces.commands import NAMES, command, commands
from brimline.faces.console import Console, opened
from brimline.faces.declare import ENDS, Misuse, columns, nearest, parse, usage

COULD_NOT_RUN = 2

_HEAD = """\
brimline: compares edited home-preserving formulas with the tested formulas they
depart from. It cannot make an untested formula safe.

  brimline COMMAND [OPTION...] ...
"""


def main(words: Sequence[str] | None = None) -> int:
    """Run one command line and return its exit status: 0 nothing held back, 1 something held back, 2 not run."""
    console = opened()
    try:
        return _run(list(sys.argv[1:] if words is None else words), console)
    except Misuse as misuse:
        console.note(f"brimline: {misuse}")
    except KeyboardInterrupt:
        console.note("brimline: stopped; what was not printed was not judged.")
    except Exception as error:  # noqa: BLE001 - the last resort: a reader gets words, never a traceback
        console.note(_fault(error))
        if os.environ.get("BRIMLINE_TRACE"):
            import traceback

            console.note(traceback.format_exc())
    return COULD_NOT_RUN


def _run(words: list[str], console: Console) -> int:
    if not words:
        console.say(overview())
        return COULD_NOT_RUN
    first, rest = words[0], words[1:]
    if first == "--help":
        console.say(overview())
        return 0
    if first == "--version":
        console.say(version())
        return 0
    if first not in NAMES:
        kind = "option" if first.startswith("-") else "command"
        known = ["--help", "--version"] if kind == "option" else NAMES
        raise Misuse(f"there is no {kind} {first}{nearest(first, known)}\nbrimline --help lists them all.")
    chosen = command(first)
    if "--help" in rest and "--" not in rest[: rest.index("--help")]:
        console.say(usage(chosen))
        return 0
    try:
        arguments = parse(chosen, rest)
    except Misuse as misuse:
        raise Misuse(f"{misuse}\nbrimline {first} --help says more.") from misuse
    return chosen.run(arguments, console)


def overview() -> str:
    """The help of the whole program."""
    listed = columns([(one.name, one.does) for one in commands()])
    rest = columns([("--help", "this page, or after a command its own"), ("--version", "program, figures and Python")])
    return f"{_HEAD}\n{listed}\n\n{rest}\n\nExample:\n  brimline review formulas\n\n{ENDS}\n"


def version() -> str:
    """One line naming the program, the date of its figures, and the Python it runs on."""
    import brimline.figures

    dated = getattr(brimline.figures, "dated", None)
    figures = f", figures of {dated()}" if dated else ""
    return f"brimline {__version__}{figures}, Python {sys.version.split()[0]}\n"


def _fault(error: Exception) -> str:
    where = ""
    trace = error.__traceback__
    while trace:
        name = str(trace.tb_frame.f_globals.get("__name__", ""))
        where = f" in {name}, line {trace.tb_lineno}" if name.startswith("brimline") else where
        trace = trace.tb_next
    what = " ".join(f"{type(error).__name__}{where}: {error}".split()).rstrip(": ")
    return (
        f"brimline: stopped by a fault of its own; nothing was judged.\n{what}\n"
        "Please report this line with the formula. BRIMLINE_TRACE=1 shows where it happened."
    )
