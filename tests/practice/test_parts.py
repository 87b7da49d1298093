"""What a sentence of a step does to the batch, part by part: sentences that each reader takes, and sentences it leaves."""

import re
from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from edge_cases import CASES, _changed
from msgspec.structs import replace
from ruamel.yaml import YAML

from brimline.document import read
from brimline.document.values import Step
from brimline.findings import Flag
from brimline.moves.case import against, alone
from brimline.moves.named import Named
from brimline.moves.values import Case
from brimline.rules.asides import Aside
from brimline.rules.brought import exchanged, low_food, more_of, put_in, squeezed, stirred_in, weak_vinegar
from brimline.rules.handled import drained, into_boiling, neutralised, pureed, skins_left, thinned
from brimline.rules.less import Less, less_acid, less_of
from brimline.rules.unfamiliar import steps_about_jars_are_familiar
from brimline.rules.used import list_and_steps_name_the_same_things

Found = Flag | Aside | Less | tuple[Named, Aside]
READERS: dict[str, Callable[[Case, str], Iterable[Found]]] = {
    "more_of": lambda case, what: more_of(case, lambda one: low_food(one) if what == "low" else one.sort == what),
    "put_in": lambda case, _: put_in(case),
    "exchanged": lambda case, _: exchanged(case),
    "stirred_in": lambda case, _: stirred_in(case),
    "weak_vinegar": lambda case, what: weak_vinegar(case, Fraction(what)),
    "squeezed": lambda case, _: squeezed(case),
    "thinned": lambda case, _: thinned(case),
    "pureed": lambda case, _: pureed(case),
    "skins_left": skins_left,
    "drained": lambda case, what: drained(case, frozenset(what.split(", "))),
    "neutralised": lambda case, _: neutralised(case),
    "into_boiling": lambda case, _: into_boiling(case),
    "less_acid": lambda case, _: less_acid(case),
    "less_of": less_of,
    "never_used": lambda case, _: (one for one in list_and_steps_name_the_same_things(case) if one.row == "never-used"),
    "never_listed": lambda case, _: (
        one for one in list_and_steps_name_the_same_things(case) if one.row == "never-listed"
    ),
    "unfamiliar": lambda case, _: steps_about_jars_are_familiar(case),
}
KEYS = {"reader", "what", "of", "why", "first", "change", "note", "alone", "takes", "leaves"}


GROUPS = YAML(typ="safe").load((Path(__file__).parent / "parts.yaml").read_text(encoding="utf-8"))


def rows() -> Iterator[Any]:
    """Each sentence with the number of its group, and what must be found: names, or how many sentences."""
    for number, group in enumerate(GROUPS):
        assert not set(group) - KEYS
        takes = group.get("takes", {})
        wanted = dict.fromkeys(takes, 1) if isinstance(takes, list) else takes
        for text, finds in [*wanted.items(), *((one, 0) for one in group.get("leaves", ()))]:
            yield pytest.param(number, text, str(finds), id=f"{group['reader']}-{group['of']}-{text}")


@cache
def texts_of(number: int) -> tuple[list[str], list[str]]:
    """The lines of a group's tested formula, and of an adaptation that changes nothing but what the group says."""
    group = GROUPS[number]
    tested = (CASES / "tested" / f"{group['of']}.formula").read_text(encoding="utf-8")
    lines = _changed("", [one for one in tested.splitlines() if one[:1] != "#"], group.get("first", {}))
    code = next(one.split()[1] for one in lines if one.startswith("formula "))
    own = {"formula": "formula AD-1 An adaptation", "standing": f"standing adapted\nadapts {code}"}
    return lines, _changed("", [own.get(one.split(" ")[0], one) for one in lines], group.get("change", {}))


@cache
def case_of(number: int, note: str = "") -> Case:
    """The case of a group's adaptation, with a note under a line of its list."""
    lines, adapted = texts_of(number)
    at = adapted.index("take")
    if note:
        start = GROUPS[number]["note"]
        at = next(place for place, one in enumerate(adapted) if " ".join(one.split()).startswith(start))
    texts = (lines, [*adapted[: at + 1], *([f"    note {note}"] if note else []), *adapted[at + 1 :]])
    tested, now = (read("a.formula", "\n".join([*one, ""]).encode()) for one in texts)
    assert tested.document is not None
    assert now.document is not None
    assert not [one.says for one in now.findings]
    return alone(tested.document) if GROUPS[number].get("alone") else against(tested.document, now.document)[0][0]


def with_text(number: int, text: str) -> Case:
    """The case with a text as a note where the group names a line, else as all the steps or one ahead of the last."""
    if "note" in GROUPS[number]:
        return case_of(number, text)
    case = case_of(number)
    *steps, last = case.document.make
    if GROUPS[number].get("alone") == "these steps":
        steps = []
    more = [Step(one, last.span) for one in text.split(" / ")]
    return replace(case, document=replace(case.document, make=(*steps, *more, last)))


def told(found: Found) -> str:
    """The name of what was found; nothing where only the sentence was; of a flag the level and its first words."""
    if isinstance(found, Flag):
        what = re.match(r"This step adds (.+), and the list|(.+) is listed", found.says)
        return f"{found.level} {what[1] or what[2]}".strip() if what else ""
    if isinstance(found, Less):
        return " + ".join(one.name for one in found.was)
    return found[0].entry.name if isinstance(found, tuple) else ""


@pytest.mark.parametrize(("number", "text", "finds"), tuple(rows()))
def test_parts(number: int, text: str, finds: str) -> None:
    group = GROUPS[number]
    found = [told(one) for one in READERS[group["reader"]](with_text(number, text), str(group.get("what", "")))]
    assert (", ".join(found) if any(found) else str(len(found))) == finds
