"""What holds a formula back: said once, for the review and for whatever compares two reviews."""

from brimline.findings import Finding, Level
from brimline.shelf import Settings

_ALWAYS = frozenset(level for level in Level if level.holds_back)
# A standard of identity says what a name promises a buyer; what a collection holds back is another matter.
_NEVER = "identity/"


def held_levels(settings: Settings) -> frozenset[Level]:
    """The levels that hold back in a collection: the three that always do, and those it adds."""
    return _ALWAYS | {Level[word.upper()] for word in settings.hold_back}


def holds(one: Finding, standing: str, levels: frozenset[Level]) -> bool:
    """Whether a finding holds back a formula of this standing: never a draft, never where a variance lets it stand."""
    return standing != "draft" and one.varied is None and one.level in levels and not one.rule.startswith(_NEVER)
