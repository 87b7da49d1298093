"""`brimline why`: a rule, its reason, its sources; alone, all rules by group."""

import json
from importlib.resources import files
from typing import TYPE_CHECKING

from brimline.faces.declare import COLOUR, Arguments, Command, Given, Misuse, nearest

if TYPE_CHECKING:
    from collections.abc import Mapping

    from brimline.faces.console import Console
    from brimline.figures.values import Row
    from brimline.report.why import Example, Reason


def run(arguments: Arguments, console: "Console") -> int:
    """Print the page of a rule, or the list of all of them. Raises Misuse for a rule that is not there."""
    from brimline.report.why import contents, page

    look = console.look(arguments["color"])
    reasons = {reason.name: reason for reason in all_reasons()}
    if not arguments.given:
        console.say(contents(reasons.values(), look))
        return 0
    name = arguments.given[0]
    if name not in reasons:
        raise Misuse(f"there is no rule {name}{nearest(name, list(reasons))}\nbrimline why lists them all.")
    console.say(page(reasons[name], look))
    return 0


def all_reasons(
    rows: "Mapping[str, Row] | None" = None, examples: "Mapping[str, tuple[Example, ...]] | None" = None
) -> "tuple[Reason, ...]":
    """Every rule by group: those of the register, and what is found before any rule is asked.

    The rows of the decision table and the examples are those that were compiled, unless others are given.
    """
    from msgspec.structs import replace

    from brimline.report.why import Reason
    from brimline.report.writing import BEFORE_RULES
    from brimline.review.rows import ENGINE, all_rows
    from brimline.rules import GROUPS, registered

    table = all_rows() if rows is None else rows
    shown = _examples() if examples is None else examples
    ruled = [
        Reason(
            name=rule.name,
            must=rule.must,
            why=rule.why,
            rows=tuple(table[row] for row in rule.decides if row in table),
            examples=shown.get(rule.name, ()),
        )
        for rule in registered()
    ]
    taken = {reason.name for reason in ruled}
    earlier = [
        replace(
            reason,
            examples=shown.get(reason.name, ()),
            rows=tuple(table[row] for row in ENGINE.get(reason.name, ()) if row in table) or reason.rows,
        )
        for reason in BEFORE_RULES
        if reason.name not in taken
    ]
    return tuple(sorted([*earlier, *ruled], key=lambda reason: (GROUPS.index(reason.group), reason.name)))


def _examples() -> "dict[str, tuple[Example, ...]]":
    """The examples compiled from the cases, by rule: a list of `{"text", "bad", "shows"}` for each; none if not made."""
    from brimline.report.why import Example

    made = files("brimline") / "made" / "examples.json"
    if not made.is_file():
        return {}
    return {
        name: tuple(Example(str(one["text"]), bool(one["bad"]), str(one.get("shows", ""))) for one in several)
        for name, several in json.loads(made.read_text(encoding="utf-8")).items()
    }


COMMAND = Command(
    name="why",
    does="gives the reason and the sources of a rule; alone, lists all rules",
    example="brimline why acid/dropped",
    run=run,
    given=Given("RULE", "the rule's name as findings print it", least=0),
    options=(COLOUR,),
)
