"""Reads `collection.yaml`: a few plain lines by itself, anything more elaborate through the YAML library."""

import re
from collections.abc import Mapping
from fractions import Fraction

from brimline._patterns import pattern
from brimline.document.own import Own
from brimline.shelf.strict import Refused, decoded, mapping, nearest, read_yaml, several, words
from brimline.shelf.values import Settings, Site

KEYS = (
    "name",
    "notice",
    "office",
    "altitude",
    "places",
    "hold-back",
    "review-interval",
    "oldest-source-year",
    "identity",
    "ingredients",
    "set-aside",
)
MAY_HOLD_BACK = ("quality", "form")
# Places that have standards of identity here (figures/tables/identity.yaml).
IDENTITY = ("US", "Codex", "EU", "UK", "France", "Switzerland")
# Extension offices review their publications every three to five years; a collection may ask for it sooner, never
# later. Source: publication review policies of Nevada and Maryland extension (read).
LONGEST_INTERVAL = 60
MOST_PLACES = 1000

# `key: words` and `key: [word, word]`, where words cannot be taken for a number, a date, a truth value or YAML's own
# signs. Every line of a file has to be one of these, blank or a comment; otherwise the library reads the file.
_BLANK = pattern(r"[ ]*(?:#[^\x00-\x08\x0b-\x1f\x7f-\x9f]*)?")
_WORDS = r"[A-Za-z][\w ,;.!?()'/%-]*"
_SIZE = r"\d[\d,.]*(?:[ ]to[ ]\d[\d,.]*)?[ ][a-z]+"
_PLAIN = pattern(rf"([a-z-]+):[ ]+({_WORDS}|{_SIZE})[ ]*", re.ASCII)
_NUMBER = pattern(r"([a-z-]+):[ ]+([1-9]\d{0,5})[ ]*", re.ASCII)
_WORD = r"[A-Za-z][A-Za-z0-9/-]*"
_LIST = pattern(rf"([a-z-]+):[ ]+\[[ ]*({_WORD}(?:[ ]*,[ ]*{_WORD})*)[ ]*\][ ]*", re.ASCII)
_NOT_WORDS = frozenset({"true", "false", "yes", "no", "on", "off", "null", "y", "n"})

_INTERVAL = pattern(r"([1-9]\d{0,2}) (months?|years?)", re.ASCII)
_FEET = r"(\d{1,5}|\d{1,2},\d{3})"
_ALTITUDE = pattern(rf"(?:{_FEET} to )?{_FEET} ?(ft|m)", re.ASCII)


def read_settings(data: bytes) -> Settings:
    """The settings in the bytes of a `collection.yaml`. Raises Refused."""
    return settings(read_keys(decoded(data)))


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
    """The keys of a file as the YAML library reads them. Raises Refused."""
    loaded = read_yaml(text).value
    if loaded is None:
        return {}
    if not isinstance(loaded, dict):
        raise Refused("is not a list of keys with their values, such as `name: Valley formulas`")
    return loaded


def settings(keys: Mapping[str, object]) -> Settings:
    """The settings that keys and values stand for. Raises Refused, naming the nearest known key or level."""
    mapping(dict(keys), KEYS)
    band = _altitude(_words(keys, "altitude"))
    places = _places(keys.get("places"))
    heights = [*band, *(one.altitude_ft for one in places)]
    return Settings(
        name=_words(keys, "name"),
        notice=_words(keys, "notice"),
        # The highest of all: the times of every formula have to reach the readers who live highest.
        altitude_ft=max(heights, default=None),
        lowest_ft=min(heights, default=None),
        places=places,
        hold_back=_chosen(keys, "hold-back", MAY_HOLD_BACK, "holds back an unknown level"),
        office=_words(keys, "office"),
        office_block=_lines(keys.get("office", "")),
        review_months=_months(_words(keys, "review-interval")),
        oldest_source_year=_year(keys.get("oldest-source-year")),
        set_aside=_folders(keys.get("set-aside", [])),
        identity=_chosen(keys, "identity", IDENTITY, "names an unknown standard of identity"),
        own=_ingredients(keys.get("ingredients")),
    )


def _words(keys: Mapping[str, object], key: str) -> str:
    return words(keys.get(key, ""), key)


def _lines(value: object) -> tuple[str, ...]:
    """The lines of a text, without blank ones."""
    return tuple(" ".join(line.split()) for line in str(value).splitlines() if line.strip())


def _altitude(text: str) -> tuple[Fraction, ...]:
    """No altitude, one, or the ends of a band, in feet."""
    if not text:
        return ()
    found = _ALTITUDE.fullmatch(text)
    if not found:
        raise Refused(
            f"gives an altitude that cannot be read, `{text}`; write `5200 ft`, `1600 m` or `3000 to 5200 ft`"
        )
    ends = [Fraction(one.replace(",", "")) for one in found.groups()[:2] if one]
    if ends != sorted(ends):
        raise Refused(f"gives a band of altitudes upside down, `{text}`")
    # One foot is 0.3048 m exactly (international foot).
    return tuple(one if found.group(3) == "ft" else one / Fraction("0.3048") for one in ends)


def _places(value: object) -> tuple[Site, ...]:
    """Places by name, each with its altitude, or with its altitude and the source of it."""
    if value is None:
        return ()
    if not isinstance(value, dict) or len(value) > MOST_PLACES:
        raise Refused(
            "gives `places` something that is not a list of names with altitudes, such as `Ferry Landing: 2150 ft`"
        )
    out = []
    for name, said in value.items():
        known = (
            {"altitude": said} if isinstance(said, str) else mapping(said, ("altitude", "source"), f"the place {name}")
        )
        height = _altitude(words(known.get("altitude", ""), "altitude"))
        if len(height) != 1:
            raise Refused(f"gives the place {name} no altitude, or several; write one, such as `2150 ft`")
        out.append(Site(words(name, "places"), height[0], words(known.get("source", ""), "source")))
    return tuple(out)


def _months(text: str) -> int | None:
    if not text:
        return None
    found = _INTERVAL.fullmatch(text)
    if not found:
        raise Refused(f"gives a review interval that cannot be read, `{text}`; write `36 months` or `3 years`")
    months = int(found.group(1)) * (12 if found.group(2).startswith("year") else 1)
    if months > LONGEST_INTERVAL:
        raise Refused(f"lets reviews wait {text}; {LONGEST_INTERVAL // 12} years are the longest, and it may be sooner")
    return months


def _year(value: object) -> int | None:
    if value is None:
        return None
    if isinstance(value, bool) or not isinstance(value, int) or not 1800 <= value <= 2999:
        raise Refused("gives `oldest-source-year` something that is not a year, such as 1988")
    return value


def _folders(value: object) -> tuple[str, ...]:
    """Folders of the collection, as relative paths with forward slashes."""
    if isinstance(value, dict):
        raise Refused("gives `set-aside` something that is not a folder or a list of folders, such as `classroom`")
    names = [one.replace("\\", "/") if isinstance(one, str) else "" for one in several(value, "set-aside")]
    for name in names:
        if ":" in name or not all(part.strip(". ") for part in name.split("/")):
            raise Refused(f"sets aside `{name}`; write a folder inside the collection, such as `classroom`")
    return tuple(dict.fromkeys(names))


def _chosen(keys: Mapping[str, object], key: str, known: tuple[str, ...], unknown: str) -> tuple[str, ...]:
    """Words of a closed list, each once."""
    found = several(keys.get(key, []), key)
    for word in found:
        if word not in known:
            raise Refused(f"{unknown} `{word}`; {nearest(str(word), known)}")
    return tuple(dict.fromkeys(str(word) for word in found))


def _ingredients(value: object) -> tuple[Own, ...]:
    if value is None:
        return ()
    from brimline.shelf.own import own_ingredients

    return own_ingredients(value)
