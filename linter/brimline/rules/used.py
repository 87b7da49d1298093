"""The list beside the steps: what is listed is used, and what is used is listed."""

from collections.abc import Iterator

from brimline._patterns import pattern
from brimline._remember import remembered
from brimline.batch.values import Item
from brimline.document.values import Line
from brimline.figures.values import Entry
from brimline.findings import Flag, Span
from brimline.moves.named import Named
from brimline.moves.values import Case
from brimline.rules.acid import ALL_OF_IT
from brimline.rules.asides import Aside, offered
from brimline.rules.brought import exchanged, put_in
from brimline.rules.contract import rule
from brimline.rules.spoken import sentences

# What a step may call a thing by, beside its own name.
CALLED = {
    "fruit": ("fruit", "berries", "prepared", "pulp"),
    "juice": ("juice", "liquid", "infusion"),
    "vegetable": ("vegetable",),
    "peel": ("peel", "zest", "rind"),
    "dried-fruit": ("dried fruit",),
    "nut": ("nuts",),
    "sweetener": ("sweetener", "syrup"),
    "acid": ("acid", "brine", "syrup"),
    "pectin": ("pectin",),
    "gelling": ("gel",),
    "liquid": ("water", "liquid", "syrup", "brine"),
    "salt": ("salt", "brine", "season"),
    "spice": ("spice", "season"),
    "herb": ("herb", "leaves", "season", "spice"),
    "egg": ("egg", "yolk"),
    "thickener": ("starch", "paste"),
    "colour": ("colo",),
    "flavouring": ("flavo", "extract"),
    "spirit": ("spirit", "liqueur"),
    "firming": ("firm", "soak"),
}
# Words of a name that say how it is, not what it is.
PLAIN = frozenset(
    [
        "red",
        "green",
        "yellow",
        "white",
        "black",
        "brown",
        "sweet",
        "sour",
        "hot",
        "mild",
        "fresh",
        "dried",
        "dry",
        "ground",
        "whole",
        "large",
        "small",
        "medium",
        "ripe",
        "raw",
        "pure",
        "regular",
        "light",
        "dark",
        "sliced",
        "chopped",
        "crushed",
        "peeled",
        "canned",
        "frozen",
        "bottled",
        "powdered",
        "liquid",
        "table",
        "canning",
        "pickling",
        "of",
        "and",
        "or",
        "with",
        "unsalted",
        "salted",
        "low",
        "no",
    ]
)
GRAVE_SORTS = frozenset(
    {"vegetable", "fruit", "meat", "dairy", "egg", "fat", "thickener", "nut", "herb", "condiment", "flavouring"}
)
DOUBTFUL = frozenset({"low-acid", "borderline", "unknown"})
LATER = (
    "serving",
    "serve",
    "before eating",
    "when you open",
    "after opening",
    "to eat",
    "at the table",
    "when opened",
    "once opened",
)
DENIES = (
    "do not add",
    "don't add",
    "never add",
    "not add",
    "instead of adding",
    "without adding",
    "avoid adding",
    "no need to add",
)
# The ending of a word that leaves three letters or more.
ENDING = pattern(r"(?<=...)(?:ies|oes|es|s|y)$")
# Not a food of the batch: jars, canner and pot.
TOOLS = frozenset({"water", "boiling water", "hot water", "ice", "salt"})


@rule("writing/used", decides=("never-used", "never-listed"))
def list_and_steps_name_the_same_things(case: Case) -> Iterator[Flag]:
    """Every ingredient of the list is used by a step, and every ingredient that a step adds is in the list.

    What no step uses is left on the table, and what is not listed has no amount that anybody tested.
    """
    if not case.document.make:
        return
    steps = " ".join(step.text.lower() for step in case.document.make)
    if not any(phrase in steps for phrase in ALL_OF_IT):
        if not any(one.sort == "fruit" for one in case.batch.items):
            # Where only its peel and juice are listed, the fruit is they.
            steps = steps.replace("fruit", "fruit peel juice")
        for one in case.batch.items:
            if not _named(one, steps) and not _told_elsewhere(case, one):
                yield Flag("never-used", one.line.span, f"{one.line.item} is listed and no step uses it.")
    yield from _unlisted(case)


def _named(one: Item, steps: str) -> bool:
    """Whether the steps name a line, one of its alternatives or parts, or the sort of thing it is."""
    called = (*CALLED.get(one.sort, ()), *CALLED.get(one.line.role, ()))
    lines = [one.line, *one.line.other, *one.line.made_of]
    return any(word in steps for word in called) or any(word in steps for line in lines for word in _words(line, one))


def _words(line: Line, one: Item) -> Iterator[str]:
    """The stems of the words that name a line."""
    for text in (line.item.lower(), one.family, one.name):
        yield from _stems(text)


@remembered
def _stems(text: str) -> tuple[str, ...]:
    words = text.replace(",", " ").replace("-", " ").split()
    return tuple(_stem(word) for word in words if len(word) > 2 and word.isalpha() and word not in PLAIN)


def _stem(word: str) -> str:
    return ENDING.sub("", word)


def _told_elsewhere(case: Case, one: Item) -> bool:
    """Whether something else speaks of it: a note of its own line, or acid/loosened for the acid of an adaptation."""
    return bool(one.line.note) or (case.tested is not None and one.sort == "acid") or one.entry is None


def _unlisted(case: Case) -> Iterator[Flag]:
    listed = list(_every(case))
    families = {name for one in listed for name in (one.family, one.name)}
    tested = " ".join(step.text.lower() for step in case.tested.make) if case.tested else ""
    graver = "unsafe" if case.tested else "untested"
    seen: set[str] = set()
    for sentence, span in sentences(case.document):
        for words, entry in () if _aside(sentence) else case.mentioned(sentence):
            # What a new sentence adds of the grave ones is told below.
            later = case.tested and _grave(entry) and words not in tested
            if not later and entry.name not in seen and not _is_listed(case, words, entry, listed):
                grave = entry.safety in DOUBTFUL and entry.sort in GRAVE_SORTS and words not in tested
                seen.add(entry.name)
                yield _never_listed(words, span, graver if grave else "")
    if case.contrast is None:
        return
    # What the tested formula has was in the jars that were tested.
    before = case.contrast.tested
    known = families | {name for one in before.items for name in (one.family, one.name)}
    for named, aside in put_in(case):
        entry = named.entry
        if entry.name not in seen and {entry.family, entry.name}.isdisjoint(known) and _comes_in(case, named, aside):
            seen.add(entry.name)
            yield _never_listed(entry.name, aside.span, "unsafe" if _grave(entry) else "untested")
    for named, aside in exchanged(case):
        entry = named.entry
        if entry.name not in seen and {entry.family, entry.name}.isdisjoint(known | offered(case)):
            seen.add(entry.name)
            yield _never_listed(entry.name, aside.span, "untested")


def _is_listed(case: Case, words: str, entry: Entry, listed: list[Item]) -> bool:
    """Whether a line of the list names what a step adds, by a word or a general name, or it is no food of the batch."""
    if words in TOOLS or (case.tested and "base" in entry.tags):
        return True
    if any(name in (one.family, one.name) for one in listed for name in (entry.family, entry.name)):
        return True
    names = [
        text for one in listed for text in (one.line.item, *one.line.forms, *(line.item for line in one.line.other))
    ]
    stems = [_stem(word) for word in words.split() if word not in PLAIN]
    return any(stem in " ".join(names).lower() for stem in stems) or _common(words, entry, listed)


def _comes_in(case: Case, named: Named, aside: Aside) -> bool:
    """Whether food that no list has, and of which little does harm, or juice goes into the batch."""
    entry, tokens = named.entry, aside.reading.tokens
    words = " ".join(tokens[named.start : named.end])
    # The butter of a fruit butter is what is made.
    made = words == "butter" and case.kind == "fruit butter" and tokens[named.start - 1] != "of"
    foam = entry.sort == "fat" and "foam" in aside.reading.text
    # Red pepper, where red pepper is listed as a ground spice.
    listed = list(_every(case))
    written = [" ".join((one.line.item, *one.line.forms)).lower() for one in listed]
    spice = any(all(_stem(word) in line for word in words.split()) for line in written)
    # To pit and to stone fruit is no kernel; low-acid/poison looks for those.
    pit = "poison" in entry.tags
    grave = _grave(entry) or entry.sort == "juice"
    return grave and not (made or foam or spice or pit or _common(words, entry, listed))


def _grave(entry: Entry) -> bool:
    """Whether a food makes what it is put into unsafe, however little of it."""
    low = entry.safety == "low-acid" and entry.sort == "juice"
    return low or entry.sort in DENSE or (entry.safety in ("low-acid", "unknown") and entry.sort in GRAVE_SORTS)


# Fat shields spores, starch and egg slow the heat, whatever their acidity.
DENSE = frozenset({"fat", "thickener", "meat", "dairy", "egg"})


def _never_listed(words: str, span: Span, level: str) -> Flag:
    return Flag(
        "never-listed",
        span,
        f"This step adds {words}, and the list does not name it, so its amount is not known.",
        level=level,
        harm="illness" if level else "",
    )


@remembered
def _aside(sentence: str) -> bool:
    """Whether a sentence speaks of what comes after the jar is opened, or of what is not to be added."""
    return any(word in sentence for word in (*LATER, *DENIES))


def _every(case: Case) -> Iterator[Item]:
    for one in case.batch.items:
        yield one
        yield from one.made_of


def _common(words: str, entry: Entry, listed: list[Item]) -> bool:
    """Whether a word is only the general name of something listed: `fruit`, `spices`, `sugar` for honey."""
    if "mixture" in entry.tags or entry.sort in ("liquid", "salt"):
        return True
    general = {_stem(word) for word in CALLED.get(entry.sort, ())}
    if _stem(words) in general and any(one.sort == entry.sort for one in listed):
        return True
    return any(one.sort == entry.sort and one.entry is None for one in listed)
