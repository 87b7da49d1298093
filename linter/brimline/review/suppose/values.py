"""What a caller asks, as values: one edit or question a clause, what it makes of a formula, and the answer."""

from fractions import Fraction

from msgspec import Struct

from brimline.document.values import Document
from brimline.findings import Source
from brimline.review.values import Reviewed


class AskError(ValueError):
    """The words cannot be understood, or ask for what nothing can be said about; the message says what to ask."""


class Asked(Struct, frozen=True):
    """One thing a caller asks.

    `kind` is a kind of edit (`amount`, `out`, `sweeten`, `swap`, `add`, `jar`, `batch`, `pectin`, `altitude`, `method`,
    ...) or `talk` for a question that is no edit. `said` are the caller's words. `what` and `of` name ingredients, a
    jar, a method or a talk. `share` is a share of the tested amount; `number` and `unit` an amount; `number` to `high`
    a range of altitudes in feet. `either` leaves it open which of two things takes the place of the other.
    """

    kind: str
    said: str = ""
    what: str = ""
    of: str = ""
    share: Fraction | None = None
    number: Fraction | None = None
    high: Fraction | None = None
    unit: str = ""
    either: bool = False


class Made(Struct, frozen=True):
    """What an edit makes of a formula.

    `phrase` completes a sentence about the formula (`with half the sugar`), `fact` gives the amounts in figures (`4 1/4
    cups instead of 8 1/2`), `subjects` are the words of the changes section it owns up to. `silent` are the rows of the
    decision table that may explain why nothing is held back, the likeliest first. `absent` says that the formula has
    nothing there to change; the document is then the one that came in. `topics` pick a sentence of their own.
    """

    document: Document
    phrase: str
    fact: str = ""
    subjects: tuple[str, ...] = ()
    silent: tuple[str, ...] = ()
    absent: str = ""
    topics: tuple[str, ...] = ()


class Answer(Struct, frozen=True):
    """An answer fit to read out.

    `verdict` is `matches`, `silent` (no table speaks of it), `quality`, `untested`, `unsafe`, `unreadable` or `talk`. `says` are two sentences, `instead`
    the choices, `also` what else must be said, each a level word (or empty) and a sentence. `measured` is the
    arithmetic of the finding that decided. `text` is the edited formula as it was reviewed, `reviewed` its review; both
    empty for a talk.
    """

    asked: tuple[Asked, ...]
    verdict: str
    says: tuple[str, str]
    instead: str
    sources: tuple[Source, ...]
    also: tuple[tuple[str, str], ...] = ()
    measured: str = ""
    row: str = ""
    rule: str = ""
    text: str = ""
    reviewed: Reviewed | None = None
    held_back: bool = False


class Call(Struct, frozen=True):
    """A whole call: the formula it is about and the answers, that to the edits first."""

    path: str
    code: str
    title: str
    standing: str
    asked: tuple[Asked, ...]
    answers: tuple[Answer, ...]
    notices: tuple[str, ...] = ()

    @property
    def held_back(self) -> bool:
        """Whether any answer is one that a review would hold back."""
        return any(one.held_back for one in self.answers)
