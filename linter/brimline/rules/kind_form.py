"""What each product says it is: jelly of juice, jam of crushed fruit, marmalade with peel, and so on."""

from collections.abc import Callable, Iterator

from brimline._patterns import pattern
from brimline.batch.values import Item
from brimline.findings import Flag
from brimline.moves.listing import section
from brimline.moves.values import Case
from brimline.rules.contract import rule

FOOD = ("fruit", "vegetable", "dried-fruit")
STRAINED = pattern("strain|drip|jelly bag|filter|cheesecloth|press the juice|measure the juice|juice and measure")
CRUSHED = pattern(
    "crush|chop|mash|cut|slice|dice|grind|ground|pulp|puree|quarter|halve|soft|mince|grate|shred|press|mill|blend|simmer|break"
)
WHOLE = pattern("whole|halves|halved|unpitted|with stems")
FINE = pattern("crushed|mashed|puree|pulp|ground|sieved|milled|strained|blended")
PULPED = pattern("puree|pulp|sieve|mill|press|mash|blend|smooth|mound|sauce|strainer|thick|cooked")
PEEL = pattern("peel|rind|zest")


def _kept(case: Case) -> list[Item]:
    """What stays in the jar, the parts of a measured mixture with it, every tested alternative on its own line."""
    lines = [one for one in case.batch.items if one.kept]
    return lines + [part for one in lines for part in one.made_of if part.kept]


def _steps(case: Case) -> str:
    return " ".join(step.text.lower() for step in case.document.make)


def _forms(case: Case) -> str:
    """The forms and names of all food lines."""
    return " ".join(f"{one.line.item} {' '.join(one.line.forms)}".lower() for one in _kept(case) if one.sort in FOOD)


def _sorts(case: Case) -> set[str]:
    return {one.sort for one in _kept(case)}


def _has(case: Case, *tags: str) -> bool:
    return any(one.tags & set(tags) for one in _kept(case))


def _jelly(case: Case) -> str:
    if "juice" in _sorts(case) or "fruit" not in _sorts(case) or STRAINED.search(_steps(case)):
        return ""
    return "a jelly is made of strained juice, and nothing here says that the fruit is strained"


def _jam(case: Case) -> str:
    if not _sorts(case) & {"fruit", "vegetable"}:
        return "a jam is made of crushed or chopped fruit, and here is none"
    whole = WHOLE.search(_forms(case)) and not CRUSHED.search(f"{_forms(case)} {_steps(case)}")
    return "a jam is made of crushed or chopped fruit, and this one leaves it whole" if whole else ""


def _preserves(case: Case) -> str:
    foods = [one for one in _kept(case) if one.sort in ("fruit", "vegetable")]
    if not foods:
        return "preserves are whole or cut fruit, and here is none"
    if all(FINE.search(" ".join((one.line.item, *one.line.forms)).lower()) for one in foods):
        return "preserves are whole or cut fruit, and all of it is crushed here"
    return ""


def _marmalade(case: Case) -> str:
    if any(one.sort == "peel" for one in _kept(case)) or _has(case, "citrus", "peel", "zest"):
        return ""
    return "" if PEEL.search(f"{_steps(case)} {_forms(case)}") else "a marmalade holds citrus peel, and here is none"


def _conserve(case: Case) -> str:
    alternatives = [line.role for one in case.batch.items for line in one.line.other]
    if _sorts(case) & {"dried-fruit", "nut"} or {"nut", "dried-fruit"} & set(alternatives) or _has(case, "coconut"):
        return ""
    return "a conserve holds dried fruit or nuts, and here are none"


def _chutney(case: Case) -> str:
    every = [one for one in case.batch.items if one.stay != "discarded"]
    vinegar = any("vinegar" in one.tags for one in every)
    spice = any(one.sort in ("spice", "herb") or "ginger-fresh" in one.tags for one in every)
    if vinegar and spice:
        return ""
    return f"a chutney is made with vinegar and spice, and here is no {'spice' if vinegar else 'vinegar'}"


def _butter(case: Case) -> str:
    if not _sorts(case) & {"fruit", "vegetable"}:
        return "a fruit butter is made of fruit puree, and here is no fruit"
    if _has(case, "puree") or PULPED.search(f"{_steps(case)} {_forms(case)}"):
        return ""
    return "a fruit butter is made of fruit puree, and nothing here makes one"


def _curd(case: Case) -> str:
    sorts = _sorts(case)
    missing = [
        word
        for word, there in (
            ("egg", "egg" in sorts),
            ("butter", "fat" in sorts),
            ("juice", "juice" in sorts or _has(case, "lemon", "lime", "citrus")),
        )
        if not there
    ]
    return f"a fruit curd is made of egg, juice and butter, and here is no {missing[0]}" if missing else ""


def _syrup(case: Case) -> str:
    if not _sorts(case) & {"fruit", "juice"}:
        return "a fruit syrup is made of fruit or its juice, and here is neither"
    return "" if "sweetener" in _sorts(case) else "a fruit syrup is sweetened juice, and nothing here sweetens it"


def _spread(case: Case) -> str:
    return "" if _sorts(case) & {"fruit", "juice"} else "a spread is made of fruit or its juice, and here is neither"


DEFINED: dict[str, Callable[[Case], str]] = {
    "jelly": _jelly,
    "jam": _jam,
    "preserves": _preserves,
    "marmalade": _marmalade,
    "conserve": _conserve,
    "chutney": _chutney,
    "fruit butter": _butter,
    "fruit curd": _curd,
    "fruit syrup": _syrup,
    "spread": _spread,
}


@rule("kind/definition", decides=("not-its-kind",))
def product_is_what_it_says(case: Case) -> Iterator[Flag]:
    """A product is what its name says: a jelly of strained juice, a marmalade with citrus peel, a curd of egg.

    Who reads the label, and who looks for the published table of that kind, goes by the word.
    """
    check = DEFINED.get(case.document.product)
    if check is None or not case.document.take:
        return
    if any(one.entry is None and one.sort in FOOD and not one.mixture for one in case.batch.items):
        # What is not in the table may be anything, fruit of this kind too; writing/ingredient speaks of it.
        return
    found = check(case)
    if found:
        at = case.document.headers.get("product", section(case.document))
        yield Flag("not-its-kind", at, f"{found[0].upper()}{found[1:]}.", source="definitions")
