"""Flags to findings: the row's level, harm and sources, the rule's reason, the line and section in the text."""

from brimline import figures
from brimline.document.values import Document
from brimline.figures.values import Row
from brimline.findings import Finding, Flag, Harm, Level, Place, Source, Span
from brimline.moves.values import Case
from brimline.review.fields import Parts, field_of, parts, section_of
from brimline.review.rows import row_of
from brimline.rules import Rule
from brimline.text import Text


class Stamp:
    """Stamps the flags of one formula."""

    __slots__ = ("_parts", "document", "path", "text")

    def __init__(self, path: str, document: Document, text: Text | None) -> None:
        self.path = path
        self.document = document
        self.text = text
        self._parts: Parts | None = None

    def field(self, at: Span) -> str:
        """The part of the formula a place lies in, by section and item: `/take/lemon-juice`."""
        if self._parts is None:
            self._parts = parts(self.document)
        return field_of(self._parts, self.document, self.text, at)

    def finding(self, rule: Rule, flag: Flag, case: Case | None) -> Finding | None:
        """The finding of a flag; None if its row is silent here."""
        row = row_of(flag.row)
        word = flag.level or level_word(row, flag.acid_class)
        if word == "silent":
            return None
        line, column = self.text.line_column(flag.at.start) if self.text else (0, 0)
        return Finding(
            at=Place(self.path, flag.at),
            level=Level[word.upper()],
            rule=rule.name,
            harm=Harm(flag.harm or harm_word(row, flag.acid_class, case)),
            says=flag.says,
            why=row.why or rule.why,
            instead="; ".join(part for part in (flag.instead, row.advice) if part),
            formula=self.document.code,
            row=flag.row,
            line=line,
            column=column,
            section=section_of(self.document, flag.at.start),
            field=self.field(flag.at),
            before=flag.before,
            certain=flag.certain,
            figures=flag.figures,
            sources=flag.sources or _sources(flag, row),
        )


def _sources(flag: Flag, row: Row) -> tuple[Source, ...]:
    """The publication behind this one flag first, then those of its row.

    A row that rests on our judgement alone gives way to a publication.
    """
    if not flag.source:
        return row.basis
    own = figures.source(flag.source)
    return (own, *(one for one in row.basis if one != own and one.how != "judgement"))


def level_word(row: Row, acid_class: str) -> str:
    """The level a row gives, for an acid class if it has one each."""
    levels = dict(row.levels)
    return levels.get(acid_class) or levels.get("") or next(iter(levels.values()))


def harm_word(row: Row, acid_class: str, case: Case | None) -> str:
    """The harm a row names; where acid only sets, a gelled product stays soft and nothing worse."""
    harms = dict(row.harms)
    if acid_class == "sets" and case is not None and case.gelled and "sets-gelled" in harms:
        return harms["sets-gelled"]
    return harms.get(acid_class) or harms.get("") or next(iter(harms.values()), "record")
