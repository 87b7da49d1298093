"""Patterns that are compiled late are patterns: a slip in one shows here and not at a cook's desk."""

import importlib
import pkgutil
import re

import brimline
from brimline import _patterns


def test_every_pattern_that_is_compiled_later_is_a_pattern() -> None:
    found = 0
    for module in pkgutil.walk_packages(brimline.__path__, "brimline."):
        if module.name.endswith("__main__"):
            continue
        for value in vars(importlib.import_module(module.name)).values():
            for one in value if isinstance(value, tuple) else (value,):
                if isinstance(one, _patterns._Later):
                    found += 1
                    re.compile(one.pattern, one._flags)
    assert found > 40
