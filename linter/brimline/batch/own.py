"""Ingredients that a collection adds to the published table, as entries of their own; never in place of a published one."""

from brimline.document.own import Own
from brimline.figures.names import stated
from brimline.figures.values import Entry, Match, Weight

# What the rules have to know of each kind besides its role; nothing that would loosen a comparison.
_TAGS = {
    "vegetable": ("vegetable",),
    "herb": ("herb-fresh",),
    "nut": ("nut",),
    "spice": ("spice-dry",),
    "flavouring": ("extract",),
    "colour": ("colour",),
    "juice": ("juice-other",),
    "dried-fruit": ("dried",),
}


def own_match(item: str, forms: tuple[str, ...], own: tuple[Own, ...]) -> Match | None:
    """The collection's ingredient that a written name means: every word but those that only describe must be its name."""
    named, describing = stated(item, forms)
    for one in own:
        if any(named == stated(name, ())[0] for name in one.names):
            return Match(entry(one), describing)
    return None


def entry(own: Own) -> Entry:
    """An ingredient of a collection in the form of the published table."""
    how, _, source = own.source.partition(" ")
    how = how.rstrip(",")
    return Entry(
        name=own.names[0],
        aliases=own.names[1:],
        sort=own.role,
        safety=own.safety,
        family=own.names[0],
        tags=frozenset(_TAGS.get(own.role, ())),
        roles=(own.role,),
        weights=tuple(Weight("", unit, low, high, how, source) for unit, low, high in own.weights),
        solids=own.solids,
        sugars=None,
        sucrose=None,
        water=None,
        insoluble=None,
        ph=own.ph,
        acid=None,
        acid_as="",
        allergens=own.allergens,
        note="",
        sources=tuple((figure, f"{how} {source}") for figure in ("safety", "solids", "ph", "weights")),
    )
