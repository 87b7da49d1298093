"""The rules, one file per hazard; importing this package registers them all in a fixed order."""

from brimline.rules import (
    acid,
    acid_food,
    acid_jar,
    acid_kind,
    additive,
    evidence,
    fruit,
    honey,
    identity,
    jar,
    keep,
    kind,
    low_acid,
    low_acid_open,
    method,
    pectin,
    practice,
    process,
    sugar,
    thickness,
    times,
    writing,
)
from brimline.rules.contract import GROUPS, Rule, registered

MODULES = (
    acid,
    acid_food,
    acid_jar,
    acid_kind,
    additive,
    evidence,
    fruit,
    honey,
    identity,
    jar,
    keep,
    kind,
    low_acid,
    low_acid_open,
    method,
    pectin,
    practice,
    process,
    sugar,
    thickness,
    times,
    writing,
)

__all__ = ["GROUPS", "MODULES", "Rule", "registered"]
