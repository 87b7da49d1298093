"""What is compared with what: the product word and the formula that an adaptation says it departs from."""

from collections.abc import Iterator

from brimline.batch.classes import counts_in_base
from brimline.batch.values import Group
from brimline.batch.words import listed
from brimline.findings import Flag
from brimline.moves.listing import section
from brimline.moves.values import Case
from brimline.rules.contract import rule
from brimline.rules.say import before_span


@rule("kind/changed", decides=("kind-changed",))
def product_is_the_tested_one(case: Case) -> Iterator[Flag]:
    """An adaptation is the same kind of product as its tested formula.

    What holds for one kind (its sugar, its acid, its time) was not tested for another.
    """
    if case.tested is None or case.tested.product == case.document.product:
        return
    at = case.document.headers.get("product", section(case.document))
    yield Flag(
        "kind-changed",
        at,
        f"The tested formula is {case.tested.product}, this one calls itself {case.document.product or 'nothing'}.",
        (),
        before_span(case, case.tested.headers.get("product")),
    )


@rule("kind/base", decides=("base-mismatch",))
def base_is_the_tested_one(case: Case) -> Iterator[Flag]:
    """An adaptation departs from a formula of the same main fruit.

    A formula of another fruit says nothing about how much acid, sugar or time this one needs.
    """
    if case.tested is None:
        return
    contrast = case.compared
    at = case.document.headers.get("adapts", section(case.document))
    was = [g for g in contrast.tested.groups if counts_in_base(g, contrast.tested) and _is_food(g)]
    now = [g for g in contrast.adapted.groups if counts_in_base(g, contrast.adapted) and _is_food(g)]
    if not was or _families(was) & _families(now):
        return
    if not _named(now, case.document.title) or _named(was, case.document.title):
        # The fruit was exchanged in what still calls itself the tested product: the fruit rules judge that.
        return
    yield Flag(
        "base-mismatch",
        at,
        f"{case.tested.code} is made of {listed([g.name for g in was])}, this one of {listed([g.name for g in now])}.",
        (),
        before_span(case, was[0].items[0].line.span),
    )


def _families(groups: list[Group]) -> set[str]:
    return {group.family or group.name for group in groups}


def _is_food(group: Group) -> bool:
    return group.sort in ("fruit", "juice", "vegetable", "egg")


def _named(groups: list[Group], title: str) -> bool:
    """Whether a title names one of some foods."""
    words = {word.strip(".,").removesuffix("s").removesuffix("ie") for word in title.lower().replace("-", " ").split()}
    return any(set(group.name.partition(",")[0].replace("berry", "berr").split()) & _stems(words) for group in groups)


def _stems(words: set[str]) -> set[str]:
    return {word.removesuffix("y") for word in words} | words
