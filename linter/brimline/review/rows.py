"""Rows of the decision table by id, with those that are not about an edit but about the writing and the evidence."""

from brimline import figures
from brimline.figures.values import Row
from brimline.findings import Source

_OURS = (Source("judgement", "our judgement, on the cautious side", "", "judgement"),)


def _own(name: str, edit: str, level: str, why: str, advice: str, harm: str = "record") -> Row:
    return Row(
        id=name,
        edit=edit,
        levels=(("", level),),
        harms=(("", harm),),
        basis=_OURS,
        side="both",
        kinds=(),
        note="",
        why=why,
        advice=advice,
    )


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
            "call it what it is, or make it as its name says",
        ),
        _own(
            "step-contradicts",
            "a step that says another time, jar, headspace or end point than the formula's own tables",
            "form",
            "The cook follows the step and the reviewer reads the table, so one of them is misled.",
            "write the step as the table says, or leave the number to the table",
        ),
        _own(
            "never-used",
            "an ingredient that is listed and that no step uses",
            "form",
            "The cook has it on the table and does not know what to do with it.",
            "name it in the step that adds it, or take it out of the list",
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
            "count the jars of the next batch and write that number",
        ),
        _own(
            "reading-above",
            "a finished pH reading above the line of acid food, in a formula canned in boiling water or steam",
            "unsafe",
            "Above that line the spores that cause botulism can grow in the sealed jar.",
            "take the formula back, and do not eat what was made by it; refrigerate or freeze instead of canning",
            "illness",
        ),
        _own(
            "grape-unsettled",
            "grape juice made at home and not left to settle in the cold",
            "quality",
            "Tartrate crystals form in the jelly.",
            "let the juice stand in the refrigerator overnight or longer, and strain it again",
            "flavour",
        ),
        _own(
            "yield-far",
            "a yield far from what the finished batch comes to",
            "form",
            "The cook gets ready too few jars or too many, and doubts a batch that came out right.",
            "count the jars of the next batch and write that number",
        ),
        _own(
            "review-overdue",
            "a review date that has passed, of the formula or of the one it departs from",
            "form",
            "Guidance changes, and a formula nobody has looked at may have been overtaken.",
            "have it reviewed and set the next date",
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
