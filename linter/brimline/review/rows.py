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
            "not-its-kind",
            "a product that is not what its name says",
            "form",
            "Who reads the label, and who looks for the published table of that kind, goes by the word.",
            "call it what the tested formula calls it, or make it as its name says",
        ),
        _own(
            "step-contradicts",
            "a step that says another time, jar, headspace or end point than the formula's own tables",
            "form",
            "The cook follows the step and the reviewer reads the table, so one of them is misled.",
            "keep the tested number in the step as in the table, or leave it to the table",
        ),
        _own(
            "never-used",
            "an ingredient that is listed and that no step uses",
            "form",
            "The cook has it on the table and does not know what to do with it.",
            "name it in the step of the tested formula that adds it, or take it out of the list",
        ),
        _own(
            "never-listed",
            "an ingredient that a step adds and the list does not name",
            "form",
            "What is not listed has no amount, so nobody can tell how much went in.",
            "list it with its tested amount, or take it out of the step",
        ),
        _own(
            "steps-missing",
            "steps that every formula of its kind should state",
            "form",
            "A cook who does not know the step leaves it out.",
            "state in the steps what is missing, in the words of the tested formula",
        ),
        _own(
            "yield-too-high",
            "more jars than the ingredients can fill",
            "form",
            "A yield that cannot be reached makes the cook look for what went wrong, or water the batch down.",
            "keep the tested yield, or count the jars of the next batch and write that number",
        ),
        _own(
            "reading-above",
            "a finished pH reading above the line of acid food, in a formula canned in boiling water or steam",
            "unsafe",
            "Above that line the spores that cause botulism can grow in the sealed jar.",
            "take the formula back and keep to a published one; do not eat what was made by it, and refrigerate or freeze instead of canning",
            "illness",
        ),
        _own(
            "grape-unsettled",
            "grape juice made at home and not left to settle in the cold",
            "quality",
            "Tartrate crystals form in the jelly.",
            "keep the juice in the refrigerator overnight or longer, and strain it again",
            "flavour",
        ),
        _own(
            "unfamiliar-step",
            "a step about jars, lids or the canner that neither the tested formula nor the usual directions say",
            "form",
            "Words can teach an unsafe habit in more ways than any reader knows, so a person has to look at it.",
            "read it with care, or write the step of the tested formula",
        ),
        _own(
            "yield-far",
            "a yield far from what the finished batch comes to",
            "form",
            "The cook gets ready too few jars or too many, and doubts a batch that came out right.",
            "keep the tested yield, or count the jars of the next batch and write that number",
        ),
        _own(
            "review-overdue",
            "a review date that has passed, of the formula or of the one it departs from",
            "form",
            "Guidance changes, and a formula nobody has looked at may have been overtaken.",
            "have it reviewed and set the next date",
        ),
        _own(
            "seal-broken",
            "a tested formula that is not what the register holds",
            "untested",
            "A tested formula is evidence only as long as it is the one that was tested.",
            "take back the change, or give the changed formula a code of its own and call it adapted; if it was tested "
            "anew, record the test and have the curator seal it",
        ),
        _own(
            "seal-missing",
            "a tested formula that the register does not hold",
            "untested",
            "Until the curator has entered a formula, nobody has said that it is the one that was tested.",
            "have the curator enter it with brimline seal, or call it a draft",
        ),
        _own(
            "tested-changed",
            "an adaptation of a tested formula that is not what the register holds",
            "untested",
            "Measured against a formula that was changed, an unsafe edit can look like none.",
            "take back the change of the tested formula",
        ),
        _own(
            "evidence-changed",
            "evidence that is not what the register holds",
            "untested",
            "A test, a reading or a review date that changes without new evidence is none.",
            "put back the row that the register holds; if it was corrected, have the curator seal it",
        ),
        _own(
            "evidence-unsealed",
            "a row of evidence that the register does not hold yet",
            "form",
            "New evidence counts once the curator has seen it.",
            "have the curator enter it with brimline seal",
        ),
        _own(
            "evidence-stale",
            "a test, reading, source or review recorded for an earlier version of the formula",
            "form",
            "What was measured on another version says nothing about this one.",
            "test, measure or review the formula as it is now, write the new row and have the curator seal it",
        ),
        _own(
            "private-data",
            "an address or a telephone number in evidence, a variance or the register",
            "form",
            "A collection is published, and what stands in it can be read by everybody for ever.",
            "name the office and the report, and say where the paper is kept",
        ),
        _own(
            "seal-orphan",
            "a seal in the register without a tested formula in the collection",
            "form",
            "Readers still hold printed copies of a formula that has gone.",
            "keep a retired formula as a stub with `retired` and `successor`; a seal is never taken out for another reason",
        ),
        _own(
            "variance-expired",
            "a variance that has ended",
            "form",
            "A permission is given for a time, so that somebody looks at it again.",
            "take it out, or have it given anew on evidence that still holds",
        ),
        _own(
            "variance-unused",
            "a variance for a finding that is not there",
            "form",
            "A permission for nothing would let the next fault of its kind pass unseen.",
            "take it out",
        ),
        _own(
            "variance-broad",
            "a variance for more than one rule or formula, for longer than a year, or for what nothing lifts",
            "form",
            "A permission without bounds is none: nobody can say what was looked at.",
            "write one variance for each finding, for twelve months at most",
        ),
        _own(
            "variance-weak",
            "a variance whose evidence does not reach for the finding it is for",
            "form",
            "What can make someone ill is permitted on the word of a process authority, not on a single measurement.",
            "keep the tested formula until the evidence is there; a licensed process authority says what is needed",
        ),
        _own(
            "variance-stale",
            "a variance given for another version of the formula",
            "form",
            "What was permitted was the formula as it stood then.",
            "take it out, or have the formula looked at again as it stands now",
        ),
        _own(
            "successor-missing",
            "a retired formula whose successor is missing, itself, a draft or retired",
            "form",
            "Whoever holds a printed copy looks for what to use instead.",
            "name a tested or adapted formula of this collection in `successor`, or leave the line out",
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
