"""Compiles the words of cooks by what they mean, with every form of a noun and a verb, for the reader of the steps."""

import re
from pathlib import Path
from typing import Any

from making._tables import MADE, TableError, dumped, load

# A phrase is a list of words and of choices; a choice is a list of phrases.
Phrase = list[Any]
_PART = re.compile(r"[(|)]|[^\s(|)]+")
_ONE_BEAT = re.compile(r"[^aeiou]*[aeiou][bdgklmnprt]$")
_VOWELS = "aeiou"
# What stands inside one of these is not read by itself: a waxed paper is no wax, a dutch oven no oven.
_HIDE = (
    "nothing",
    "plainneg",
    "notneedless",
    "beforefill",
    "forcepast",
    "oldclosure",
    "coverstuff",
    "othercontainer",
    "restartv",
)


def make(root: Path) -> dict[str, bytes]:
    """The dictionary: single words at once, phrases by their first word, and the meanings made of others."""
    table = load(root, "speech.yaml")
    forms: dict[str, list[str]] = table["irregular"]
    single: dict[str, set[str]] = {}
    patterns: list[Any] = []
    for kind, change in (("things", _plural), ("acts", _verb), ("words", None)):
        for name, rows in table[kind].items():
            for row in rows:
                phrase = read(row)
                if change is not None:
                    phrase = changed(phrase, change, forms, last=kind == "things")
                _enter(name, phrase, single, patterns)
    firsts: dict[str, list[int]] = {}
    for number, (_, phrase) in enumerate(patterns):
        for word in sorted(_firsts(phrase)[0]):
            firsts.setdefault(word, []).append(number)
    names = {name for kind in ("things", "acts", "words") for name in table[kind]} | set(table["joined"])
    made = {
        "single": {word: " ".join(sorted(single[word])) for word in sorted(single)},
        "patterns": [[name, phrase, sorted(_seconds(phrase)[0])] for name, phrase in patterns],
        "firsts": {word: firsts[word] for word in sorted(firsts)},
        "base": sorted({word for kind in table["acts"].values() for row in kind for word in _firsts(read(row))[0]}),
        "hide": sorted({*table["things"], *_HIDE}),
        "joined": {name: [_joined(one, names) for one in many] for name, many in table["joined"].items()},
    }
    return {f"{MADE}/speech.json": dumped(made)}


def _joined(row: str, names: set[str]) -> list[Any]:
    parts = row.split()
    if len(parts) not in (1, 3) or not set(parts[::2]) <= names:
        raise TableError(f"speech.yaml: `{row}` is no meaning, nor two with a number between")
    if len(parts) == 1:
        return [parts[0], 0, "", False]
    return [parts[0], int(parts[1].lstrip("~")), parts[2], "~" in parts[1]]


def read(row: str) -> Phrase:
    """A phrase as it is written, as nested lists."""
    parts = _PART.findall(row.replace("'s", " 's").replace("'re", " 're").replace("'ve", " 've").replace("'ll", " 'll"))
    phrase, rest = _sequence(parts)
    if rest:
        raise TableError(f"speech.yaml: a bracket is left over in `{row}`")
    return phrase


def _sequence(parts: list[str]) -> tuple[Phrase, list[str]]:
    out: Phrase = []
    while parts and parts[0] not in ("|", ")"):
        if parts[0] == "(":
            choice, parts = [], parts[1:]
            while True:
                one, parts = _sequence(parts)
                choice.append(one)
                if not parts:
                    raise TableError("speech.yaml: a bracket is not closed")
                end, parts = parts[0], parts[1:]
                if end == ")":
                    break
            out.append(choice)
        else:
            out.append(parts[0])
            parts = parts[1:]
    return out, parts


def changed(phrase: Phrase, change: Any, forms: dict[str, list[str]], last: bool) -> Phrase:
    """The phrase with every form of its last or first word."""
    if not phrase:
        return phrase
    at = len(phrase) - 1 if last else 0
    part = phrase[at]
    if isinstance(part, str):
        new: Any = [[form] for form in forms.get(part, change(part))] or [[part]]
    else:
        new = [changed(one, change, forms, last) for one in part]
        if [] in part and len(phrase) > 1:
            # What may be left out leaves the word beside it in its place.
            rest = phrase[:at] if last else phrase[at + 1 :]
            short = changed(rest, change, forms, last)
            long = [one for one in new if one]
            whole = [[*rest, long] if last else [long, *rest], short]
            return [whole]
    return [*phrase[:at], new, *phrase[at + 1 :]]


def _plural(word: str) -> list[str]:
    if word.endswith("y") and word[-2] not in _VOWELS:
        return [word, f"{word[:-1]}ies"]
    ending = "es" if word.endswith(("s", "x", "ch", "sh", "to", "go")) else "s"
    return [word, word + ending]


def _verb(word: str) -> list[str]:
    if word.endswith("e"):
        stem = word[:-1]
        return [word, f"{word}s", f"{word}d", f"{stem}ing"]
    if word.endswith("y") and word[-2] not in _VOWELS:
        return [word, f"{word[:-1]}ies", f"{word[:-1]}ied", f"{word}ing"]
    double = word + word[-1] if _ONE_BEAT.match(word) else word
    ending = "es" if word.endswith(("s", "x", "ch", "sh", "z", "go")) else "s"
    return [word, word + ending, f"{double}ed", f"{double}ing"]


def _enter(name: str, phrase: Phrase, single: dict[str, set[str]], patterns: list[Any]) -> None:
    if _firsts(phrase)[1]:
        raise TableError(f"speech.yaml: a phrase of {name} may be nothing at all")
    for word in alone(phrase):
        single.setdefault(word, set()).add(name)
    if _longest(phrase) > 1:
        patterns.append([name, phrase])


def _firsts(phrase: Phrase) -> tuple[set[str], bool]:
    out: set[str] = set()
    for part in phrase:
        if isinstance(part, str):
            return out | {part}, False
        found = [_firsts(one) for one in part]
        out |= {word for words, _ in found for word in words}
        if not any(empty for _, empty in found):
            return out, False
    return out, True


def _seconds(phrase: Phrase) -> tuple[set[str], bool]:
    """The words that can stand second, and whether the phrase can end with its first."""
    out: set[str] = set()
    ends = False
    for at, part in enumerate(phrase):
        found = (set[str](), True) if isinstance(part, str) else _several([_seconds(one) for one in part if one])
        out |= found[0]
        if found[1]:
            words, empty = _firsts(phrase[at + 1 :])
            out |= words
            ends = ends or empty
        if isinstance(part, str) or not any(_firsts(one)[1] for one in part):
            break
    return out, ends


def _several(found: list[tuple[set[str], bool]]) -> tuple[set[str], bool]:
    return {word for words, _ in found for word in words}, any(ends for _, ends in found)


def _longest(phrase: Phrase) -> int:
    return sum(1 if isinstance(part, str) else max(_longest(one) for one in part) for part in phrase)


def alone(phrase: Phrase) -> set[str]:
    """The single words that are the whole phrase."""
    words: set[str] = {""}
    for part in phrase:
        found = {part} if isinstance(part, str) else {word for one in part for word in alone(one) | _void(one)}
        words = {f"{a} {b}".strip() for a in words for b in found}
        words = {word for word in words if " " not in word}
    return {word for word in words if word}


def _void(phrase: Phrase) -> set[str]:
    return {""} if _firsts(phrase)[1] else set()
