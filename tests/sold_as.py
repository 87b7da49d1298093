"""A formula of a few lines that says what it is sold as, measured by the standard of that name."""

from brimline.batch.add import add_up
from brimline.document import read
from brimline.moves.claim import Check, Claim
from brimline.review.identity import claim

HEAD = "formula ID-1 An example\nproduct   {kind}\nstanding  draft\nfinish    {finish}\nsold-as   {sold}\n\ntake\n"


def measured(sold: str, *take: str, kind: str = "jam", finish: str = "65 Brix") -> Claim:
    text = HEAD.format(kind=kind, finish=finish, sold=sold) + "".join(f"  {line}\n" for line in take)
    found = read("id-1.formula", text.encode())
    assert found.document is not None
    assert [one.says for one in found.findings] == []
    made = claim(add_up(found.document))
    assert made is not None
    return made


def check(made: Claim, about: str) -> Check:
    (found,) = [one for one in made.checks if one.about == about]
    return found


def sugar(amount: str) -> str:
    return f"sweetener {amount} sugar, granulated"
