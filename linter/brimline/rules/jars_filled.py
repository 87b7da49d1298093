"""The yield: no more jars than the ingredients can fill."""

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from brimline.batch.words import decimal, number
from brimline.findings import Flag
from brimline.moves.values import Case
from brimline.rules.contract import rule
from brimline.rules.say import figure

# How far the volume of a hot spread may be from the equation (judgement): a yield within it is not called impossible.
SLACK = Fraction(1025, 1000)


@rule("yield/ceiling", decides=("yield-too-high",))
def the_jars_can_be_filled(case: Case) -> Iterator[Flag]:
    """A formula states no more jars than its ingredients can fill, with nothing boiled off.

    A yield that cannot be reached makes the cook look for what went wrong, or water the batch down.
    """
    stated, most = case.document.yields, case.most_jars
    if stated is None or most is None or stated.low <= ceil(most * SLACK):
        # A last jar that is not full is counted in many printed yields.
        return
    size = stated.jar.name
    yield Flag(
        "yield-too-high",
        stated.span,
        f"The ingredients fill at most {decimal(most, 1)} {size} jars before anything boils off; {number(stated.low)} "
        "are stated.",
        (figure("jars at most", decimal(most, 1), size), figure("jars stated", number(stated.low), size)),
    )
