"""Figures for the facts of a label: juice of full strength, servings, and how amounts in a serving are rounded."""

from fractions import Fraction
from functools import lru_cache
from math import floor
from typing import Any

from msgspec import Struct

from brimline.figures._made import made
from brimline.figures.identity import fruit_of
from brimline.findings import Source

HALF = Fraction(1, 2)


class FullStrength(Struct, frozen=True):
    """What a juice of 100 percent holds at least: per cent of `solids`, or of `acid` (anhydrous citric) by weight."""

    fruit: str
    basis: str
    percent: Fraction


class Serving(Struct, frozen=True):
    """What is eaten at one time, in words and in ml as labels count them, and where that is from."""

    words: str
    ml: Fraction
    sources: tuple[Source, ...]


def full_strength(entry: str) -> FullStrength | None:
    """The figure of 21 CFR 101.30(h)(1) for a juice of the ingredient table; None where it has none for that fruit."""
    table = _table()["juice"]
    fruit = table["entries"].get(entry, fruit_of(entry) or entry.partition(" juice")[0])
    for basis, key in (("acid", "acid"), ("solids", "brix")):
        if fruit in table[key]:
            return FullStrength(fruit, basis, Fraction(table[key][fruit]))
    return None


def juice_sources() -> tuple[Source, ...]:
    """Where the figures for juice and the way to compute with them are from."""
    table = _table()["juice"]
    return (Source("juice", *table["source"]), Source("juice percent", *table["computation"]))


def rounded(nutrient: str, amount: Fraction) -> str:
    """An amount in a serving as a label has it: `0`, `less than 1 g`, `50`, `2.5 g`; an exact half is rounded up.

    `nutrient` is calories, fat (g), added sugars (g) or sodium (mg). Source: FDA Food Labeling Guide, appendix H.
    """
    rule = _table()["rounding"][nutrient]
    unit = f" {rule['unit']}" if rule["unit"] else ""
    if amount < Fraction(rule["nought"]):
        return f"0{unit}"
    if rule["little"] is not None and amount < Fraction(rule["little"]):
        return f"less than {rule['little']}{unit}"
    return f"{_number(_nearest(amount, rule['steps']))}{unit}"


def servings(net: Fraction, one: Fraction) -> str:
    """How many servings a container of so many g holds, as a label has it; empty below two, where nothing is said."""
    rule, count = _table()["servings"], net / one
    return _number(_nearest(count, rule["steps"])) if count >= Fraction(rule["from"]) else ""


def serving(kind: str) -> Serving | None:
    """What one serving of a kind of product is; None where no amount is kept here."""
    raw = _table()["serving"]
    if kind not in raw["kinds"]:
        return None
    return Serving(
        raw["words"], Fraction(raw["ml"]), (Source("serving", *raw["source"]), Source("ml", *raw["measure"]))
    )


def rounding_sources() -> tuple[Source, ...]:
    """Where the rounding of amounts and of servings is from."""
    table = _table()
    return (Source("rounding", *table["rounding-source"]), Source("servings", *table["servings"]["source"]))


def energy() -> tuple[Fraction, Fraction, Source]:
    """Calories in a g of soluble solids and in a g of fat, by the general factors."""
    raw = _table()["energy"]
    return Fraction(raw["solids"]), Fraction(raw["fat"]), Source("energy", *raw["source"])


def sodium() -> tuple[Fraction, Source]:
    """Milligrams of sodium in a g of salt."""
    raw = _table()["salt"]
    return Fraction(raw["sodium-mg"]), Source("sodium", *raw["source"])


def _nearest(amount: Fraction, steps: list[list[str | None]]) -> Fraction:
    step = next(Fraction(step or 1) for end, step in steps if end is None or amount <= Fraction(end))
    return floor(amount / step + HALF) * step


def _number(value: Fraction) -> str:
    return str(value.numerator) if value.denominator == 1 else f"{float(value):g}"


@lru_cache(maxsize=1)
def _table() -> dict[str, Any]:
    found: dict[str, Any] = made("label")
    return found
