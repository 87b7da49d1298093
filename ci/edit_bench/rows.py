"""The rows of the decision table."""

from brimline.figures import rows


def decided() -> tuple[str, ...]:
    """The ids of all rows, in the order of the table."""
    return tuple(rows())


def sole_levels() -> dict[str, frozenset[str]]:
    """For each row the level words it may have."""
    return {name: frozenset(word for _, word in row.levels) for name, row in rows().items()}
