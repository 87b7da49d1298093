"""Grams of an ingredient in one household measure, as an interval that says how well it is known."""

from collections.abc import Callable, Iterable
from fractions import Fraction
from functools import lru_cache
from typing import Any

from brimline.document.units import units
from brimline.figures._made import made
from brimline.figures.values import Entry, Interval, Weight
from brimline.figures.words import words

# How far one printed weight may be from what a cook measures: ours, on the cautious side (judgement).
_LOOSE = Fraction(1, 10)
_CLOSE = Fraction(3, 100)
_CLOSE_SORTS = frozenset({"liquid", "spirit", "juice", "acid", "sweetener", "salt"})
# What is poured or scooped level has no cut; only whether it was packed matters.
_UNCUT_SORTS = frozenset({"liquid", "spirit", "juice", "acid", "sweetener", "salt", "pectin", "colour", "flavouring"})
_SIZES = ("small", "medium", "large")
_DENSE = frozenset({"crushed", "pureed", "ground"})
# No food of a formula is heavier than this in a cup, g a ml: juice of 15 Brix (judgement).
_NO_AIR = Fraction(106, 100)


@lru_cache(maxsize=1)
def _lists() -> Any:
    return made("figures")["measuring"]


@lru_cache(maxsize=2)
def _factors(dimension: str) -> dict[str, Fraction]:
    """Millilitres in each unit of volume, or grams in each unit of mass."""
    return {name: unit.factor for name, unit in units().items() if unit.dimension == dimension}


def state_key(entry: Entry, forms: Iterable[str]) -> str:
    """How the ingredient was cut and filled when it was measured: two lines with one key compare by volume directly.

    `forms` are texts or words (`finely chopped`, `packed`). The key is empty where nothing is said or where it does
    not matter (liquids, sugar). Diced counts as chopped, mashed as crushed. Of two words of cutting the finer one
    counts: what is `whole, crushed` was measured crushed.
    """
    lists = _lists()
    said = [word for form in forms for word in words(form)]
    more = sorted({lists["extra"][word] for word in said if word in lists["extra"]})
    if entry.sort in _UNCUT_SORTS:
        return "packed" if "packed" in more else ""
    cuts = [lists["cut"][word] for word in said if word in lists["cut"]]
    cut = next((cut for cut in cuts if cut != "whole"), "whole") if cuts else ""
    return " ".join([*([cut] if cut else []), *more])


def _dense(key: str) -> bool:
    """Whether the cut leaves no gaps in the cup, so that a loosely filled one says nothing about it."""
    return key.partition(" ")[0] in _DENSE


def _keys(key: str) -> list[str]:
    """The key, then the cut alone, then the cut that fills a cup most alike."""
    cut = key.partition(" ")[0]
    alike = _lists()["alike"].get(cut, "")
    return [one for one in dict.fromkeys((key, cut, alike)) if one]


def _volume(entry: Entry, state: Iterable[str], unit: str) -> list[Weight]:
    """The weights to judge by: those in the same state if there are any, and cups before spoons."""
    lists = _lists()
    known = [weight for weight in entry.weights if weight.unit in _factors("volume")]
    boxes = [weight for weight in known if weight.state in lists["by-eye"]]
    level = [weight for weight in known if weight.state not in lists["by-eye"]]
    known = level or boxes
    key = state_key(entry, state)
    for wanted in _keys(key):
        same = [weight for weight in known if state_key(entry, [weight.state]) == wanted]
        if same:
            known = same
            break
    else:
        loose = [weight for weight in known if not _dense(state_key(entry, [weight.state]))]
        known = loose if loose and not key else known
    cups = [weight for weight in known if weight.unit not in ("tbsp", "tsp")] or known
    # A pint or quart of whole fruit may be a market box, which is heaped.
    return cups + boxes if unit in ("pint", "qt") and key in ("", "whole") else cups


def _counted(entry: Entry, unit: str) -> list[Weight]:
    """The weights of one piece: an unnamed size is anything from small to large."""
    same = _lists()["same-count"]
    exact = [weight for weight in entry.weights if same.get(weight.unit, weight.unit) == same.get(unit, unit)]
    if unit == "each":
        whole = exact + [weight for weight in entry.weights if weight.unit in _SIZES]
        # A cinnamon stick is counted in sticks, a bay leaf in leaves.
        return whole or [weight for weight in entry.weights if weight.unit in words(entry.name)]
    if unit in _SIZES and not exact:
        return [weight for weight in entry.weights if weight.unit == "each"]
    return exact


def _spread(weights: list[Weight], scale: Callable[[Weight], Fraction], loose: bool) -> Interval | None:
    if not weights:
        return None
    low = min(weight.low * scale(weight) for weight in weights)
    high = max(weight.high * scale(weight) for weight in weights)
    if low < high:
        return Interval(low, high)
    share = _LOOSE if loose else _CLOSE
    return Interval(low * (1 - share), high * (1 + share))


def weigh(entry: Entry, state: Iterable[str], unit: str) -> Interval | None:
    """Grams of the ingredient in one `unit`, from the least to the most it may be.

    `state` are the words that say how it was measured (`crushed`, `sliced`); `unit` is a canonical unit name. The
    interval is the stated range; else the least and most of the entry's cups in that state (of all its cups where the
    state is not said or not in the table; a crushed cup may then weigh what the same volume of juice does); else the one figure 10 % either way for cut food and 3 % for what is poured
    or level, which is our judgement. Units of mass are exact, and volumes convert among themselves exactly. None where
    no figure is known.
    """
    mass, volume = _factors("mass"), _factors("volume")
    if unit in mass:
        return Interval(mass[unit], mass[unit])
    said = tuple(state)
    loose = entry.sort not in _CLOSE_SORTS or "packed" in state_key(entry, said)
    if unit in volume:
        weights = _volume(entry, said, unit)
        found = _spread(weights, lambda weight: volume[unit] / volume[weight.unit], loose)
        if found and _dense(state_key(entry, said)) and not any(_dense(state_key(entry, [w.state])) for w in weights):
            found = Interval(found.low, max(found.high, volume[unit] * _NO_AIR))
        return found
    return _spread(_counted(entry, unit), lambda _: Fraction(1), loose)
