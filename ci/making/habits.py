"""Words without which a pattern of an unsafe habit cannot match: most steps hold none, and their patterns are not asked.

From `rules/practice.py` and `rules/standins.py`. A pattern's words are read from its parsed form: of what must stand one
after the other each part has its words, of alternatives all of theirs together, and what may be left out has none.
"""

from pathlib import Path
from typing import Any

MADE = "linter/brimline/made/habit_words.py"
_SHORTEST = 2
# A word that must stand, ("&", ...) of which all must hold, ("|", ...) of which one must; None if nothing is needed.
Need = str | tuple[Any, ...] | None

_HEAD = '''"""Words that a text must hold for a pattern to match, by pattern; written by ci/make.py, not by hand.

A word must stand in the text; of ("&", ...) all must hold, of ("|", ...) one.
"""

# ruff: noqa
# fmt: off

from typing import Any

'''


def make(_: Path) -> dict[str, bytes]:
    """The words of every pattern that shows an unsafe habit."""
    from brimline.rules import practice, standins

    habits = [*practice.HABITS, *standins.REPLACES, *standins.NO_LID, *standins.OTHER]
    patterns = sorted({text for habit in habits for text in (habit.words, habit.also) if text})
    rows = "".join(f"    {text!r}: {need!r},\n" for text in patterns if (need := needed(text)) is not None)
    return {MADE: f"{_HEAD}NEEDED: dict[str, Any] = {{\n{rows}}}\n".encode()}


def needed(pattern: str) -> Need:
    """What stands in every text that the pattern matches."""
    from re import _parser  # type: ignore[attr-defined]

    return _of_sequence(list(_parser.parse(pattern)))


def _of_sequence(items: list[tuple[Any, Any]]) -> Need:
    """The words of what stands one after the other; letters that touch make one word."""
    run, parts = "", list[Need]()
    for what, value in [*items, ("END", None)]:
        if str(what) == "LITERAL":
            run += chr(value)
            continue
        if len(run) >= _SHORTEST:
            parts.append(run)
        run = ""
        parts.append(_of_one(str(what), value))
    return _joined("&", parts)


def _of_one(what: str, value: Any) -> Need:
    if what == "SUBPATTERN":
        return _of_sequence(list(value[-1]))
    if what in ("MAX_REPEAT", "MIN_REPEAT", "POSSESSIVE_REPEAT") and value[0] >= 1:
        return _of_sequence(list(value[2]))
    if what == "BRANCH":
        parts = [_of_sequence(list(one)) for one in value[1]]
        # One alternative that needs nothing, and the whole needs nothing.
        return None if None in parts else _joined("|", parts)
    if what == "ASSERT" and value[0] == 1:
        return _of_sequence(list(value[1]))
    return None


def _joined(how: str, parts: list[Need]) -> Need:
    found = tuple(dict.fromkeys(part for part in parts if part is not None))
    if len(found) < 2:
        return found[0] if found else None
    return (how, *found)
