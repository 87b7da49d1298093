"""What a formula says it is sold as, beside the standard of identity of that name. Information, not safety.

The measuring is done before a rule is asked; here it is only said which checks are worth a line.
"""

from collections.abc import Iterator

from brimline.findings import Figure, Flag
from brimline.moves.claim import MAY, SHORT, UNTOLD, Check
from brimline.moves.listing import section
from brimline.moves.values import Case
from brimline.rules.contract import rule


@rule("identity/name", decides=("identity-name",))
def name_has_a_standard(case: Case) -> Iterator[Flag]:
    """What a formula is sold as is a name that a standard of the place has, and nothing in it is foreign to it.

    A name without a standard promises nothing that could be measured.
    """
    yield from _flags(case, "identity-name", "name")


@rule("identity/fruit", decides=("identity-fruit",))
def fruit_is_enough_for_the_name(case: Case) -> Iterator[Flag]:
    """It holds as much fruit, juice, fat or egg as the standard of its name asks for, by the standard's own method.

    A buyer may expect what the name promises; a tested formula may well hold less.
    """
    yield from _flags(case, "identity-fruit", "fruit", "fat", "yolk", "suet")


@rule("identity/solids", decides=("identity-solids",))
def solids_are_enough_for_the_name(case: Case) -> Iterator[Flag]:
    """It ends with as many soluble solids as the standard of its name asks for.

    A buyer may expect what the name promises; formulas with added pectin are tested with less.
    """
    yield from _flags(case, "identity-solids", "solids")


@rule("identity/mix", decides=("identity-mix",))
def fruits_may_stand_together(case: Case) -> Iterator[Flag]:
    """Fruits are mixed as the standard of the name lets them be, each with its share.

    A fruit that is hardly there is not what the name promises.
    """
    yield from _flags(case, "identity-mix", "mix")


@rule("identity/endocarp", decides=("identity-endocarp",))
def marmalade_holds_flesh_and_juice(case: Case) -> Iterator[Flag]:
    """Marmalade holds as much flesh and juice of citrus as the standard asks for.

    Without them it is peel in syrup.
    """
    yield from _flags(case, "identity-endocarp", "endocarp")


@rule("identity/untold", decides=("identity-untold",))
def what_the_name_asks_can_be_computed(case: Case) -> Iterator[Flag]:
    """Everything that the standard of the name asks for can be computed from the formula.

    What cannot be computed is not met, and not broken either; somebody has to measure it.
    """
    untold = [check for check in case.claim.checks if check.state == UNTOLD] if case.claim else []
    if untold:
        sources = tuple(dict.fromkeys(source for check in untold for source in check.sources))
        at = case.document.headers.get("sold-as", section(case.document))
        yield Flag("identity-untold", at, " ".join(check.says for check in untold), sources=sources)


def _flags(case: Case, row: str, *about: str) -> Iterator[Flag]:
    """The checks about some things that are not met, as one flag."""
    checks = [one for one in case.claim.checks if one.about in about] if case.claim else []
    short = [check for check in checks if check.state in (SHORT, MAY)]
    if not short:
        return
    yield Flag(
        row,
        case.document.headers.get("sold-as", section(case.document)),
        " ".join(check.says for check in short),
        tuple(figure for check in short for figure in _figures(check)),
        certain=any(check.state == SHORT for check in short),
        sources=tuple(dict.fromkeys(source for check in short for source in check.sources)),
    )


def _figures(check: Check) -> Iterator[Figure]:
    for name, span in (("found", check.found), ("asked", check.asked)):
        if span is not None:
            value = str(span.low) if span.exact else f"{span.low} to {span.high}"
            yield Figure(f"{check.about} {name}", value, check.unit)
