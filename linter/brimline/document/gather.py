"""Collects the lines of each section and puts them together; one class for each section.

`add` takes a line that could be read and returns what is wrong with its standing there, empty if nothing is. `done`
gives the section's value, writes its JSON into `plain` and the places of its parts into `at`.
"""

from typing import Any

from brimline.document import moved
from brimline.document.memory import Said
from brimline.document.plain import plain as to_plain
from brimline.document.values import Line, Packing, Process, Step
from brimline.findings import Span
from brimline.tree import Row

SUB_LINES = ("or", "from", "note")
TWICE = "`{}` is written twice; only the first one is read."
At = dict[str, Span]
Plain = dict[str, Any]


class Take:
    """take: ingredient lines, each with the `or`, `from` and `note` lines under it."""

    def __init__(self) -> None:
        self.lines: list[tuple[Said, int, list[tuple[Said, int]]]] = []
        self.under_fault = False

    def add(self, row: Row, says: Said) -> str:
        """A main line opens a new ingredient; what stands under a line that could not be read goes with it."""
        if says.kind == "line":
            self.lines.append((says, row.offset, []))
            self.under_fault = False
        elif self.under_fault:
            return ""
        elif not self.lines:
            return f"`{row.word}` belongs under an ingredient line, and none stands above."
        else:
            self.lines[-1][2].append((says, row.offset))
        return ""

    def fault(self, row: Row) -> None:
        """A main line that could not be read; a faulty sub-line concerns itself alone."""
        if row.word not in SUB_LINES:
            self.under_fault = True

    def done(self, plain: Plain, at: At) -> tuple[Line, ...]:
        """The ingredient lines in order."""
        out, shapes = [], []
        for index, (says, by, subs) in enumerate(self.lines):
            pointer = f"/take/{index}"
            shape = says.plain
            if subs:
                value, shape = _with_subs(says, by, subs, index, at)
            else:
                value = moved.line(says.value, by, index=index)
            at[pointer] = value.span
            at[f"{pointer}/amount"] = value.amount_span
            at[f"{pointer}/item"] = value.item_span
            out.append(value)
            shapes.append(shape)
        if shapes:
            plain["take"] = shapes
        return tuple(out)


def _with_subs(says: Said, by: int, subs: list[tuple[Said, int]], index: int, at: At) -> tuple[Line, Plain]:
    """An ingredient line with the lines under it, and its JSON."""
    pointer = f"/take/{index}"
    values: dict[str, list[Line]] = {"other": [], "made_of": []}
    notes: list[str] = []
    under: dict[str, list[Any]] = {}
    for sub, sub_by in subs:
        if sub.kind == "note":
            at[f"{pointer}/note/{len(notes)}"] = moved.span(sub.value.span, sub_by)
            notes.append(sub.value.value)
            under.setdefault("note", []).append(sub.plain)
            continue
        key = "made_of" if sub.kind == "made_of" else "other"
        members = sub.value if sub.kind == "mix" else (sub.value,)
        shapes = sub.plain if sub.kind == "mix" else (sub.plain,)
        for member, shape in zip(members, shapes, strict=True):
            # A line without a role of its own takes over that of the line above it.
            value = moved.line(member, sub_by, role=says.value.role)
            place = f"{pointer}/{key}/{len(values[key])}"
            at[place] = value.span
            at[f"{place}/item"] = value.item_span
            values[key].append(value)
            under.setdefault(key, []).append(shape | {"role": value.role})
    made = moved.line(
        says.value,
        by,
        other=tuple(values["other"]),
        made_of=tuple(values["made_of"]),
        note=tuple(notes),
        index=index,
    )
    return made, says.plain | under


class Make:
    """make: steps, each joined over its continuation lines with single blanks."""

    def __init__(self) -> None:
        self.steps: list[tuple[list[str], Span] | None] = []

    def add(self, row: Row) -> None:
        """A step, or a line that goes on from the step before."""
        end = row.offset + len(row.body)
        if row.kind == "step":
            words = row.body[1:].lstrip(" \t")
            self.steps.append(([words], Span(end - len(words), end)))
        elif self.steps and self.steps[-1] is not None:
            before, span = self.steps[-1]
            self.steps[-1] = ([*before, row.body], Span(span.start, end))

    def fault(self) -> None:
        """A step that could not be read; the lines that go on from it go with it."""
        self.steps.append(None)

    def done(self, plain: Plain, at: At) -> tuple[Step, ...]:
        """The steps in order."""
        steps = tuple(Step(" ".join(one[0]), one[1]) for one in self.steps if one is not None)
        if steps:
            plain["make"] = [step.text for step in steps]
            for i, step in enumerate(steps):
                at[f"/make/{i}"] = step.span
        return steps


class Pack:
    """pack: jars, preparation, fill, headspace, lid; preparation and headspace may differ from jar to jar."""

    def __init__(self) -> None:
        self.many: dict[str, list[Any]] = {"prepare": [], "headspace": []}
        self.one: dict[str, Any] = {}

    def add(self, row: Row, says: Said) -> str:
        """A row of the section; jars, fill and lid stand once."""
        kind, by = says.kind, row.offset
        if kind in self.many:
            self.many[kind].append(moved.for_jars(says.value, by))
        elif kind in self.one:
            return TWICE.format(row.word)
        elif kind == "jar_row":
            self.one[kind] = moved.jars(says.value, by)
        else:
            self.one[kind] = moved.simple(says.value, by)
        return ""

    def done(self, plain: Plain, at: At, span: Span | None) -> Packing:
        """The packing; `span` is that of the section's word, None where there is no such section."""
        if span is None:
            return Packing()
        one, many = self.one, self.many
        jars, fill, lid = one.get("jar_row", ()), one.get("fill"), one.get("lid")
        value = Packing(jars, tuple(many["prepare"]), fill, tuple(many["headspace"]), lid, span)
        plain["pack"] = to_plain(value)
        at["/pack"] = span
        for key, rows in (("jars", jars), ("prepare", value.prepare), ("headspace", value.headspace)):
            for i, row in enumerate(rows):
                at[f"/pack/{key}/{i}"] = row.span
        for key, header in (("fill", fill), ("lid", lid)):
            if header is not None:
                at[f"/pack/{key}"] = header.span
        return value


class Processes:
    """process: one method for each opening of the section, with its rows of jars and times."""

    def __init__(self) -> None:
        self.methods: list[tuple[str, Span, list[Any], list[Any]]] = []

    def open(self, row: Row, says: Said) -> None:
        """The line that opens a process; one that could not be read takes its rows along."""
        method = says.value[1] if says.kind else ""
        self.methods.append((method, Span(row.offset, row.offset + len(row.body)), [], []))

    def add(self, row: Row, says: Said) -> str:
        """A row of jars and times, or the start of the process, which stands once."""
        _, _, rows, starts = self.methods[-1]
        if says.kind == "times":
            rows.append((moved.times(says.value, row.offset), says.plain))
        elif starts:
            return TWICE.format(row.word)
        else:
            starts.append((moved.simple(says.value, row.offset), says.plain))
        return ""

    def done(self, plain: Plain, at: At) -> tuple[Process, ...]:
        """The processes in order."""
        out: list[Process] = []
        shapes: list[Plain] = []
        for method, span, rows, starts in self.methods:
            if not method:
                continue
            pointer = f"/process/{len(out)}"
            at[pointer] = span
            shape: Plain = {"method": method}
            if starts:
                at[f"{pointer}/start"] = starts[0][0].span
                shape["start"] = starts[0][1]
            if rows:
                shape["rows"] = [one for _, one in rows]
            for i, (times, _) in enumerate(rows):
                at[f"{pointer}/rows/{i}"] = times.span
                for j, band in enumerate(times.bands):
                    at[f"{pointer}/rows/{i}/bands/{j}"] = band.span
            out.append(Process(method, span, tuple(times for times, _ in rows), starts[0][0] if starts else None))
            shapes.append(shape)
        if shapes:
            plain["process"] = shapes
        return tuple(out)


class Listed:
    """keep, changes, evidence: rows that stand for themselves, any number of each."""

    def __init__(self) -> None:
        self.rows: dict[str, list[Any]] = {"keep": [], "changes": [], "evidence": []}

    def add(self, row: Row, says: Said) -> str:
        """A row of its section."""
        self.rows[row.section].append((moved.simple(says.value, row.offset), says.plain))
        return ""

    def done(self, plain: Plain, at: At) -> dict[str, Any]:
        """The rows of each section in order."""
        out: dict[str, Any] = {}
        for key, rows in self.rows.items():
            out[key] = tuple(value for value, _ in rows)
            if rows:
                plain[key] = [shape for _, shape in rows]
                for i, (value, _) in enumerate(rows):
                    at[f"/{key}/{i}"] = value.span
        return out
