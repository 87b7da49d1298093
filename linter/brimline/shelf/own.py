"""Ingredients of a collection's own: each is checked to be new, and never less careful than the published table."""

import re
from fractions import Fraction

from brimline.document import units
from brimline.document.own import Own
from brimline.shelf.strict import Refused, mapping, several, words

KEYS = ("name", "also", "role", "class", "ph", "weights", "solids", "allergens", "source")
NEEDED = ("name", "role", "class", "source")
# What a collection may add, and the classes that are careful enough for it. Acids, pectins, thickeners, sweeteners, fats,
# eggs, dairy, meat and salt are left to the published table: what they do to a batch is never a matter of one collection.
CLASSES = {
    "fruit": ("high-acid", "borderline", "low-acid"),
    "juice": ("high-acid", "borderline", "low-acid"),
    "dried-fruit": ("high-acid", "borderline", "low-acid"),
    "vegetable": ("borderline", "low-acid"),
    "herb": ("low-acid",),
    "nut": ("low-acid",),
    "spice": ("neutral",),
    "flavouring": ("neutral",),
    "colour": ("neutral",),
}
HOWS = ("read", "memory", "judgement")
# The line between acid and low-acid food: finished equilibrium pH of 4.6. Source: 21 CFR 114.3 (read).
ACID_LINE = Fraction("4.6")
MOST = 500
_RANGE = re.compile(r"(\d{1,2}(?:\.\d{1,2})?)(?: to (\d{1,2}(?:\.\d{1,2})?))?", re.ASCII)
_GRAMS = re.compile(r"(\d{1,4}(?:\.\d)?)(?: to (\d{1,4}(?:\.\d)?))? g", re.ASCII)
_PERCENT = re.compile(r"(\d{1,2}(?:\.\d{1,2})?) %", re.ASCII)
_NAME = re.compile(r"[^\W\d_]+(?:[ '-][^\W\d_]+)*")


def own_ingredients(value: object) -> tuple[Own, ...]:
    """The ingredients that a collection adds. Raises Refused for one that the published table has under any name."""
    if not isinstance(value, list) or len(value) > MOST:
        raise Refused("gives `ingredients` something that is not a list of ingredients, each starting with a dash")
    found: list[Own] = []
    taken: set[str] = set()
    for one in value:
        own = _own(one)
        for name in own.names:
            if name.casefold() in taken:
                raise Refused(f"has the ingredient `{name}` twice")
            taken.add(name.casefold())
        found.append(own)
    return tuple(found)


def _own(value: object) -> Own:
    entry = mapping(value, KEYS, "an ingredient")
    name = words(entry.get("name", ""), "name")
    for key in NEEDED:
        if key not in entry:
            raise Refused(f"leaves out `{key}` of the ingredient {name or 'without a name'}")
    names = (name, *(words(one, "also") for one in several(entry.get("also", []), "also")))
    for one in names:
        _is_new(one)
    role, safety = words(entry["role"], "role"), words(entry["class"], "class")
    if role not in CLASSES:
        raise Refused(f"adds `{name}` as {role}; a collection may add {', '.join(CLASSES)}")
    if safety not in CLASSES[role]:
        raise Refused(f"calls the {role} `{name}` {safety}; it can be {', '.join(CLASSES[role])}")
    ph = _ends(entry, "ph", _RANGE, name)
    if safety == "high-acid" and (ph is None or ph[1] >= ACID_LINE):
        raise Refused(f"calls `{name}` high-acid without a measured `ph` that stays below 4.6")
    source = words(entry["source"], "source")
    if source.partition(" ")[0].rstrip(",") not in HOWS or not source.partition(" ")[2]:
        raise Refused(f"gives `{name}` no source; write how it is known and where, such as `read Leaflet 12, p. 3`")
    solids = _ends(entry, "solids", _PERCENT, name)
    return Own(
        names=names,
        role=role,
        safety=safety,
        source=source,
        ph=ph,
        weights=_weights(entry.get("weights"), name),
        solids=solids[0] if solids else None,
        allergens=tuple(words(one, "allergens") for one in several(entry.get("allergens", []), "allergens")),
    )


def _is_new(name: str) -> None:
    """Raises Refused if the published table knows the name, or could mean something by it."""
    from brimline.figures.names import find

    if not _NAME.fullmatch(name) or len(name) > 60:
        raise Refused(f"adds an ingredient called `{name}`; write its name in words, without figures")
    match = find(name)
    if match.entry is not None or match.ambiguous:
        meant = match.entry.name if match.entry else ", ".join(match.ambiguous)
        raise Refused(f"adds `{name}`, which the published table has ({meant}); a collection only adds what is new")


def _ends(entry: dict[str, object], key: str, form: re.Pattern[str], name: str) -> tuple[Fraction, Fraction] | None:
    value = entry.get(key)
    if value is None:
        return None
    found = form.fullmatch(str(value))
    if not found:
        raise Refused(f"gives `{key}` of `{name}` in a way that cannot be read, `{value}`")
    ends = [Fraction(one) for one in found.groups() if one]
    if ends != sorted(ends):
        raise Refused(f"gives `{key}` of `{name}` upside down, `{value}`")
    return ends[0], ends[-1]


def _weights(value: object, name: str) -> tuple[tuple[str, Fraction, Fraction], ...]:
    if value is None:
        return ()
    if not isinstance(value, dict):
        raise Refused(f"gives `weights` of `{name}` something that is not a list of units, such as `cup: 140 to 150 g`")
    out = []
    for word, said in value.items():
        unit = units.unit(str(word))
        grams = _ends({"weights": said}, "weights", _GRAMS, name)
        if unit is None or unit.dimension not in ("volume", "count") or grams is None or not grams[0]:
            raise Refused(f"weighs `{name}` by `{word}`; write a measure and grams, such as `cup: 140 to 150 g`")
        out.append((unit.name, *grams))
    return tuple(out)
