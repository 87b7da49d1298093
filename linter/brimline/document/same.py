"""Whether two texts say the same: the same formula, the same comments, the same faults; where they stand is no matter."""

from collections import Counter
from typing import TYPE_CHECKING, Any

from brimline.document.plain import to_json
from brimline.document.values import Document

if TYPE_CHECKING:
    from brimline.document import Read


def difference(one: "Read", other: "Read") -> str:
    """What two readings do not have in common, fit to follow "the two differ in"; empty if they say the same.

    Rows of `evidence` and the reason of `retired` are kept as written, so that there runs of blanks count as one.
    """
    if one.document is None or other.document is None:
        return "" if one.document is other.document else "whether they can be read"
    before, after = _said(one.document), _said(other.document)
    if before != after:
        key = next(key for key in (*before, *after) if before.get(key) != after.get(key))
        return f"`{key.replace('_', '-')}`"
    if [text for _, text in one.document.comments] != [text for _, text in other.document.comments]:
        return "their comments"
    if Counter((found.level, found.rule) for found in one.findings) != Counter(
        (found.level, found.rule) for found in other.findings
    ):
        return "what cannot be read in them"
    return ""


def _said(document: Document) -> dict[str, Any]:
    """A document as JSON, with one blank for every run of blanks in what is kept as written."""
    out = to_json(document)
    if "retired" in out:
        out["retired"] = _squeezed(out["retired"])
    for row in out.get("evidence", ()):
        row["text"] = _squeezed(row.get("text", ""))
    return out


def _squeezed(text: str) -> str:
    return ", ".join(" ".join(part.split()) for part in text.split(","))
