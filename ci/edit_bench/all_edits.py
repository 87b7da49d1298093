"""Enters every kind of edit into the list, in the order of the decision table's chapters."""

from edit_bench import (
    edits_acid,
    edits_added,
    edits_fruit,
    edits_heat,
    edits_honey,
    edits_keep,
    edits_set,
    edits_sugar,
    edits_vegetable,
)

MODULES = (
    edits_acid,
    edits_sugar,
    edits_honey,
    edits_vegetable,
    edits_fruit,
    edits_added,
    edits_set,
    edits_heat,
    edits_keep,
)
