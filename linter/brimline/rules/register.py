"""Register: a tested formula means what was sealed, and its evidence was made for it."""

from collections.abc import Iterator

from brimline.document.meaning import Seal, evidence_row, evidence_rows, fingerprint
from brimline.document.private import private
from brimline.document.values import Document
from brimline.findings import Flag, Span
from brimline.moves.listing import section
from brimline.moves.values import Case
from brimline.rules.contract import rule

# The kinds of evidence that say a formula was tried; without one made for it, nothing vouches for it.
_VOUCHES = ("tested", "source")


@rule("evidence/sealed", decides=("seal-broken", "seal-missing", "tested-changed"))
def tested_formulas_mean_what_was_sealed(case: Case) -> Iterator[Flag]:
    """A tested formula means what the register holds of it, and so does the tested formula an adaptation departs from.

    A tested formula is evidence only as long as it is the one that was tested; an amount changed later was never tried.
    """
    if case.register is None:
        return
    document = case.document
    if document.standing == "tested":
        at = document.headers.get("standing", section(document))
        seal = case.register.get(document.code)
        if seal is None:
            yield Flag("seal-missing", at, f"The register holds no {document.code}.")
        elif seal.fingerprint != fingerprint(document):
            says = f"It is not what was sealed on {seal.sealed}; its readings and its review were made for that."
            yield Flag("seal-broken", at, says)
    tested = case.tested
    if tested is not None and tested.standing == "tested":
        seal = case.register.get(tested.code)
        if seal is not None and seal.fingerprint != fingerprint(tested):
            at = document.headers.get("adapts", section(document))
            yield Flag(
                "tested-changed", at, f"{tested.code}, which it departs from, is not what was sealed on {seal.sealed}."
            )


@rule("evidence/fresh", decides=("evidence-changed", "evidence-unsealed", "evidence-stale"))
def evidence_was_made_for_the_formula(case: Case) -> Iterator[Flag]:
    """The evidence of a sealed formula is that of the register, and each test, reading and review was made for it as it is.

    A reading of another version says nothing about this one, and a record that changes unseen proves nothing.
    """
    document = case.document
    seal = case.register.get(document.code) if case.register is not None and document.standing == "tested" else None
    if seal is None:
        return
    printed = fingerprint(document)
    yield from _differences(document, seal)
    if seal.fingerprint != printed:
        return
    made_for = dict(seal.evidence)
    fresh = any(row.partition(" ")[0] in _VOUCHES and of == printed for row, of in seal.evidence)
    for row in document.evidence:
        of = made_for.get(evidence_row(row), printed)
        if of != printed:
            says = f"`{row.kind}` was recorded for an earlier version of the formula and not again for this one."
            yield Flag("evidence-stale", row.span, says, level="form" if fresh else "untested")


def _differences(document: Document, seal: Seal) -> Iterator[Flag]:
    """Rows that the register has and the formula has not, and the reverse."""
    here, there = evidence_rows(document), [row for row, _ in seal.evidence]
    gone = [row for row in there if row not in here]
    for row in gone:
        at = next((one.span for one in document.evidence if row.startswith(f"{one.kind} ")), _evidence(document))
        yield Flag("evidence-changed", at, f"The register says: {row}. The formula does not say so any more.")
    if gone:
        return
    for one in document.evidence:
        if evidence_row(one) not in there:
            yield Flag("evidence-unsealed", one.span, "This row of evidence is not in the register yet.")


def _evidence(document: Document) -> Span:
    return section(document, "evidence")


@rule("evidence/private", decides=("private-data",))
def evidence_names_no_person(case: Case) -> Iterator[Flag]:
    """Evidence names offices and reports, never the address or the telephone number of a person.

    A collection is published, and what stands in it can be read by everybody for ever.
    """
    for row in case.document.evidence:
        if data := private(row.text):
            yield Flag("private-data", row.span, f"This row of evidence holds {data}.")
