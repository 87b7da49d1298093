"""Ways of writing that authors use and this format does not, each with what to write instead.

A way is tried on a line that could not be parsed; its line is offered only if the grammar then reads it. So a wrong
guess costs nothing, and what is offered can be copied as it stands.
"""

import re
from collections.abc import Callable, Iterator
from fractions import Fraction

from msgspec import Struct

from brimline._patterns import pattern
from brimline.tree.grammar import Fault, parse
from brimline.tree.near import nearest
from brimline.tree.words import choices

_GLYPHS = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
_NUMBER = rf"(?:\d{{1,5}}(?:[ \t]+\d{{1,2}}/\d{{1,2}}|\.\d{{1,4}}|/\d{{1,2}})?[ \t]?[{_GLYPHS}]?|[{_GLYPHS}])"
_LETTERS = {n: re.compile(r"[^\W\d_][^\s:,\d]*" + r"[ \t]+[^\W\d_][^\s:,\d]*" * (n - 1)) for n in (1, 2, 3)}
_PARTS = pattern(r"[ -]")
_KITCHEN = frozenset({2, 3, 4, 5, 6, 8, 16})
_COUNTED = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_SPELT = {word: str(number) for number, word in enumerate(_COUNTED, 1)} | {"a": "1", "an": "1", "half": "1/2"}


class Offer(Struct, frozen=True):
    """A line's body to write instead, one sentence on what was wrong with the other way of writing, and a comment."""

    body: str
    says: str
    comment: str = ""


class Way(Struct, frozen=True):
    """A way of writing: the starts it can occur in (empty: all), the change of the body, and what to say about it."""

    starts: tuple[str, ...]
    change: Callable[[str], str]
    says: str


def offer(start: str, body: str, fault: Fault) -> Offer | None:
    """The body to copy for one that could not be parsed, if some ways of writing, alone or together, explain it."""
    before = body[: fault.start].rstrip()
    if body.startswith("#", fault.start) and parse(start, before).tree is not None:
        return Offer(before, "A comment starts after two blanks or a tab.", f"  {body[fault.start :]}")
    ways = [way for way in WAYS if not way.starts or start in way.starts]
    for way in ways:
        changed = way.change(body).rstrip()
        if changed != body and parse(start, changed).tree is not None:
            return Offer(changed, way.says)
    for changed in _respelt(start, body, fault):
        return Offer(changed, "")
    # Several slips in one line: all ways in turn, as long as each goes on from what the one before made.
    changed, said = body, []
    for way in ways:
        again = way.change(changed).rstrip()
        if again != changed:
            changed = again
            said.append(way.says)
            if parse(start, changed).tree is not None:
                return Offer(changed, " ".join(dict.fromkeys(said)))
            for respelt in _respelt(start, changed, parse(start, changed).fault or fault):
                return Offer(respelt, " ".join(dict.fromkeys(said)))
    return None


def _respelt(start: str, body: str, fault: Fault) -> Iterator[str]:
    """The body with the words at the fault replaced by the nearest keyword that could stand there; never a number."""
    known = choices(fault.expected)
    for length in (3, 2, 1):
        found = _LETTERS[length].match(body, fault.start)
        # Two words can only be one keyword of two parts, or what follows a keyword would be swallowed with it.
        fitting = [word for word in known if length == 1 or len(_PARTS.split(word)) == length]
        word = nearest(found.group(), fitting) if found else ""
        if found and word:
            changed = body[: fault.start] + word + body[found.end() :]
            if parse(start, changed).tree is not None:
                yield changed


def _sub(pattern: str, new: str | Callable[[re.Match[str]], str]) -> Callable[[str], str]:
    compiled = re.compile(pattern)

    def change(body: str) -> str:
        return compiled.sub(new, body)

    return change


def _once(pattern: str, new: str | Callable[[re.Match[str]], str]) -> Callable[[str], str]:
    compiled = re.compile(pattern)

    def change(body: str) -> str:
        return compiled.sub(new, body, count=1)

    return change


def _improper(found: re.Match[str]) -> str:
    """`11/2` as the `1 1/2` it was meant to be, or `5/2` as 2 1/2; as it stands if it is no kitchen fraction."""
    above, below = found.group(1), int(found.group(2))
    if below not in _KITCHEN:
        return found.group()
    for cut in (1, 2):
        whole, part = above[:-cut], above[-cut:]
        if whole and part[0] != "0" and int(part) < below:
            return f"{int(whole)} {part}/{below}"
    value = Fraction(int(above), below)
    if value < 1 or value.denominator not in {1, *_KITCHEN}:
        return found.group()
    whole_part, rest = divmod(value, 1)
    return f"{whole_part} {rest}" if rest else f"{whole_part}"


def _spelt(found: re.Match[str]) -> str:
    return f"{found.group(1)}{_SPELT[found.group(2).casefold()]} "


_WORDS_FOR_NUMBERS = "|".join(sorted(_SPELT, key=len, reverse=True))
_AMOUNTS = ("take", "header", "pack", "process", "keep", "evidence")

WAYS = (
    Way(_AMOUNTS, _sub(r"(\d)-(\d{1,2}/\d{1,2})(?!\d)", r"\1 \2"), "A mixed number is written with a blank."),
    Way(
        _AMOUNTS,
        _sub(rf"({_NUMBER})[ \t]*[-‐‑–—−][ \t]*(?={_NUMBER})", r"\1 to "),
        "A range is written with `to`.",
    ),
    Way(("process",), _sub(r"(\d),(\d{3})\b", r"\1\2"), "A number is written without a comma."),
    Way(_AMOUNTS, _sub(r"(?<!\d)(\d{1,3}),(\d{3})(?!\d)", r"\1\2"), "A number is written without a comma."),
    Way(_AMOUNTS, _sub(r"(\d),(\d{1,2})(?![\d])", r"\1.\2"), "Decimals are written with a point."),
    Way(
        _AMOUNTS,
        _sub(r"(?<![\d/.])(\d{1,3})/(\d{1,2})(?![\d/])", _improper),
        "A fraction is smaller than one; whole numbers stand before it, with a blank.",
    ),
    Way(("take",), _sub(rf"[ \t]+(?:plus|and|&)[ \t]+(?={_NUMBER})", " + "), "Amounts are added with `+`."),
    Way(
        ("take",),
        _once(rf"[ \t]*\((?:about|or|approx\.?)?[ \t]*({_NUMBER}[ \t]*[A-Za-z][A-Za-z ]*?)\)[ \t]*", r" = \1 "),
        "The same amount in another measure is written with `=`, before the name.",
    ),
    Way(
        ("take",),
        _once(rf"^(.*?{_NUMBER}[ \t]+[A-Za-z-]+)[ \t]+([^\d=]*?)[ \t]*=[ \t]*({_NUMBER}[ \t]*[A-Za-z]+(?:[ \t]oz)?)$", r"\1 = \3 \2"),
        "The same amount in another measure stands before the name.",
    ),
    Way(
        ("take",),
        _once(r"(?<![\d.])(\d{1,2}(?:\.\d{1,4})?)[ \t]*%[ \t]+([^\W\d_][^,]*)(.*)$", r"\2, \1 %\3"),
        "The strength stands behind the name, after a comma.",
    ),
    Way((), _sub(r"(?<=[A-Za-z])\.(?=[ \t]|$)", ""), "A word of the format has no full stop."),
    Way(_AMOUNTS, _once(rf"(^|[ \t])(?i:({_WORDS_FOR_NUMBERS}))[ \t]+", _spelt), "Numbers are written in digits."),
    Way(("take",), _sub(r"(^|[ \t])(?:about|approximately|approx\.?|ca\.?)[ \t]+(?=\d)", r"\1"), "An amount is stated, or stated as a range."),
    Way(("process",), _sub(r"\babove[ \t]+[\d,]+[ \t]*(?:ft|feet|m|metres|meters)\b", "above"), "The last band is open: it ends in `above` alone."),
    Way(
        ("process",),
        _sub(r"\d{1,3}[ \t]+to[ \t]+(\d{1,3}[ \t]+[A-Za-z]+)(?=[ \t]*(?:,|$))", r"\1 to 1000 ft"),
        "A time is one number, with the altitude up to which it was tested.",
    ),
    Way(
        ("process",),
        _sub(r"\d{1,3}[ \t]+to[ \t]+(\d{1,3}[ \t]+[A-Za-z]+)(?=[ \t]+(?:to|above|at)\b)", r"\1"),
        "A time is one number, not a range.",
    ),
    Way(
        ("process",),
        _sub(r"(\d{1,3}[ \t]+(?:min|minutes?|h|hours?))(?=[ \t]*(?:,|$))", r"\1 to 1000 ft"),
        "A time is stated with the altitude up to which it was tested, or with `above`.",
    ),
    Way(("header",), _once(r"^formula[ \t]+(?=\S)", "formula NEW-1 "), "A formula has a code before its title: capitals or digits, with a hyphen."),
    Way((), _once(r"^([^\s:]+)[ \t]*:[ \t]*", r"\1 "), "The first word has no colon behind it."),
    Way((), _once(r"[ \t]*[.,;:]$", ""), "Nothing stands behind the last word."),
    Way(_AMOUNTS, _sub(rf"(?<![\w.])({_NUMBER})(?=[^\W\d_])", lambda m: f"{m.group(1).rstrip()} "), "A blank stands between a number and its unit."),
    Way(("take",), _sub(r"\b(can|box|package|pouch|bottle|jar|tin|packet|envelope|bag)s?[ \t]+(?=\d)", r"\1 of "), "The size of a package is written with `of`."),
    Way(("take",), _once(rf"({_NUMBER}[ \t]+[A-Za-z-]+[ \t]+)of[ \t]+(?=[^\W\d_])", r"\1"), "No `of` stands before the name."),
    Way(("take",), _once(r"^(.*?\d[ \t]+[A-Za-z]+)[ \t]+([^\d,]+?)[ \t]+(per[ \t]+[\w ]+?)((?:,.*)?)$", r"\1 \3 \2\4"), "What an amount is for stands before the name."),
    Way((), _sub(r"[ \t]*(?:°|º|degrees?)[ \t]*(?=[FCfc]\b)", " "), "Degrees are written without a sign."),
    Way(("pack",), _sub(r"(\d)[ \t]*(?:\"|″|”)", r"\1 in"), "Inches are written `in`."),
    Way(_AMOUNTS, _sub(r"(?<![\w])[lI](?=[ \t]*[\d/ ])|(?<=\d)[lI](?=[\d \t/])", "1"), "A letter stands among the digits."),
    Way(_AMOUNTS, _sub(r"(?<=\d)[oO](?=[\d \t])", "0"), "A letter stands among the digits."),
)  # fmt: skip
