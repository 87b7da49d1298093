"""Reads `collection.yaml`: a few plain lines by itself, anything more elaborate through the YAML library."""

import re
from collections.abc import Mapping
from fractions import Fraction
from pathlib import Path

from brimline.shelf.books import because
from brimline.shelf.values import Refusal, Settings

KEYS = ("name", "notice", "office", "altitude", "hold-back", "review-interval", "oldest-source-year", "set-aside")
MAY_HOLD_BACK = ("quality", "form")
# More than a settings file ever needs; a larger one is refused unread.
LARGEST = 8 * 1024 * 1024

# `key: words` and `key: [word, word]`, where words cannot be taken for a number, a date, a truth value or YAML's own
# signs. Every line of a file has to be one of these, blank or a comment; otherwise the library reads the file.
_BLANK = re.compile(r"[ ]*(?:#[^\x00-\x08\x0b-\x1f\x7f-\x9f]*)?")
_WORDS = r"[A-Za-z][\w ,;.!?()'/%-]*"
_PLAIN = re.compile(rf"([a-z-]+):[ ]+({_WORDS}|\d[\d,.]*[ ][a-z]+)[ ]*", re.ASCII)
_NUMBER = re.compile(r"([a-z-]+):[ ]+([1-9]\d{0,5})[ ]*", re.ASCII)
_LIST = re.compile(r"([a-z-]+):[ ]+\[[ ]*([a-z][a-z0-9/-]*(?:[ ]*,[ ]*[a-z][a-z0-9/-]*)*)[ ]*\][ ]*", re.ASCII)
_NOT_WORDS = frozenset({"true", "false", "yes", "no", "on", "off", "null", "y", "n"})

_INTERVAL = re.compile(r"([1-9]\d{0,2}) (months?|years?)", re.ASCII)
_ALTITUDE = re.compile(r"(\d{1,5}|\d{1,2},\d{3}) ?(ft|m)", re.ASCII)


class Refused(Exception):
    """The settings cannot be used; the message says why."""


def load_settings(file: Path, shown: str) -> tuple[Settings, Refusal | None]:
    """The settings in a `collection.yaml`, or why they cannot be used; `shown` is the path to name the file by."""
    try:
        with file.open("rb") as stream:
            data = stream.read(LARGEST + 1)
        if len(data) > LARGEST:
            raise Refused("is larger than 8 MiB")
        return settings(read_keys(data.decode("utf-8-sig"))), None
    except UnicodeDecodeError:
        reason = "is not written in UTF-8"
    except OSError as error:
        reason = because(error)
    except Refused as refused:
        reason = str(refused)
    return Settings(), Refusal(shown, reason, "Mend the settings; without them nobody knows what to hold back.")


def read_keys(text: str) -> Mapping[str, object]:
    """The keys and values of a settings file. Raises Refused if it is not a flat list of keys."""
    flat = flat_keys(text)
    return elaborate_keys(text) if flat is None else flat


def flat_keys(text: str) -> dict[str, object] | None:
    """The keys of a file made of plain lines only; None as soon as any line needs the YAML library."""
    keys: dict[str, object] = {}
    for line in text.replace("\r\n", "\n").split("\n"):
        if _BLANK.fullmatch(line):
            continue
        number, several = _NUMBER.fullmatch(line), _LIST.fullmatch(line)
        found = number or several or _PLAIN.fullmatch(line)
        if not found or found.group(1) in keys:
            return None
        words = [word.strip() for word in found.group(2).split(",")] if several else [found.group(2).rstrip()]
        if any(word.lower() in _NOT_WORDS for word in words):
            return None
        keys[found.group(1)] = words if several else int(words[0]) if number else words[0]
    return keys


def elaborate_keys(text: str) -> Mapping[str, object]:
    """The keys of a file as the YAML library reads them. Raises Refused.

    Aliases, anchors and tags are refused before anything is built from them: a short file of aliases can stand for
    millions of values.
    """
    from ruamel.yaml import YAML
    from ruamel.yaml.error import YAMLError
    from ruamel.yaml.events import AliasEvent, CollectionEndEvent, CollectionStartEvent

    yaml = YAML(typ="safe", pure=True)
    try:
        depth = 0
        for event in yaml.parse(text):
            if isinstance(event, AliasEvent) or getattr(event, "anchor", None) or getattr(event, "tag", None):
                raise Refused(f"uses an anchor, an alias or a tag (line {event.start_mark.line + 1})")
            depth += isinstance(event, CollectionStartEvent) - isinstance(event, CollectionEndEvent)
            if depth > 2:
                raise Refused(f"nests its values too deep (line {event.start_mark.line + 1})")
        loaded = yaml.load(text)
    except YAMLError as error:
        mark = getattr(error, "problem_mark", None)
        line = f", line {mark.line + 1}" if mark else ""
        raise Refused(f"is not valid YAML{line}") from error
    except ValueError as error:
        raise Refused("holds a value that cannot be read") from error
    if loaded is None:
        return {}
    if not isinstance(loaded, dict):
        raise Refused("is not a list of keys with their values, such as `name: Valley formulas`")
    return loaded


def settings(keys: Mapping[str, object]) -> Settings:
    """The settings that keys and values stand for. Raises Refused, naming the nearest known key or level."""
    for key in keys:
        if key not in KEYS:
            raise Refused(f"has an unknown key `{key}`; {_nearest(str(key), KEYS)}")
    return Settings(
        name=_words(keys, "name"),
        notice=_words(keys, "notice"),
        altitude_ft=_altitude(_words(keys, "altitude")),
        hold_back=_levels(keys.get("hold-back", [])),
        office=_words(keys, "office"),
        review_months=_months(_words(keys, "review-interval")),
        oldest_source_year=_year(keys.get("oldest-source-year")),
        set_aside=_folders(keys.get("set-aside", [])),
    )


def _words(keys: Mapping[str, object], key: str) -> str:
    value = keys.get(key, "")
    if not isinstance(value, str):
        raise Refused(f"gives `{key}` something that is not text; put it between quotation marks")
    return " ".join(value.split())


def _altitude(words: str) -> Fraction | None:
    if not words:
        return None
    found = _ALTITUDE.fullmatch(words)
    if not found:
        raise Refused(f"gives an altitude that cannot be read, `{words}`; write `5200 ft` or `1600 m`")
    number = Fraction(found.group(1).replace(",", ""))
    # One foot is 0.3048 m exactly (international foot).
    return number if found.group(2) == "ft" else number / Fraction("0.3048")


def _months(words: str) -> int | None:
    if not words:
        return None
    found = _INTERVAL.fullmatch(words)
    if not found:
        raise Refused(f"gives a review interval that cannot be read, `{words}`; write `36 months` or `3 years`")
    return int(found.group(1)) * (12 if found.group(2).startswith("year") else 1)


def _year(value: object) -> int | None:
    if value is None:
        return None
    if not isinstance(value, int) or not 1800 <= value <= 2999:
        raise Refused("gives `oldest-source-year` something that is not a year, such as 1988")
    return value


def _folders(value: object) -> tuple[str, ...]:
    """Folders of the collection, as relative paths with forward slashes."""
    several = [value] if isinstance(value, str) else value
    if not isinstance(several, list):
        raise Refused("gives `set-aside` something that is not a folder or a list of folders, such as `classroom`")
    names = [name.replace("\\", "/") if isinstance(name, str) else "" for name in several]
    for name in names:
        if ":" in name or not all(part.strip(". ") for part in name.split("/")):
            raise Refused(f"sets aside `{name}`; write a folder inside the collection, such as `classroom`")
    return tuple(dict.fromkeys(names))


def _levels(value: object) -> tuple[str, ...]:
    several = [value] if isinstance(value, str) else value
    if not isinstance(several, list):
        raise Refused("gives `hold-back` something that is not a list of levels, such as `[quality, form]`")
    for level in several:
        if level not in MAY_HOLD_BACK:
            raise Refused(f"holds back an unknown level `{level}`; {_nearest(str(level), MAY_HOLD_BACK)}")
    return tuple(dict.fromkeys(several))


def _nearest(word: str, known: tuple[str, ...]) -> str:
    from difflib import get_close_matches

    close = get_close_matches(word.lower().replace("_", "-"), known, n=1, cutoff=0.5)
    return f"write `{close[0]}`" if close else f"known are {', '.join(known)}"
