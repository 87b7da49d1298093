"""`brimline review`: the main job, formulas in and findings out."""

from datetime import date
from typing import TYPE_CHECKING

from msgspec.structs import replace

from brimline.faces.declare import COLOUR, ENDS, Arguments, Command, Given, Misuse, Option
from brimline.faces.forms import FORMS, FROM, TO

if TYPE_CHECKING:
    from brimline.faces.console import Console
    from brimline.report.look import Look
    from brimline.review.values import Review
    from brimline.shelf import Shelf

_NAMED = [f"{name} ({what})" if what else name for name, what in FORMS.items()]
AS = Option("--as", "FORM", f"{', '.join(_NAMED[:-1])} or {_NAMED[-1]}", tuple(FORMS), "text")
ON = Option("--on", "DATE", "review as of this date (2027-01-31) instead of today")
BESIDE = Option("--beside", "FOLDER", "the collection that a formula from a pipe belongs to", files=True)
JOBS = Option("--jobs", "N", "processes to share a long run among, 1 if not given", default="1")


def run(arguments: Arguments, console: "Console") -> int:
    """Review everything that was asked for and print it in the form that was asked for."""
    from brimline.faces.many import review_all

    jobs = _jobs(arguments["jobs"])
    shelf = shelved(arguments.given, arguments["on"], arguments["beside"], console)
    review = review_all(shelf, jobs, console.progress)
    refusals = dict.fromkeys((*shelf.refusals, *review.refusals))
    review = replace(review, refusals=tuple(refusals), collections=shelf.names(), notices=shelf.notices())
    _print(review, shelf, arguments, console)
    if review.refusals or not review.formulas:
        return 2
    return 1 if review.held_back else 0


def shelved(paths: tuple[str, ...], on: str, beside: str, console: "Console") -> "Shelf":
    """The shelf for the paths given. Raises Misuse for a date that is none."""
    from brimline.shelf import STDIN, load_shelf

    today = day(on)
    if beside and STDIN not in paths:
        raise Misuse(f"{BESIDE.name} only goes with {STDIN}, a formula from a pipe")
    return load_shelf(paths, today, stdin=piped(console) if STDIN in paths else None, beside=beside)


def day(on: str) -> date:
    """The day a review is made for, today if none is given. Raises Misuse for a date that is none."""
    try:
        return date.fromisoformat(on) if on else date.today()  # noqa: DTZ011 - the reader's own day is meant
    except ValueError:
        raise Misuse(f"{ON.name} cannot be {on}; write a date as 2027-01-31") from None


def piped(console: "Console") -> bytes:
    """The formula sent through the pipe, no more of it than a formula may have, and one byte."""
    import sys

    from brimline.shelf.books import LIMIT

    if sys.stdin is None:
        return b""
    if sys.stdin.isatty():
        console.note("Reading a formula from the keyboard; end it with Ctrl-D (on Windows Ctrl-Z, Enter).")
    return sys.stdin.buffer.read(LIMIT)


def prefix(shelf: "Shelf") -> str:
    """The way from the working folder to where the printed paths start: `formulas/`, or nothing."""
    import os
    from pathlib import Path

    try:
        way = Path(os.path.relpath(shelf.base)).as_posix()
    except ValueError:  # another drive of a Windows computer
        way = shelf.base.as_posix()
    return "" if way == "." else f"{way.rstrip('/')}/"


def look_at(shelf: "Shelf", colour: str, console: "Console") -> "Look":
    """How a report on this shelf has to look on this console, from this working folder."""
    from pathlib import Path

    here = Path.cwd()
    inside = here.relative_to(shelf.base).as_posix() if here.is_relative_to(shelf.base) and here != shelf.base else ""
    return replace(console.look(colour), written=shelf.written, prefix=prefix(shelf), inside=inside)


def _jobs(word: str) -> int:
    if not (word.isascii() and word.isdigit() and 1 <= int(word[:4]) <= 64):
        raise Misuse(f"{JOBS.name} cannot be {word}; write a number from 1 to 64")
    return int(word)


def _print(review: "Review", shelf: "Shelf", arguments: Arguments, console: "Console") -> None:
    form, look = arguments["as"], look_at(shelf, arguments["color"], console)
    if form not in {"text", "lines"}:
        from brimline.faces.forms import rendered, start, write

        made = rendered(form, review, start(shelf, arguments["paths_from"]), shelf.written)
        if not arguments["to"]:
            console.hand_over(made)
            _remark(review, look, console)
            return
        write(arguments["to"], made)
    elif arguments["to"]:
        raise Misuse(f"{TO.name} takes a report for a program or a page; name its form with {AS.name}, such as sarif")
    _tell(review, "text" if arguments["to"] else form, look, console)


def _tell(review: "Review", form: str, look: "Look", console: "Console") -> None:
    """Print the review for people, or as lines."""
    if form == "lines" or not review.formulas:
        from brimline.report.lines import lines

        console.say(lines(review, look))
        _remark(review, look, console)
    else:
        from brimline.report.people import people

        console.say(people(review, look))


def _remark(review: "Review", look: "Look", console: "Console") -> None:
    """Say beside the results what was not looked at: some forms have no place for it."""
    if review.refusals:
        from brimline.report.sink import paint
        from brimline.report.summary import refused

        console.note(paint(refused(review.refusals, look)))


COMMAND = Command(
    name="review",
    does="finds what is unsafe, untested or soft-set in formulas",
    example="brimline review formulas",
    run=run,
    given=Given("PATH", "a formula, a folder, a collection, or - for a pipe", most=None, files=True),
    options=(AS, TO, FROM, COLOUR, ON, BESIDE, JOBS),
    more=(
        "A formula's tested formula is looked up in its whole collection: the nearest\n"
        f"folder above it that holds collection.yaml, or else the paths given.\n{ENDS}"
    ),
)
