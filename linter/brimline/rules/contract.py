"""How a rule is written and registered: the decorator, the case a rule is handed, the ordered register.

A rule is a module-level generator function in its group's file. Its docstring is what `why` prints: the first
paragraph says what must hold, the second why it matters in one sentence. It names the rows of the decision table it
decides and takes level, harm and sources from them; it says what and where, and leaves the rest to the engine.
"""

from collections.abc import Callable, Iterator
from functools import cache

from msgspec import Struct

from brimline.findings import Flag
from brimline.moves.values import Case

Check = Callable[[Case], Iterator[Flag]]

GROUPS = (
    "writing",
    "kind",
    "acid",
    "sugar",
    "low-acid",
    "set",
    "jar",
    "heat",
    "keep",
    "practice",
    "yield",
    "evidence",
    "gate",
    "identity",
)


class Rule(Struct, frozen=True):
    """A registered rule: name `group/name`, the rows it decides, the check, what must hold, and why it matters."""

    name: str
    decides: tuple[str, ...]
    check: Check
    must: str
    why: str

    @property
    def group(self) -> str:
        """The part of the name before the slash."""
        return self.name.partition("/")[0]


_register: dict[str, Rule] = {}


def rule(name: str, decides: tuple[str, ...]) -> Callable[[Check], Check]:
    """Register a check as a rule.

    Raises ValueError if the name is taken, the group unknown, no row is decided, or the docstring lacks its two
    paragraphs (what must hold; why it matters).
    """

    def register(check: Check) -> Check:
        parts = [" ".join(part.split()) for part in (check.__doc__ or "").strip().split("\n\n")]
        must, why = [*parts, ""][:2]
        if name in _register or name.partition("/")[0] not in GROUPS:
            raise ValueError(f"rule {name!r}: the name is taken or its group is not one of {', '.join(GROUPS)}")
        if not (decides and must and why):
            raise ValueError(f"rule {name!r}: it must decide a row and say in two paragraphs what must hold and why")
        _register[name] = Rule(name, decides, check, must, why)
        registered.cache_clear()
        return check

    return register


@cache
def registered() -> tuple[Rule, ...]:
    """All rules, by group in the order of GROUPS, then by name."""
    return tuple(sorted(_register.values(), key=lambda r: (GROUPS.index(r.group), r.name)))
