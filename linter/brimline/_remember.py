"""Answers that are remembered, because formulas say the same things in the same words."""

from collections.abc import Callable
from functools import lru_cache
from typing import Any, TypeVar, cast

Asked = TypeVar("Asked", bound=Callable[..., Any])
# How many answers of one function are kept; how many it is changes the time, never an answer.
MANY = 8192


def remembered(function: Asked) -> Asked:
    """The function with its answers kept; what it is asked must be hashable, and its answer depend on nothing else."""
    return cast(Asked, lru_cache(maxsize=MANY)(function))
