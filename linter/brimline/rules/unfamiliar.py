"""Steps about jars, lids and the canner that nobody knows: not the tested formula, not the usual directions."""

from collections.abc import Iterator

from brimline._remember import remembered
from brimline.document.values import Document
from brimline.findings import Flag
from brimline.moves.values import Case
from brimline.rules.contract import rule
from brimline.rules.meaning import Reading, readings
from brimline.rules.practice import worst
from brimline.rules.prose import told
from brimline.rules.standins import no_lid, other_container, replaces_process
from brimline.rules.stated import RIMS, SEALS
from brimline.rules.used import LATER

ABOUT = frozenset(["jar", "lid", "band", "canner", "sealw", "timerw", "moldyw", "mold"])
# The usual directions: a sentence in which the meanings of one row stand says one of these and is familiar.
USUAL = tuple(
    tuple(frozenset(part.split()) for part in row.split(", "))
    for row in (
        "headroom",
        "cleanv warmv emptyadj, jar lid band",
        "fill, jar",
        "airbubble, getout",
        "closelid, fingertip newlid",
        "putv fill, intojar",
        "process, boilpoint canner duration",
        "counting, atboil pressurepoint",
        "overtops",
        "ventw",
        "warmv bringboil simmerw, canner water",
        "liftv coolv posture, jar, restplace",
        "reprocess, jar sealw",
        "removev, band",
        "labelw, jar",
        "denyw",
        "newlid",
        "fingertip",
        "canner, timingw",
        "jar, dosew",
        "sealw, hoursw",
        "lid, simmerw bringboil cook",
    )
)
ALIKE = 0.6
# A sentence that closes jars and has fewer words (and marks) says nothing more.
SHORT = 10
# So few that they name what comes next and say nothing of it: `Then the seals.`
BARE = 6


@rule("practice/unfamiliar", decides=("unfamiliar-step",))
def steps_about_jars_are_familiar(case: Case) -> Iterator[Flag]:
    """What a step says about jars, lids and the canner is in the tested formula or in the usual directions.

    Words can teach an unsafe habit in more ways than any reader knows, so what is not known is shown to a person.
    """
    for step in case.document.make:
        text, span = step.text.lower(), step.span
        if replaces_process(text) or no_lid(text) or other_container(text) or worst(text):
            continue
        for reading in _unknown(text):
            if case.tested is None or not _among(reading, case.tested):
                yield Flag(
                    "unfamiliar-step", span, f"The usual directions do not say this: {reading.text.rstrip('.')}."
                )
                break


@remembered
def unknown(text: str) -> bool:
    """Whether a sentence tells the cook something about jars, lids or the canner that is no usual direction."""
    return bool(_unknown(text))


@remembered
def _unknown(text: str) -> tuple[Reading, ...]:
    return tuple(one for one in readings(text) if _strange(one))


def _strange(reading: Reading) -> bool:
    said = {start for start, _ in reading.spots.get("pron", ())}
    about = any(start not in said for name in ABOUT for start, _ in reading.spots.get(name, ()))
    if not about or any(word in reading.text for word in LATER):
        return False
    return not familiar(reading) and not told(reading)


def familiar(reading: Reading) -> bool:
    """Whether a sentence says one of the usual directions."""
    if any(all(not reading.spots.keys().isdisjoint(part) for part in row) for row in USUAL):
        return True
    if "closelid" in reading.spots and len(reading.tokens) < SHORT:
        return True
    if len(reading.tokens) <= BARE and reading.has(("sealw", "canner")) and not reading.has(("jar", "lid", "band")):
        return True
    return bool(RIMS.search(reading.text) or SEALS.search(reading.text))


@remembered
def _content(text: str) -> tuple[frozenset[str], ...]:
    return tuple(_words(one) for one in readings(text))


def _words(reading: Reading) -> frozenset[str]:
    return frozenset(token for token in reading.tokens if len(token) > 2 and token.isalpha())


def _among(reading: Reading, tested: Document) -> bool:
    """Whether the tested formula has a sentence of mostly the same words."""
    words = _words(reading)
    known = (one for step in tested.make for one in _content(step.text.lower()))
    return any(len(words & one) >= ALIKE * len(words | one) for one in known)
