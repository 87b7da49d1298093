"""Changing the words of the steps along with the ingredients, so that an edit is as whole as an author would leave it."""

import re

from brimline.document.values import Line
from edit_bench.sheet import Sheet

# `lemon` is not spoken of where the words are lemon juice or lemon peel, nor `water` in boiling-water.
_END = r"(?![\w-])(?! (?:juice|peel|zest|rind)\b)"


def phrases(line: Line) -> list[str]:
    """What the steps may call the thing of a line, the longest first."""
    item = line.item.strip()
    last = item.split()[-1]
    found = [item, item.rstrip("s"), f"{item}s", last, last.rstrip("s"), f"{last}s"]
    if last.endswith("ies"):
        found.append(f"{last[:-3]}y")
    return list(dict.fromkeys(word for word in found if len(word) > 2))


def _pattern(phrase: str) -> re.Pattern[str]:
    return re.compile(rf"(?<![\w-]){re.escape(phrase)}{_END}", re.IGNORECASE)


def mentions(sheet: Sheet, line: Line) -> bool:
    """Whether any step speaks of the thing of a line."""
    return any(_pattern(phrase).search(step) for phrase in phrases(line) for step in sheet.steps)


def reworded(steps: tuple[str, ...], line: Line, name: str) -> tuple[str, ...]:
    """The steps with another name for the thing of a line, wherever its longest name in them stands."""
    for phrase in phrases(line):
        pattern = _pattern(phrase)
        if any(pattern.search(step) for step in steps):
            return tuple(pattern.sub(name, step) for step in steps)
    return steps


def without(steps: tuple[str, ...], line: Line) -> tuple[str, ...]:
    """The steps without any mention of the thing of a line."""
    for phrase in phrases(line):
        name = rf"(?<![\w-]){re.escape(phrase)}{_END}"
        patterns = (rf",? and (?:the |a )?{name}(?=[.,;])", rf"(?:the |a )?{name}, ", rf"(?:the |a )?{name} and ")
        for pattern in (*patterns, rf",? (?:with |in |of )?(?:the |a )?{name}", name):
            steps = tuple(re.sub(pattern, "", step, flags=re.IGNORECASE).strip() or "Stir." for step in steps)
    return steps
