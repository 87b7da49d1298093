"""Compiles published figures, process times and the publications behind them; refuses a figure without a source."""

from pathlib import Path
from typing import Any

from making._tables import HOWS, MADE, TableError, dumped, exact, load

FIGURES = (
    "acid",
    "altitude",
    "boiling_point",
    "faults",
    "fruit_acidity",
    "fruit_ph",
    "gel_point",
    "headspace",
    "jars",
    "not_recommended",
    "pectin",
    "safe_edits",
    "sterile_jars",
    "storage",
    "sugar",
)
LINES = {"says", "figures", "about", "for", "note", "inferred", "against", "cautious", "source"}


def cited(written: Any, publications: dict[str, str], where: str) -> list[str]:
    """Title, place and how, of a source written as `{in: ..., at: ..., how: ...}`.

    Raises TableError if one of them is missing or the publication is not listed.
    """
    if not isinstance(written, dict) or set(written) != {"in", "at", "how"} or written["how"] not in HOWS:
        raise TableError(f"{where}: no source, or not said how it is known")
    if written["in"] not in publications:
        raise TableError(f"{where}: unknown publication {written['in']!r}")
    return [publications[written["in"]], str(written["at"]), str(written["how"])]


def number(name: str, written: str, where: str) -> list[str]:
    """`3/4 to 1 cup` as name, both ends and unit; weeks, months and years stand in the singular."""
    try:
        first, second = written.split(" to ") if " to " in written else (written, "")
        tail = (second or first).split(" ")
        size = max(size for size in range(1, len(tail) + 1) if tail[size - 1][:1].isdigit())
        high = exact(" ".join(tail[:size]))
        low = exact(first) if second else high
    except ValueError as fault:
        raise TableError(f"{where}: {name}: {fault}") from fault
    unit = " ".join(tail[size:])
    singular = {"weeks": "week", "months": "month", "years": "year"}
    return [name, str(low), str(high), singular.get(unit, unit)]


def figure(raw: dict[str, Any], publications: dict[str, str], where: str) -> dict[str, Any]:
    """One published figure as it is kept."""
    if unknown := set(raw) - LINES:
        raise TableError(f"{where}: unknown lines {sorted(unknown)}")
    numbers = [number(str(name), str(value), where) for name, value in raw.get("figures", {}).items()]
    kept = {name: str(raw.get(name, "")) for name in ("says", "about", "for", "note", "inferred")}
    return {
        **kept,
        "numbers": numbers,
        "against": raw.get("against", []),
        "cautious": bool(raw.get("cautious", False)),
        "source": cited(raw.get("source"), publications, where),
    }


def bands(written: str, where: str) -> list[list[int | None]]:
    """`5 to 1000, 10 to 6000, 15 above` as minutes and altitude in feet, None for the open band."""
    found: list[list[int | None]] = []
    for band in written.split(", "):
        minutes, _, rest = band.partition(" ")
        up_to = None if rest == "above" else int(rest.removeprefix("to "))
        if found and (found[-1][1] is None or (up_to is not None and up_to <= (found[-1][1] or 0))):
            raise TableError(f"{where}: bands do not rise: {written}")
        found.append([int(minutes), up_to])
    return found


def process(raw: dict[str, Any], publications: dict[str, str], where: str) -> dict[str, Any]:
    """One process table as it is kept."""
    rows = [[row["fill"], row["jars"], bands(row["times"], where)] for row in raw.get("rows", [])]
    sterile = raw.get("sterile", [])
    listed = list(dict.fromkeys(jar for _, jars, _ in rows for jar in jars))
    start = raw.get("start", {})
    minutes = [int(end) for end in str(start["to-the-boil"]).split(" to ")] if start else None
    return {
        "product": str(raw["product"]),
        "kind": str(raw["kind"]),
        "method": str(raw["method"]),
        "headspace": str(exact(str(raw["headspace"]))) if "headspace" in raw else None,
        "sterile": listed if sterile == "all" else sterile,
        "acid-required": bool(raw.get("acid-required", False)),
        "rows": rows,
        "start-f": start.get("water-f"),
        "start-minutes": minutes,
        "note": str(raw.get("note", "")),
        "source": cited(raw.get("source"), publications, where),
    }


def compiled(root: Path) -> dict[str, Any]:
    """All published figures by `table/id`, the ids that need no table, process tables, sources, conflicts, factors.

    Raises TableError for a figure without source, or one that is at odds with an id that does not exist.
    """
    listed = load(root, "sources.yaml")
    publications = {str(id_): str(title) for id_, title in listed["publications"].items()}
    processes = {
        str(id_): process(raw, publications, f"process_times.yaml: {id_}")
        for id_, raw in load(root, "process_times.yaml").items()
    }
    figures: dict[str, Any] = {}
    alone: dict[str, str] = {}
    twice: set[str] = set(processes)
    for table in FIGURES:
        for id_, raw in load(root, f"{table}.yaml").items():
            figures[f"{table}/{id_}"] = figure(raw, publications, f"{table}.yaml: {id_}")
            if id_ in alone:
                twice.add(id_)
            alone[id_] = f"{table}/{id_}"
    known = {*alone, *processes}
    for key, raw in figures.items():
        if unknown := set(raw["against"]) - known:
            raise TableError(f"{key} is against {sorted(unknown)}, which does not exist")
    factors = {
        str(kind): {
            "source": cited(raw["source"], publications, f"factors.yaml: {kind}"),
            "factors": {str(fruit): str(value) for fruit, value in raw["factors"].items()},
        }
        for kind, raw in load(root, "factors.yaml").items()
    }
    disagree = [[id_, raw["sides"], raw["used"]] for id_, raw in load(root, "conflicts.yaml").items()]
    ingredients = {
        str(id_): [str(raw["title"]), str(raw["section"]), str(raw["how"])]
        for id_, raw in listed["ingredients"].items()
    }
    return {
        "figures": figures,
        "alone": {id_: key for id_, key in alone.items() if id_ not in twice},
        "processes": processes,
        "ingredients": ingredients,
        "conflicts": disagree,
        "factors": factors,
    }


def make(root: Path) -> dict[str, bytes]:
    """The compiled figures."""
    return {f"{MADE}/published.json": dumped(compiled(root))}
