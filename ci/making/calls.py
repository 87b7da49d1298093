"""Compiles what callers ask and what is read out to them; refuses a figure that no published table holds."""

import re
from fractions import Fraction
from pathlib import Path
from typing import Any

from making._tables import MADE, TableError, dumped, load
from making.published import cited, compiled, number

_SLOT = re.compile(r"\{([^{}]+)\}")
# Filled in when the question is asked: from the formula or from the settings of its collection.
_LATER = {"year", "keep"}
_WORDS = {
    "tbsp": "tablespoon", "tsp": "teaspoon", "min": "minute", "in": "inch", "h": "hour", "ft": "foot", "F": "degree F",
}  # fmt: skip
_PLURAL = {"inch": "inches", "foot": "feet", "degree F": "degrees F"}
_CITES = ("source", "further")


def counted(row: list[str]) -> str:
    """A figure as it is spoken: `2 tablespoons`, `4 to 6 cups`, `half`, `1988`."""
    low, high, unit = Fraction(row[1]), Fraction(row[2]), row[3]
    shares = {Fraction(1, 2): "half", Fraction(1, 4): "a quarter", Fraction(1, 3): "a third"}
    if not unit and low == high and low in shares:
        return shares[low]
    if unit == "year" and low > 1000:
        return str(low)
    text = _mixed(low) if low == high else f"{_mixed(low)} to {_mixed(high)}"
    word = _WORDS.get(unit, unit)
    if unit in ("pH", ""):
        return text
    if high > 1:
        word = _PLURAL.get(word, f"{word}s")
    return f"{text} {word}"


def _mixed(value: Fraction) -> str:
    whole, rest = divmod(value, 1)
    if rest and rest.denominator not in (2, 3, 4, 8):
        return f"{float(value):g}"
    return str(whole) if not rest else f"{whole} {rest}" if whole else str(rest)


class Filling:
    """Fills the slots of one entry and notes the figures it takes them from."""

    def __init__(self, figures: dict[str, Any], own: dict[str, list[str]], where: str) -> None:
        self.figures = figures
        self.own = own
        self.where = where
        self.used: list[str] = []

    def text(self, written: str) -> str:
        """The sentence with its figures; slots that are filled later stay.

        Raises TableError for a figure that is nowhere, or a digit outside a slot.
        """
        if re.search(r"\d", _SLOT.sub("", written)):
            raise TableError(f"{self.where}: a figure stands outside a slot, so without a source: {written}")
        return _SLOT.sub(self._slot, written)

    def _slot(self, match: re.Match[str]) -> str:
        slot = match[1].strip()
        if slot in _LATER:
            return match[0]
        if "|" not in slot:
            if slot not in self.own:
                raise TableError(f"{self.where}: no figure {slot!r}")
            return counted(self.own[slot])
        id_, _, name = (part.strip() for part in slot.partition("|"))
        self.used.append(id_)
        if id_ in self.figures["processes"]:
            return self._process(self.figures["processes"][id_], name, match[0])
        key = self.figures["alone"].get(id_, id_)
        rows = self.figures["figures"].get(key, {"numbers": []})["numbers"]
        found = next((row for row in rows if row[0] == name), None)
        if found is None:
            raise TableError(f"{self.where}: {id_} has no figure {name!r}; it has {[row[0] for row in rows]}")
        return counted(found)

    def _process(self, table: dict[str, Any], name: str, slot: str) -> str:
        if name == "headspace":
            return counted(["", table["headspace"], table["headspace"], "in"])
        if name != "times":
            raise TableError(f"{self.where}: a process has no {name!r}")
        return slot


def source_of(id_: str, figures: dict[str, Any], where: str) -> list[str]:
    """Id, title, place and how of a published figure or process. Raises TableError for an id that is neither."""
    key = figures["alone"].get(id_, id_)
    for table, name in ((figures["processes"], id_), (figures["figures"], key)):
        if name in table:
            return [id_, *table[name]["source"]]
    raise TableError(f"{where}: {id_!r} is no figure")


def entry(raw: dict[str, Any], figures: dict[str, Any], publications: dict[str, str], where: str) -> dict[str, Any]:
    """One entry: its sentences filled, its sources in the order they are used."""
    own = {str(name): number(str(name), str(value), where) for name, value in raw.get("figures", {}).items()}
    filling = Filling(figures, own, where)
    says = {key: filling.text(str(text)) for key, text in raw.items() if key not in (*_CITES, "cites", "figures")}
    ids = list(dict.fromkeys([*filling.used, *map(str, raw.get("cites", []))]))
    sources = [source_of(id_, figures, where) for id_ in ids]
    own_sources = [[where, *cited(raw[key], publications, where)] for key in _CITES if key in raw]
    return {"says": says, "sources": [*own_sources, *sources]}


def phrases(raw: dict[str, Any]) -> list[list[str]]:
    """The rows of the grammar in order: kind, what it is about, what it asks for besides, the words."""
    out = []
    for kind, groups in raw.items():
        for key, rows in groups.items():
            about, _, besides = str(key).partition("=")
            out.extend([kind, about.strip(), besides.strip(), str(row)] for row in rows)
    return out


def make(root: Path) -> dict[str, bytes]:
    """What can be asked and what is read out."""
    figures, raw, words = compiled(root), load(root, "calls.yaml"), load(root, "phrases.yaml")
    rows = set(load(root, "edits.yaml"))
    publications = {str(id_): str(title) for id_, title in load(root, "sources.yaml")["publications"].items()}
    if unknown := {str(key).partition("/")[0] for key in raw["rows"]} - rows:
        raise TableError(f"calls.yaml: rows that edits.yaml lacks: {sorted(unknown)}")
    parts = {
        part: {
            str(key): entry(one, figures, publications, f"calls.yaml: {key}")
            for key, one in raw[part].items()
        }
        for part in ("rows", "topics", "talks")
    }  # fmt: skip
    asks = {str(group): [str(one) for one in some] for group, some in words["asks"].items()}
    return {f"{MADE}/calls.json": dumped({**parts, "asks": asks, "phrases": phrases(words["phrases"])})}
