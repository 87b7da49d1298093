"""Compiles the standards of identity, and refuses a figure without source or a fruit that no list has."""

from fractions import Fraction
from pathlib import Path
from typing import Any

from making._tables import MADE, TableError, dumped, load
from making.published import cited

LINES = {
    "place", "names", "title", "counts", "factors", "per", "never-counts", "limits", "mixing", "mixing-source", "joins",
    "mix", "solids", "endocarp", "count-source", "leaves-out", "holds",
}  # fmt: skip
COUNTS = {"prepared", "factor", "extract", "citrus", "dried", "none"}
HOLDS = {"fat", "yolk", "suet"}
MIXING = {"least", "share", "highest"}


def _limit(raw: dict[str, Any], fruits: set[str], publications: dict[str, str], where: str) -> dict[str, Any]:
    """One least figure: a number or a ratio, for which fruits, from where."""
    of = [str(fruit) for fruit in raw.get("of", [])]
    if unknown := set(of) - fruits:
        raise TableError(f"{where}: fruits that the list above does not have: {sorted(unknown)}")
    return {
        "least": str(Fraction(str(raw["least"]))),
        "sure": str(Fraction(str(raw.get("sure", raw["least"])))),
        "most": str(Fraction(str(raw["most"]))) if "most" in raw else None,
        "says": str(raw["least"]),
        "of": of,
        "source": cited(raw.get("source"), publications, where),
    }


def _mix(raw: dict[str, Any], fruits: set[str], publications: dict[str, str], where: str) -> dict[str, Any]:
    """Which fruits may be mixed, and in what shares."""
    shares = {key: {str(fruit): str(Fraction(str(part))) for fruit, part in raw.get(key, {}).items()} for key in (
        "share-of", "most-of"
    )}  # fmt: skip
    named = {*raw.get("never-mixed", []), *shares["share-of"], *shares["most-of"]}
    if unknown := named - fruits:
        raise TableError(f"{where}: fruits that the list above does not have: {sorted(unknown)}")
    return {
        "most-fruits": raw.get("most-fruits", 0),
        "share": str(Fraction(str(raw.get("share", 0)))),
        **shares,
        "never-mixed": raw.get("never-mixed", []),
        "source": cited(raw.get("source"), publications, where),
    }


def _factors(root: Path, kind: str, names: dict[str, list[str]], fruits: set[str]) -> dict[str, Any] | None:
    """The factors of a standard by the fruit they are of, with their source."""
    if not kind:
        return None
    table = load(root, "factors.yaml")[kind]
    found = {
        fruit: str(table["factors"][name])
        for fruit in sorted(fruits)
        for name in names.get(fruit, [fruit])
        if name in table["factors"]
    }
    return {"of": found, "source": table["source"]}


def _standard(raw: dict[str, Any], fruits: set[str], publications: dict[str, str], where: str) -> dict[str, Any]:
    """One standard as it is kept."""
    if unknown := set(raw) - LINES:
        raise TableError(f"{where}: unknown lines {sorted(unknown)}")
    if raw["counts"] not in COUNTS or raw["mixing"] not in MIXING or raw["per"] not in {"sweetener", "kg"}:
        raise TableError(f"{where}: what counts, per what, or how mixes are judged is not one of the known words")
    if raw["counts"] == "factor" and not (raw["factors"] and "count-source" in raw):
        raise TableError(f"{where}: factors need their table and the source of the computation")
    if (raw["counts"] == "none") == bool(raw["limits"]) or set(raw.get("holds", {})) - HOLDS:
        raise TableError(f"{where}: limits without fruit that counts, fruit without limits, or an unknown thing held")
    never, factors, out = raw.get("never-counts"), raw["factors"], raw.get("leaves-out")
    kept = {key: str(raw[key]) for key in ("place", "title", "counts", "per", "mixing")}
    return {
        **kept,
        "factors": factors and {"of": factors["of"], "source": cited(factors["source"], publications, where)},
        "names": [str(name) for name in raw["names"]],
        "limits": [_limit(one, fruits, publications, where) for one in raw["limits"]],
        "mixing-source": cited(raw.get("mixing-source"), publications, where),
        "count-source": cited(raw["count-source"], publications, where) if "count-source" in raw else None,
        "never-counts": never and {"of": never["of"], "source": cited(never.get("source"), publications, where)},
        "leaves-out": out
        and {"sorts": out["sorts"], "tags": out["tags"], "source": cited(out["source"], publications, where)},
        "joins": raw.get("joins", []),
        "mix": _mix(raw["mix"], fruits, publications, where) if "mix" in raw else None,
        "solids": _limit(raw["solids"], fruits, publications, where),
        "endocarp": _limit(raw["endocarp"], fruits, publications, where) if "endocarp" in raw else None,
        "holds": {about: _limit(one, fruits, publications, where) for about, one in raw.get("holds", {}).items()},
    }


def make(root: Path) -> dict[str, bytes]:
    """The compiled standards.

    Raises TableError if two of them have one name in one place, or an entry is two fruits.
    """
    table = load(root, "identity.yaml")
    publications = {str(id_): str(title) for id_, title in load(root, "sources.yaml")["publications"].items()}
    fruits: dict[str, str] = {}
    for fruit, entries in table["fruits"].items():
        for entry in entries:
            if fruits.setdefault(str(entry), str(fruit)) != fruit:
                raise TableError(f"identity.yaml: {entry} is both {fruits[entry]} and {fruit}")
    named = {str(fruit) for fruit in table["fruits"]}
    standards = {
        str(id_): _standard(
            {**raw, "factors": _factors(root, raw.get("factors", ""), table["factor-names"], named)},
            named,
            publications,
            f"identity.yaml: {id_}",
        )
        for id_, raw in table["standards"].items()
    }
    claims = [(one["place"], name) for one in standards.values() for name in one["names"]]
    if twice := sorted({claim for claim in claims if claims.count(claim) > 1}):
        raise TableError(f"identity.yaml: two standards of one name: {twice}")
    contents = {
        str(about): {
            "of": {str(entry): str(Fraction(str(share))) for entry, share in raw["of"].items()},
            "source": cited(raw.get("source"), publications, f"identity.yaml: contents, {about}"),
        }
        for about, raw in table["contents"].items()
    }
    return {f"{MADE}/identity.json": dumped({"fruits": fruits, "standards": standards, "contents": contents})}
