"""Compiles the figures for a label, and refuses one without a source or a step that does not rise."""

from fractions import Fraction
from pathlib import Path
from typing import Any

from making._tables import MADE, TableError, dumped, load
from making.published import cited


def _exact(value: Any) -> str:
    return str(Fraction(str(value)))


def _steps(written: list[list[Any]], where: str) -> list[list[str | None]]:
    """Up to so much (none for the last) to the nearest so much."""
    ends = [end for end, _ in written]
    if ends[-1] is not None or None in ends[:-1] or ends[:-1] != sorted(ends[:-1]):
        raise TableError(f"{where}: steps do not rise, or the last has an end")
    return [[None if end is None else _exact(end), _exact(step)] for end, step in written]


def make(root: Path) -> dict[str, bytes]:
    """Least Brix and acid of juices, how amounts and servings are rounded, what a serving is and what a gram brings.

    Raises TableError for a figure without source.
    """
    publications = {str(id_): str(title) for id_, title in load(root, "sources.yaml")["publications"].items()}
    table = load(root, "label.yaml")

    def source(part: str, key: str = "source") -> list[str]:
        return cited(table[part].get(key), publications, f"label.yaml: {part}")

    juice, rounding = table["juice"], dict(table["rounding"])
    rounding.pop("source")
    made = {
        "juice": {
            "brix": {str(name): _exact(value) for name, value in juice["brix"].items()},
            "acid": {str(name): _exact(value) for name, value in juice["acid"].items()},
            "entries": {str(entry): str(name) for entry, name in juice["entries"].items()},
            "source": source("juice"),
            "computation": source("juice", "computation"),
        },
        "rounding": {
            str(name): {
                "unit": raw["unit"],
                "nought": _exact(raw["nought"]),
                "little": _exact(raw["little"]) if "little" in raw else None,
                "steps": _steps(raw["steps"], f"label.yaml: {name}"),
            }
            for name, raw in rounding.items()
        },
        "rounding-source": source("rounding"),
        "servings": {
            "from": _exact(table["servings"]["from"]),
            "steps": _steps(table["servings"]["steps"], "label.yaml: servings"),
            "source": source("servings"),
        },
        "serving": {
            "words": str(table["serving"]["words"]),
            "ml": _exact(table["serving"]["ml"]),
            "kinds": [str(kind) for kind in table["serving"]["kinds"]],
            "source": source("serving"),
            "measure": source("serving", "measure"),
        },
        "energy": {
            "solids": _exact(table["energy"]["solids"]),
            "fat": _exact(table["energy"]["fat"]),
            "source": source("energy"),
        },
        "salt": {"sodium-mg": _exact(table["salt"]["sodium-mg"]), "source": source("salt")},
    }
    return {f"{MADE}/label.json": dumped(made)}
