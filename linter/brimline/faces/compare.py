"""`brimline compare`: an adaptation beside its tested formula, move by move."""

from typing import TYPE_CHECKING

from brimline.faces.declare import COLOUR, ENDS, Arguments, Command, Given, Misuse, Option
from brimline.faces.review import BESIDE, ON, look_at, shelved

if TYPE_CHECKING:
    from brimline.faces.console import Console

AS = Option("--as", "FORM", "text (a table) or json", ("text", "json"), "text")


def run(arguments: Arguments, console: "Console") -> int:
    """Compare one formula and print the table. Raises Misuse if there is not one formula with a tested one."""
    from brimline.review.engine import compare

    shelf = shelved(arguments.given, arguments["on"], arguments["beside"], console)
    look = look_at(shelf, arguments["color"], console)
    if shelf.refusals:
        from brimline.report.sink import paint
        from brimline.report.summary import refused

        console.note(paint(refused(shelf.refusals, look)))
        return 2
    if len(shelf.formulas) != 1:
        raise Misuse(f"compare takes one formula, but there are {len(shelf.formulas):,} under {arguments.given[0]}")
    comparison = compare(shelf, shelf.formulas[0].path)
    if comparison is None:
        raise Misuse(
            f"{arguments.given[0]} departs from no tested formula that can be read, so there is nothing to compare\n"
            "brimline review says more about it."
        )
    if arguments["as"] == "json":
        from brimline.faces.forms import program, start
        from brimline.report.data import comparison_data

        console.hand_over(comparison_data(comparison, program(), start(shelf)))
    else:
        from brimline.report.table import table

        console.say(table(comparison, look))
    return 1 if comparison.reviewed.held_back else 0


COMMAND = Command(
    name="compare",
    does="shows every change an adaptation makes to its tested formula",
    example="brimline compare formulas/adapted/kv-214.formula",
    run=run,
    given=Given("PATH", "the adapted formula, or - for a pipe", files=True),
    options=(AS, COLOUR, ON, BESIDE),
    more=ENDS,
)
