"""The difference a request makes as JSON, in the shape that `schema/findings.schema.json` publishes."""

from collections.abc import Mapping

from brimline.findings import Level
from brimline.gate.values import Gated
from brimline.report.data import VERSION, as_text, refusal_data, reviewed_data


def gate_data(gated: Gated, tool: str, root: str, commits: Mapping[str, str], bases: tuple[str, ...]) -> str:
    """The difference as one JSON text in ASCII.

    `commits` are the hashes of `base` and `head`, with `head` empty for the working tree; `bases` those of the last
    commits that both have in common.
    """
    new = [finding for one in gated.all for finding in one.findings]
    return as_text(
        {
            "report": "gate",
            "version": VERSION,
            "tool": tool,
            "root": root or ".",
            "base": commits["base"],
            "head": commits["head"],
            "in_common": list(bases),
            "collections": list(gated.collections),
            "notices": list(dict.fromkeys(gated.notices)),
            "held_back": gated.held_back,
            "counts": {level.word: sum(one.level is level for one in new) for level in Level},
            "known": gated.known,
            "mended": gated.mended,
            "files": [reviewed_data(one) for one in gated.files],
            "formulas": [reviewed_data(one) for one in gated.formulas],
            "changed": list(gated.changed),
            "dependents": list(gated.dependents),
            "removed": list(gated.removed),
            "renamed": [{"from": old, "to": new} for old, new in gated.renamed],
            "set_aside": list(gated.aside),
            "notes": list(gated.notes),
            "refusals": [refusal_data(one) for one in gated.refusals],
        }
    )
