"""`brimline notice`: a change notice between two versions of a formula, in plain words."""

from typing import TYPE_CHECKING

from brimline.faces.declare import COLOUR, Arguments, Command, Given, Misuse, Option
from brimline.faces.naming import one_formula
from brimline.faces.review import ON, look_at

if TYPE_CHECKING:
    from brimline.faces.console import Console

AS = Option("--as", "FORM", "text or json", ("text", "json"), "text")
JARS = Option("--jars", "WORDS", "what the office says about jars already made; a blank to fill in if not given")


def run(arguments: Arguments, console: "Console") -> int:
    """Print the notice. Raises Misuse if one of the two cannot be read."""
    from brimline.review.noticing import NoticeError, notice

    shelf, old = one_formula(arguments.given[0], arguments["on"], "", console)
    beside, new = one_formula(arguments.given[1], arguments["on"], "", console)
    settings = (beside if beside.settings(new).name else shelf).settings(new if beside.settings(new).name else old)
    try:
        made = notice(old, new, settings, beside.today.isoformat())
    except NoticeError as fault:
        raise Misuse(str(fault)) from fault
    notices = tuple(filter(None, [settings.notice]))
    look = look_at(beside, arguments["color"], console)
    if arguments["as"] == "json":
        from brimline.faces.forms import program
        from brimline.report.noticed import notice_data

        console.hand_over(notice_data(made, program(), arguments["jars"], notices))
    else:
        from brimline.report.noticed import notice_text

        console.say(notice_text(made, look, arguments["jars"], notices))
    return 1 if made.reviewed.held_back else 0


COMMAND = Command(
    name="notice",
    does="writes a change notice between two versions of a formula",
    example="brimline notice old/kv-114.formula KV-114",
    run=run,
    given=Given("OLD NEW", "two files, or a file and a code", least=2, most=2, files=True),
    options=(JARS, AS, COLOUR, ON),
    more=(
        "It says what matters to somebody holding the old sheet, the gravest first; each level\n"
        "is that of the review. Ends with 0, with 1 if the review would hold the new version\n"
        "back beside the old one, with 2 if it could not be run."
    ),
)
