"""Edits that put something in: in place of another thing, or besides."""

from fractions import Fraction

from msgspec.structs import replace

from brimline.document.values import Amount, Document, Line
from brimline.review.suppose import speak
from brimline.review.suppose.edit_say import absent, is_entry, roles, shown, spoken, with_step
from brimline.review.suppose.edit_sweet import sweeten
from brimline.review.suppose.edit_take import amount, part
from brimline.review.suppose.lines import (
    changed,
    fresh_line,
    is_acid,
    is_sugar,
    meaning,
    meant,
    ml,
    plain,
    scaled,
    sort,
    tags,
    times,
    wanted,
)
from brimline.review.suppose.values import Asked, AskError, Made

# How much is judged where a caller gives no amount: enough to be seen by every limit (ours, on the cautious side).
_SOME = {
    "vegetable": (Fraction(1, 2), "cup"),
    "fruit": (Fraction(1), "cup"),
    "juice": (Fraction(1, 2), "cup"),
    "herb": (Fraction(1, 4), "cup"),
    "peel": (Fraction(1), "tbsp"),
    "nut": (Fraction(1, 2), "cup"),
    "dried-fruit": (Fraction(1, 2), "cup"),
    "spice": (Fraction(1, 2), "tsp"),
    "salt": (Fraction(1, 2), "tsp"),
    "thickener": (Fraction(1, 4), "cup"),
    "spirit": (Fraction(1, 4), "cup"),
    "liquid": (Fraction(1), "cup"),
    "fat": (Fraction(1), "tbsp"),
    "flavouring": (Fraction(1), "tsp"),
    "meat": (Fraction(1, 2), "cup"),
    "acid": (Fraction(1), "tbsp"),
    "sweetener": (Fraction(1), "cup"),
    "egg": (Fraction(1), "large"),
    "dairy": (Fraction(1, 2), "cup"),
}
# A teaspoon in ml, with the rounding of a kitchen.
_SPOON = Fraction(5)
_DRY = frozenset({"spice", "salt", "flavouring", "colour", "peel"})


def swap(document: Document, asked: Asked) -> Made:
    """One thing in place of another, measure for measure; whichever of the two the formula has gives way."""
    new, old = asked.what, asked.of
    want = wanted(old, document)
    if asked.either and not meant(document, want) and meant(document, wanted(new, document)):
        new, old = old, new
        want = wanted(old, document)
    lines = [line for line in meant(document, want) if line.amount]
    if not lines:
        return absent(document, replace(asked, what=old), lines)
    found = meaning(new)
    if found.sort == "sweetener" and all(is_sugar(line) for line in lines) and "brown" not in found.tags:
        return sweeten(document, replace(asked, what=new, share=asked.share or Fraction(1), number=None))
    share = asked.share or Fraction(1)
    given = None if asked.number is None or not asked.unit else plain(asked.number, asked.unit)

    came: list[Line] = []

    def exchange(line: Line) -> tuple[Line, ...]:
        listed = next((one for one in line.other if is_entry(one, found.name)), None)
        if listed is not None and given is None and share == 1:
            # The tested formula lists it as an alternative, at an amount of its own.
            came.append(replace(listed, other=(), flags=line.flags, note=line.note))
            return (came[-1],)
        size = given or scaled(line.amount, share)
        if size is None:
            return (line,)
        fresh = replace(
            fresh_line(
                new,
                line.role,
                replace(size, per=line.amount.per if line.amount else None),
                _forms(line, found.tags, found.name),
            ),
            flags=line.flags,
        )
        kept = () if share == 1 else (times(line, 1 - share),)
        came.append(fresh)
        return (*kept, fresh)

    made = changed(document, want, exchange)
    made = with_step(made, f"Add the {spoken(new)} in place of the {spoken(old)}.")
    new_lines = [
        line for line in made.take if (line.item, line.forms) in {(one.item, one.forms) for one in came}
    ] or came
    fact = f"{speak.stuffs(new_lines[:2])} instead of {speak.stuffs(shown(document, lines)[:2])}"
    subjects = tuple(dict.fromkeys((*roles(lines), *roles(came))))
    silent: tuple[str, ...] = (
        "pepper-swap", "onion-colour", "tomato-green", "lemon-for-vinegar", "lime-for-lemon", "vinegar-kind",
        "acid-dose-table", "sugar-grain", "fruit-frozen", "dry-spice", "salt-unfermented",
    )  # fmt: skip
    if any(is_entry(one, found.name) for line in lines for one in line.other):
        silent = ("acid-tested-alternative", *silent)
    return Made(made, f"with {spoken(new)} for the {spoken(old)}", fact, subjects, _fitting(silent, found.tags, lines))


def _fitting(rows: tuple[str, ...], new: frozenset[str], lines: list[Line]) -> tuple[str, ...]:
    """The rows that speak of such an exchange."""
    old = frozenset(tag for line in lines for tag in tags(line))
    about = {
        "pepper-swap": ({"pepper-hot", "pepper-sweet"}, {"pepper-hot", "pepper-sweet"}),
        "onion-colour": ({"onion"}, {"onion"}),
        "tomato-green": ({"tomato", "tomatillo"}, {"tomato"}),
        "lemon-for-vinegar": ({"lemon", "lime"}, {"vinegar"}),
        "lime-for-lemon": ({"lime"}, {"lemon"}),
        "vinegar-kind": ({"vinegar"}, {"vinegar"}),
        "acid-dose-table": ({"lemon", "vinegar", "citric"}, {"lemon", "vinegar", "citric"}),
        "sugar-grain": ({"sugar"}, {"sugar"}),
        "fruit-frozen": ({"frozen"}, frozenset[str]()),
        "dry-spice": ({"spice-dry", "herb-dried"}, {"spice-dry", "herb-dried"}),
        "salt-unfermented": (
            {"salt-table", "salt-canning", "salt-other"},
            {"salt-table", "salt-canning", "salt-other"},
        ),
    }
    return tuple(row for row in rows if row not in about or (about[row][0] & new and about[row][1] & old))


def add(document: Document, asked: Asked) -> Made:
    """Something put in besides; an amount that is not said is one that every limit sees."""
    found = meaning(asked.what)
    if found.sort == "pectin" and any(sort(line) == "pectin" for line in document.take):
        raise AskError("the formula has pectin already; ask for other pectin, or twice the pectin")
    size, said = _size(asked, found.sort)
    role = found.roles[0] if found.roles else "vegetable"
    line = fresh_line(asked.what, role, size)
    made = replace(document, take=(*document.take, line))
    made = with_step(made, f"Stir in the {line.item}.")
    silent: tuple[str, ...] = (
        "herb-teaspoon",
        "dry-spice",
        "fat-foam",
        "salt-unfermented",
        "colour",
        "acid-more",
        "acid-tested-alternative",
    )
    about = {
        "herb-teaspoon": (ml(size) or 2 * _SPOON) <= _SPOON
        and (found.sort in ("herb", "peel", "flavouring") or "ginger-fresh" in found.tags),
        "dry-spice": found.sort == "spice",
        "fat-foam": found.sort == "fat",
        "salt-unfermented": found.sort == "salt",
        "colour": found.sort == "colour",
        "acid-more": found.sort == "acid",
        "acid-tested-alternative": False,
    }
    topics = ("herb",) if found.sort in ("herb", "peel") else ()
    rows = tuple(row for row in silent if about[row])
    return Made(made, f"with {speak.stuff(line)} added", said, (line.role,), rows, topics=topics)


def _size(asked: Asked, kind: str) -> tuple[Amount, str]:
    """How much, and what is said about an amount that was not given."""
    if asked.number:
        return plain(asked.number, asked.unit or ("each" if kind not in _DRY else "tsp")), ""
    low, unit = _SOME.get(kind, (Fraction(1, 2), "cup"))
    return plain(low, unit), "no amount was said; this much is judged"


def thicken(document: Document, asked: Asked) -> Made:
    """Starch, flour or the like put in before canning."""
    made = add(document, replace(asked, kind="add", share=None))
    return replace(made, phrase=f"thickened with {spoken(asked.what)} before canning")


def name(document: Document, asked: Asked) -> Made:
    """Only the name of a thing: the sweetener in place of the sugar, the sugar set to an amount, anything else put in."""
    found = meaning(asked.what)
    if found.sort == "sweetener" and "sugar" not in found.tags:
        return sweeten(document, asked)
    here = meant(document, wanted(asked.what, document))
    if here and asked.number is not None and asked.unit:
        return part(document, replace(asked, of="set"))
    if here:
        raise AskError(
            f"the formula has {speak.stuffs(here[:2])}; say what to do with it: no, half, twice or 1 cup less"
        )
    return add(document, asked)


def much(document: Document, asked: Asked) -> Made:
    """A share of something; where the formula has none, more of it is put in, and a sweetener takes the sugar's place."""
    made = amount(document, asked)
    if not made.absent or asked.share is None:
        return made
    if asked.share > 1:
        return add(document, replace(asked, kind="add", share=None))
    found = meaning(asked.what)
    if asked.share and found.sort == "sweetener" and not found.tags & {"sugar", "brown"}:
        return sweeten(document, asked)
    return made


def some(document: Document, asked: Asked) -> Made:
    """So much more, less or just so much of something; where the formula has none, it is put in."""
    made = part(document, asked)
    return add(document, replace(asked, kind="add")) if made.absent and asked.of in ("more", "set") else made


def _forms(line: Line, new: frozenset[str], name: str) -> tuple[str, ...]:
    """The forms that go over to what takes a line's place: its cut; for an acid the bottle or the strength.

    Vinegar from a shop is taken to be of 5 %, and the answer says so; one of a named strength, or home-made, is not.
    """
    if "brown" in new:
        return ("packed",)
    if is_acid(line) or new & {"lemon", "lime", "vinegar", "citric"}:
        if "vinegar" in new:
            return () if "home-made" in new or "pickling-base" in new or "%" in name else ("5 %",)
        return ("bottled",) if new & {"lemon", "lime"} and not new & {"fresh", "bottled"} else ()
    kept = ("chopped", "crushed", "sliced", "whole", "pitted", "seeded", "peeled", "cored", "finely chopped", "pulp")
    return tuple(form for form in line.forms if form in kept)
