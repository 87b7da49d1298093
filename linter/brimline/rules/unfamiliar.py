"""Steps about jars, lids and the canner that nobody knows: not the tested formula, not the usual directions."""

import re
from collections.abc import Iterator

from brimline._patterns import pattern
from brimline._remember import remembered
from brimline.findings import Flag
from brimline.moves.values import Case
from brimline.rules.contract import rule
from brimline.rules.practice import worst
from brimline.rules.prose import sentences, told
from brimline.rules.standins import no_lid, other_container, replaces_process
from brimline.rules.stated import HEADSPACE, RIMS, SEALS
from brimline.rules.used import LATER

ABOUT = pattern(
    r"\b(?:jars?|(?<![\d,] )(?<!\d-)(?:half-)?(?:pints|quarts)|lids?|caps?|flats|bands?|(?<!in )rings|canner|water bath|seal\w*|burner|timer|clock|mou?ld\w*|film|fuzz)\b"
)
# The usual directions, in whatever words: a sentence that says one of these and no more is familiar.
USUAL = tuple(
    pattern(words)
    for words in (
        r"\b(?:sterili[sz]e|wash|rinse|scald|heat|warm|preheat|prepare|boil|get|have|keep|empty|clean|dry)\b[^.]{0,40}\b(?:jars|lids|bands)\b",
        r"\bkeep (?:them|the jars|it) hot\b",
        r"\b(?:fill|pack|ladle|pour|spoon|funnel|put)\b[^.]{0,60}\b(?:jars?|pints|half-pints|quarts)\b(?!.*\b(?:canner|oven|upside)\b)",
        r"\bfill (?:hot|raw|to)\b",
        r"\b(?:remove|release|work out|get out|run out)\b[^.]{0,30}\bbubbles?\b",
        r"\b(?:close|cover|cap|seal|screw|put|center|centre|apply|adjust|fit)\b[^.]{0,40}\b(?:lids?|bands?)\b[^.]{0,60}(?:finger\s?-?tip|snug|resistance|[.!]?$)",
        r"\bprocess\w*\b[^.]{0,60}\b(?:boiling|canner|minutes|time|table|altitude|says)\b|^process, ",
        r"\b(?:start|begin|count|time)\w*\b[^.]{0,40}\b(?:when|once|from|after)\b[^.]{0,30}\b(?:boil\w*|pressure)\b",
        r"\b(?:inch|inches|cm)\b[^.]{0,20}\b(?:over|above) (?:the )?(?:jars|lids|tops)\b",
        r"\bvent\w*\b|\b(?:canner|water)\b[^.]{0,40}\b(?:simmer|180 ?f|140 ?f|to (?:a|the) boil)\b",
        r"\b(?:lift|take|remove|leave|let|cool|set)\b[^.]{0,50}\b(?:jars|them)\b[^.]{0,60}\b(?:upright|towel|board|rack|draft|draught|stand|hours|apart|cool|out)\b",
        r"\b(?:refrigerate|freeze|eat|use|reprocess)\b[^.]{0,60}\b(?:jar|seal)\w*\b|\b(?:jar|seal)\w*\b[^.]{0,40}\b(?:refrigerat\w+|fridge)\b",
        r"\b(?:take|remove)\b[^.]{0,20}\bbands\b[^.]{0,20}\b(?:off|wash|store)\b|\b(?:label|store|date)\b[^.]{0,40}\bjars?\b",
        r"\b(?:do not|don't|never|no|not|without)\b|\bnew (?:flat )?lids?\b|\bhalf-pints?,|\b\d jars?\b",
    )
)
ALIKE = 0.6


@rule("practice/unfamiliar", decides=("unfamiliar-step",))
def steps_about_jars_are_familiar(case: Case) -> Iterator[Flag]:
    """What a step says about jars, lids and the canner is in the tested formula or in the usual directions.

    Words can teach an unsafe habit in more ways than any reader knows, so what is not known is shown to a person.
    """
    known = [_words(one) for step in case.tested.make for one in sentences(step.text)] if case.tested else []
    for step in case.document.make:
        text, span = step.text.lower(), step.span
        if replaces_process(text) or no_lid(text) or other_container(text) or worst(text):
            continue
        for sentence in sentences(text):
            if unknown(sentence) and not _among(sentence, known):
                yield Flag("unfamiliar-step", span, f"The usual directions do not say this: {sentence.rstrip('.')}.")
                break


@remembered
def unknown(sentence: str) -> bool:
    """Whether a sentence tells the cook something about jars, lids or the canner that is no usual direction."""
    about = ABOUT.search(sentence) and not any(word in sentence for word in LATER)
    return bool(about) and not familiar(sentence) and not told(sentence)


def familiar(sentence: str) -> bool:
    """Whether a sentence says one of the usual directions."""
    return any(one.search(sentence) for one in (HEADSPACE, RIMS, SEALS, *USUAL))


@remembered
def _words(sentence: str) -> frozenset[str]:
    return frozenset(re.findall(r"[a-z]{3,}", sentence))


def _among(sentence: str, known: list[frozenset[str]]) -> bool:
    """Whether the tested formula has a sentence of mostly the same words."""
    words = _words(sentence)
    return any(len(words & one) >= ALIKE * len(words | one) for one in known)
