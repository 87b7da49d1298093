"""A caller's words to what is asked: clauses read one by one, the longest that can be understood first."""

from difflib import get_close_matches

from msgspec.structs import replace

from brimline.figures.calls import asks
from brimline.review.suppose.hear import LONGEST, bare, heard, seams
from brimline.review.suppose.patterns import known, understood
from brimline.review.suppose.values import Asked, AskError

_MOST = 12
# A clause that is only a name goes on from the one before it: `no lemon and sugar`.
_GO_ON = {"out": "no", "add": "add"}


def asked(words: str) -> tuple[Asked, ...]:
    """Everything the words ask for, in order. Raises AskError for words that are not understood."""
    if len(words) > LONGEST:
        raise AskError(f"that is longer than {LONGEST} characters; ask for one or two changes at a time")
    pieces = seams(heard(words))
    out: list[Asked] = []
    place = 0
    while place < len(pieces):
        found, place = _next(pieces, place, out[-1] if out else None)
        out.append(found)
        if len(out) > _MOST:
            raise AskError(f"that is more than {_MOST} changes; ask for a few at a time")
    if not out:
        raise AskError(f"nothing was asked\n{can_be_asked()}")
    return tuple(out)


def _next(pieces: list[tuple[str, str]], place: int, before: Asked | None) -> tuple[Asked, int]:
    """The next thing asked, and where the words after it start."""
    for end in range(len(pieces), place, -1):
        clause = bare("".join(seam + piece for seam, piece in pieces[place:end]).removeprefix(pieces[place][0]))
        found = understood(clause) or _question(clause)
        if found is None or found.kind == "name":
            continue
        if found.kind == "talk" and end > place + 1 and all(_alone(pieces, number) for number in range(place, end)):
            # A question that is no edit takes no edit with it.
            continue
        return replace(found, said=clause), end
    clause = bare(pieces[place][1])
    found = understood(clause)
    if found is not None and before is not None and before.kind in _GO_ON and known(found.what):
        further = understood(f"{_GO_ON[before.kind]} {clause}")
        if further is not None:
            return replace(further, said=clause), place + 1
    if found is not None and known(found.what):
        return replace(found, said=clause), place + 1
    raise AskError(_not_understood(clause, found))


def _question(clause: str) -> Asked | None:
    """A question that is no edit, told over several clauses: `my jam is runny, help`."""
    found = understood(" ".join(clause.replace(",", " ").replace(";", " ").split()))
    return found if found is not None and found.kind == "talk" else None


def _alone(pieces: list[tuple[str, str]], place: int) -> bool:
    """Whether a piece is understood by itself."""
    found = understood(bare(pieces[place][1]))
    return found is not None and found.kind != "name"


def _not_understood(clause: str, found: Asked | None) -> str:
    """What to ask instead of a clause: the nearest known phrase, and all that can be asked."""
    examples = {example.lower(): example for some in asks().values() for example in some}
    close = get_close_matches(clause, list(examples), 1, 0.5)
    words = [word for example in examples for word in example.split()]
    if not close and found is not None:
        near = get_close_matches(clause.split(maxsplit=1)[0], words, 1, 0.7)
        close = [example for example in examples if near and near[0] in example.split()][:1]
    hint = f"; the nearest that can be asked is: {examples[close[0]]}" if close else ""
    return f'"{clause}" is not understood{hint}\n{can_be_asked()}'


def can_be_asked() -> str:
    """The list of what can be asked, by group."""
    width = max(len(group) for group in asks())
    rows = [f"  {group.ljust(width)}  {'; '.join(examples)}" for group, examples in asks().items()]
    return "\n".join(["What can be asked:", *rows, "Several at once: half the sugar, pint jars and double"])
