"""Rows of the decision table by id, with those that are not about an edit but about the writing and the evidence."""

from brimline import figures
from brimline.figures.values import Row
from brimline.findings import Source
from brimline.review.rows_said import SAID, own

# Which figure of them was seen and which is remembered is said with each finding.
_STANDARDS = (
    Source("identity us", "21 CFR part 150, fruit butters, jellies, preserves", "150.110, 150.140, 150.160", "read"),
    Source("identity eu", "Council Directive 2001/113/EC as amended by (EU) 2024/1438", "annex I", "read"),
    Source("identity uk", "Jam and Similar Products regulations of the United Kingdom", "", "read"),
    Source("identity codex", "Codex CXS 296-2009, Standard for Jams, Jellies and Marmalades", "3", "memory"),
)

# Standards of identity are about names, so none of them asks for a change of a tested formula.
_NAME = "A standard of identity says what a name promises a buyer; it says nothing about safety."
_KEEP = "keep the tested amounts and sell it under a name without this standard"

OWN = {
    row.id: row
    for row in (
        *SAID,
        own(
            "unknown-ingredient",
            "an ingredient that the table does not know, or a name that could be two things",
            "untested",
            "What is not known cannot be compared with what was tested.",
            "use the ingredient of the tested formula, under a name the table knows",
            "illness",
        ),
        own(
            "ambiguous-amount",
            "an amount that cannot be told: a can of no size, lemons as acid, `some` of something that counts",
            "form",
            "Things that are counted vary in size, so nobody knows how much went in.",
            "keep the measure of the tested formula, or write a measure beside it: `2 each = 1/3 cup`",
        ),
        own(
            "strength-unstated",
            "vinegar whose strength a tested formula does not state",
            "form",
            "Vinegar is sold at 4 to 7 percent acid, and an adaptation can only keep a strength that is written down.",
            "write the tested strength as a form: `vinegar, cider, 5 %`",
        ),
        own(
            "unsafe-habit",
            "a step or note that tells the cook to follow an unsafe habit",
            "untested",
            "A tested process counts only when jars, lids, water and time are handled as they were in the test.",
            "take the habit out of the step, or keep the step of the tested formula",
            "illness",
        ),
        own(
            "no-figure",
            "two formulas measure a food differently and the table has no weight for it",
            "untested",
            "Without the weight of a cup nobody can say whether it is more or less than tested.",
            "state the amount in the measure of the tested formula, or keep its line",
        ),
        own(
            "tested-missing",
            "the formula an adaptation departs from is missing, doubled, unreadable, a draft, retired, or itself",
            "unreadable",
            "An adaptation can only be judged beside the formula that was tested.",
            "name a tested formula of this collection in `adapts`",
        ),
        own(
            "too-many-readings",
            "more alternatives than can be tried one by one",
            "untested",
            "Every reading that a cook may choose has to be compared, and there are too many.",
            "split it into several formulas, or keep the tested choice",
        ),
        own(
            "rule-failed",
            "a rule that stopped before it could judge",
            "unreadable",
            "A rule that stopped has judged nothing, so nothing may be concluded from its silence.",
            "report it to the maintainers with this formula; keep the tested formula meanwhile",
        ),
        own(
            "no-evidence",
            "a formula called tested that names neither a test nor a publication",
            "untested",
            "Without evidence nobody can check what was tested.",
            "add the test or the publication to `evidence`, or call it a draft",
        ),
        own(
            "review-overdue",
            "a review date that has passed, of the formula or of the one it departs from",
            "form",
            "Guidance changes, and a formula nobody has looked at may have been overtaken.",
            "have it reviewed and set the next date",
        ),
        own(
            "seal-broken",
            "a tested formula that is not what the register holds",
            "untested",
            "A tested formula is evidence only as long as it is the one that was tested.",
            "take back the change, or give the changed formula a code of its own and call it adapted; if it was tested "
            "anew, record the test and have the curator seal it",
        ),
        own(
            "seal-missing",
            "a tested formula that the register does not hold",
            "untested",
            "Until the curator has entered a formula, nobody has said that it is the one that was tested.",
            "have the curator enter it with brimline seal, or call it a draft",
        ),
        own(
            "tested-changed",
            "an adaptation of a tested formula that is not what the register holds",
            "untested",
            "Measured against a formula that was changed, an unsafe edit can look like none.",
            "take back the change of the tested formula",
        ),
        own(
            "evidence-changed",
            "evidence that is not what the register holds",
            "untested",
            "A test, a reading or a review date that changes without new evidence is none.",
            "put back the row that the register holds; if it was corrected, have the curator seal it",
        ),
        own(
            "evidence-unsealed",
            "a row of evidence that the register does not hold yet",
            "form",
            "New evidence counts once the curator has seen it.",
            "have the curator enter it with brimline seal",
        ),
        own(
            "evidence-stale",
            "a test, reading, source or review recorded for an earlier version of the formula",
            "form",
            "What was measured on another version says nothing about this one.",
            "test, measure or review the formula as it is now, write the new row and have the curator seal it",
        ),
        own(
            "private-data",
            "an address or a telephone number in evidence, a variance or the register",
            "form",
            "A collection is published, and what stands in it can be read by everybody for ever.",
            "name the office and the report, and say where the paper is kept",
        ),
        own(
            "seal-orphan",
            "a seal in the register without a tested formula in the collection",
            "form",
            "Readers still hold printed copies of a formula that has gone.",
            "keep a retired formula as a stub with `retired` and `successor`; a seal is never taken out for another reason",
        ),
        own(
            "variance-expired",
            "a variance that has ended",
            "form",
            "A permission is given for a time, so that somebody looks at it again.",
            "take it out, or have it given anew on evidence that still holds",
        ),
        own(
            "variance-unused",
            "a variance for a finding that is not there",
            "form",
            "A permission for nothing would let the next fault of its kind pass unseen.",
            "take it out",
        ),
        own(
            "variance-broad",
            "a variance for more than one rule or formula, for longer than a year, or for what nothing lifts",
            "form",
            "A permission without bounds is none: nobody can say what was looked at.",
            "write one variance for each finding, for twelve months at most",
        ),
        own(
            "variance-weak",
            "a variance whose evidence does not reach for the finding it is for",
            "form",
            "What can make someone ill is permitted on the word of a process authority, not on a single measurement.",
            "keep the tested formula until the evidence is there; a licensed process authority says what is needed",
        ),
        own(
            "variance-stale",
            "a variance given for another version of the formula",
            "form",
            "What was permitted was the formula as it stood then.",
            "take it out, or have the formula looked at again as it stands now",
        ),
        own(
            "successor-missing",
            "a retired formula whose successor is missing, itself, a draft or retired",
            "form",
            "Whoever holds a printed copy looks for what to use instead.",
            "name a tested or adapted formula of this collection in `successor`, or leave the line out",
        ),
        own(
            "identity-name",
            "a name it is sold under that no standard has, or that has no place for something in it",
            "form",
            _NAME,
            "keep the tested amounts and sell it under another name, or ask the food law of the place",
            basis=_STANDARDS,
        ),
        own(
            "identity-fruit",
            "less fruit than the standard of the name asks for",
            "form",
            _NAME,
            _KEEP,
            basis=_STANDARDS,
        ),
        own(
            "identity-solids",
            "fewer soluble solids than the standard of the name asks for",
            "form",
            _NAME,
            _KEEP,
            basis=_STANDARDS,
        ),
        own(
            "identity-mix",
            "fruits that the standard of the name does not let stand together, or not in these shares",
            "form",
            _NAME,
            _KEEP,
            basis=_STANDARDS,
        ),
        own(
            "identity-endocarp",
            "less flesh and juice of citrus than the standard of the name asks for",
            "form",
            _NAME,
            _KEEP,
            basis=_STANDARDS,
        ),
        own(
            "identity-untold",
            "something the standard of the name asks for that cannot be computed from the formula",
            "form",
            _NAME,
            "keep the tested amounts; state them by weight, with a reading in Brix, or take `sold-as` out",
            basis=_STANDARDS,
        ),
    )
}

# What the engine itself says, and no rule, by the name it says it under.
ENGINE = {
    "evidence/tested": ("tested-missing", "too-many-readings", "rule-failed"),
    "evidence/register": ("seal-orphan",),
    "evidence/successor": ("successor-missing",),
    "evidence/variance": (
        "variance-expired",
        "variance-unused",
        "variance-broad",
        "variance-weak",
        "variance-stale",
    ),
}
ENGINE_ROWS = tuple(row for rows in ENGINE.values() for row in rows)


def row_of(name: str) -> Row:
    """The row of an id. Raises KeyError for an id that neither table has."""
    return OWN[name] if name in OWN else figures.rows()[name]


def all_rows() -> dict[str, Row]:
    """Every row, those about edits first."""
    return {**figures.rows(), **OWN}
