"""Questions that are no edit: what is read out comes from the table of calls, filled from the formula where it has to be."""

from collections.abc import Mapping

from brimline.batch.classes import GELLED_KINDS
from brimline.batch.words import listed
from brimline.document.print_numbers import kept_for
from brimline.document.values import Document
from brimline.figures import process_tables
from brimline.figures.calls import Spoken, spoken
from brimline.review.suppose import wording
from brimline.review.suppose.lines import every, sort, tags
from brimline.review.suppose.speak import altitude
from brimline.review.suppose.values import Answer, Asked
from brimline.shelf import Book, Settings, Shelf

_LOW_PECTIN = ("pectin-low-sugar", "pectin-calcium")
_KEPT = {
    "sealed": "a sealed jar keeps {}",
    "opened": "an opened one {}",
    "chilled": "it keeps {} in the refrigerator",
    "frozen": "it keeps {} in the freezer",
    "uncooked": "uncooked it keeps {}",
}


def answer(
    question: str, document: Document, settings: Settings, place: Asked | None, asked: tuple[Asked, ...]
) -> Answer:
    """The answer to a question of the table. Raises KeyError for one that it lacks."""
    found = spoken("talks", question)
    if found is None:
        raise KeyError(question)
    first, second = _SENTENCES[question](found.says, document, settings, place)
    return Answer(asked, "talk", (first, second), found.says["instead"], _sources(question, found, document))


def _sources(question: str, found: Spoken, document: Document) -> tuple:  # type: ignore[type-arg]
    own = wording.evidence(document) if question == "how-long" else ()
    return wording.merged(own, found.sources)


def _pectin(document: Document) -> str:
    """By which directions a soft spread of this formula is remade."""
    have = {tag for line in every(document) for tag in tags(line)}
    if document.product not in GELLED_KINDS or have & {*_LOW_PECTIN, "gelatin", "agar"}:
        return "other"
    return "powdered" if "pectin-powder" in have else "liquid" if "pectin-liquid" in have else "none"


def _not_set(says: Mapping[str, str], document: Document, settings: Settings, place: Asked | None) -> tuple[str, str]:
    kind = _pectin(document)
    if kind == "other":
        return says["other"], says["after-other"]
    feet = place.high if place is not None else settings.altitude_ft
    table = process_tables()["remade_soft_jelly"]
    bands = table.rows[0].bands
    if feet is not None:
        minutes = next((m for m, up_to in bands if up_to is None or feet <= up_to), None)
        where = altitude(feet, place.unit) if place else f"{altitude(feet, 'ft')}, where this collection lies"
        times = f"{minutes} minutes at {where}"
    else:
        times = listed([f"{m} minutes {f'up to {up_to:,} feet' if up_to else 'above that'}" for m, up_to in bands])
    return says[kind], says["after"].replace("{remade_soft_jelly | times}", times)


def _old(says: Mapping[str, str], document: Document, settings: Settings, place: Asked | None) -> tuple[str, str]:
    del document, place
    year = settings.oldest_source_year
    if year is None:
        return says["says"], says["without-year"]
    return says["says"], says["with-year"].replace("{year}", str(year))


def _plain(says: Mapping[str, str], document: Document, settings: Settings, place: Asked | None) -> tuple[str, str]:
    del document, settings, place
    return says["says"], says["after"]


def _how_long(says: Mapping[str, str], document: Document, settings: Settings, place: Asked | None) -> tuple[str, str]:
    del settings, place
    kept = [
        _KEPT[row.kind].format(" ".join([kept_for(row.low_h, row.high_h), *_where(row.where)]))
        for row in document.keep
        if row.kind in _KEPT and row.low_h is not None and row.high_h is not None
    ]
    return (says["says"].replace("{keep}", listed(kept)) if kept else says["unsaid"]), says["after"]


def _where(where: tuple[str, ...]) -> list[str]:
    return [f"({', '.join(where)})"] if where else []


def _infant(says: Mapping[str, str], document: Document, settings: Settings, place: Asked | None) -> tuple[str, str]:
    del settings, place
    honey = any("honey" in tags(line) for line in every(document))
    return says["says"], says["with-honey" if honey else "without-honey"]


_SENTENCES = {
    "not-set": _not_set,
    "old-recipe": _old,
    "sell": _plain,
    "not-sealed": _plain,
    "mold": _plain,
    "how-long": _how_long,
    "infant": _infant,
}


def low_sugar(shelf: Shelf, book: Book) -> list[str]:
    """Tested formulas of the same collection that need no sugar or are written for a low-sugar pectin, as one choice."""
    found = []
    for one in (*shelf.formulas, *shelf.known):
        document = one.read.document if one.collection == book.collection and one is not book else None
        if document is not None and document.standing == "tested" and _is_low_sugar(document):
            found.append(f"{document.code} {document.title}")
    return (
        [f"use a tested formula of this collection that needs little or no sugar: {listed(found[:3])}"] if found else []
    )


def _is_low_sugar(document: Document) -> bool:
    if document.product not in GELLED_KINDS:
        return False
    if any(tag in tags(line) for line in every(document) for tag in _LOW_PECTIN):
        return True
    sugar = [one for one in document.take if sort(one) == "sweetener" and "non-sugar" not in tags(one)]
    return all("optional" in one.flags for one in sugar)
