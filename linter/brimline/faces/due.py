"""`brimline due`: what has to be reviewed before a date, as a table, CSV or a calendar."""

from typing import TYPE_CHECKING

from brimline.faces.declare import COLOUR, Arguments, Command, Given, Misuse, Option
from brimline.faces.review import ON, day, look_at

if TYPE_CHECKING:
    from brimline.faces.console import Console

AS = Option("--as", "FORM", "text (a table), csv, or calendar (iCalendar)", ("text", "csv", "calendar"), "text")
BEFORE = Option("--before", "DATE", "only what is to be reviewed before this date (2027-01-31)")


def run(arguments: Arguments, console: "Console") -> int:
    """List what is to be reviewed: 1 if anything is overdue, 2 if something could not be looked at.

    Raises Misuse for a date that is none, or if there is no collection.
    """
    from brimline.review.due import due
    from brimline.shelf.loading import load_shelf
    from brimline.shelf.named import at_hand

    today = day(arguments["on"])
    before = day(arguments["before"], BEFORE.name) if arguments["before"] else None
    paths = arguments.given or tuple(at_hand()[:1])
    if not paths:
        raise Misuse("there is no collection around here; name its folder")
    shelf = load_shelf(paths, today)
    look = look_at(shelf, arguments["color"], console)
    found = due(shelf, before)
    if arguments["as"] == "csv":
        from brimline.report.due import due_csv

        console.hand_over(due_csv(found))
    elif arguments["as"] == "calendar":
        from brimline.report.due import calendar

        console.hand_over(calendar(found, today))
        undated = sum(one.by is None for one in found)
        if undated:
            console.note(f"{undated:,} without a date are not in the calendar; brimline due lists them.")
    else:
        from brimline.report.due import due_text

        console.say(due_text(found, look, before))
    if shelf.refusals or not shelf.formulas:
        from brimline.report.sink import paint
        from brimline.report.summary import refused

        console.note(paint(refused(shelf.refusals, look)))
        return 2
    return 1 if any(one.state == "overdue" for one in found) else 0


COMMAND = Command(
    name="due",
    does="lists what has to be reviewed before a date; table, CSV or calendar",
    example="brimline due formulas --before 2028-07-01",
    run=run,
    given=Given("PATH", "formulas, folders or a collection; else the one around here", least=0, most=None, files=True),
    options=(BEFORE, AS, COLOUR, ON),
    more=(
        "Retired formulas and drafts are left out. Without a review-by of its own a formula is\n"
        "due by the interval of its collection, or with the formula it adapts.\n"
        "Ends with 0, with 1 if something is overdue, with 2 if something could not be read."
    ),
)
