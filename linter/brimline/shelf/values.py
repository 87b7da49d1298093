"""A shelf of formulas: what was asked for, what else stands in the same collections, their settings, today's date."""

from collections.abc import Mapping
from datetime import date
from fractions import Fraction
from pathlib import Path

from msgspec import Struct, field
from msgspec.structs import replace

from brimline.document.meaning import Seal
from brimline.document.own import Own
from brimline.findings import Finding, Variance
from brimline.shelf.books import Book, finding


class Refusal(Struct, frozen=True):
    """Something that could not be looked at at all: a missing path, a link, an unreadable folder, faulty settings.

    `do` is what to do about it, as one sentence; empty if the reason says all.
    """

    path: str
    reason: str
    do: str


class Site(Struct, frozen=True):
    """A place where people cook from the collection: its name, its altitude in feet, who says so."""

    name: str
    altitude_ft: Fraction
    source: str = ""


class Settings(Struct, frozen=True):
    """What a collection says about itself in its `collection.yaml`.

    `name` and `notice` are printed with every review. `altitude_ft` is the highest altitude in feet its readers cook at,
    that of every place included, None if not stated; `lowest_ft` the lowest. `places` are where they cook.
    `hold_back` names the levels held back besides the three that always are: `quality`, `form`. `office` says who looks
    after it, by role; `office_block` is the same line by line, as handouts print it. `review_months` is how long a review
    holds, and `oldest_source_year` the year before which a publication counts as out of date; both None if the office
    sets none. `set_aside` are folders whose formulas are reviewed only when they, or one of them, are named: lessons
    that are wrong on purpose. `identity` names the places whose standards of identity are computed (`US`, `Codex`); all where it is empty.
    `own` are ingredients that the collection adds to the published table.
    """

    name: str = ""
    notice: str = ""
    altitude_ft: Fraction | None = None
    hold_back: tuple[str, ...] = ()
    office: str = ""
    review_months: int | None = None
    oldest_source_year: int | None = None
    set_aside: tuple[str, ...] = ()
    lowest_ft: Fraction | None = None
    places: tuple[Site, ...] = ()
    office_block: tuple[str, ...] = ()
    identity: tuple[str, ...] = ()
    own: tuple[Own, ...] = ()


class Collection(Struct, frozen=True):
    """A folder of formulas that belong together; `folder` holds `collection.yaml` unless it is made up `ad_hoc`.

    `register` maps codes to seals, None if the collection keeps none. `variances` stand in the order written. Both, and
    the settings, come from where the shelf was told to take them: the folder itself, or another revision of it.
    """

    folder: Path
    settings: Settings = field(default_factory=Settings)
    ad_hoc: bool = False
    register: Mapping[str, Seal] | None = None
    variances: tuple[Variance, ...] = ()


class Shelf(Struct, frozen=True):
    """The formulas of one run.

    `formulas` are those to be reviewed, `known` the others of the same collections, where tested formulas are looked
    up; both sorted by path. A book's `collection` counts into `collections`. `base` is the folder that all paths are
    relative to: the collection's own if there is one collection, else the nearest folder that holds them all.
    `left_out` are the paths of formulas set aside under the paths given that were not asked for by name.
    """

    formulas: tuple[Book, ...]
    known: tuple[Book, ...] = ()
    collections: tuple[Collection, ...] = ()
    today: date = date.min
    refusals: tuple[Refusal, ...] = ()
    base: Path = field(default_factory=Path)
    left_out: tuple[str, ...] = ()
    _codes: Mapping[tuple[int, str], tuple[Book, ...]] = field(default_factory=dict)
    _names: Mapping[str, str] = field(default_factory=dict)
    _paths: Mapping[str, Book] = field(default_factory=dict)
    _titles: Mapping[tuple[int, str], tuple[Book, ...]] = field(default_factory=dict)

    def by_code(self, code: str, near: Book) -> tuple[Book, ...]:
        """The formulas with this code in the collection of `near`: none, one, or several that share it by mistake."""
        return self._codes.get((near.collection, code), ())

    def of_code(self, number: int, code: str) -> tuple[Book, ...]:
        """The formulas with this code in the collection of that number."""
        return self._codes.get((number, code), ())

    def is_whole(self, number: int) -> bool:
        """Whether every formula of a collection is to be reviewed, but for those set aside."""
        aside = set(self.left_out)
        return any(book.collection == number for book in self.formulas) and not any(
            book.collection == number and book.path not in aside for book in self.known
        )

    def record_path(self, number: int, name: str) -> str:
        """What the own file of a collection is printed as: relative to the shelf's base, with forward slashes."""
        folder, base = self.collections[number].folder.as_posix(), self.base.as_posix()
        if folder == base:
            return name
        start = "" if base == "." else f"{base.rstrip('/')}/"
        return f"{folder.removeprefix(start)}/{name}"

    def codes(self, near: Book) -> tuple[str, ...]:
        """Every code in the collection of `near`, sorted; for naming the nearest one to a code that is not there."""
        return tuple(sorted(code for place, code in self._codes if place == near.collection))

    def settings(self, book: Book) -> Settings:
        """The settings of the collection a formula belongs to."""
        return self.collections[book.collection].settings if self.collections else Settings()

    def collection(self, book: Book) -> Collection | None:
        """The collection a formula belongs to."""
        return self.collections[book.collection] if book.collection < len(self.collections) else None

    def names(self) -> tuple[str, ...]:
        """The names of the collections reviewed; one without a name is called by its folder."""
        return tuple(one.settings.name or one.folder.name for one in self._reviewed() if not one.ad_hoc)

    def notices(self) -> tuple[str, ...]:
        """The notices of the collections reviewed, each once, in order; formulas set aside are told of too."""
        notices = [one.settings.notice for one in self._reviewed() if one.settings.notice]
        if self.left_out:
            folders = ", ".join(sorted({path.rpartition("/")[0] for path in self.left_out}))
            number = f"{len(self.left_out):,} formula{'s' if len(self.left_out) > 1 else ''}"
            notices.append(f"Set aside, not reviewed: {number} in {folders}. Name the folder to review them.")
        return tuple(dict.fromkeys(notices))

    def find(self, path: str) -> Book | None:
        """The formula printed under this path, whether to be reviewed or only known."""
        return self._paths.get(path)

    def written(self, path: str, line: int) -> str:
        """A line of a formula as written, counted from 1; empty if there is no such formula or line."""
        book = self.find(path)
        return book.line(line) if book else ""

    def findings(self, book: Book) -> tuple[Finding, ...]:
        """What only the shelf can see in a formula: a code or title that another has too, a troublesome file name."""
        return (*self._shared_code(book), *self._shared_title(book), *self._awkward_name(book))

    def awkward(self) -> Mapping[str, str]:
        """The paths of formulas whose file name makes trouble, each with the reason."""
        return self._names

    def only(self, formulas: tuple[Book, ...]) -> "Shelf":
        """The same shelf with fewer formulas to be reviewed; the rest stay known."""
        kept = {book.path for book in formulas}
        rest = tuple(book for book in self.formulas if book.path not in kept)
        return replace(
            self,
            formulas=formulas,
            known=tuple(sorted((*self.known, *rest), key=lambda book: book.path)),
            refusals=(),
        )

    def _reviewed(self) -> tuple[Collection, ...]:
        numbers = sorted({book.collection for book in self.formulas})
        return tuple(self.collections[number] for number in numbers if number < len(self.collections))

    def _shared_code(self, book: Book) -> tuple[Finding, ...]:
        others = [one.path for one in self.by_code(book.code, book) if one.path != book.path] if book.code else []
        if not others:
            return ()
        return (
            finding(
                book,
                "writing/code",
                says=f"{book.code} is also the code of {' and of '.join(others)}.",
                why="With two formulas under one code nobody can tell which of them an adaptation departs from.",
                instead="give one of them a code of its own, or remove the copy",
            ),
        )

    def _shared_title(self, book: Book) -> tuple[Finding, ...]:
        alike = self._titles.get((book.collection, book.title), ()) if book.title else ()
        # A successor often keeps the title of what it replaces, and a lesson that of what it is made from.
        others = [
            one for one in alike if one.path != book.path and one.path not in self.left_out and one.code != book.code
        ]
        others = [] if _retired(book) else [one for one in others if not _retired(one)]
        if not others:
            return ()
        return (
            finding(
                book,
                "writing/title",
                level="form",
                says=f"{' and '.join(one.code for one in others)} {'has' if len(others) == 1 else 'have'} the same title.",
                why="Readers ask for a formula by its title, and would be given the wrong one.",
                instead="say in the title what is different, such as the pectin or the jar",
            ),
        )

    def _awkward_name(self, book: Book) -> tuple[Finding, ...]:
        reason = self._names.get(book.path, "")
        if not reason:
            return ()
        return (
            finding(
                book,
                "writing/name",
                level="form",
                says=f"The file name {reason}.",
                why="Such a file cannot be kept, or is taken for another one, on some of the computers of a program.",
                instead="name the file after its code in small letters, for instance kv-101.formula",
            ),
        )


def _retired(book: Book) -> bool:
    document = book.read.document
    return document is not None and document.standing == "retired"
