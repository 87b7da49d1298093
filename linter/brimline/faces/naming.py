"""How commands find the one formula they were given, by code or path, and say so when they cannot."""

from typing import TYPE_CHECKING

from brimline.faces.declare import Misuse
from brimline.faces.review import day, piped

if TYPE_CHECKING:
    from brimline.faces.console import Console
    from brimline.shelf import Book, Shelf


def one_formula(word: str, on: str, beside: str, console: "Console") -> "tuple[Shelf, Book]":
    """The formula of a code or a path, or of the pipe. Raises Misuse if there is not exactly one."""
    from brimline.shelf.loading import STDIN
    from brimline.shelf.named import NotNamed, named

    if beside and word != STDIN:
        raise Misuse(f"--beside only goes with {STDIN}, a formula from a pipe")
    try:
        return named(word, day(on), piped(console) if word == STDIN else None, beside)
    except NotNamed as fault:
        several = "\n".join(" ".join(filter(None, [f"{one.path} {one.reason}.", one.do])) for one in fault.refusals)
        raise Misuse(several or str(fault)) from fault
