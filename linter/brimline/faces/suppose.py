"""`brimline suppose`: answers a caller about a formula: half the sugar, pint jars, no lemon, at 5,200 ft."""

from typing import TYPE_CHECKING

from brimline.faces.declare import COLOUR, ENDS, Arguments, Command, Given, Misuse, Option
from brimline.faces.naming import one_formula
from brimline.faces.review import ON, look_at

if TYPE_CHECKING:
    from brimline.faces.console import Console

AS = Option("--as", "FORM", "text (to read out) or json", ("text", "json"), "text")


def run(arguments: Arguments, console: "Console") -> int:
    """Answer one call and print it. Raises Misuse for a formula that is not found, or words that are not understood."""
    from brimline.review.suppose.answer import answered
    from brimline.review.suppose.asking import can_be_asked
    from brimline.review.suppose.values import AskError

    named, *words = arguments.given
    shelf, book = one_formula(named, arguments["on"], "", console)
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
        from brimline.faces.forms import program, start
        from brimline.report.answer_data import answer_data

        console.hand_over(answer_data(call, program(), start(shelf)))
    else:
        from brimline.report.answer import answer_text

        console.say(answer_text(call, look))
    return 1 if call.held_back else 0


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
