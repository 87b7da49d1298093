"""Compiles the words of cooks by what they mean, with every form of a noun and a verb, for the reader of the steps."""

import re
from pathlib import Path
from typing import Any

from making._tables import MADE, TableError, load

MADE_FILE = f"{MADE}/speech.py"

# A phrase is a list of words and of choices; a choice is a list of phrases.
Phrase = list[Any]
_PART = re.compile(r"[(|)]|[^\s(|)]+")
_ONE_BEAT = re.compile(r"[^aeiou]*[aeiou][bdgklmnprt]$")
_VOWELS = "aeiou"
_HEAD = '''"""The words of cooks by what they mean, from figures/tables/speech.yaml; written by ci/make.py, not by hand."""

# ruff: noqa
# fmt: off

from typing import Any

'''
# What stands inside one of these is not read by itself: a waxed paper is no wax, a dutch oven no oven.
_HIDE = ("nothing", "plainneg", "notneedless", "beforefill", "forcepast", "oldclosure", "coverstuff", "othercontainer", "restartv")


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
    rows: dict[str, Any] = {
        "SINGLE": {word: tuple(sorted(single[word])) for word in sorted(single)},
        "PATTERNS": tuple((name, _fixed(phrase)) for name, phrase in patterns),
        "FIRSTS": {word: tuple(firsts[word]) for word in sorted(firsts)},
        "BASE": {word: 1 for kind in table["acts"].values() for row in kind for word in sorted(_firsts(read(row))[0])},
        "HIDE": tuple(sorted({*table["things"], *_HIDE})),
        "JOINED": {name: tuple(_joined(one, names) for one in many) for name, many in table["joined"].items()},
    }
    return {MADE_FILE: (_HEAD + "".join(f"{name}: Any = {_lines(value)}\n" for name, value in rows.items())).encode()}


def _lines(value: Any) -> str:
    if isinstance(value, dict):
        return "{\n" + "".join(f"    {key!r}: {one!r},\n" for key, one in value.items()) + "}"
    return "(\n" + "".join(f"    {one!r},\n" for one in value) + ")"


def _fixed(phrase: Phrase) -> tuple[Any, ...]:
    return tuple(part if isinstance(part, str) else tuple(_fixed(one) for one in part) for part in phrase)


def _joined(row: str, names: set[str]) -> tuple[Any, ...]:
    parts = row.split()
    if len(parts) not in (1, 3) or not set(parts[::2]) <= names:
        raise TableError(f"speech.yaml: `{row}` is no meaning, nor two with a number between")
    return (parts[0],) if len(parts) == 1 else (parts[0], int(parts[1].lstrip("~")), parts[2], "~" in parts[1])


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
