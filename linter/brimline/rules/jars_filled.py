"""The yield: no more jars than the ingredients can fill, and about as many as the finished batch comes to."""

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from brimline.batch.words import decimal, number
from brimline.document.values import Yield
from brimline.findings import Flag
from brimline.moves.values import Case
from brimline.rules.contract import rule
from brimline.rules.say import figure

# How far the volume of a hot spread may be from the equation (judgement): a yield within it is not called impossible.
SLACK = Fraction(1025, 1000)
# A third beyond the estimate is far from it (judgement): printed yields lie up to a quarter beside what is computed.
FAR_LOW, FAR_HIGH = Fraction(2, 3), Fraction(4, 3)


@rule("yield/jars", decides=("yield-too-high", "yield-far"))
def the_jars_are_filled(case: Case) -> Iterator[Flag]:
    """A formula states no more jars than its ingredients can fill, and about as many as the finished batch comes to.

    A yield that cannot be reached makes the cook look for what went wrong, or water the batch down.
    """
    stated = case.document.yields
    if stated is None or _as_tested(case, stated):
        return
    most, estimate = case.jars(case.batch)
    size = stated.jar.name
    text = number(stated.low) if stated.low == stated.high else f"{number(stated.low)} to {number(stated.high)}"
    if most is not None and stated.low > ceil(most * SLACK):
        # A last jar that is not full is counted in many printed yields.
        yield Flag(
            "yield-too-high",
            stated.span,
            f"The ingredients fill at most {decimal(most, 1)} {size} jars before anything boils off; {text} are stated.",
            (figure("jars at most", decimal(most, 1), size), figure("jars stated", text, size)),
        )
    elif estimate is not None and (stated.high < estimate.low * FAR_LOW or stated.low > estimate.high * FAR_HIGH):
        about = f"{decimal(estimate.low, 1)} to {decimal(estimate.high, 1)}"
        yield Flag(
            "yield-far",
            stated.span,
            f"The finished batch comes to about {about} {size} jars; {text} are stated.",
            (figure("jars estimated", about, size), figure("jars stated", text, size)),
        )


def _as_tested(case: Case, now: Yield) -> bool:
    """Whether an adaptation states the tested yield at its scale: then other rules say what changed in the pot."""
    was = case.tested.yields if case.tested else None
    if was is None or was.jar.name != now.jar.name:
        return False
    scale = case.compared.scale
    return was.low * scale <= now.high and now.low <= was.high * scale
