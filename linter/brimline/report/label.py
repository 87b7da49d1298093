"""The label facts of a weighing and what it is sold as, in words, for text, page and JSON."""

from collections.abc import Iterator

from brimline.batch import words
from brimline.batch.models.values import Estimate
from brimline.figures.values import Interval
from brimline.moves.claim import Claim
from brimline.report.amounts import masses
from brimline.review.weighed import Amount, Holds, Ingredient, Juice, Label, Served

Value = str | int | float | bool | None | list["Value"] | dict[str, "Value"]

NO_LABEL = (
    "These are facts for a label and no label, and nobody has approved one: what a label must say, and whether the "
    "food may be sold, is for the local food law of the place to say."
)
PART_114 = "a definition for food that is sold; it says nothing about whether this food keeps"
NO_PANEL = "figures from the formula and no nutrition panel, which takes an analysis or a table of foods"
NINE = "the nine major allergens of US law, sesame among them since 1 January 2023"
STATES = {"met": "met", "short": "not met", "may": "perhaps not met", "untold": "cannot be told"}


def label_lines(label: Label) -> Iterator[tuple[str, str]]:
    """The ingredient line, allergens and amounts in 100 g, each with its word."""
    yield "ingredients", ingredient_line(label)
    if close := [one.name for one in label.ingredients if one.close]:
        yield "", f"which comes first is not certain for {words.listed(close)}: each may weigh more than the one before"
    if label.unplaced:
        yield "", f"where they stand by weight is not known: {'; '.join(_ingredient(one) for one in label.unplaced)}"
    yield "contains", contains(label)
    yield "", f"of {NINE}; what else is handled in the kitchen is not known here"
    if label.ask:
        yield "", f"bought ready-made as a rule, so read the package: {words.listed(list(label.ask))}"
    if label.unknown:
        yield "", f"not known here, so nobody can say what it holds: {words.listed(list(label.unknown))}"
    yield "in 100 g", "; ".join(hundred(label))
    yield from _serving(label.served)
    if label.juice is not None:
        yield "juice", juice_words(label.juice)
    yield "21 CFR 114", label.acidified.says
    yield "", PART_114
    for number, text in enumerate(label.keeping):
        yield "" if number else "keeping", text
    yield "label", NO_LABEL


def ingredient_line(label: Label) -> str:
    """The ingredients in descending order by weight as used."""
    if not label.ingredients:
        return "none of them has a known weight"
    return ", ".join(_ingredient(one) for one in label.ingredients)


def _ingredient(one: Ingredient) -> str:
    parts = f" (made of {', '.join(one.made_of)})" if one.made_of else ""
    return f"{one.name}{parts}" + (f" [{one.fate}]" if one.fate else "")


def contains(label: Label) -> str:
    """The allergens with what brings each in; that none is known where the table knows all ingredients."""
    if label.holds:
        return "; ".join(f"{one.allergen} ({'; '.join(one.of)})" for one in label.holds)
    sure = "" if label.ask or label.unknown else " by the ingredient table"
    return f"none that is known{sure}"


def hundred(label: Label) -> list[str]:
    """Fruit and soluble solids in 100 g of the finished product."""
    fruit = f"fruit {_g(label.fruit)} g, estimated" if label.fruit else "fruit: no figure"
    if label.solids is None:
        return [fruit, "soluble solids: no figure"]
    how = "as read" if label.read else "estimated"
    return [fruit, f"soluble solids {_g(label.solids)} g, {how}"]


def _serving(one: Served | None) -> Iterator[tuple[str, str]]:
    """A serving, how many are in a jar, and what is in one."""
    if one is None:
        return
    yield "serving", f"{one.words}, {_g(one.grams)} g by its density"
    if one.net is not None:
        count = f", about {' to '.join(one.per_jar)} servings" if one.per_jar else ""
        yield (
            "",
            f"a {one.jar} filled to its line holds about {_g(one.net)} g{count}; weigh filled jars for a net weight",
        )
    yield (
        "in a serving",
        f"{'; '.join(_amount(amount) for amount in one.amounts)}; estimated, rounded as a label rounds",
    )
    if one.uncounted:
        yield "", f"calories: no figure, for none is known for {words.listed(list(one.uncounted))}"
    yield "", NO_PANEL


def _amount(one: Amount) -> str:
    salt = " of the salt" if one.name == "sodium" else ""
    *low, high = one.rounded
    low = [text.removesuffix(f" {one.unit}") for text in low]
    return f"{one.name}{salt} {' to '.join([*low, high])}"


def juice_words(one: Juice) -> str:
    """How much of it is juice, or why that cannot be told."""
    if one.percent is None or one.full is None:
        return f"how much of it is juice cannot be told: {one.why}"
    low, high = (words.decimal(end, 1) for end in (one.percent.low, one.percent.high))
    span = low if low == high else f"{low} to {high}"
    return (
        f"{span} % as 21 CFR 101.30 counts it in drinks: {masses(one.full)} of full-strength juice, nothing boiled off"
    )


def _g(one: Estimate) -> str:
    low, middle, high = (f"{end:.0f}" for end in (one.low, one.middle, one.high))
    return middle if low == high else f"{middle} ({low} to {high})"


def claim_lines(claim: Claim | None) -> Iterator[tuple[str, str]]:
    """What it is sold as, each check with its state."""
    if claim is None:
        return
    place = f", {claim.place}" if claim.place else ""
    yield "sold as", f"{claim.name}{place}" + (f"; {claim.title}" if claim.title else "")
    for check in claim.checks:
        yield "", f"{STATES[check.state]}: {check.says}"
    yield "", "a standard of identity is about a name; it says nothing about safety"


def label_data(label: Label) -> Value:
    """The label facts as JSON values."""
    return {
        "ingredients": [_ingredient_data(one) for one in label.ingredients],
        "without_place": [_ingredient_data(one) for one in label.unplaced],
        "contains": [_holds_data(one) for one in label.holds],
        "read_the_package": list(label.ask),
        "not_known": list(label.unknown),
        "fruit_g_in_100_g": _estimate(label.fruit),
        "soluble_solids_g_in_100_g": _estimate(label.solids),
        "soluble_solids_read": label.read,
        "serving": _served_data(label.served),
        "juice": _juice_data(label.juice),
        "cfr_114": {"state": label.acidified.state, "says": label.acidified.says, "notice": PART_114},
        "keeping": list(label.keeping),
        "sources": [{"title": s.title, "section": s.section, "how": s.how} for s in label.sources],
        "notice": NO_LABEL,
    }


def _served_data(one: Served | None) -> Value:
    if one is None:
        return None
    return {
        "measure": one.words,
        "g": _estimate(one.grams),
        "jar": one.jar,
        "net_g": _estimate(one.net),
        "servings": list(one.per_jar),
        "amounts": [
            {"name": part.name, "unit": part.unit, "found": _estimate(part.found), "rounded": list(part.rounded)}
            for part in one.amounts
        ],
        "without_calories": list(one.uncounted),
        "notice": NO_PANEL,
    }


def _juice_data(one: Juice | None) -> Value:
    if one is None:
        return None
    return {"percent": _ends(one.percent), "full_strength_g": _ends(one.full), "no_figure": one.why}


def _ends(span: Interval | None) -> Value:
    return None if span is None else {"low": round(float(span.low), 1), "high": round(float(span.high), 1)}


def _ingredient_data(one: Ingredient) -> Value:
    grams: Value = None
    if one.grams is not None:
        grams = {"low": round(float(one.grams.low), 2), "high": round(float(one.grams.high), 2)}
    return {"name": one.name, "g": grams, "made_of": list(one.made_of), "fate": one.fate, "order_open": one.close}


def _holds_data(one: Holds) -> Value:
    return {"allergen": one.allergen, "of": list(one.of)}


def _estimate(one: Estimate | None) -> Value:
    if one is None:
        return None
    return {"low": round(one.low, 1), "middle": round(one.middle, 1), "high": round(one.high, 1)}


def claim_data(claim: Claim | None) -> Value:
    """What it is sold as, as JSON values."""
    if claim is None:
        return None
    checks: list[Value] = [
        {
            "about": one.about,
            "state": one.state,
            "says": one.says,
            "unit": one.unit,
            "found": None if one.found is None else [str(one.found.low), str(one.found.high)],
            "asked": None if one.asked is None else [str(one.asked.low), str(one.asked.high)],
            "sources": [{"title": s.title, "section": s.section, "how": s.how} for s in one.sources],
        }
        for one in claim.checks
    ]
    return {"name": claim.name, "place": claim.place, "standard": claim.title, "checks": checks}
