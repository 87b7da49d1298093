"""`brimline suppose`: answers a caller about a formula: half the sugar, pint jars, no lemon, at 5,200 ft."""

import os
import re
from typing import TYPE_CHECKING

from brimline.faces.declare import COLOUR, ENDS, Arguments, Command, Given, Misuse, Option
from brimline.faces.review import ON, look_at, shelved

if TYPE_CHECKING:
    from brimline.faces.console import Console
    from brimline.shelf import Book, Shelf

AS = Option("--as", "FORM", "text (to read out) or json", ("text", "json"), "text")
_CODE = re.compile(r"[A-Z0-9]{1,12}(?:-[A-Z0-9]{1,12}){1,4}", re.ASCII)


def run(arguments: Arguments, console: "Console") -> int:
    """Answer one call and print it. Raises Misuse for a formula that is not found, or words that are not understood."""
    from brimline.review.suppose.answer import answered
    from brimline.review.suppose.asking import can_be_asked
    from brimline.review.suppose.values import AskError

    named, *words = arguments.given
    shelf, book = found(named, arguments["on"], console)
    if not words:
        document = book.read.document
        console.say(f"{book.code}  {document.title if document else ''}\n\n{can_be_asked()}\n")
        return 0
    try:
        call = answered(shelf, book, " ".join(words))
    except AskError as fault:
        raise Misuse(str(fault)) from fault
    look = look_at(shelf, arguments["color"], console)
    if arguments["as"] == "json":
        from brimline.faces.cli import version
        from brimline.report.answer_data import answer_data

        console.say(answer_data(call, version().strip(), look.prefix))
    else:
        from brimline.report.answer import answer_text

        console.say(answer_text(call, look))
    return 1 if call.held_back else 0


def found(named: str, on: str, console: "Console") -> "tuple[Shelf, Book]":
    """The formula of a path or a code, with its shelf. Raises Misuse if there is not exactly one."""
    code = named.upper()
    if not os.path.lexists(named) and not _CODE.fullmatch(code):
        raise Misuse(f"{named} is neither the code of a formula nor a file\nWrite for instance: {COMMAND.example}")
    if os.path.lexists(named):
        shelf = shelved((named,), on, "", console)
        if shelf.refusals:
            raise Misuse(f"{shelf.refusals[0].path} {shelf.refusals[0].reason}. {shelf.refusals[0].do}".strip())
        if len(shelf.formulas) != 1:
            raise Misuse(f"suppose takes one formula, but there are {len(shelf.formulas):,} under {named}")
        return shelf, shelf.formulas[0]
    return _by_code(code, on, console)


def _by_code(code: str, on: str, console: "Console") -> "tuple[Shelf, Book]":
    """The formula of a code in the collection around the working folder, in `formulas`, or in the formulas shipped."""
    near: list[str] = []
    for folder in _folders():
        shelf = shelved((folder,), on, "", console)
        several = [book for book in (*shelf.formulas, *shelf.known) if book.code == code]
        if len(several) > 1:
            raise Misuse(f"{len(several)} formulas have the code {code}: {', '.join(book.path for book in several)}")
        if several:
            return shelf.only((several[0],)), several[0]
        near.extend(book.code for book in (*shelf.formulas, *shelf.known) if book.code)
    raise Misuse(f"there is no formula {code}{_nearest(code, near)}\nName its code, or the path of its file.")


def _folders() -> list[str]:
    """Where a code is looked up, in order."""
    from pathlib import Path

    from brimline._data import folder
    from brimline.shelf.walk import nearest

    around = nearest(Path.cwd())
    beside = Path("formulas")
    shipped = folder("formulas")
    places = [around, beside if beside.is_dir() else None, shipped if isinstance(shipped, Path) else None]
    return [str(one) for one in dict.fromkeys(one.resolve() for one in places if one is not None)]


def _nearest(code: str, codes: list[str]) -> str:
    from difflib import get_close_matches

    close = get_close_matches(code, codes, 3, 0.6)
    return f"; the nearest are {', '.join(close)}" if close else ""


COMMAND = Command(
    name="suppose",
    does="answers a caller: this formula with half the sugar, in pints, doubled",
    example='brimline suppose KV-101 "half the sugar, pint jars"',
    run=run,
    given=Given("FORMULA WORDS", "a code or a path, then what is asked in plain words", most=None, files=True),
    options=(AS, COLOUR, ON),
    more=(
        "With the formula alone it lists what can be asked. It never says that a change\n"
        "is all right: only what was tested, what was not, and what is unsafe. Words with\n"
        f"commas or apostrophes stand between quotation marks.\n{ENDS}"
    ),
)
