"""`brimline settings`: every setting of a collection, its value, and where that comes from."""

from typing import TYPE_CHECKING

from brimline.faces.declare import COLOUR, Arguments, Command, Given, Misuse, Option

if TYPE_CHECKING:
    from pathlib import Path

    from brimline.faces.console import Console

AS = Option("--as", "FORM", "text (for people) or json", ("text", "json"), "text")


def run(arguments: Arguments, console: "Console") -> int:
    """Show the settings of the collection around a folder. Raises Misuse where there is none."""
    import os
    from pathlib import Path

    from brimline.faces.cli import version
    from brimline.report.origins import origins_data, origins_text
    from brimline.shelf.origins import origins
    from brimline.shelf.records import collection_of, files_in
    from brimline.shelf.strict import Refused
    from brimline.shelf.walk import SETTINGS, nearest

    given = arguments.given[0] if arguments.given else "."
    start = Path(os.path.abspath(given))  # noqa: PTH100 - resolve() would follow links
    folder = nearest(start if start.is_dir() else start.parent)
    if folder is None:
        raise Misuse(f"{given} belongs to no collection; name a folder that holds {SETTINGS}, or one below it")
    files, troubles = files_in(folder)
    collection, refusals = collection_of(folder, files, troubles=troubles)
    for one in refusals:
        console.note(f"Cannot be used: {one.path} {one.reason}. {one.do}")
    try:
        found = origins(files.get(SETTINGS, b""), collection.register, collection.variances)
    except Refused:
        return 2
    shown = _from_here(folder / SETTINGS)
    if arguments["as"] == "json":
        console.say(origins_data(shown, found, version().strip()))
    else:
        console.say(origins_text(shown, found, console.look(arguments["color"])))
    return 2 if refusals else 0


def _from_here(file: "Path") -> str:
    import os.path
    from pathlib import Path

    try:
        return Path(os.path.relpath(file)).as_posix()
    except ValueError:  # another drive of a Windows computer
        return file.as_posix()


COMMAND = Command(
    name="settings",
    does="shows every setting of a collection and where it comes from",
    example="brimline settings formulas",
    run=run,
    given=Given("FOLDER", "a collection, or a folder in one; this folder if not given", least=0, files=True),
    options=(AS, COLOUR),
    more=(
        "A collection may be stricter than the published floor, never looser: it can hold\n"
        "back more, ask for reviews sooner and add ingredients, and cannot take any away.\n"
        "Ends with 0, or 2 if a file of the collection cannot be used."
    ),
)
