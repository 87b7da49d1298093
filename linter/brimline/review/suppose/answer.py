"""From a caller's words to answers: edits the formula in memory, prints it, reads it again, and reviews it by the rules."""

from collections.abc import Iterable, Sequence

from msgspec.structs import replace

from brimline.batch.words import listed
from brimline.document.values import Document
from brimline.findings import Finding, Level, Source
from brimline.review.engine import ancestry
from brimline.review.suppose import (
    edit_jars,
    speak,
    talks,
    wording,
)
from brimline.review.suppose.asking import asked as understood
from brimline.review.suppose.decide import SEEN_ONLY, decided, explains, silent_rows, told, worst
from brimline.review.suppose.judging import Judged, judged
from brimline.review.suppose.times import minutes
from brimline.review.suppose.values import Answer, Asked, AskError, Call, Made
from brimline.review.values import Reviewed
from brimline.shelf import Book, Shelf

# Sentences that start alike say the same thing twice.
_ALIKE = 36
_NO_LOWER = ("sugar-cut-gelled", "sugar-cut-with-pectin-swap", "sugar-substitute", "sugar-cut-firm")


def answered(shelf: Shelf, book: Book, words: str) -> Call:
    """Every answer to a caller's words about one formula of a shelf. Raises AskError for what nothing can be said about."""
    tested = _tested(shelf, book)
    asked = understood(words)
    edits = tuple(one for one in asked if one.kind != "talk")
    place = next((one for one in edits if one.kind == "altitude"), None)
    questions = tuple(dict.fromkeys(one.what for one in asked if one.kind == "talk"))
    answers = [_to_edits(shelf, book, tested, edits)] if edits else []
    for question in questions:
        settings = shelf.settings(book)
        answers.append(talks.answer(question, tested, settings, place, tuple(o for o in asked if o.what == question)))
    notices = replace(shelf, left_out=()).notices()
    return Call(book.path, tested.code, tested.title, tested.standing, asked, tuple(answers), notices)


def _tested(shelf: Shelf, book: Book) -> Document:
    """The formula a call is about. Raises AskError unless it can be departed from."""
    document = book.read.document
    if document is None or any(one.level is Level.UNREADABLE for one in (*book.read.findings, *shelf.findings(book))):
        raise AskError(f"{book.path} cannot be read, so nothing can be said about it; brimline review says why")
    if document.standing == "retired":
        after = f"; {document.successor} has taken its place" if document.successor else ""
        raise AskError(f"{document.code} is retired ({document.retired}), and nothing to depart from{after}")
    if document.standing == "draft" or not document.code:
        raise AskError(
            f"{document.code or book.path} is a draft: nothing about it was tested, so no change of it can be judged"
        )
    if document.standing == "adapted":
        _, fault = ancestry(shelf, book)
        if fault is not None:
            raise AskError(f"{document.code} cannot be compared with a tested formula: {fault.says}")
    return document


def _to_edits(shelf: Shelf, book: Book, tested: Document, edits: tuple[Asked, ...]) -> Answer:
    whole, made = judged(shelf, book, tested, edits)
    absent = [one.absent for one in made if one.absent]
    real = tuple(one for one in made if not one.absent)
    if not real:
        return _nothing(tested, edits, absent, whole.base)
    place = next((one for one in edits if one.kind == "altitude"), None)
    alone = _alone(shelf, book, tested, edits, made)
    also = [("", wording.sentence(one)) for one in absent]
    verdict, says, row = "", ("", ""), ""
    sources: tuple[Source, ...] = ()
    chosen = whole.decided
    if chosen.finding is None:
        verdict, says, sources, row = _matching(whole, tested, real, place, shelf)
        if verdict == "silent":
            # What nothing explains is taken no lighter than the gravest of its changes by itself.
            chosen = worst([other.decided for _, other in alone]) or chosen
    instead = _single(edits) or wording.KEEP
    finding = chosen.finding
    if finding is not None:
        verdict, row = chosen.verdict, finding.row
        second, spoken = _second(finding, real)
        says = (wording.opening(verdict, finding, tested, real), second)
        instead = wording.kept(wording.choices(*_extra(finding, shelf, book), _advice(finding, edits, tested)))
        sources = wording.grounded(tested, spoken, finding.sources)
        also.extend(_time_note(tested, place))
        if chosen.before:
            also.append(("", "The formula has this as it stands, before anything is changed."))
    further, more = _further(alone, finding, says[1])
    notes = told(whole.reviewed, whole.base)
    return Answer(
        asked=edits,
        verdict=verdict,
        says=says,
        instead=instead,
        sources=wording.merged(sources, more, *(one.sources for one in notes)),
        also=tuple(dict.fromkeys([*also, *further, *(("", _note(one)) for one in notes)])),
        measured="" if finding is None else finding.says,
        row=row,
        rule="" if finding is None else finding.rule,
        text=whole.text,
        reviewed=whole.reviewed,
        held_back=whole.reviewed.held_back or (finding is not None and finding.level.holds_back),
    )


def _alone(
    shelf: Shelf, book: Book, tested: Document, edits: Sequence[Asked], made: Sequence[Made]
) -> list[tuple[Made, Judged]]:
    """Each of several edits by itself; none where there is only one."""
    some = [(one, what) for one, what in zip(edits, made, strict=True) if not what.absent and one.kind != "altitude"]
    return [(what, judged(shelf, book, tested, [one])[0]) for one, what in some] if len(some) > 1 else []


def _second(finding: Finding, made: Iterable[Made]) -> tuple[str, tuple[Source, ...]]:
    """The second sentence, of the finding that decided."""
    if not finding.row:
        return wording.sentence(finding.why), ()
    topics = [topic for one in made for topic in one.topics]
    return wording.reason(finding.row, finding.harm.value, finding.level.word, topics)


def _note(finding: Finding) -> str:
    """A note of form as it is told: who must not eat it, or what it brings in that somebody may be allergic to."""
    second, _ = _second(finding, ())
    return second if finding.row == "honey-infant" else wording.sentence(f"{finding.says.rstrip('.')}: {second}")


def _nothing(tested: Document, edits: tuple[Asked, ...], absent: list[str], base: Reviewed) -> Answer:
    """The answer where there is nothing to change."""
    second, _ = wording.topic("no-change")
    return Answer(
        asked=edits,
        verdict=decided(base, base).verdict,
        says=(wording.sentence("; ".join(absent)), second),
        instead=wording.KEEP,
        sources=wording.evidence(tested),
        reviewed=base,
        held_back=base.held_back,
    )


def _matching(
    whole: Judged, tested: Document, made: tuple[Made, ...], place: Asked | None, shelf: Shelf
) -> tuple[str, tuple[str, str], tuple[Source, ...], str]:
    """The verdict where nothing is held against the edits, both sentences, the sources, and the row that explains it.

    It is `matches` only where a row of the table, or the formula's own list of jars, speaks of every edit.
    """
    if all(one.topics == ("altitude",) for one in made):
        first, second, sources = _altitude(tested, place, made)
        return "matches", (first, second), sources, ""
    timed = minutes(whole.document, place)
    jars = [one for one in made if "jar" in one.subjects]
    if timed is not None and (jars or place is not None):
        made = tuple(
            replace(one, fact=timed.alone or timed.says) if one is (jars[-1] if jars else made[-1]) else one
            for one in made
        )
    asks = any(row in SEEN_ONLY for one in made for row in one.silent)
    seen = silent_rows(tested, whole.document, shelf.today.isoformat()) if asks else []
    rows = [explains(one.silent, seen, tested.product) for one in made if "altitude" not in one.topics]
    listed_jar = [one for one in made if "jar-listed" in one.topics]
    verdict = "matches" if len([row for row in rows if row]) + len(listed_jar) >= len(rows) else "silent"
    first = wording.opening(verdict, None, tested, made)
    row = "" if verdict == "silent" else next((row for row in rows if row), "")
    topics = [topic for one in made for topic in one.topics]
    if row:
        second, spoken = wording.reason(row, "", "silent", topics)
        from brimline.review.rows import row_of

        return verdict, (first, second), wording.grounded(tested, spoken, row_of(row).basis), row
    if verdict == "matches":
        second, spoken = wording.topic("jar-listed")
    else:
        second, spoken = wording.topic("within")
    return verdict, (first, second), wording.merged(wording.evidence(tested), spoken), ""


def _altitude(tested: Document, place: Asked | None, made: Sequence[Made]) -> tuple[str, str, tuple[Source, ...]]:
    """Both sentences about a place, from the formula's own table."""
    timed = minutes(tested, place)
    if timed is None:
        second, sources = wording.topic("kept-cold")
        return f"{wording.subject(tested).capitalize()} has no time in a canner.", second, sources
    where = made[0].phrase
    second, sources = wording.topic("altitude")
    first = f"{where[:1].upper()}{where[1:]}, by the formula's own table, {timed.says}."
    return first, second, wording.merged(wording.evidence(tested), sources)


def _time_note(tested: Document, place: Asked | None) -> list[tuple[str, str]]:
    timed = minutes(tested, place) if place is not None else None
    if timed is None or place is None:
        return []
    return [
        (
            "",
            f"At that altitude, with the tested formula unchanged, {timed.says}; a change does not carry the time over.",
        )
    ]


def _further(
    alone: Sequence[tuple[Made, Judged]], finding: Finding | None, said: str
) -> tuple[list[tuple[str, str]], tuple[Source, ...]]:
    """What each edit comes to by itself, where that is not what already decided."""
    out: list[tuple[str, str]] = []
    sources: list[Source] = []
    for made, judgement in alone:
        other = judgement.decided.finding
        if other is None or judgement.decided.before or (finding is not None and other.row == finding.row):
            continue
        second, spoken = _second(other, [made])
        if second[:_ALIKE] in said:
            continue
        out.append((other.level.word, f"{made.phrase[:1].upper()}{made.phrase[1:]}: {second}"))
        sources.extend(wording.merged(spoken, other.sources))
    return out, tuple(sources)


def _single(edits: Sequence[Asked]) -> str:
    """Advice for a batch made larger where nothing else is said: one batch after the other."""
    by = next((one.share for one in edits if one.kind == "batch" and one.share is not None and one.share > 1), None)
    if by is None:
        return ""
    return f"make {wording.batches(by)} one after the other, each as it was tested"


def _advice(finding: Finding, edits: Sequence[Asked], tested: Document) -> str:
    """The row's own choices, with the jars of this formula named, and how many single batches make up a larger one."""
    if finding.row == "batch-larger" and _single(edits):
        return _single(edits)
    named = listed([speak.jar(one) for one in edit_jars.listed_jars(tested)])
    return finding.instead.replace("a jar the tested formula lists", f"{named} jars, which the tested formula lists")


def _extra(finding: Finding, shelf: Shelf, book: Book) -> list[str]:
    """Choices that only this call and this collection can give, before the row's own."""
    if finding.row in _NO_LOWER:
        return talks.low_sugar(shelf, book)
    return []
