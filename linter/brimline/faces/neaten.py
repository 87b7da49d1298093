"""`brimline neaten`: formulas in canonical layout; blanks, blank lines and line ends change, and nothing else."""

import io
from datetime import date
from typing import TYPE_CHECKING

from brimline.faces.declare import Arguments, Command, Given, Misuse, Option

if TYPE_CHECKING:
    from pathlib import Path

    from brimline.document.neat import Neat
    from brimline.faces.console import Console
    from brimline.shelf import Shelf

ONLY_SAY = Option("--only-say", "", "change no file; say what is not neat, line by line")
# Lines of one file named one by one; the rest are counted.
_NAMED = 12


def run(arguments: Arguments, console: "Console") -> int:
    """Neaten what was asked for. Raises Misuse where a pipe and files are asked for together."""
    from brimline.shelf import STDIN

    only_say = bool(arguments["only_say"])
    if STDIN not in arguments.given:
        return _files(arguments.given, only_say, console)
    if len(arguments.given) > 1:
        raise Misuse(f"{STDIN}, a formula from a pipe, goes with no other path")
    return _pipe(only_say, console)


def _files(paths: tuple[str, ...], only_say: bool, console: "Console") -> int:
    from brimline.faces.review import prefix
    from brimline.shelf import load_shelf

    shelf = load_shelf(paths, date.min)
    start = prefix(shelf)
    failed = _refusals(shelf, console)
    counts = {"neat": 0, "untidy": 0, "failed": failed}
    for done, book in enumerate(shelf.formulas, 1):
        name = f"{start}{book.path}"
        trouble = f"It {book.trouble}." if book.trouble else ""
        counts[_file(book.file, trouble, name, only_say, console)] += 1
        console.progress(done, len(shelf.formulas))
    console.clear()
    console.note(_summary(counts, len(shelf.formulas), only_say))
    if counts["failed"] or not shelf.formulas:
        return 2
    return 1 if only_say and counts["untidy"] else 0


def _refusals(shelf: "Shelf", console: "Console") -> int:
    """Say what was asked for and cannot be looked at, and count it; a collection's settings are no matter here."""
    from brimline.shelf.walk import SETTINGS

    asked = [one for one in shelf.refusals if not one.path.endswith(SETTINGS)]
    for one in asked:
        console.note(" ".join(filter(None, [f"Not neatened: {one.path} {one.reason}.", one.do])))
    return len(asked)


def _file(path: "Path | None", trouble: str, name: str, only_say: bool, console: "Console") -> str:
    """Neaten one file, or say what is not neat in it; returns `neat`, `untidy` or `failed`."""
    from brimline.document.load import load
    from brimline.document.neat import neaten
    from brimline.findings import Finding

    data = load(path, name) if path is not None and not trouble else b""
    if isinstance(data, Finding):
        trouble = data.says
    if trouble or path is None or isinstance(data, Finding):
        console.note(f"Not neatened: {name}. {trouble}")
        return "failed"
    result = neaten(name, data)
    if result.refusal:
        console.note(f"Not neatened: {name}. {result.refusal}")
        return "failed"
    if not result.is_neat:
        if only_say:
            _say(result, name, console)
        elif not _written(path, result, name, console):
            return "failed"
    _left(result, name, console)
    return "neat" if result.is_neat else "untidy"


def _written(path: "Path", result: "Neat", name: str, console: "Console") -> bool:
    from brimline.faces.replacing import NotReplaced, replace_file

    try:
        replace_file(path, result.before, result.after)
    except NotReplaced as why:
        console.note(f"Not neatened: {name}. {why}")
        return False
    from brimline.report.sink import paint, plain

    console.say(paint([plain(f"{name} neatened: {', '.join(_what(result))}.")]))
    return True


def _pipe(only_say: bool, console: "Console") -> int:
    """Neaten the formula from the pipe. What cannot be neatened goes through as it came, so that nothing is lost."""
    from brimline.document.neat import neaten
    from brimline.faces.review import piped
    from brimline.shelf import STDIN_PATH
    from brimline.text import MOST_BYTES

    data = piped(console)
    if len(data) > MOST_BYTES:
        raise Misuse(f"the formula from the pipe is larger than {MOST_BYTES:,} bytes")
    result = neaten(STDIN_PATH, data)
    if only_say:
        if not result.is_neat:
            _say(result, STDIN_PATH, console)
    else:
        _hand_on(result.after, console)
    if result.refusal:
        console.note(f"Not neatened: {STDIN_PATH}. {result.refusal}")
        return 2
    _left(result, STDIN_PATH, console)
    return 1 if only_say and not result.is_neat else 0


def _hand_on(data: bytes, console: "Console") -> None:
    """Print bytes as they are: UTF-8 and line feeds on every system, and bytes that are no text unchanged."""
    if isinstance(console.out, io.TextIOWrapper):
        console.out.reconfigure(encoding="utf-8", errors="surrogateescape", newline="\n")
    console.say(data.decode("utf-8", errors="surrogateescape"))


def _say(result: "Neat", name: str, console: "Console") -> None:
    """One row for each line that is not neat, `file:line: what`, and one for what concerns the whole file."""
    from brimline.report.sink import paint, plain

    rows = [plain(f"{name}:{number}: not neat") for number in result.lines[:_NAMED]]
    if len(result.lines) > _NAMED:
        rows.append(plain(f"{name}: {len(result.lines) - _NAMED:,} more lines are not neat"))
    if result.also:
        rows.append(plain(f"{name}: {', '.join(result.also)} not neat"))
    console.say(paint(rows))


def _left(result: "Neat", name: str, console: "Console") -> None:
    """Say which lines could not be read and stand as they were."""
    if not result.left:
        return
    numbers = sorted({one.line for one in result.left})
    several = len(numbers) > 1
    listed = ", ".join(str(number) for number in numbers[:_NAMED]) + (" ..." if len(numbers) > _NAMED else "")
    console.note(
        f"{name}: line{'s' if several else ''} {listed} cannot be read and stay{'' if several else 's'} as written; "
        "brimline review says why."
    )


def _what(result: "Neat") -> list[str]:
    lines = len(result.lines)
    return [*([f"{lines:,} line{'s' if lines != 1 else ''}"] if lines else []), *result.also]


def _summary(counts: dict[str, int], total: int, only_say: bool) -> str:
    untidy, neat = counts["untidy"], counts["neat"]
    formulas = f"{total:,} formula{'s' if total != 1 else ''}"
    said = f"{untidy:,} not neat" if only_say else f"{untidy:,} neatened"
    rest = f", {neat:,} neat{'' if only_say else ' already'}"
    failed = f", {counts['failed']:,} could not be neatened" if counts["failed"] else ""
    return f"{formulas}: {said}{rest}{failed}."


COMMAND = Command(
    name="neaten",
    does="puts formulas into the canonical layout, changing only blanks",
    example="brimline neaten formulas",
    run=run,
    given=Given("PATH", "a formula, a folder, a collection, or - for a pipe", most=None, files=True),
    options=(ONLY_SAY,),
    more=(
        "Columns, blank lines, line ends: no word, number or comment changes, and a line\n"
        "that cannot be read stays as it is. A file is replaced whole or not at all;\n"
        "the formula from a pipe is printed.\n"
        "Ends with 0 if all is neat now, 1 if --only-say found something not neat,\n"
        "2 if something could not be neatened."
    ),
)
