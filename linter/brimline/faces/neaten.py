"""`brimline neaten`: formulas in canonical layout; blanks, blank lines and line ends change, and nothing else."""

import io
import os
from pathlib import Path
from typing import TYPE_CHECKING

from brimline.faces.declare import Arguments, Command, Given, Misuse, Option

if TYPE_CHECKING:
    from brimline.document.neat import Neat
    from brimline.faces.console import Console

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
    """Neaten files; those of folders that a collection sets aside too, because layout is no judgement."""
    from brimline.shelf.asking import request
    from brimline.shelf.walk import MOST_FILES

    named = request(paths, MOST_FILES)
    for one in named.refusals:
        console.note(" ".join(filter(None, [f"Not neatened: {one.path} {one.reason}.", one.do])))
    asked = sorted(named.asked, key=lambda found: found.file.as_posix())
    counts = {"neat": 0, "untidy": 0, "failed": len(named.refusals)}
    for done, found in enumerate(asked, 1):
        trouble = f"It {found.trouble}." if found.trouble else ""
        counts[_file(found.file, trouble, _from_here(found.file), only_say, console)] += 1
        console.progress(done, len(asked))
    console.clear()
    console.note(_summary(counts, len(asked), only_say))
    if counts["failed"] or not asked:
        return 2
    return 1 if only_say and counts["untidy"] else 0


def _from_here(file: Path) -> str:
    """A file's path from the working folder, with forward slashes."""
    try:
        return Path(os.path.relpath(file)).as_posix()
    except ValueError:  # another drive of a Windows computer
        return file.as_posix()


def _file(path: Path, trouble: str, name: str, only_say: bool, console: "Console") -> str:
    """Neaten one file, or say what is not neat in it; returns `neat`, `untidy` or `failed`."""
    from brimline.document.load import load
    from brimline.document.neat import neaten
    from brimline.findings import Finding

    data = b"" if trouble else load(path, name)
    if trouble or isinstance(data, Finding):
        console.note(f"Not neatened: {name}. {data.says if isinstance(data, Finding) else trouble}")
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


def _written(path: Path, result: "Neat", name: str, console: "Console") -> bool:
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
