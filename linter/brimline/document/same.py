"""Whether two texts say the same: the same formula, the same comments, the same faults; where they stand is no matter."""

from collections import Counter
from typing import TYPE_CHECKING, Any

from brimline.document.plain import to_json

if TYPE_CHECKING:
    from brimline.document import Read


def difference(one: "Read", other: "Read") -> str:
    """What two readings do not have in common, fit to follow "the two differ in"; empty if they say the same.

    Runs of blanks count as one blank, also behind a comma or none, because rows of `evidence` are kept as written.
    """
    if one.document is None or other.document is None:
        return "" if one.document is other.document else "whether they can be read"
    before, after = to_json(one.document), to_json(other.document)
    if before != after:
        for key in sorted(before.keys() | after.keys()):
            if squeezed(before.get(key)) != squeezed(after.get(key)):
                return f"`{key.replace('_', '-')}`"
    if [text for _, text in one.document.comments] != [text for _, text in other.document.comments]:
        return "their comments"
    if Counter((found.level, found.rule) for found in one.findings) != Counter(
        (found.level, found.rule) for found in other.findings
    ):
        return "what cannot be read in them"
    return ""


def squeezed(value: Any) -> Any:
    """A JSON value with one blank for every run of blanks in its texts, and none before a comma."""
    if isinstance(value, str):
        return ", ".join(" ".join(part.split()) for part in value.split(","))
    if isinstance(value, list):
        return [squeezed(one) for one in value]
    if isinstance(value, dict):
        return {key: squeezed(one) for key, one in value.items()}
    return value
