"""The whole way from a formula's text to every form of report, for texts and names that mean harm."""

from collections.abc import Callable
from datetime import date

from brimline.report.annotations import annotations
from brimline.report.comment import comment
from brimline.report.data import as_json
from brimline.report.handed import Handed
from brimline.report.jsonl import jsonl
from brimline.report.junit import junit
from brimline.report.lines import lines
from brimline.report.look import Look
from brimline.report.page import page
from brimline.report.people import people
from brimline.report.quality import quality
from brimline.report.sarif import sarif
from brimline.report.spreadsheet import spreadsheet
from brimline.review.engine import review
from brimline.shelf.loading import shelf_of
from brimline.shelf.values import Settings


def _people(handed: Handed) -> str:
    return people(handed.review, Look(written=handed.written, prefix=handed.start))


def _lines(handed: Handed) -> str:
    return lines(handed.review, Look(written=handed.written, prefix=handed.start))


FORMS: dict[str, Callable[[Handed], str]] = {
    "text": _people,
    "lines": _lines,
    "json": as_json,
    "jsonl": jsonl,
    "sarif": sarif,
    "junit": junit,
    "annotations": annotations,
    "code-quality": quality,
    "markdown": comment,
    "html": page,
    "csv": spreadsheet,
}
# Read by people or by a host that shows them to people; the others are JSON and keep what was written as escapes.
SEEN = ("text", "lines", "annotations", "markdown", "html", "csv", "junit")


def run(text: str, place: str) -> Handed:
    """A review of one formula that carries the text as its title, item, step, change, or as the name of its file."""
    quoted = text.replace("\n", " ")
    formula = (
        f"formula KV-900 {quoted if place == 'title' else 'Plum jam'}\n"
        "product   jam\n"
        "standing  adapted\n"
        f"adapts    {quoted if place == 'adapts' else 'KV-101'}\n"
        "finish    gel point\n"
        "yield     4 half-pint\n\n"
        "take\n"
        f"  fruit      4 cup   {quoted if place == 'item' else 'plums, crushed'}\n"
        f"  sweetener  {quoted if place == 'amount' else '3 cup'}   sugar, granulated\n\n"
        "make\n"
        f"  - {quoted if place == 'step' else 'Boil, seal and turn the jars over.'}\n\n"
        "changes\n"
        f"  - {quoted if place == 'change' else 'less sugar'}\n"
    )
    path = text if place == "path" else "kv-900.formula"
    notice = quoted if place == "notice" else "Demonstration."
    shelf = shelf_of(
        {path: formula.encode("utf-8", "replace").decode("utf-8")},
        date(2026, 7, 1),
        Settings(name=quoted if place == "collection" else "Kestrel Valley", notice=notice),
    )
    return Handed(review(shelf), "1.2.3", "2026-01-31", "formulas/", (), shelf.written)


PLACES = ("title", "adapts", "item", "amount", "step", "change", "path", "notice", "collection")
