"""Steps that every canned formula states: headspace, wiped rims, timing from the boil, standing, checking the seals."""

from collections.abc import Iterator

from brimline._patterns import pattern
from brimline._remember import remembered
from brimline.batch.words import listed
from brimline.document.values import Document
from brimline.findings import Flag
from brimline.moves.listing import section
from brimline.moves.values import Case
from brimline.rules.contract import rule
from brimline.rules.jar import CANNED

HEADSPACE = pattern(
    r"\bhead ?-?space\b|\binch(?:es)? (?:of|from|below) the (?:rim|top|lid)|\b(?:cm|mm) (?:of|from|below) the (?:rim|top)"
)
RIMS = pattern(
    r"\bwip(?:e|ing)\b[^.]{0,40}\b(?:rims?|tops?|edges?|mouths?|threads?|jars?)\b|"
    r"\bclean(?:ing)? (?:off )?(?:the |all |their |each )*(?:rims?|tops?|edges?|mouths?|threads?)\b|"
    r"\b(?:rims?|tops?|mouths?) (?:and threads )?(?:are |is )?(?:wiped|cleaned|clean|mopped|wiped down)\b"
)
TIMING = pattern(
    r"\b(?:time|timing|timer|clock|count\w*|minutes?|process\w*)\b[^.]{0,90}\b(?:boils?|boiling point|pressure is reached|pressure|steam)\b|"
    r"\b(?:boils?|boiling|pressure|steam)\b[^.]{0,60}\b(?:time|timing|timer|clock|count\w*|minutes)\b"
)
STANDING = pattern(r"\b(?:stand|standing|cool|cooling|rest|leave|undisturbed|without moving)\b")
SEALS = pattern(
    r"\b(?:check|test|try|inspect|look at|look over|examine|make sure|see (?:that|whether|if))\b[^.]{0,60}\b(?:seal\w*|lids?)\b|"
    r"\bseals?\b[^.]{0,30}\b(?:checked|tested|tried|inspected|looked at)\b|\bthen (?:for |to )?the seals\b|"
    r"\b(?:not|un)\s?sealed?\b|\b(?:did|does|do) not seal\b|\bunsealed\b"
)


def missing(document: Document) -> list[str]:
    """What the steps of a canned formula leave out; a headspace or a standing time of its own section counts."""
    told = {word for step in document.make for word in _told(step.text)}
    if document.pack.headspace:
        told.add("the headspace")
    if any(row.kind == "stand" for row in document.keep):
        told.add("letting the jars stand")
    return [word for word in STATED if word not in told]


STATED = {
    "the headspace": HEADSPACE,
    "wiping the rims": RIMS,
    "starting the time when the water boils": TIMING,
    "letting the jars stand": STANDING,
    "checking the seals": SEALS,
}


@remembered
def _told(step: str) -> tuple[str, ...]:
    """What a step states of the steps that every canned formula states."""
    return tuple(word for word, shape in STATED.items() if shape.search(step.lower()))


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
