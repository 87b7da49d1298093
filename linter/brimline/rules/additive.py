"""What does not belong in a jar: poisonous parts of plants, essential oils, preservatives, containers not for canning."""

from collections.abc import Iterator

from brimline._patterns import pattern
from brimline._remember import remembered
from brimline.batch.values import Item
from brimline.document.values import Document
from brimline.findings import Flag, Span
from brimline.moves.values import Case
from brimline.rules.contract import rule
from brimline.rules.say import before_span
from brimline.rules.standins import other_container

FRUIT = r"(?:apricot|peach|cherry|plum|nectarine|apple|almond|damson|sloe|stone|pit)"
STONES = rf"(?:{FRUIT} kernels?|the kernels|crushed (?:pits|stones)|cracked (?:pits|stones))"
PARTS = r"(?:leaf|leaves|stems?|stalks and leaves|roots?|bark|unripe berries)"
POISON = pattern(
    rf"\b(?:{STONES}|rhubarb[ ,]+(?:\w+ )?(?:leaf|leaves)|(?:elder|elderberry)[ ,]+{PARTS}|unripe elderberr\w+|"
    r"stalks and leaves|unidentified \w*\s?(?:berries|berry|flowers?))\b"
)
GOES_IN = pattern(r"\b(?:add|simmer|boil|cook|stir|put|steep|crack|crush|infuse|tie|include|use|keep|leave)\b")
STAYS_OUT = pattern(
    r"\b(?:discard(?:ed)?|removed?|throw|thrown|compost(?:ed)?|without|no|not|never|don't|avoid|free of|pick(?:ed)? off|"
    r"strip(?:ped)?|away|poison\w*|toxic)\b"
)
NOT_FOOD = pattern(r"\b(?:florist|nursery|roadside|garden centre|garden center|sprayed|ornamental)\b")


def _texts(one: Item) -> str:
    return " ".join((one.line.item, *one.line.forms)).lower()


def _lines(case: Case) -> Iterator[Item]:
    for one in case.batch.items:
        yield one
        yield from one.made_of


def notes(document: Document) -> Iterator[tuple[str, Span]]:
    """Every note and step of a formula with its place, in lower case."""
    for number, line in enumerate(document.take):
        for place, text in enumerate(line.note):
            span = document.at.get(f"/take/{number}/note/{place}")
            if span is not None:
                yield text.lower(), span
    for step in document.make:
        yield step.text.lower(), step.span


@rule("low-acid/poison", decides=("poison-part",))
def no_poisonous_part_goes_in(case: Case) -> Iterator[Flag]:
    """No stone kernels, rhubarb or elder leaves and stems, unripe elderberries or unidentified plants go in.

    They hold cyanide-forming substances, oxalic acid or worse, and boiling does not take them out.
    """
    for one in _lines(case):
        if ("poison" in one.tags or _poison(_texts(one))) and not _stays_out(_texts(one)) and one.stay != "discarded":
            yield Flag("poison-part", one.line.span, f"{one.line.item}, {', '.join(one.line.forms)}".rstrip(", ") + ".")
    if any("poison" in one.tags for one in _lines(case)):
        return
    for text, span in notes(case.document):
        if (part := _poison(text)) and GOES_IN.search(text) and not STAYS_OUT.search(text):
            yield Flag("poison-part", span, f"This says to use {part}.")


@remembered
def _poison(text: str) -> str:
    """The poisonous part that a text names, or nothing."""
    found = POISON.search(text)
    return found.group(0) if found else ""


def _stays_out(text: str) -> bool:
    return STAYS_OUT.search(text) is not None


@rule("low-acid/oil", decides=("essential-oil",))
def flavours_are_food(case: Case) -> Iterator[Flag]:
    """Flavour comes from extracts, herbs and flowers sold as food, not from essential oils or a florist.

    Essential oils are strong, not all of them are food, and oil shuts out air as the spores of botulism like it.
    """
    for one in _lines(case):
        text = _texts(one)
        if "essential-oil" in one.tags or "essential oil" in text:
            yield Flag("essential-oil", one.line.span, f"{one.line.item} is an essential oil.")
        elif NOT_FOOD.search(text):
            yield Flag(
                "essential-oil", one.line.span, f"{one.line.item}, {', '.join(one.line.forms)}: not sold as food."
            )


@rule("keep/preservative", decides=("preservative",))
def heat_preserves(case: Case) -> Iterator[Flag]:
    """No sorbate, benzoate, sulfite, aspirin or canning powder is added or relied on.

    They do not take the place of the heat process, and how they act in this food nobody has tested.
    """
    had = {one.name for one in case.contrast.tested.items} if case.contrast else set()
    cut = bool(case.gaps)
    for one in _lines(case):
        if "preservative" in one.tags and one.name not in had:
            yield Flag(
                "preservative",
                one.line.span,
                f"{one.line.item} is added{', and the process is shorter than tested' if cut else ''}.",
                level="unsafe" if cut else "",
            )


@rule("jar/container", decides=("container-other",))
def containers_are_canning_jars(case: Case) -> Iterator[Flag]:
    """Food is sealed in jars made for home canning.

    Bottles, pouches, tins, plastic and crocks break, do not seal with these lids, or have no tested process.
    """
    for text, span in notes(case.document):
        other = other_container(text)
        if other:
            yield Flag("container-other", span, f"This step fills what is no canning jar: {other}.")
    for jar in case.document.pack.jars:
        if not jar.volume_ml:
            yield Flag(
                "container-other",
                jar.span,
                f"{jar.name} is no jar made for home canning.",
                (),
                before_span(case, case.tested.pack.span if case.tested else None),
            )
            return
