"""The ingredients of the table that a sentence names, with the tokens of its reading."""

from brimline._remember import remembered
from brimline.moves.named import Named, named
from brimline.rules.meaning import TOKEN


@remembered
def foods(sentence: str) -> tuple[Named, ...]:
    """The ingredients of the table that a sentence names, in order; places are those of `Reading.tokens`."""
    return named((*TOKEN.findall(sentence), "."))
