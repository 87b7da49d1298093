"""The rows of the decision table, and those that no single formula can show."""

from brimline.figures import rows

# Seen only by comparing a file with its own earlier revision, which a review of formulas does not have.
ELSEWHERE = {
    "standing-raised": "a change of standing shows only against the earlier revision of the same file",
    "source-gone": "evidence that is gone shows only against the earlier revision of the same file",
}


def decided() -> tuple[str, ...]:
    """The ids of all rows, in the order of the table."""
    return tuple(rows())


def sole_levels() -> dict[str, frozenset[str]]:
    """For each row the level words it may have."""
    return {name: frozenset(word for _, word in row.levels) for name, row in rows().items()}
