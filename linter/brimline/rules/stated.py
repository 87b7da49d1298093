"""Steps that every canned formula states: headspace, wiped rims, timing from the boil, standing, checking the seals."""

import re
from collections.abc import Iterator

from brimline.batch.words import listed
from brimline.document.values import Document
from brimline.findings import Flag
from brimline.moves.listing import section
from brimline.moves.values import Case
from brimline.rules.contract import rule
from brimline.rules.jar import CANNED

HEADSPACE = re.compile(
    r"\bhead ?-?space\b|\binch(?:es)? (?:of|from|below) the (?:rim|top|lid)|\b(?:cm|mm) (?:of|from|below) the (?:rim|top)"
)
RIMS = re.compile(
    r"\bwip(?:e|ing)\b[^.]{0,40}\b(?:rims?|tops?|edges?|mouths?|threads?|jars?)\b|"
    r"\bclean(?:ing)? (?:off )?(?:the |all |their |each )*(?:rims?|tops?|edges?|mouths?|threads?)\b"
)
TIMING = re.compile(
    r"\b(?:time|timing|timer|clock|count\w*|minutes?|process\w*)\b[^.]{0,90}\b(?:boils?|boiling point|pressure is reached|pressure|steam)\b|"
    r"\b(?:boils?|boiling|pressure|steam)\b[^.]{0,60}\b(?:time|timing|timer|clock|count\w*|minutes)\b"
)
STANDING = re.compile(r"\b(?:stand|standing|cool|cooling|rest|leave|undisturbed|without moving)\b")
SEALS = re.compile(
    r"\b(?:check|test|inspect|look at|make sure|see (?:that|whether|if))\b[^.]{0,60}\b(?:seal\w*|lids?)\b|\bseals?\b[^.]{0,30}\b(?:checked|tested)\b|"
    r"\b(?:not|un)\s?sealed?\b|\b(?:did|does|do) not seal\b|\bunsealed\b"
)


def missing(document: Document) -> list[str]:
    """What the steps of a canned formula leave out; a headspace or a standing time of its own section counts."""
    steps = " ".join(step.text.lower() for step in document.make)
    stands = any(row.kind == "stand" for row in document.keep)
    return [
        word
        for word, there in (
            ("the headspace", bool(document.pack.headspace) or bool(HEADSPACE.search(steps))),
            ("wiping the rims", bool(RIMS.search(steps))),
            ("starting the time when the water boils", bool(TIMING.search(steps))),
            ("letting the jars stand", stands or bool(STANDING.search(steps))),
            ("checking the seals", bool(SEALS.search(steps))),
        )
        if not there
    ]


@rule("practice/stated", decides=("steps-missing",))
def every_canned_formula_states_its_steps(case: Case) -> Iterator[Flag]:
    """A canned formula states the headspace, the wiped rims, the time from the boil, the standing and the check of seals.

    A cook who does not know one of these steps leaves it out, and the tested time counts on all of them.
    """
    document = case.document
    if not document.make or not any(process.method in CANNED for process in document.process):
        return
    left_out = missing(document)
    if left_out:
        yield Flag("steps-missing", section(document, "make"), f"The steps do not state {listed(left_out)}.")
