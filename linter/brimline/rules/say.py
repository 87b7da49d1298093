"""Small words that rules share: where, which figure, what the base is called."""

from collections.abc import Iterable

from brimline.batch.values import Item
from brimline.findings import Figure, Place, Span
from brimline.moves.listing import section
from brimline.moves.values import Case, Pair

BASE_WORDS = {
    "jelly": "juice",
    "fruit syrup": "juice",
    "fruit curd": "egg and butter",
    "salsa": "fruit and vegetable",
    "relish": "fruit and vegetable",
    "chutney": "fruit and vegetable",
    "sauce": "fruit and vegetable",
    "pickle": "fruit and vegetable",
    "tomato": "tomato",
}


def base_word(case: Case) -> str:
    """What the base of a product is called in a sentence."""
    return BASE_WORDS.get(case.kind, "fruit")


def figure(name: str, value: str, unit: str = "") -> Figure:
    """A figure of a finding."""
    return Figure(name, value, unit)


def before(case: Case, items: Iterable[Item]) -> Place | None:
    """Where the tested formula says it: the first of some of its lines."""
    first = next(iter(items), None)
    if case.tested is None or first is None:
        return None
    return Place(case.tested.path, first.line.span)


def before_span(case: Case, span: Span | None) -> Place | None:
    """A place in the tested formula."""
    return None if case.tested is None or span is None else Place(case.tested.path, span)


def line_of(case: Case, pair: Pair) -> Span:
    """Where a pair stands in the adaptation; the take section's word if it is not there."""
    return pair.now[0].line.span if pair.now else section(case.document, "take")
