"""Compiles the decision table with its reasons and advice, every basis resolved to the publication behind it."""

from pathlib import Path
from typing import Any

from making._tables import MADE, TableError, dumped, load
from making.published import compiled

LEVELS = {"unsafe", "untested", "quality", "form", "silent"}
HARMS = {"illness", "spoilage", "soft-set", "breakage", "flavour", "record"}
SIDES = {"edit", "alone", "both"}
LINES = {"edit", "levels", "harm", "basis", "side", "kinds", "note"}
JUDGEMENT = ["judgement", "our judgement, on the cautious side", "", "judgement"]


def keyed(written: Any, allowed: set[str], where: str) -> list[list[str]]:
    """One word, or one per key; `any` becomes the empty key.

    Raises TableError for a word that is not allowed.
    """
    pairs = written.items() if isinstance(written, dict) else [("any", written)] if written else []
    found = [["" if key == "any" else str(key), str(word)] for key, word in pairs]
    if unknown := {word for _, word in found} - allowed:
        raise TableError(f"{where}: {sorted(unknown)}")
    return found


def basis(id_: str, figures: dict[str, Any], where: str) -> list[str]:
    """The source behind a basis: its id, title, place and how.

    Raises TableError unless exactly one figure has the id.
    """
    if id_ == "judgement":
        return JUDGEMENT
    plain = id_.removeprefix("process_times/")
    key = figures["alone"].get(id_, id_)
    found = [table[name] for table, name in ((figures["processes"], plain), (figures["figures"], key)) if name in table]
    if len(found) != 1:
        raise TableError(f"{where}: {id_!r} is {len(found)} figures")
    return [id_, *found[0]["source"]]


def row(id_: str, raw: dict[str, Any], advice: dict[str, Any], figures: dict[str, Any]) -> dict[str, Any]:
    """One row as it is kept."""
    where = f"edits.yaml: {id_}"
    if unknown := set(raw) - LINES:
        raise TableError(f"{where}: unknown lines {sorted(unknown)}")
    levels = keyed(raw["levels"], LEVELS, where)
    instead = [str(choice) for choice in advice.get("instead", [])]
    if any(level != "silent" for _, level in levels) and not instead:
        raise TableError(f"{where}: no advice")
    side = raw.get("side", "edit")
    if side not in SIDES or not advice.get("why") or not raw.get("basis"):
        raise TableError(f"{where}: no side, reason or basis")
    return {
        "id": id_,
        "edit": str(raw["edit"]),
        "levels": levels,
        "harms": keyed(raw.get("harm"), HARMS, where),
        "basis": [basis(str(one), figures, where) for one in raw["basis"]],
        "side": side,
        "kinds": raw.get("kinds", []),
        "note": str(raw.get("note", "")),
        "why": str(advice["why"]),
        "advice": ", or ".join(instead),
    }


def make(root: Path) -> dict[str, bytes]:
    """The compiled decision table.

    Raises TableError if a row lacks its reason or advice, or advice stands for no row.
    """
    edits, advice, figures = load(root, "edits.yaml"), load(root, "advice.yaml"), compiled(root)
    if set(edits) != set(advice):
        raise TableError(f"edits.yaml and advice.yaml differ: {sorted(set(edits) ^ set(advice))}")
    return {f"{MADE}/decisions.json": dumped([row(id_, raw, advice[id_], figures) for id_, raw in edits.items()])}
