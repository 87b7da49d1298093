"""Compiles the major food allergens, and refuses one that an ingredient names and the list does not have."""

from pathlib import Path
from typing import Any

from making._tables import MADE, TABLES, TableError, dumped, load
from making.published import cited


def make(root: Path) -> dict[str, bytes]:
    """The allergens by name: whether the kind has to be named, and the source.

    Raises TableError for an allergen of an ingredient that is not listed.
    """
    publications = {str(id_): str(title) for id_, title in load(root, "sources.yaml")["publications"].items()}
    table = load(root, "allergens.yaml")
    for path in sorted((root / TABLES / "ingredients").glob("*.yaml")):
        for name, raw in load(root, f"ingredients/{path.name}").items():
            if unknown := set(raw.get("allergens", [])) - set(table):
                raise TableError(f"{path.name}: {name}: allergens that allergens.yaml does not list: {sorted(unknown)}")
    listed: list[Any] = [
        [str(name), bool(raw.get("names-kind", False)), cited(raw["source"], publications, f"allergens.yaml: {name}")]
        for name, raw in table.items()
    ]
    return {f"{MADE}/allergens.json": dumped(listed)}
