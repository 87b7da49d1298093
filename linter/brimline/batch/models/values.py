"""What the models take and give: ranges, estimates with both ends, and the figure that does not exist."""

from collections.abc import Mapping
from types import MappingProxyType

from msgspec import Struct

from brimline.findings import Source


class NoFigure(Struct, frozen=True):
    """There is no figure, and why: what was asked for and the range the equation holds in."""

    why: str


class Range(Struct, frozen=True):
    """Where an equation was checked: what is measured, from, to, unit. Nothing outside it is computed."""

    what: str
    low: float
    high: float
    unit: str

    def outside(self, value: float) -> NoFigure | None:
        """A NoFigure if the value is not in the range, which also holds for one that is no number."""
        if self.low <= value <= self.high:
            return None
        unit = f" {self.unit}" if self.unit else ""
        return NoFigure(
            f"{self.what} of {value:g}{unit} is outside {self.low:g} to {self.high:g}{unit}, where the equation holds"
        )


class Estimate(Struct, frozen=True):
    """A computed number: its least, the run with every unknown at its middle, its most."""

    low: float
    middle: float
    high: float


class Constants(Struct, frozen=True):
    """The numbers of one equation under their names, with the publication they are from and how they are known."""

    numbers: Mapping[str, float]
    source: Source

    def __getitem__(self, name: str) -> float:
        """One number by its name. Raises KeyError for a name the equation does not have."""
        return self.numbers[name]


def constants(source: Source, **numbers: float) -> Constants:
    """Constants written as keywords."""
    return Constants(MappingProxyType(numbers), source)


def outside(*checks: tuple[Range, float]) -> NoFigure | None:
    """The first value that is out of its range, as a NoFigure; None if all of them hold."""
    return next((found for range_, value in checks if (found := range_.outside(value)) is not None), None)
