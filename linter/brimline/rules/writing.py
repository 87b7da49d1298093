"""How a formula is written: known ingredients, roles the table allows, amounts that can be told, declared moves."""

from collections.abc import Iterator

from brimline.batch.classes import is_acid
from brimline.batch.measures import contradiction
from brimline.batch.values import Item
from brimline.batch.words import amount, listed
from brimline.findings import Flag
from brimline.moves.listing import section
from brimline.moves.values import Case, Move
from brimline.rules.contract import rule
from brimline.rules.say import before, before_span, figure

OPEN_ROLES = frozenset({"spice", "salt", "colour", "herb", "flavouring"})
SOLD_IN_ONE_SIZE = ("pectin", "gelling", "spice", "colour")
UNSIZED = ("package:can", "package:jar", "package:bottle", "package:package")


def every_line(case: Case) -> Iterator[Item]:
    """All lines of a formula with their `from` lines; alternatives are looked at when they are chosen."""
    for one in case.batch.items:
        yield one
        yield from one.made_of


@rule("writing/ingredient", decides=("unknown-ingredient",))
def ingredients_are_known(case: Case) -> Iterator[Flag]:
    """Every ingredient is in the ingredient table, under a name that can mean only one thing.

    What the table does not know cannot be compared with what was tested.
    """
    tested = {one.name for one in case.contrast.tested.items} if case.contrast else set()
    unknown = [one for one in every_line(case) if one.entry is None and not one.mixture and one.name not in tested]
    for one in unknown:
        if _is_unknown_fruit(case, one):
            continue
        if one.ambiguous:
            says = f"`{one.line.item}` could be {listed(list(one.ambiguous))}."
            instead = "write which one it is"
        elif one.nearest:
            says = f"`{one.line.item}` is not in the ingredient table."
            instead = f"write one of the nearest known names: {', '.join(one.nearest)}"
        else:
            says, instead = f"`{one.line.item}` is not in the ingredient table, and nothing near it is.", ""
        yield Flag(
            "unknown-ingredient", one.line.item_span, says, (), instead=instead, level="" if case.tested else "form"
        )


def _is_unknown_fruit(case: Case, one: Item) -> bool:
    """Whether low-acid/fruit speaks of something that the table does not know."""
    called = one.line.role in ("fruit", "juice") and one.kept
    return case.contrast is not None and called and not one.ambiguous


@rule("writing/role", decides=("role-contradicted",))
def roles_fit_the_table(case: Case) -> Iterator[Flag]:
    """A line's role is one that the ingredient table allows for what it names.

    The table decides what a thing counts as, so a wrong role misleads the reader and nobody else.
    """
    for one in every_line(case):
        # These have no place in a formula under any role; acid/neutralised and keep/preservative speak of them.
        homeless = one.tags & {"base", "preservative"}
        if one.entry is not None and one.entry.roles and not homeless and one.line.role not in one.entry.roles:
            yield Flag(
                "role-contradicted",
                one.line.span,
                f"{one.line.item} is written as {one.line.role}; the table knows {one.entry.name} as "
                f"{listed(list(one.entry.roles))}.",
                (),
            )


@rule("writing/amount", decides=("ambiguous-amount", "no-figure"))
def amounts_can_be_told(case: Case) -> Iterator[Flag]:
    """Every amount that is compared is a measure, not a count of things that vary in size.

    A lemon gives one to four tablespoons of juice, and a can is of any size.
    """
    for one in every_line(case):
        says = _no_measure(one)
        if says:
            yield Flag("ambiguous-amount", one.line.span, says, ())
    contrast = case.contrast
    if contrast is None:
        return
    for pair in [one for one in contrast.pairs if one.was and one.now and not one.dim and not one.snapped]:
        missing = next((one for one in (*pair.now, *pair.was) if one.line.item in contrast.missing), None)
        if missing is not None:
            yield Flag(
                "no-figure",
                pair.now[0].line.span,
                f"No figure for the weight of {missing.line.item}, and the two formulas measure it differently.",
                (),
                before(case, pair.was),
            )


def _no_measure(one: Item) -> str:
    """What keeps the amount of a line from being a measure; empty if it is one."""
    dims = [dim for dim, _, _ in one.quantity.dims]
    if one.loose and OPEN_ROLES.isdisjoint((one.line.role, one.sort)):
        return f"{one.line.item}: the amount is left open."
    if not dims:
        return ""
    if (is_acid(one) or one.line.role == "acid") and all(dim.startswith("count:") for dim in dims):
        return f"{amount(one.line.amount)} {one.line.item} is no measure of acid."
    if all(dim in UNSIZED for dim in dims) and one.sort not in SOLD_IN_ONE_SIZE:
        return f"{amount(one.line.amount)} of {one.line.item}: of what size?"
    return ""


@rule("writing/measures", decides=("measures-disagree",))
def measures_agree(case: Case) -> Iterator[Flag]:
    """Two measures of one amount agree within what the food can weigh.

    One of the two is wrong, and a reader who follows the wrong one makes another batch.
    """
    for one in every_line(case):
        found = contradiction(one)
        if found:
            yield Flag("measures-disagree", one.line.span, f"{one.line.item}: {found}.", ())
    if case.contrast is not None:
        for pair in case.contrast.pairs:
            if pair.disagree and not any(contradiction(one) for one in pair.now):
                yield Flag(
                    "measures-disagree",
                    pair.now[0].line.span,
                    f"Measured by {pair.disagree}, this departs from the tested formula in two different ways.",
                    (),
                    before(case, pair.was),
                )


@rule("evidence/undeclared", decides=("undeclared", "units", "wording", "optional-dropped", "colour"))
def moves_are_declared(case: Case) -> Iterator[Flag]:
    """Every move away from the tested formula is owned up to in the changes section.

    A reviewer looks first at what the author meant to change; what was not meant is most often a slip.
    """
    open_: dict[str, Move] = {}
    for move in case.moves:
        if not move.declared:
            open_.setdefault(move.subject, move)
    if not open_:
        return
    words = [f"{subject} ({move.kind}: {move.was} tested, {move.now} here)" for subject, move in open_.items()]
    first = next(iter(open_.values()))
    yield Flag(
        "undeclared",
        section(case.document, "changes"),
        f"Not owned up to: {'; '.join(words)}.",
        tuple(figure("not declared", subject) for subject in open_),
        before_span(case, first.before),
    )
