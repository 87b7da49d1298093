"""Where pectin sets by published statements; between and beyond them nothing is claimed."""

from functools import cache

from msgspec import Struct

from brimline import figures
from brimline.batch.models.values import Estimate, NoFigure
from brimline.figures.values import Interval
from brimline.findings import Source

# The published figure for each set: high-methoxyl pectin sets with sugar and acid, low-methoxyl with calcium.
WINDOWS = {"high-methoxyl": "high_methoxyl", "low-methoxyl": "low_methoxyl"}


class Window(Struct, frozen=True):
    """The soluble solids (per cent) between which a kind of pectin sets, what else it needs, and who says so."""

    kind: str
    solids: Interval
    needs: str
    source: Source


@cache
def window(kind: str) -> Window | NoFigure:
    """The published window of `high-methoxyl` or `low-methoxyl` pectin; NoFigure for any other gelling thing.

    Source: the table of published figures on pectin. The pH each needs is published too and not used: no pH is
    computed here.
    """
    if kind not in WINDOWS:
        return NoFigure(f"nobody says within which solids {kind or 'it'} sets")
    found = figures.published(WINDOWS[kind])
    solids = found.number("solids")
    if solids is None:
        return NoFigure(f"no solids are published for {kind} pectin")
    needs = "calcium" if kind == "low-methoxyl" else "enough acid"
    return Window(kind, Interval(solids.low, solids.high), needs, found.source)


def stands(solids: Estimate, within: Window) -> str:
    """Where an estimate of per cent solids stands: `inside`, `edge` (one end is outside), `below` or `above`."""
    low, high = float(within.solids.low), float(within.solids.high)
    if solids.high < low:
        return "below"
    if solids.low > high:
        return "above"
    return "inside" if low <= solids.low and solids.high <= high else "edge"
