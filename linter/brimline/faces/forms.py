"""The forms a review can be printed in besides text for people, and the files they can be written to."""

from typing import TYPE_CHECKING

from brimline.faces.declare import Misuse, Option

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from brimline.report.handed import Handed, Rule
    from brimline.review.values import Review
    from brimline.shelf import Shelf

# Each form, and what it is for; those of a standard or of a host go by the name they have there.
FORMS = {
    "text": "for people",
    "lines": "file:line:column: message",
    "json": "",
    "jsonl": "JSON Lines",
    "sarif": "SARIF 2.1.0",
    "junit": "JUnit XML",
    "annotations": "workflow commands",
    "code-quality": "",
    "markdown": "for a comment",
    "html": "",
    "csv": "",
}
TO = Option("--to", "FILE", "write the report into this file and print the text for people", files=True)
FROM = Option(
    "--paths-from", "FOLDER", "start the paths of a report here; else at the top of the repository", files=True
)


def rendered(form: str, review: "Review", top: str, written: "Callable[[str, int], str]", compared: str = "") -> str:
    """The review in a form that is the same wherever it is made.

    `top` leads to where its paths start; `compared` says what it was compared with, if it only holds what is new.
    """
    from brimline import __version__
    from brimline.report.handed import Handed

    listed = rules() if form == "sarif" else ()
    return _printed(form, Handed(review, __version__, dated(), top, listed, written, compared))


def _printed(form: str, handed: "Handed") -> str:
    """The report; only the module of its form is loaded."""
    if form == "sarif":
        from brimline.report.sarif import sarif as printed
    elif form == "junit":
        from brimline.report.junit import junit as printed
    elif form == "jsonl":
        from brimline.report.jsonl import jsonl as printed
    elif form == "annotations":
        from brimline.report.annotations import annotations as printed
    elif form == "code-quality":
        from brimline.report.quality import quality as printed
    elif form == "markdown":
        from brimline.report.comment import comment as printed
    elif form == "html":
        from brimline.report.page import page as printed
    elif form == "csv":
        from brimline.report.spreadsheet import spreadsheet as printed
    else:
        from brimline.report.data import as_json as printed
    return printed(handed)


def start(shelf: "Shelf", paths_from: str = "") -> str:
    """The way from the top of the repository, or the folder named, to where printed paths start: `formulas/`.

    It does not depend on the working folder; without a repository there is none. Raises Misuse for a folder that is none.
    """
    import os
    from pathlib import Path

    base = shelf.base
    if paths_from:
        top = Path(paths_from).absolute()
        if not top.is_dir():
            raise Misuse(f"{FROM.name} cannot be {paths_from}; it is no folder")
    else:
        top = next((folder for folder in (base, *base.parents) if (folder / ".git").exists()), base)
    try:
        way = Path(os.path.relpath(base, top)).as_posix()
    except ValueError:  # another drive of a Windows computer
        way = "."
    return "" if way == "." else f"{way}/"


def dated() -> str:
    """The date of the figures; empty if they state none."""
    import brimline.figures

    known = getattr(brimline.figures, "dated", None)
    return str(known()) if known else ""


def program() -> str:
    """Name, version and date of the figures, without the Python, which differs from machine to machine."""
    from brimline import __version__
    from brimline.report.handed import Handed
    from brimline.review.values import Review

    return Handed(Review(()), __version__, dated()).program


def rules() -> "tuple[Rule, ...]":
    """Every rule with what must hold, why, the gravest level of its rows, and where that is published."""
    from brimline.faces.why import all_reasons
    from brimline.findings import Level
    from brimline.report.handed import Rule
    from brimline.report.words import ORDER, cited

    listed = []
    for reason in all_reasons():
        words = {level for row in reason.rows for _, level in row.levels}
        levels = [level for level in ORDER if level.word in words] or [Level.UNREADABLE]
        sources = dict.fromkeys([*reason.sources, *(source for row in reason.rows for source in row.basis)])
        listed.append(Rule(reason.name, reason.must, reason.why, levels[0], tuple(cited(sources))))
    return tuple(listed)


def write(path: str, text: str) -> "Path":
    """Write a report whole beside its place and put it there in one step. Raises Misuse if it cannot be written."""
    import os
    import tempfile
    from pathlib import Path

    place = Path(path).absolute()
    if place.suffix in {".formula", ".yaml"} or place.is_dir():
        raise Misuse(f"{TO.name} cannot be {path}; name a file for the report, such as review.sarif")
    try:
        handle, name = tempfile.mkstemp(prefix=".", suffix=".report", dir=place.parent)
        beside = Path(name)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(text.encode("utf-8"))
            beside.chmod(0o644)
            beside.replace(place)
        except BaseException:
            beside.unlink(missing_ok=True)
            raise
    except OSError as error:
        raise Misuse(f"{path} could not be written: {error.strerror or type(error).__name__}") from error
    return place
