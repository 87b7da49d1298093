"""The two sentences of an answer, and what goes with them; what they say is decided elsewhere."""

from collections.abc import Iterable, Sequence
from fractions import Fraction

from brimline.batch.words import listed
from brimline.document.values import Document
from brimline.figures.calls import Spoken, spoken
from brimline.findings import Finding, Harm, Source
from brimline.review.rows import row_of
from brimline.review.suppose.values import Made

_SUBJECTS = {
    "preserves": "these preserves",
    "tomato": "these tomatoes",
    "canned fruit": "this canned fruit",
    "puree": "this puree",
    "": "this formula",
}
_TAILS = {
    Harm.SOFT_SET: "may not set as the tested formula does",
    Harm.FLAVOUR: "may look and taste different from what was tested",
    Harm.SPOILAGE: "may not keep as well as the tested formula does",
    Harm.BREAKAGE: "may cost some jars",
    Harm.ILLNESS: "is not quite what was tested",
    Harm.RECORD: "is not quite what was tested",
}
KEEP = "keep to the formula as it was tested"


def subject(document: Document) -> str:
    """What the formula makes, as it is called on the telephone: `this jam`, `these preserves`."""
    return _SUBJECTS.get(document.product, f"this {document.product}")


def opening(verdict: str, finding: Finding | None, document: Document, made: Sequence[Made]) -> str:
    """The first sentence: the verdict on the formula with its edits."""
    what = f"{subject(document)} {phrases(made)}"
    certain = finding is None or finding.certain
    if verdict == "unsafe":
        return f"It {'is' if certain else 'may be'} unsafe to put up {what}."
    if verdict == "untested":
        if not certain:
            return f"It cannot be told from the amounts whether {what} is still what was tested."
        return f"Nobody has tested {what}."
    if verdict == "quality" and finding is not None:
        return f"Making {what} is a matter of quality: the result {_TAILS[finding.harm]}."
    if verdict == "unreadable":
        return f"It cannot be judged what comes of {what}."
    if verdict == "silent":
        return f"No published table speaks of {what}."
    return f"Putting up {what} stays within the tested formula or published guidance."


def phrases(made: Sequence[Made]) -> str:
    """The edits in one phrase, each with its amounts: `with half the sugar (...) and in pint jars (...)`."""
    return listed([f"{one.phrase} ({one.fact})" if one.fact else one.phrase for one in made if one.phrase])


def reason(row: str, harm: str, level: str, topics: Iterable[str]) -> tuple[str, tuple[Source, ...]]:
    """The sentence for a row: the one written for the telephone if there is one, else the row's own reason."""
    found = _spoken(row, harm, level, topics)
    if found is not None:
        return found.says["says"], found.sources
    return sentence(row_of(row).why), ()


def _spoken(row: str, harm: str, level: str, topics: Iterable[str]) -> Spoken | None:
    for key in (*(f"{row}/{topic}" for topic in topics), f"{row}/{harm}", f"{row}/{level}", row):
        found = spoken("rows", key)
        if found is not None:
            return found
    return None


def topic(name: str) -> tuple[str, tuple[Source, ...]]:
    """A sentence that goes with a topic. Raises KeyError for one that the table lacks."""
    found = spoken("topics", name)
    if found is None:
        raise KeyError(name)
    return found.says["says"], found.sources


def sentence(text: str) -> str:
    """A text that starts with a capital and ends in a full stop; a stop inside it becomes a semicolon."""
    trimmed = text.strip().rstrip(".")
    return f"{trimmed[:1].upper()}{trimmed[1:]}." if trimmed else ""


def choices(*some: str) -> str:
    """Choices in one list, each said once."""
    return "; ".join(dict.fromkeys(one for one in some if one))


def kept(some: str) -> str:
    """Choices with keeping what was tested among them."""
    return some if "tested" in some or "keep" in some else choices(KEEP, some)


def grounded(document: Document, *several: Iterable[Source]) -> tuple[Source, ...]:
    """Sources as merged; where there is only our judgement, the formula's own evidence goes before it."""
    found = merged(*several)
    return found if any(one.how != "judgement" for one in found) else (*evidence(document), *found)


def merged(*several: Iterable[Source]) -> tuple[Source, ...]:
    """Sources in order, each publication and place once; our judgement last, and once."""
    kept_once = {(one.title, one.section): one for some in several for one in some if one.how != "judgement"}
    judged = [one for some in several for one in some if one.how == "judgement"]
    return (*kept_once.values(), *judged[:1])


def evidence(document: Document) -> tuple[Source, ...]:
    """The formula's own evidence as sources."""
    rows = [row.text.removeprefix("source").strip() for row in document.evidence]
    kinds = [row.kind for row in document.evidence]
    named = [text for text, kind in zip(rows, kinds, strict=True) if kind in ("source", "tested") and text]
    return tuple(Source(document.code, f"{document.code}: {text}", "", "read") for text in named)


def batches(by: Fraction) -> str:
    """How many single batches make up a larger one: `2 batches`, `3 batches`."""
    return f"{-(-by.numerator // by.denominator)} batches"
