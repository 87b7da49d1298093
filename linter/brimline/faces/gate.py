"""`brimline gate`: a request against the branch it goes into; only what is new holds it back."""

from typing import TYPE_CHECKING

from msgspec.structs import replace

from brimline.faces.declare import COLOUR, Arguments, Command, Given, Misuse, Option
from brimline.faces.forms import TO, write
from brimline.faces.review import AS, ON, day

if TYPE_CHECKING:
    from brimline.faces.console import Console
    from brimline.gate import Gated, Revisions
    from brimline.report.look import Look

BASE = Option("--base", "REVISION", "the branch or commit that the request goes into")
HEAD = Option("--head", "REVISION", "the commit to look at, the working tree if not given")
_SHORT = 12


def run(arguments: Arguments, console: "Console") -> int:
    """Compare both sides and print what is new. Raises Misuse where there is nothing to compare."""
    from pathlib import Path

    from brimline.gate import Trouble, gated, revisions

    if not arguments["base"]:
        raise Misuse(f"gate needs {BASE.name}, {BASE.says}, such as {BASE.name} origin/main")
    today = day(arguments["on"])
    folder = arguments.given[0] if arguments.given else "."
    try:
        both = revisions(Path(folder), arguments["base"], arguments["head"])
        answer = gated(both, today, console.progress)
    except Trouble as trouble:
        raise Misuse(f"{trouble}.\n{trouble.do}") from trouble
    _print(answer, both, arguments, console)
    if answer.refusals:
        return 2
    return 1 if answer.held_back else 0


def _print(answer: "Gated", both: "Revisions", arguments: Arguments, console: "Console") -> None:
    look, form = _look(both, arguments["color"], console), arguments["as"]
    if form not in {"text", "lines"}:
        made = _made(form, answer, both, arguments["base"], look)
        if not arguments["to"]:
            console.hand_over(made)
            _remark(answer, look, console)
            return
        write(arguments["to"], made)
    elif arguments["to"]:
        raise Misuse(f"{TO.name} takes a report for a program or a page; name its form with {AS.name}, such as sarif")
    if form == "lines":
        from brimline.report.lines import lines
        from brimline.review.values import Review

        console.say(lines(Review(answer.all), look))
        _remark(answer, look, console)
    else:
        from brimline.report.gate import gate_text

        head = "the working tree" if both.working else f"{arguments['head']} ({both.head[:_SHORT]})"
        console.say(gate_text(answer, f"{arguments['base']} ({both.policy[:_SHORT]})", head, look))


def _made(form: str, answer: "Gated", both: "Revisions", base: str, look: "Look") -> str:
    """The report in a form for a program or a page; it holds what is new, and says so."""
    if form == "json":
        from brimline.faces.forms import program
        from brimline.report.gate_data import gate_data

        commits = {"base": both.policy, "head": "" if both.working else both.head}
        return gate_data(answer, program(), both.folder, commits, both.bases)
    from brimline.faces.forms import rendered
    from brimline.review.values import Review

    new = f"Compared with {base} ({both.policy[:_SHORT]}): only what is new is told here."
    review = Review(answer.all, answer.refusals, answer.collections, (*answer.notes, *answer.notices))
    return rendered(form, review, both.folder, look.written, new)


def _remark(answer: "Gated", look: "Look", console: "Console") -> None:
    if answer.refusals:
        from brimline.report.sink import paint
        from brimline.report.summary import refused

        console.note(paint(refused(answer.refusals, look)))


def _look(both: "Revisions", colour: str, console: "Console") -> "Look":
    """How the report has to look here: paths as they can be opened, lines as the head has them."""
    import os
    from pathlib import Path

    from brimline.text import decode

    def written(path: str, line: int) -> str:
        leaf = both.end.formulas.get(path)
        text = decode(path, leaf.data)[0] if leaf is not None and leaf.data is not None else None
        return text.line(line) if text is not None and 1 <= line <= len(text.starts) else ""

    look = console.look(colour)
    here, base = Path(os.path.realpath(Path.cwd())), Path(os.path.realpath(both.top)) / both.folder
    inside = here.relative_to(base).as_posix() if here != base and here.is_relative_to(base) else ""
    try:
        way = Path(os.path.relpath(base, here)).as_posix()
    except ValueError:  # another drive of a Windows computer
        way = base.as_posix()
    return replace(look, written=written, prefix="" if way == "." else f"{way.rstrip('/')}/", inside=inside)


COMMAND = Command(
    name="gate",
    does="compares a request with its base; only what is new holds it back",
    example="brimline gate formulas --base origin/main",
    run=run,
    given=Given("FOLDER", "the folder of the collection, here if not given", least=0, files=True),
    options=(BASE, HEAD, AS, TO, COLOUR, ON),
    more=(
        "Settings, register, variances and tested formulas are those of the base. A change\n"
        "to any of them is a finding of its own.\n"
        "Ends with 0 if nothing new holds the request back, 1 if something does, 2 if the\n"
        "two could not be compared."
    ),
)
