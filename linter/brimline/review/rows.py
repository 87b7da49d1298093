"""Rows of the decision table by id, with those that are not about an edit but about the writing and the evidence."""

from brimline import figures
from brimline.figures.values import Row
from brimline.findings import Source

_OURS = (Source("judgement", "our judgement, on the cautious side", "", "judgement"),)


# Which figure of them was seen and which is remembered is said with each finding.
_STANDARDS = (
    Source("identity us", "21 CFR part 150, fruit butters, jellies, preserves", "150.110, 150.140, 150.160", "read"),
    Source("identity eu", "Council Directive 2001/113/EC as amended by (EU) 2024/1438", "annex I", "read"),
    Source("identity uk", "Jam and Similar Products regulations of the United Kingdom", "", "read"),
    Source("identity codex", "Codex CXS 296-2009, Standard for Jams, Jellies and Marmalades", "3", "memory"),
)


def _own(
    name: str,
    edit: str,
    level: str,
    why: str,
    advice: str,
    harm: str = "record",
    basis: tuple[Source, ...] = _OURS,
) -> Row:
    return Row(
        id=name,
        edit=edit,
        levels=(("", level),),
        harms=(("", harm),),
        basis=basis,
        side="both",
        kinds=(),
        note="",
        why=why,
        advice=advice,
    )


# Standards of identity are about names, so none of them asks for a change of a tested formula.
_NAME = "A standard of identity says what a name promises a buyer; it says nothing about safety."
_KEEP = "keep the tested amounts and sell it under a name without this standard"

OWN = {
    row.id: row
    for row in (
        _own(
            "unknown-ingredient",
            "an ingredient that the table does not know, or a name that could be two things",
            "untested",
            "What is not known cannot be compared with what was tested.",
            "use the ingredient of the tested formula, under a name the table knows",
            "illness",
        ),
        _own(
            "ambiguous-amount",
            "an amount that cannot be told: a can of no size, lemons as acid, `some` of something that counts",
            "form",
            "Things that are counted vary in size, so nobody knows how much went in.",
            "keep the measure of the tested formula, or write a measure beside it: `2 each = 1/3 cup`",
        ),
        _own(
            "strength-unstated",
            "vinegar whose strength a tested formula does not state",
            "form",
            "Vinegar is sold at 4 to 7 percent acid, and an adaptation can only keep a strength that is written down.",
            "write the tested strength as a form: `vinegar, cider, 5 %`",
        ),
        _own(
            "unsafe-habit",
            "a step or note that tells the cook to follow an unsafe habit",
            "untested",
            "A tested process counts only when jars, lids, water and time are handled as they were in the test.",
            "take the habit out of the step, or keep the step of the tested formula",
            "illness",
        ),
        _own(
            "no-figure",
            "two formulas measure a food differently and the table has no weight for it",
            "untested",
            "Without the weight of a cup nobody can say whether it is more or less than tested.",
            "state the amount in the measure of the tested formula, or keep its line",
        ),
        _own(
            "tested-missing",
            "the formula an adaptation departs from is missing, doubled, unreadable, a draft, retired, or itself",
            "unreadable",
            "An adaptation can only be judged beside the formula that was tested.",
            "name a tested formula of this collection in `adapts`",
        ),
        _own(
            "too-many-readings",
            "more alternatives than can be tried one by one",
            "untested",
            "Every reading that a cook may choose has to be compared, and there are too many.",
            "split it into several formulas, or keep the tested choice",
        ),
        _own(
            "rule-failed",
            "a rule that stopped before it could judge",
            "unreadable",
            "A rule that stopped has judged nothing, so nothing may be concluded from its silence.",
            "report it to the maintainers with this formula; keep the tested formula meanwhile",
        ),
        _own(
            "no-evidence",
            "a formula called tested that names neither a test nor a publication",
            "untested",
            "Without evidence nobody can check what was tested.",
            "add the test or the publication to `evidence`, or call it a draft",
        ),
        _own(
            "review-overdue",
            "a review date that has passed",
            "form",
            "Guidance changes, and a formula nobody has looked at may have been overtaken.",
            "have it reviewed and set the next date",
        ),
        _own(
            "identity-name",
            "a name it is sold under that no standard has, or that has no place for something in it",
            "form",
            _NAME,
            "keep the tested amounts and sell it under another name, or ask the food law of the place",
            basis=_STANDARDS,
        ),
        _own(
            "identity-fruit",
            "less fruit than the standard of the name asks for",
            "form",
            _NAME,
            _KEEP,
            basis=_STANDARDS,
        ),
        _own(
            "identity-solids",
            "fewer soluble solids than the standard of the name asks for",
            "form",
            _NAME,
            _KEEP,
            basis=_STANDARDS,
        ),
        _own(
            "identity-mix",
            "fruits that the standard of the name does not let stand together, or not in these shares",
            "form",
            _NAME,
            _KEEP,
            basis=_STANDARDS,
        ),
        _own(
            "identity-endocarp",
            "less flesh and juice of citrus than the standard of the name asks for",
            "form",
            _NAME,
            _KEEP,
            basis=_STANDARDS,
        ),
        _own(
            "identity-untold",
            "something the standard of the name asks for that cannot be computed from the formula",
            "form",
            _NAME,
            "keep the tested amounts; state them by weight, with a reading in Brix, or take `sold-as` out",
            basis=_STANDARDS,
        ),
    )
}

# What the engine itself says of an adaptation, under the rule evidence/tested.
ENGINE_ROWS = ("tested-missing", "too-many-readings", "rule-failed")


def row_of(name: str) -> Row:
    """The row of an id. Raises KeyError for an id that neither table has."""
    return OWN[name] if name in OWN else figures.rows()[name]


def all_rows() -> dict[str, Row]:
    """Every row, those about edits first."""
    return {**figures.rows(), **OWN}
