"""What a step says goes in: the ingredients of the table that its words name."""

from brimline._patterns import pattern
from brimline._remember import remembered
from brimline.document import units
from brimline.figures import names
from brimline.figures.values import Entry

ADDS = pattern(
    r"\b(?:add|adding|stir in|stirring in|mix in|pour in|put in|fold in|drop in|throw in|toss in|whisk in|sprinkle in|"
    r"sprinkle with|season with|blend in|tip in|beat in|crumble in|slip in|tuck in)\b(?: in)?([^.;:]{1,160})"
)
# Where the list of what goes in ends, or where it is another thing.
ENDS = pattern(
    r"\b(?:to|into|and (?:bring|boil|cook|simmer|stir|return|heat|let|mix|process|fill|skim|strain|measure|cover|press|drain|stand|leave|keep)|"
    r"then|until|till|when|while|if|for|in|on|over|as|so|which|that|after|before|at|by|from|all at once|tied|bring|boil)\b"
)
SPLIT = pattern(r"\s*,\s*(?:and |or |then )?|\s+(?:and|or|with|plus)\s+")
LEAD = pattern(
    r"^(?:(?:the|a|an|all|all of|both|some|more|any|your|its|his|her|of|each|in|about|rest of|remaining|measured|prepared|chopped|"
    r"sliced|crushed|minced|grated|diced|whole|handful|pinch|dash|splash|few|little|bit|cloves?|sprigs?|cups?|half)\s+|[\d/.,]+\s+)+"
)


@remembered
def mentioned(sentence: str) -> tuple[tuple[str, Entry], ...]:
    """The words of a sentence that tell the cook to add an ingredient, each with its entry of the table.

    Words that name nothing in the table, or could name several things, are left out: they may be anything.
    """
    found: list[tuple[str, Entry]] = []
    for adds in ADDS.finditer(sentence):
        for part in SPLIT.split(ENDS.split(adds[1].strip())[0]):
            words = _bare(part)
            if words:
                match = names.find(words, near=False)
                if match.entry is not None:
                    found.append((words, match.entry))
    return tuple(found)


def _bare(part: str) -> str:
    """A part of a list without its article and its amount."""
    words = LEAD.sub("", part.strip(" ,()\"'")).split()
    while words and (units.unit(words[0]) is not None or words[0] in ("of", "the")):
        words = words[1:]
    return " ".join(words)
