"""A tested formula, an adaptation of it, and collections built from bytes."""

from collections.abc import Callable
from datetime import date

import pytest

from brimline.document import read
from brimline.document.meaning import Seal, evidence_rows, fingerprint
from brimline.document.values import Document
from brimline.review.engine import review
from brimline.review.values import Review
from brimline.shelf import shelf_from
from brimline.shelf.register import write_register

TODAY = date(2026, 7, 1)

# Facts of the chile salsa of the USDA Complete Guide to Home Canning (AIB 539, rev. 2015), Guide 3, p. 3-21; evidence
# and program are invented.
SALSA = """\
# Demonstration. Not tested. Do not preserve from this.
formula KV-101 Chile salsa
product   salsa
standing  tested
finish    simmer 10 min
yield     6 to 8 pint

take
  vegetable  5 lb                 tomatoes, peeled, cored, chopped
  vegetable  2 lb                 hot chili pepper, green, chopped
  vegetable  1 lb                 onion, yellow, chopped
  acid       1 cup                vinegar, white, 5 %
  salt       3 tsp                salt, canning

make
  - Wash and prepare the tomatoes, hot chili pepper and onion.
  - Combine with the vinegar and salt in a large pot, bring to a boil and cook as the finish says, stirring.
  - Fill hot into clean, hot jars, leaving 1/2 inch headspace. Remove bubbles, wipe the rims and close with the lids, fingertip-tight.
  - Process in boiling water, at least 1 inch over the jars, starting the time when the water boils.
  - Let the jars stand 12 hours without moving them, then check the seals.

pack
  jar        pint
  prepare    clean
  fill       hot
  headspace  1/2 in
  lid        two-piece

process boiling-water
  pint: 15 min to 1000 ft, 20 min to 6000 ft, 25 min above

keep
  stand      12 h
  sealed     12 months, cool, dark, dry

evidence
  tested     2025-06-14, Kestrel Valley test kitchen, report KV-T-031
  reading    pH 3.9 on 2025-06-14, finished, 3 batches, meter
  source     Kestrel Valley tested formulas, 3rd edition, p. 41
  review-by  2028-06-30
"""

_EVIDENCE = SALSA[SALSA.index("evidence\n") :]
# The same salsa with three quarters of the vinegar: unsafe, acid/cut, and nothing else that holds back.
LESS = (
    SALSA.replace("KV-101 Chile salsa", "KV-201 Chile salsa, milder")
    .replace("standing  tested\n", "standing  adapted\nadapts    KV-101\n")
    .replace("1 cup                vinegar", "3/4 cup              vinegar")
    .replace(_EVIDENCE, "changes\n  acid       three quarters, for a milder salsa\n")
)
# Filled into quarts, for which there is no tested time: unsafe, jar/larger.
QUARTS = (
    LESS.replace("KV-201 Chile salsa, milder", "KV-202 Chile salsa in quarts")
    .replace("3/4 cup              vinegar", "1 cup                vinegar")
    .replace("  jar        pint", "  jar        quart")
    .replace("  acid       three quarters, for a milder salsa", "  jar        quart")
)


def parsed(text: str) -> Document:
    document = read("x.formula", text.encode()).document
    assert document is not None
    return document


def sealed(*texts: str) -> bytes:
    """A register that holds these formulas as they are."""
    seals = []
    for document in map(parsed, texts):
        printed = fingerprint(document)
        rows = tuple((row, printed) for row in evidence_rows(document))
        seals.append(Seal(document.code, printed, "2025-07-01", rows))
    return write_register(seals)


Reviewing = Callable[..., Review]


@pytest.fixture
def reviewing() -> Reviewing:
    """Reviews formulas as one collection; files that are no formula go by their name (`register_json=...`)."""

    def run(*texts: str, today: date = TODAY, asked: tuple[int, ...] | None = None, **files: bytes) -> Review:
        formulas = {f"f{number}.formula": text.encode() for number, text in enumerate(texts)}
        own = {name.replace("_", "."): data for name, data in files.items()}
        paths = None if asked is None else [f"f{number}.formula" for number in asked]
        return review(shelf_from({"collection.yaml": b"name: Valley\n", **own, **formulas}, today, asked=paths))

    return run


def rows(done: Review, number: int = 0) -> dict[str, str]:
    """The rows found in one formula, with their levels."""
    return {one.row: one.level.word for one in done.formulas[number].findings}
