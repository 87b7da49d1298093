"""File names that make trouble when a collection is copied to another computer."""

import re
import unicodedata
from collections.abc import Iterable

# Facts of the file systems: reserved device names and forbidden characters of Windows; common practice, no source.
_RESERVED = re.compile(r"(?:con|prn|aux|nul|conin\$|conout\$|(?:com|lpt)[0-9¹²³])(?: *\..*)?", re.IGNORECASE)
_FORBIDDEN = re.compile(r'[<>:"|?*\\\x00-\x1f\x7f]')
LONGEST = 80
# Windows allows 260 characters for the whole way from the drive; half of it is left to where a person keeps the copy.
LONGEST_WAY = 130


def awkward(paths: Iterable[str]) -> dict[str, str]:
    """For each path that makes trouble, why, fit to follow "The file name"; other paths are left out.

    A path has forward slashes and is relative, so that every part of it is a name the collection chose.
    """
    several = tuple(paths)
    twins: dict[str, str] = {}
    reasons: dict[str, str] = {}
    # Folders come again with every file in them.
    known: dict[str, str] = {}
    for path in several:
        if path in reasons:
            continue
        parts = path.split("/")
        for part in parts:
            if part not in known:
                known[part] = _name_trouble(part)
        reason = next(filter(None, (known[part] for part in parts)), "")
        if not reason and len(path) > LONGEST_WAY:
            reason = f"and those of its folders are longer than {LONGEST_WAY} letters together"
        # A folder that differs in capitals only is one folder on one system and two on another.
        for way in ("/".join(parts[: number + 1]) for number in range(len(parts))):
            twin = twins.setdefault(_alike(way), way)
            if twin != way:
                reason = f"differs from {twin} only in {_how(twin, way)}"
        if reason:
            reasons[path] = reason
    return reasons


def _alike(way: str) -> str:
    """What a system that does not tell capitals or the two ways of writing an accent apart takes a name for."""
    return unicodedata.normalize("NFC", way).casefold() if not way.isascii() else way.lower()


def _how(one: str, other: str) -> str:
    same = unicodedata.normalize("NFC", one) == unicodedata.normalize("NFC", other)
    return "how an accent is written" if same else "small and capital letters"


def _name_trouble(name: str) -> str:
    if _RESERVED.fullmatch(name):
        return f"{name} is a word that Windows keeps for itself"
    if odd := _FORBIDDEN.search(name):
        return f"holds a character ({_call(odd.group())}) that Windows does not allow"
    if name.endswith((".", " ")) and name not in {".", ".."}:
        return "ends in a point or a blank, which Windows drops"
    if any(0xD800 <= ord(letter) < 0xE000 for letter in name):
        return "is not written in UTF-8"
    if len(name) > LONGEST:
        return f"is longer than {LONGEST} letters"
    return ""


def _call(letter: str) -> str:
    return letter if letter.isprintable() else f"U+{ord(letter):04X}"
