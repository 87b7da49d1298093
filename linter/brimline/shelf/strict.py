"""Reads what a collection keeps about itself, strictly: plain YAML or JSON, bounded, each key once, nothing built from it.

Every reader here is a pure function from bytes to plain values, so that a file can come from a folder, from a commit or
from a test alike.
"""

from collections.abc import Iterable, Mapping

from msgspec import Struct, field

# More than any of these files ever needs; a larger one is refused unread.
LARGEST = 8 * 1024 * 1024
# As deep as a list of entries that hold lists goes; far below what could exhaust Python's stack.
DEEPEST = 5
MOST_VALUES = 20_000
# The YAML library takes seconds for that much where it is mostly comments; more would hold up a run.
MOST_YAML = 512 * 1024


class Refused(Exception):
    """The file cannot be used; the message says why, fit to follow its name."""


class Yaml(Struct, frozen=True):
    """A YAML file as plain values, and the line (from 1) each value stands on, by its path of keys and numbers."""

    value: object
    lines: Mapping[tuple[object, ...], int] = field(default_factory=dict)

    def line(self, *path: object) -> int:
        """The line a value stands on; that of the nearest value around it if it has none of its own, 0 for none."""
        while path and path not in self.lines:
            path = path[:-1]
        return self.lines.get(path, 0)


def decoded(data: bytes) -> str:
    """The text of a file. Raises Refused if it is too large or not UTF-8."""
    if len(data) > LARGEST:
        raise Refused("is larger than 8 MiB")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise Refused("is not written in UTF-8") from None


def read_yaml(text: str, deepest: int = DEEPEST) -> Yaml:
    """A YAML text as the library reads it. Raises Refused.

    Anchors, aliases and tags are refused before anything is built from them: a short file of aliases can stand for
    millions of values.
    """
    from ruamel.yaml import YAML
    from ruamel.yaml.error import YAMLError
    from ruamel.yaml.events import AliasEvent, CollectionEndEvent, CollectionStartEvent, ScalarEvent

    if len(text) > MOST_YAML:
        raise Refused("is larger than 512 KiB")
    try:
        depth = values = 0
        for event in YAML(typ="safe", pure=True).parse(text):
            if isinstance(event, AliasEvent) or getattr(event, "anchor", None) or getattr(event, "tag", None):
                raise Refused(f"uses an anchor, an alias or a tag (line {event.start_mark.line + 1})")
            depth += isinstance(event, CollectionStartEvent) - isinstance(event, CollectionEndEvent)
            values += isinstance(event, CollectionStartEvent | ScalarEvent)
            if depth > deepest:
                raise Refused(f"nests its values too deep (line {event.start_mark.line + 1})")
            if values > MOST_VALUES:
                raise Refused(f"holds more than {MOST_VALUES:,} values")
        # Round trip, because it alone keeps the line of every value.
        loaded = YAML(typ="rt", pure=True).load(text)
    except YAMLError as error:
        mark = getattr(error, "problem_mark", None)
        line = f", line {mark.line + 1}" if mark else ""
        raise Refused(f"is not valid YAML{line}") from error
    except (ValueError, RecursionError) as error:
        raise Refused("holds a value that cannot be read, such as a date that no calendar has") from error
    lines: dict[tuple[object, ...], int] = {}
    return Yaml(_bare(loaded, (), lines), lines)


def _bare(value: object, path: tuple[object, ...], lines: dict[tuple[object, ...], int]) -> object:
    """A value of the library's own kinds as one of Python's; `lines` takes the line of every value in it."""
    place = getattr(value, "lc", None)
    if place is not None and place.line is not None:
        lines.setdefault(path, place.line + 1)
    if isinstance(value, Mapping):
        for key in value:
            if place is not None and key in (place.data or {}):
                lines[(*path, key)] = place.data[key][0] + 1
        return {_bare(key, (), {}): _bare(one, (*path, key), lines) for key, one in value.items()}
    if isinstance(value, list):
        return [_bare(one, (*path, number), lines) for number, one in enumerate(value)]
    for kind in (str, bool, int, float):
        if isinstance(value, kind):
            return kind(value)
    return value


def mapping(value: object, known: Iterable[str], where: str = "") -> dict[str, object]:
    """A mapping whose every key is known. Raises Refused, naming the nearest known key."""
    known = tuple(known)
    if not isinstance(value, dict):
        raise Refused(f"gives {where or 'its keys'} something that is not a list of keys with their values")
    for key in value:
        if key not in known:
            raise Refused(f"has an unknown key `{key}`{f' in {where}' if where else ''}; {nearest(str(key), known)}")
    return value


def words(value: object, key: str) -> str:
    """A text with one blank for every run of blanks. Raises Refused."""
    if not isinstance(value, str):
        raise Refused(f"gives `{key}` something that is not text; put it between quotation marks")
    if len(value) > 2000:
        raise Refused(f"gives `{key}` more than 2,000 letters")
    return " ".join(value.split())


def several(value: object, key: str) -> list[object]:
    """A list, or one value standing for a list of one. Raises Refused for a list of keys."""
    if isinstance(value, dict):
        raise Refused(f"gives `{key}` something that is not a list")
    return value if isinstance(value, list) else [value]


def nearest(word: str, known: tuple[str, ...]) -> str:
    """What to write instead of an unknown word."""
    from difflib import get_close_matches

    close = get_close_matches(word.lower().replace("_", "-"), known, n=1, cutoff=0.5)
    return f"write `{close[0]}`" if close else f"known are {', '.join(known)}"


def read_json(text: str) -> object:
    """A JSON text; each key once, no numbers that are none. Raises Refused."""
    import json

    try:
        return json.loads(text, object_pairs_hook=_once, parse_constant=_no_number)
    except RecursionError:
        raise Refused("nests its values too deep") from None
    except json.JSONDecodeError as error:
        raise Refused(f"is not valid JSON, line {error.lineno}") from None
    except ValueError:
        raise Refused("holds a number that cannot be read") from None


def _once(pairs: list[tuple[str, object]]) -> dict[str, object]:
    found = dict(pairs)
    if len(found) != len(pairs):
        twice = next(key for place, (key, _) in enumerate(pairs) if key in [one for one, _ in pairs[:place]])
        raise Refused(f"has `{twice}` twice")
    return found


def _no_number(word: str) -> object:
    raise Refused(f"holds {word}, which is no number")
