"""An ingredient of a collection's own, as a plain value."""

from fractions import Fraction

from msgspec import Struct


class Own(Struct, frozen=True):
    """An ingredient that a collection adds to the published table; it never stands for one that the table has.

    `names` are all it may be called, the first its own. `role` and `safety` are words of the format and the table,
    `ph` the range the collection's source gives, `weights` grams in one unit (`cup`, 140, 150), `solids` soluble
    solids in percent, `source` how it is known and the publication (`read Valley leaflet 12, p. 3`).
    """

    names: tuple[str, ...]
    role: str
    safety: str
    source: str
    ph: tuple[Fraction, Fraction] | None = None
    weights: tuple[tuple[str, Fraction, Fraction], ...] = ()
    solids: Fraction | None = None
    allergens: tuple[str, ...] = ()
