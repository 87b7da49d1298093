"""Puts the lines of a file together into one document, every value at its place.

A line that could not be read leaves no value behind and spoils no other; what stands under it is left out with it.
"""

from typing import Any

from msgspec import Struct

from brimline.document import moved
from brimline.document.amounts import Note
from brimline.document.gather import TWICE, Listed, Make, Pack, Processes, Take
from brimline.document.memory import Said, said
from brimline.document.values import Document
from brimline.findings import Finding, Level, Span
from brimline.text import Text
from brimline.tree import Row, Tree

_WHY = {
    Level.UNREADABLE: "What cannot be read for certain is not computed with.",
    Level.FORM: "The reader should not have to guess what is meant.",
}
_GRAMMAR_KINDS = frozenset({"take", "pack", "process", "keep", "changes", "evidence"})


class Built(Struct, frozen=True):
    """A document and what came up while it was put together.

    `plain` is the document as JSON. `unsure` are the sections in which some line could not be read, so that nothing
    can be said about what they lack; `unsure_edge` says the same of the headers and the sections themselves.
    """

    document: Document
    plain: dict[str, Any]
    findings: tuple[Finding, ...]
    unsure: frozenset[str]
    unsure_edge: bool


def build(text: Text, tree: Tree) -> Built:
    """The document of a file, with a finding for everything that is written twice or cannot mean anything."""
    return _Builder(text, tree).build()


class _Builder:
    """The state of one `build`."""

    def __init__(self, text: Text, tree: Tree) -> None:
        self.text = text
        self.tree = tree
        self.found: list[Finding] = []
        self.unsure: set[str] = set()
        self.unsure_edge = False
        self.headers: dict[str, Span] = {}
        self.sections: dict[str, Span] = {}
        self.at: dict[str, Span] = {}
        self.comments: list[tuple[int, str]] = []
        self.fields: dict[str, Any] = {}
        self.plain: dict[str, Any] = {}
        self.take, self.make, self.pack = Take(), Make(), Pack()
        self.processes, self.listed = Processes(), Listed()

    def build(self) -> Built:
        add = {"take": self.take.add, "pack": self.pack.add, "process": self.processes.add}
        for row in self.tree.rows:
            if row.comment:
                self.comments.append((row.number, row.comment[1:].strip()))
            kind = row.kind
            if kind == "blank":
                continue
            if kind in _GRAMMAR_KINDS:
                says = self._said(row)
                if says.kind:
                    problem = add.get(kind, self.listed.add)(row, says)
                    if problem:
                        self._report(row, problem)
                elif kind == "take":
                    self.take.fault(row)
            elif kind == "header":
                self._header(row, self._said(row))
            elif kind == "section":
                self._section(row, self._said(row))
            else:
                self._unparsed(row)
        return self._built()

    def _said(self, row: Row) -> Said:
        """What a row says; its notes become findings, and a row that says nothing makes its section unsure."""
        says = said(row.kind, row.body)
        for note in says.notes:
            self._note(row, note)
        if not says.kind:
            self._unsure(row)
        return says

    def _unsure(self, row: Row) -> None:
        if row.indent and row.section:
            self.unsure.add(row.section)
        else:
            self.unsure_edge = True

    def _header(self, row: Row, says: Said) -> None:
        """A header line; the first of its kind stands, a second one is named."""
        by, word = row.offset, row.word
        if not self.sections:
            # What is missing in a formula without sections is placed on its first header.
            self.sections["formula"] = moved.span(says.word, by)
        if not says.kind:
            return
        if word in self.headers:
            self._report(row, TWICE.format(word))
            return
        value = says.value
        if says.kind == "formula":
            self._text_field("code", value[0], by)
            self._text_field("title", value[1], by)
            self.headers[word] = Span(value[0].span.start + by, value[1].span.end + by)
        elif says.kind == "header":
            self.fields["finish"] = moved.simple(value, by)
            self._place("finish", says, by, word)
        elif says.kind == "yields":
            self.fields["yields"] = moved.yields(value, by)
            self._place("yield", says, by, word)
        else:
            self._text_field(says.kind, value, by)
            self.headers[word] = moved.span(value.span, by)

    def _place(self, key: str, says: Said, by: int, word: str) -> None:
        self.plain[key] = says.plain
        self.headers[word] = self.at[f"/{key}"] = moved.span(says.value.span, by)

    def _text_field(self, key: str, value: Any, by: int) -> None:
        self.fields[key] = self.plain[key] = value.value
        self.at[f"/{key}"] = moved.span(value.span, by)

    def _section(self, row: Row, says: Said) -> None:
        """The word that opens a section; all but `process` are opened once."""
        word = row.section
        if word == "process":
            self.processes.open(row, says)
        elif word in self.sections and says.kind:
            self._report(row, f"`{word}` is opened twice; its lines stand together under the first one.")
        self.take.under_fault = False
        self.sections.setdefault(word, moved.span(says.word, row.offset))

    def _unparsed(self, row: Row) -> None:
        """A row of `make`, or one that was not read at all."""
        if row.kind in ("step", "more") and row.number not in self.tree.faulty:
            self.make.add(row)
            return
        self._unsure(row)
        if row.section == "make":
            self.make.fault()
        elif row.section == "take":
            self.take.fault(row)

    def _note(self, row: Row, note: Note) -> None:
        span = Span(row.offset + note.start, row.offset + note.end)
        copy = row.line_with(note.body) if note.body else ""
        why = _WHY[note.level]
        self.found.append(
            self.text.finding(
                span, note.rule, note.says, why, note.instead, copy=copy, level=note.level, section=row.section
            )
        )

    def _report(self, row: Row, says: str) -> None:
        """A finding about where a row stands, on its first word."""
        span = Span(row.offset, row.offset + len(row.word))
        instead = "Move it to where it belongs, or take it out."
        why = _WHY[Level.UNREADABLE]
        self.found.append(self.text.finding(span, "writing/shape", says, why, instead, section=row.section))

    def _built(self) -> Built:
        plain, at = self.plain, self.at
        document = Document(
            self.text.path,
            **self.fields,
            take=self.take.done(plain, at),
            make=self.make.done(plain, at),
            pack=self.pack.done(plain, at, self.sections.get("pack")),
            process=self.processes.done(plain, at),
            **self.listed.done(plain, at),
            headers=self.headers,
            sections=self.sections,
            comments=tuple(self.comments),
            at=at,
        )
        return Built(document, plain, tuple(self.found), frozenset(self.unsure), self.unsure_edge)
