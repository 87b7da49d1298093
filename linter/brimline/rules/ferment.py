"""Ferments: their salt is what makes the acid."""

from collections.abc import Iterator

from brimline.findings import Flag
from brimline.moves.listing import section, stated
from brimline.moves.values import Case
from brimline.rules.contract import rule
from brimline.rules.less import less_of
from brimline.rules.measured import below
from brimline.rules.say import before
from brimline.rules.terms import only
from brimline.rules.thickness import words


@rule("acid/salt", decides=("salt-fermented", "salt-unfermented"))
def ferments_keep_their_salt(case: Case) -> Iterator[Flag]:
    """A fermented pickle keeps the salt that was tested, in amount and kind.

    In a ferment the salt decides which bacteria grow, and so whether acid is made at all.
    """
    contrast = case.contrast
    if contrast is None or case.kind != "fermented pickle":
        return
    for pair in contrast.pairs:
        if pair.sort != "salt" or not pair.was:
            continue
        left = contrast.floor(only(pair), None)
        kinds = {tag for one in pair.was for tag in one.tags} ^ {tag for one in pair.now for tag in one.tags}
        if (left is not None and left.low < case.same) or (pair.now and kinds & {"salt-other"}):
            at = pair.now[0].line.span if pair.now else section(case.document, "take")
            yield Flag("salt-fermented", at, words(pair, stated(pair.was)), (), before(case, pair.was))
    for one in less_of(case, "salt"):
        says = f"{stated(one.was)} is required. This takes less, or leaves it to the cook: {one.aside.reading.text}"
        yield Flag("salt-fermented", one.aside.span, says, (), before(case, one.was))
    for item, said in below(case, [one for one in contrast.tested.items if one.sort == "salt"]):
        says = f"{stated((item,))} is required. This step says: {said.aside.reading.text}"
        yield Flag("salt-fermented", said.aside.span, says, (), before(case, [item]))
