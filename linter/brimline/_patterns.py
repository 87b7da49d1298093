"""Patterns that are compiled when they are first used, so that starting does not pay for those a formula never needs."""

import re
from typing import Any, cast

_METHODS = ("search", "match", "fullmatch", "finditer", "findall", "split", "sub", "subn")


class _Later:
    """Stands for a compiled pattern until one of its methods is asked for; from then on it has them as its own."""

    def __init__(self, text: str, flags: int) -> None:
        self.pattern = text
        self._flags = flags

    def __getattr__(self, name: str) -> Any:
        if name not in _METHODS:
            raise AttributeError(name)
        made = re.compile(self.pattern, self._flags)
        for method in _METHODS:
            setattr(self, method, getattr(made, method))
        return getattr(made, name)


def pattern(text: str, flags: int = 0) -> re.Pattern[str]:
    """A pattern as `re.compile` makes it, compiled at the first call of one of its methods.

    A text that is no pattern raises then and not before; a test compiles every one.
    """
    return cast("re.Pattern[str]", _Later(text, flags))
