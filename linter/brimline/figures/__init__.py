"""The published numbers, and the table that says what a kind of edit means."""

from brimline.figures.decisions import rows
from brimline.figures.published import (
    conflicts,
    factor,
    gel_temperature,
    process_tables,
    published,
    published_ids,
    source,
)
from brimline.figures.table import entries
from brimline.figures.weights import state_key, weigh

__all__ = [
    "conflicts",
    "entries",
    "factor",
    "gel_temperature",
    "process_tables",
    "published",
    "published_ids",
    "rows",
    "source",
    "state_key",
    "weigh",
]
