"""`brimline restate`: a formula for another batch, or in US and metric side by side, rounded to the safe side."""

import re
from fractions import Fraction
from typing import TYPE_CHECKING

from brimline.faces.declare import COLOUR, ENDS, Arguments, Command, Given, Misuse, Option
from brimline.faces.naming import one_formula
from brimline.faces.review import BESIDE, ON, look_at

if TYPE_CHECKING:
    from brimline.faces.console import Console

AS = Option(
    "--as", "FORM", "text (a sheet), formula (a file that reads again) or json", ("text", "formula", "json"), "text"
)
BATCH = Option(
    "--batch", "SHARE", "how much of the batch: 1/2, 2/3, 1 1/2, half, double; whole if not given", default="1"
)
UNITS = Option("--units", "SYSTEM", "us, metric or both side by side", ("both", "us", "metric"), "both")
_WORDS = {"whole": "1", "half": "1/2", "third": "1/3", "quarter": "1/4", "double": "2", "triple": "3"}
_SHARE = re.compile(r"(?:(\d{1,2}) )?(\d{1,2})/(\d{1,2})|(\d{1,2}(?:\.\d{1,3})?)", re.ASCII)


def run(arguments: Arguments, console: "Console") -> int:
    """Restate one formula and print it; what is held back is printed too. Raises Misuse for a batch that is none."""
    from brimline.review.restate.restated import restate
    from brimline.review.restate.values import RestateError

    by = share(arguments["batch"])
    shelf, book = one_formula(arguments.given[0], arguments["on"], arguments["beside"], console)
    try:
        made = restate(shelf, book, by, arguments["units"])
    except RestateError as fault:
        raise Misuse(str(fault)) from fault
    look = look_at(shelf, arguments["color"], console)
    notices = tuple(filter(None, [shelf.settings(book).notice]))
    if arguments["as"] == "json":
        from brimline.faces.forms import program, start
        from brimline.report.restated_data import restated_data

        console.hand_over(restated_data(made, program(), start(shelf), notices))
    elif arguments["as"] == "formula":
        from brimline.report.restated import filed, verdict

        if not made.text:
            raise Misuse(f"it cannot be written as a formula: {made.unwritten}")
        console.hand_over(filed(made, notices))
        console.note(verdict(made))
    else:
        from brimline.report.restated import sheet

        console.say(sheet(made, look, notices))
    return 1 if made.reviewed is None or made.reviewed.held_back else 0


def share(word: str) -> Fraction:
    """How much of the batch, in words or as a number. Raises Misuse for what is none."""
    text = " ".join(word.lower().split())
    text = _WORDS.get(text, text)
    found = _SHARE.fullmatch(text)
    if found is None or (found[3] and not int(found[3])):
        raise Misuse(f"{BATCH.name} cannot be {word}; write a share of the batch as 1/2, 1 1/2, 0.75, half or double")
    value = Fraction(found[4]) if found[4] else Fraction(int(found[2]), int(found[3])) + int(found[1] or 0)
    if value == 0:
        raise Misuse(f"{BATCH.name} cannot be {word}; a batch of nothing is none")
    return value


COMMAND = Command(
    name="restate",
    does="restates a formula for another batch, or in US and metric measures",
    example="brimline restate KV-101 --batch 1/2",
    run=run,
    given=Given("FORMULA", "a code, a path, or - for a pipe", files=True),
    options=(BATCH, UNITS, AS, COLOUR, ON, BESIDE),
    more=(
        "Acid is never rounded down; low-acid food, water and headspace never up. Times\n"
        f"and jars stay as tested, whatever the batch.\n{ENDS}"
    ),
)
