"""Rows that are about what a formula says of itself: its kind, its steps, its yield, its readings; and how rows are made."""

from brimline.figures.values import Row
from brimline.findings import Source

_OURS = (Source("judgement", "our judgement, on the cautious side", "", "judgement"),)


def own(
    name: str,
    edit: str,
    level: str,
    why: str,
    advice: str,
    harm: str = "record",
    basis: tuple[Source, ...] = _OURS,
) -> Row:
    """A row that is about a formula's own text or record, the same whatever it is compared with."""
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


SAID = (
    own(
        "not-its-kind",
        "a product that is not what its name says",
        "form",
        "Who reads the label, and who looks for the published table of that kind, goes by the word.",
        "call it what the tested formula calls it, or make it as its name says",
    ),
    own(
        "step-contradicts",
        "a step that says another time, jar, headspace or end point than the formula's own tables",
        "form",
        "The cook follows the step and the reviewer reads the table, so one of them is misled.",
        "keep the tested number in the step as in the table, or leave it to the table",
    ),
    own(
        "never-used",
        "an ingredient that is listed and that no step uses",
        "form",
        "The cook has it on the table and does not know what to do with it.",
        "name it in the step of the tested formula that adds it, or take it out of the list",
    ),
    own(
        "never-listed",
        "an ingredient that a step adds and the list does not name",
        "form",
        "What is not listed has no amount, so nobody can tell how much went in.",
        "list it with its tested amount, or take it out of the step",
    ),
    own(
        "steps-missing",
        "steps that every formula of its kind should state",
        "form",
        "A cook who does not know the step leaves it out.",
        "state in the steps what is missing, in the words of the tested formula",
    ),
    own(
        "yield-too-high",
        "more jars than the ingredients can fill",
        "form",
        "A yield that cannot be reached makes the cook look for what went wrong, or water the batch down.",
        "keep the tested yield, or count the jars of the next batch and write that number",
    ),
    own(
        "reading-above",
        "a finished pH reading above the line of acid food, in a formula canned in boiling water or steam",
        "unsafe",
        "Above that line the spores that cause botulism can grow in the sealed jar.",
        "take the formula back and keep to a published one; do not eat what was made by it, and refrigerate or freeze instead of canning",
        "illness",
    ),
    own(
        "grape-unsettled",
        "grape juice made at home and not left to settle in the cold",
        "quality",
        "Tartrate crystals form in the jelly.",
        "keep the juice in the refrigerator overnight or longer, and strain it again",
        "flavour",
    ),
    own(
        "unfamiliar-step",
        "a step about jars, lids or the canner that neither the tested formula nor the usual directions say",
        "form",
        "Words can teach an unsafe habit in more ways than any reader knows, so a person has to look at it.",
        "read it with care, or write the step of the tested formula",
    ),
    own(
        "yield-far",
        "a yield far from what the finished batch comes to",
        "form",
        "The cook gets ready too few jars or too many, and doubts a batch that came out right.",
        "keep the tested yield, or count the jars of the next batch and write that number",
    ),
)
