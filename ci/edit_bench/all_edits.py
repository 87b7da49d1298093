"""Enters every kind of edit into the list, in the order of the decision table's chapters."""

from edit_bench import (
    edits_acid,
    edits_added,
    edits_fruit,
    edits_heat,
    edits_honey,
    edits_jars,
    edits_keep,
    edits_pepper,
    edits_pieces,
    edits_record,
    edits_season,
    edits_set,
    edits_sugar,
    edits_swap,
    edits_vegetable,
)

MODULES = (
    edits_acid,
    edits_swap,
    edits_sugar,
    edits_honey,
    edits_vegetable,
    edits_pepper,
    edits_fruit,
    edits_pieces,
    edits_added,
    edits_season,
    edits_set,
    edits_heat,
    edits_jars,
    edits_keep,
    edits_record,
)
