"""Evidence: a tested formula says by whom and where, and is reviewed in time."""

from collections.abc import Iterator

from brimline.batch.words import decimal
from brimline.document.values import Document, Evidence
from brimline.findings import Flag
from brimline.moves.listing import section
from brimline.moves.values import Case
from brimline.rules.contract import rule
from brimline.rules.say import before_span


@rule("evidence/none", decides=("no-evidence",))
def tested_formulas_have_evidence(case: Case) -> Iterator[Flag]:
    """A formula that calls itself tested names the test or the publication.

    Without it nobody can check what was tested, and every adaptation stands on nothing.
    """
    document = case.document
    if document.standing == "tested" and not any(row.kind in ("tested", "source") for row in document.evidence):
        at = document.headers.get("standing", section(document))
        yield Flag("no-evidence", at, "It calls itself tested and names neither a test nor a source.", ())


@rule("evidence/reading", decides=("reading-above",))
def readings_are_those_of_acid_food(case: Case) -> Iterator[Flag]:
    """No finished pH reading of a formula canned in boiling water or steam lies above the line of acid food.

    Boiling water does not kill the spores that cause botulism; only acid keeps them from growing.
    """
    if not any(process.method in ("boiling-water", "steam") for process in case.document.process):
        return
    line = case.printed("ph_line", "ph").high
    for row in case.document.evidence:
        if row.quantity.lower() == "ph" and row.value is not None and row.value > line:
            text = f"pH {decimal(row.value)} was measured; acid food lies at {decimal(line)} or below."
            yield Flag("reading-above", row.span, text, source="ph_line")


@rule("evidence/overdue", decides=("review-overdue",))
def reviews_are_in_time(case: Case) -> Iterator[Flag]:
    """A formula is reviewed by the date it states.

    Guidance changes, and a formula nobody has looked at may have been overtaken.
    """
    for row in _overdue(case.document, case.today):
        yield Flag("review-overdue", row.span, f"It was to be reviewed by {row.date}.", ())
    tested = case.tested
    if tested is None:
        return
    at = case.document.headers.get("adapts", section(case.document))
    for row in _overdue(tested, case.today):
        text = f"{tested.code}, from which it departs, was to be reviewed by {row.date}."
        yield Flag("review-overdue", at, text, (), before_span(case, row.span))


def _overdue(document: Document, today: str) -> list[Evidence]:
    """Reviews that were due before a day; none where no day is known."""
    return [row for row in document.evidence if row.kind == "review-by" and row.date < today]


@rule("evidence/changed", decides=("standing-raised", "source-gone"))
def evidence_is_not_raised(case: Case) -> Iterator[Flag]:
    """Between two versions of a formula, its standing, tests, readings and review date change only with new evidence.

    A draft called tested, a date moved on or a reading changed makes evidence out of nothing.
    """
    was, now = case.previous, case.document
    if was is None or now.standing != "tested":
        return
    at = now.headers.get("standing", section(now))
    new_test = _rows(now, "tested") - _rows(was, "tested")
    if was.standing != "tested" and not new_test:
        yield Flag("standing-raised", at, f"It was {was.standing} and is called tested without a new test.")
    place = section(now, "evidence")
    gone = [kind for kind in ("tested", "source", "reading") if len(_rows(now, kind)) < len(_rows(was, kind))]
    if gone:
        yield Flag("source-gone", place, f"Evidence that was there is gone: {', '.join(gone)}.")
    if new_test:
        return
    for row in now.evidence:
        before, after = ([one for one in side.evidence if one.kind == row.kind] for side in (was, now))
        # Saying more of the same evidence, a page or a meter, is no change of it.
        if len(before) == len(after) and not any(_text(row).startswith(_text(old)) for old in before):
            weaker = row.kind == "reading" and _value(row) in [_value(old) for old in before]
            yield Flag(
                "source-gone" if weaker else "standing-raised",
                row.span,
                f"`{row.kind}` said {_text(before[after.index(row)])}; it now says {_text(row)}, and no new test "
                "stands beside it.",
            )


def _rows(document: Document, kind: str) -> set[str]:
    return {_text(row) for row in document.evidence if row.kind == kind}


def _text(row: Evidence) -> str:
    """A row with single spaces, for to set it in columns changes nothing."""
    return " ".join(row.text.split())


def _value(row: Evidence) -> tuple[str, object]:
    """What a reading measured and found; the rest says how well."""
    return row.quantity, row.value
