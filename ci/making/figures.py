"""Compiles the ingredient tables to one file of JSON, and refuses a figure without a source."""

from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path
from typing import Any

from making._tables import MADE, TABLES, Sources, TableError, dumped, ends, load, text
from making.published import compiled

from brimline.figures.words import folded, named, single

CLASSES = {"high-acid", "borderline", "low-acid", "neutral", "acidulant"}
KEYS = {
    "names", "phrases", "as-written", "sort", "family", "safety", "tags", "roles", "allergens", "like", "borrow",
    "weights", "in-100-g", "solids", "ph", "acid", "pectin", "pectin-measured", "refuse", "set-aside", "note",
}  # fmt: skip


def _weights(raw: dict[str, Any], sources: Sources, where: str) -> list[list[str]]:
    found = []
    for weight in raw.get("weights", []):
        how, source = sources.split(weight.get("source"), f"{where}, a {weight['per']}")
        found.append([str(weight["as"]), str(weight["per"]), *ends(weight["g"]), how, source])
    return found


def _composition(raw: dict[str, Any], sources: Sources, where: str) -> dict[str, tuple[str, str]]:
    """Water, sugars and sucrose, each with its source."""
    found: dict[str, tuple[str, str]] = {}
    for row in raw.get("in-100-g", []):
        source = sources.check(row.get("source"), where)
        found |= {name: (text(value), source) for name, value in row.items() if name != "source"}
    return found


def _first(raw: dict[str, Any], key: str, sources: Sources, where: str) -> dict[str, Any] | None:
    """The first of several figures, the one that is used; all of them must have a source."""
    rows = raw.get(key, [])
    for row in rows:
        sources.check(row.get("source"), f"{where}, {key}")
    return rows[0] if rows else None


def _insoluble(raw: dict[str, Any], composition: dict[str, tuple[str, str]], sort: str) -> str | None:
    """What neither dissolves nor is water, where both figures are of the same food."""
    if sort not in {"fruit", "vegetable", "juice", "dried-fruit", "peel"} or "water" not in composition:
        return None
    same = [row["pct"] for row in raw.get("solids", []) if str(row["source"]).startswith("calc CALC-SS")]
    if not same:
        return None
    rest = Decimal(100) - Decimal(composition["water"][0]) - Decimal(text(same[0]))
    return format(max(rest, Decimal(0)), "f")


def _figures(raw: dict[str, Any], sources: Sources, where: str) -> tuple[dict[str, Any], dict[str, str]]:
    """The figures of one entry and where each is from."""
    cited: dict[str, str] = {"safety": sources.check(raw["safety"].get("source"), f"{where}, safety")}
    composition = _composition(raw, sources, where)
    figures: dict[str, Any] = {}
    for name in ("sugars", "sucrose", "water"):
        if name in composition:
            figures[name], cited[name] = composition[name]
    if solids := _first(raw, "solids", sources, where):
        figures["solids"], cited["solids"] = text(solids["pct"]), str(solids["source"])
    if insoluble := _insoluble(raw, composition, raw["sort"]):
        figures["insoluble"], cited["insoluble"] = insoluble, "calc CALC-INSOLUBLE"
    if ph := _first(raw, "ph", sources, where):
        figures["ph"], cited["ph"] = list(ends(ph["range"])), str(ph["source"])
    if acid := _first(raw, "acid", sources, where):
        figures["acid"], figures["acid_as"] = text(acid["pct"]), str(acid["of"])
        cited["acid"] = str(acid["source"])
    if pectin := raw.get("pectin"):
        figures["pectin"] = str(pectin["class"])
        cited["pectin"] = sources.check(pectin.get("source"), f"{where}, pectin")
    if refuse := raw.get("refuse"):
        figures["refuse"] = text(refuse["pct"])
        cited["refuse"] = sources.check(refuse.get("source"), f"{where}, refuse")
    for row in [*raw.get("pectin-measured", []), *raw.get("set-aside", [])]:
        sources.check(row.get("source"), where)
    return figures, cited


BORROWED = ("solids", "sugars", "sucrose", "water", "insoluble")


def _borrow(made: dict[str, dict[str, Any]], raws: dict[str, dict[str, Any]]) -> None:
    """Gives an entry without a food of its own the figures of the relative it names, marked as assumed."""
    for name, raw in raws.items():
        if "like" not in raw:
            continue
        if raw["like"] not in made:
            raise TableError(f"{name} is like {raw['like']!r}, which is no entry")
        entry, relative = made[name], made[raw["like"]]
        what = raw.get("borrow", ["weights", "composition"])
        if "weights" in what and not entry["weights"]:
            entry["weights"] = [[*w[:4], "assumed", f"ASSUMED {raw['like']}"] for w in relative["weights"]]
        if "composition" in what:
            for figure in BORROWED:
                if figure not in entry["figures"] and figure in relative["figures"]:
                    entry["figures"][figure] = relative["figures"][figure]
                    entry["cited"][figure] = f"assumed ASSUMED {raw['like']}"


def _checked(name: str, raw: dict[str, Any], tags: set[str], roles: set[str], where: str) -> None:
    if unknown := set(raw) - KEYS:
        raise TableError(f"{where}: unknown lines {sorted(unknown)}")
    if unknown := set(raw.get("tags", [])) - tags:
        raise TableError(f"{where}: tags that tags.yaml does not list: {sorted(unknown)}")
    if unknown := set(raw["roles"]) - roles:
        raise TableError(f"{where}: roles the format does not have: {sorted(unknown)}")
    if raw["safety"]["class"] not in CLASSES:
        raise TableError(f"{where}: {name} has no safety class")


def ingredients(root: Path, sources: Sources) -> tuple[dict[str, dict[str, Any]], dict[str, dict[str, Any]]]:
    """All entries, compiled and as written, by name.

    Raises TableError for an entry that stands twice, a figure without source, an unknown tag or role.
    """
    tags = load(root, "tags.yaml")
    roles = set(tags["roles"])
    raws: dict[str, dict[str, Any]] = {}
    made: dict[str, dict[str, Any]] = {}
    for path in sorted((root / TABLES / "ingredients").glob("*.yaml")):
        for name, raw in load(root, f"ingredients/{path.name}").items():
            where = f"{path.name}: {name}"
            if name in raws:
                raise TableError(f"{where}: stands twice")
            _checked(name, raw, set(tags["tags"]), roles, where)
            raws[name] = raw
            figures, cited = _figures(raw, sources, where)
            made[name] = {"figures": figures, "cited": cited, "weights": _weights(raw, sources, where)}
    _borrow(made, raws)
    return made, raws


def _row(name: str, entry: dict[str, Any], raw: dict[str, Any]) -> list[Any]:
    figures = entry["figures"]
    aliases = [str(alias) for key in ("names", "phrases", "as-written") for alias in raw.get(key, [])]
    return [
        name, aliases, raw["sort"], raw["safety"]["class"], raw["family"], raw.get("tags", []), raw["roles"],
        entry["weights"], figures.get("solids"), figures.get("sugars"), figures.get("sucrose"), figures.get("water"),
        figures.get("insoluble"), figures.get("ph"), figures.get("acid"), figures.get("acid_as", ""),
        raw.get("allergens", []), raw.get("note", ""), [list(pair) for pair in entry["cited"].items()],
        figures.get("pectin", ""), figures.get("refuse"),
    ]  # fmt: skip


def _names(
    raws: dict[str, dict[str, Any]], twofold: dict[str, Any], lists: dict[str, list[str]]
) -> Iterator[tuple[int, list[str], Any, str]]:
    """Every name as kind, words, what it means, and its own spelling."""

    def split(written: str, plural: bool = False) -> list[str]:
        words = named(folded(written), lists["stop"], lists["medium"])
        return list(words) if plural else [single(word) for word in words]

    for name, raw in raws.items():
        phrases = [str(phrase) for phrase in raw.get("phrases", [])]
        for written in [name, *map(str, raw.get("names", []))]:
            if written not in phrases:
                yield 0, sorted(set(split(written))), name, written
        for written in phrases:
            yield 1, split(written), name, written
        for written in raw.get("as-written", []):
            yield 2, sorted(set(split(str(written), plural=True))), name, str(written)
    for written, means in twofold.items():
        for name in [*means["could-be"], *means.get("by-unit", {}).values()]:
            if name not in raws:
                raise TableError(f"names.yaml: {written} could be {name!r}, which is no entry")
        target = {"could-be": means["could-be"], "by-unit": means.get("by-unit", {})}
        yield 3, sorted(set(split(str(written)))), target, str(written)


def names(raws: dict[str, dict[str, Any]], twofold: dict[str, Any], lists: dict[str, list[str]]) -> dict[str, Any]:
    """The names, an index from each word to the names that hold it, and how each can be written.

    Raises TableError if one name means two entries: such a name belongs in names.yaml.
    """
    listed: list[list[Any]] = []
    index: dict[str, list[int]] = {}
    written: dict[str, str] = {}
    seen: dict[tuple[int, tuple[str, ...]], Any] = {}
    doubled = []
    for kind, words, target, spelling in _names(raws, twofold, lists):
        key = (0 if kind == 3 else kind, tuple(words))
        written.setdefault(spelling, target if isinstance(target, str) else spelling)
        if key in seen:
            if seen[key] != target:
                doubled.append(f"{spelling!r}: {seen[key]} or {target}")
            continue
        seen[key] = target
        for word in words:
            index.setdefault(word, []).append(len(listed))
        listed.append([kind, words, target])
    if doubled:
        raise TableError("names that mean two things:\n" + "\n".join(doubled))
    return {"names": listed, "index": index, "written": written}


def word_lists(root: Path) -> dict[str, list[str]]:
    """The lists of words.yaml, flat."""
    lists = {}
    for name, listed in load(root, "words.yaml").items():
        flat = [word for part in listed for word in (part if isinstance(part, list) else [part])]
        lists[name] = sorted(
            dict.fromkeys(str(word) if name in ("turning", "denying", "stop") else single(str(word)) for word in flat)
        )
    return lists


def make(root: Path) -> dict[str, bytes]:
    """The compiled ingredient table with its names and measures."""
    figures = compiled(root)
    known = {*figures["ingredients"], *figures["alone"], *figures["processes"]}
    made, raws = ingredients(root, Sources(known))
    lists = word_lists(root)
    table = {
        "entries": [_row(name, entry, raws[name]) for name, entry in made.items()],
        **names(raws, load(root, "names.yaml"), lists),
        "words": lists,
        "measuring": load(root, "measures.yaml"),
    }
    return {f"{MADE}/figures.json": dumped(table)}
