"""What the gate compares and what it comes to: two snapshots of a collection in, the difference out."""

from collections.abc import Mapping

from msgspec import Struct, field

from brimline.review.values import Refusal, Reviewed

# A folder within a folder within a folder: deeper than this, and a collection is something else.
DEEPEST = 32


class Trouble(Exception):
    """The comparison cannot be made; the message says why, `do` what to do about it."""

    def __init__(self, says: str, do: str) -> None:
        super().__init__(says)
        self.do = do


class Leaf(Struct, frozen=True):
    """One file of a snapshot.

    `data` are its bytes, None where there are none to look at: `trouble` then says why (`is a link to another place,
    and links are not followed`), or `size` that it is larger than such a file may be.
    """

    data: bytes | None
    trouble: str = ""
    size: int = 0


class Snapshot(Struct, frozen=True):
    """The formulas and the records of collections as they stand in one revision.

    Paths are relative to the folder looked at, with forward slashes; bytes that are not UTF-8 are kept as Python keeps
    them in file names. `formulas` are all formula files, `records` the files that say how a collection is judged
    (`collection.yaml` and its like). `links` and `submodules` are what lies there and is not looked into, each with
    what it is now (where the link leads, which revision). `odd` are paths that are not looked at, each with the reason.
    """

    formulas: Mapping[str, Leaf] = field(default_factory=dict)
    records: Mapping[str, Leaf] = field(default_factory=dict)
    links: Mapping[str, str] = field(default_factory=dict)
    submodules: Mapping[str, str] = field(default_factory=dict)
    odd: Mapping[str, str] = field(default_factory=dict)


class Gated(Struct, frozen=True):
    """What a request changes.

    `formulas` and `files` hold new findings only, the formulas and the collections' own files they are about;
    `held_back` of each says whether one of them does. `known` counts the findings that were there before, `mended` those
    that are gone. `changed` (new ones too), `dependents`, `removed` and `renamed` name formulas by path, `aside` the
    changed formulas that the collection sets aside, which are not reviewed. `notes` are sentences for the reader,
    `refusals` what could not be looked at.
    """

    formulas: tuple[Reviewed, ...] = ()
    files: tuple[Reviewed, ...] = ()
    known: int = 0
    mended: int = 0
    changed: tuple[str, ...] = ()
    dependents: tuple[str, ...] = ()
    removed: tuple[str, ...] = ()
    renamed: tuple[tuple[str, str], ...] = ()
    aside: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    refusals: tuple[Refusal, ...] = ()
    collections: tuple[str, ...] = ()
    notices: tuple[str, ...] = ()

    @property
    def all(self) -> tuple[Reviewed, ...]:
        """Files and formulas, in this order."""
        return (*self.files, *self.formulas)

    @property
    def held_back(self) -> int:
        """How many formulas and files hold the request back."""
        return sum(one.held_back for one in self.all)
