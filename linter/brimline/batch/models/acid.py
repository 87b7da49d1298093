"""Acids counted by what they neutralise. No pH is worked out: none computed could be acted on."""

from fractions import Fraction

from brimline.batch.models.values import NoFigure
from brimline.findings import Source

MOLAR = Source("acid-equivalents", "molar mass over basicity, IUPAC atomic weights", "five fruit acids", "calc")
# Milliequivalents in a gram of the anhydrous acid; the monohydrate is what crystals of citric acid often are.
MEQ = {
    "citric": Fraction("15.615"),
    "citric monohydrate": Fraction("14.276"),
    "malic": Fraction("14.916"),
    "tartaric": Fraction("13.326"),
    "acetic": Fraction("16.652"),
    "lactic": Fraction("11.101"),
}


def milliequivalents(grams: Fraction, acid: str) -> Fraction | NoFigure:
    """Milliequivalents in so many g of an acid, exactly; NoFigure for an acid of no known strength or less than none.

    Published swaps between kinds of acid are not equal in these (37, 16 to 23 and 49 for a quart of tomatoes), so they
    measure how much one kind was changed and never what may stand for another. Source: molar mass over basicity.
    """
    if acid not in MEQ:
        return NoFigure(f"which acid {acid or 'it'} is is not known")
    return grams * MEQ[acid] if grams >= 0 else NoFigure("less than no acid")


def as_citric(share: Fraction, acid: str) -> Fraction | NoFigure:
    """The citric acid that neutralises as much as so much of another acid, in the same measure (g, %)."""
    found = milliequivalents(share, acid)
    return found if isinstance(found, NoFigure) else found / MEQ["citric"]


def after_boiling(share: Fraction, evaporated: Fraction) -> Fraction | NoFigure:
    """Acid as a share of what is left when a share of the mass has boiled off, both from 0 to below 1.

    Holds for acids that do not boil off; vinegar does in part, so that for it this is the most there can be.
    """
    if not 0 <= share <= 1 or not 0 <= evaporated < 1:
        return NoFigure("shares from 0 to 1 are needed")
    found = share / (1 - evaporated)
    return found if found <= 1 else NoFigure("more would boil off than there is besides acid")
