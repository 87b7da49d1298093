"""`brimline trace`: what depends on a formula, a published figure, or a publication."""

from typing import TYPE_CHECKING

from brimline.faces.declare import COLOUR, Arguments, Command, Given, Misuse, Option, nearest
from brimline.faces.naming import one_formula
from brimline.faces.review import ON, day, look_at

if TYPE_CHECKING:
    from brimline.faces.console import Console
    from brimline.review.tracing import Traced
    from brimline.shelf import Shelf

AS = Option("--as", "FORM", "text or json", ("text", "json"), "text")
IN = Option("--in", "FOLDER", "the collection to look in, instead of the one around or below here", files=True)


def run(arguments: Arguments, console: "Console") -> int:
    """Trace one thing and print it. Raises Misuse if nothing at all is known of it."""
    words = " ".join(arguments.given)
    shelf, traced = _traced(words, arguments, console)
    look = look_at(shelf, arguments["color"], console)
    if arguments["as"] == "json":
        from brimline.faces.forms import program, start
        from brimline.report.traced import trace_data

        console.hand_over(trace_data(traced, program(), start(shelf)))
    else:
        from brimline.report.traced import trace_text

        console.say(trace_text(traced, look))
    return 0


def _traced(words: str, arguments: Arguments, console: "Console") -> "tuple[Shelf, Traced]":
    from brimline.review import tracing
    from brimline.shelf.loading import load_shelf
    from brimline.shelf.named import at_hand, is_code

    if len(arguments.given) == 1 and not arguments["in"] and (is_code(words) or words.endswith(".formula")):
        shelf, book = one_formula(words, arguments["on"], "", console)
        return shelf, tracing.trace_formula(shelf, book)
    folder = arguments["in"] or next(iter(at_hand()), "")
    if not folder:
        raise Misuse(f"there is no collection around here to look in; name its folder with {IN.name}")
    shelf = load_shelf((folder,), day(arguments["on"]))
    if not shelf.formulas:
        reason = shelf.refusals[0] if shelf.refusals else None
        raise Misuse(f"{folder} {reason.reason}. {reason.do}" if reason else f"{folder} holds no formula")
    if is_code(words):
        found = [book for book in (*shelf.formulas, *shelf.known) if book.code == words.upper()]
        if len(found) == 1:
            return shelf, tracing.trace_formula(shelf, found[0])
    if not tracing.bag(words):
        raise Misuse("trace needs a code, the id of a figure, or words of a publication's title")
    traced = tracing.trace_figure(shelf, words) or tracing.trace_source(shelf, words)
    if not (traced.formulas or traced.figures or traced.rules):
        ids = [one.id for one in tracing.all_figures()]
        near = nearest(words, [*ids, *(id_.partition("/")[2] for id_ in ids)]) or nearest(words, tracing.publications())
        raise Misuse(
            f"nothing names {words}{near}\nGive a code, the id of a figure, or words of a title, a place, a page."
        )
    return shelf, traced


COMMAND = Command(
    name="trace",
    does="shows what depends on a formula, a published figure or a source",
    example='brimline trace "Complete Guide" "Guide 7"',
    run=run,
    given=Given("WHAT", "a code (KV-101), a figure (tomato_acid), or words of a source", most=None),
    options=(IN, AS, COLOUR, ON),
    more="Of a source every word has to be there: in its title, edition, place or page.\nEnds with 0, or with 2 if nothing is known of it.",
)
