"""What a batch is made of: resolved lines, groups of one ingredient, and the batch as a whole."""

from fractions import Fraction

from msgspec import Struct

from brimline.document.values import Document, Line
from brimline.figures.values import Entry


class Quantity(Struct, frozen=True):
    """How much of a thing, in every dimension the author stated.

    Each row is (dimension, low, high): `mass` in grams, `volume:STATE` in millilitres of the food measured in that
    state (`volume:crushed`), `count:UNIT` and `package:UNIT` in pieces. No rows means nothing at all.
    """

    dims: tuple[tuple[str, Fraction, Fraction], ...] = ()

    def get(self, dim: str) -> tuple[Fraction, Fraction] | None:
        """The low and high amount in a dimension, if it was stated."""
        for name, low, high in self.dims:
            if name == dim:
                return low, high
        return None


class Item(Struct, frozen=True):
    """One line with what the ingredient table knows of it.

    `name` is the table's name, or the author's words in a fixed order if the table has none. `stay` is `kept`,
    `infused` or `discarded`. `loose` marks `some` or an amount left open. `per_jar` gives (jar name, jar volume in
    ml) for an amount stated per jar; `per_finished` the volume in ml for one stated per finished measure.
    """

    line: Line
    entry: Entry | None
    name: str
    sort: str
    safety: str
    family: str
    tags: frozenset[str]
    state: str
    stay: str
    optional: bool
    loose: bool
    quantity: Quantity
    strength: Fraction | None = None
    per_jar: tuple[str, Fraction] | None = None
    per_finished: Fraction | None = None
    ambiguous: tuple[str, ...] = ()
    nearest: tuple[str, ...] = ()
    made_of: tuple["Item", ...] = ()
    mixture: bool = False
    unmeasured: bool = False

    @property
    def kept(self) -> bool:
        """Whether it stays in the jar."""
        return self.stay == "kept"


class Group(Struct, frozen=True):
    """All lines of one ingredient that share a fate (kept, infused, discarded), added up.

    `least` counts range ends at their low and optional lines as left out, `most` the reverse.
    """

    name: str
    sort: str
    safety: str
    family: str
    tags: frozenset[str]
    stay: str
    entry: Entry | None
    items: tuple[Item, ...]
    least: Quantity
    most: Quantity
    loose: bool
    role: str

    @property
    def kept(self) -> bool:
        """Whether it stays in the jar."""
        return self.stay == "kept"

    @property
    def known(self) -> bool:
        """Whether the ingredient table has this ingredient."""
        return self.entry is not None

    def has(self, *tags: str) -> bool:
        """Whether the table gives the ingredient any of these tags."""
        return any(tag in self.tags for tag in tags)


class Mixture(Struct, frozen=True):
    """A measured juice or mixture (`from` lines): the parent line and its parts as groups of their own."""

    parent: Item
    parts: tuple[Group, ...]


class Batch(Struct, frozen=True):
    """A formula added up.

    `groups` are what goes into the pot, from the formula's own lines and the acid of its mixtures; `per_jar` are the
    lines stated per jar; `mixtures` the measured juices. `kind` is the product word. `fixed_time` tells that the
    finish is a boiling time and not an end point, so that water put in stays in.
    """

    document: Document
    kind: str
    items: tuple[Item, ...]
    groups: tuple[Group, ...]
    per_jar: tuple[Item, ...]
    mixtures: tuple[Mixture, ...]
    fixed_time: bool
    variant: str = ""
