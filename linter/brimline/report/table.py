"""A comparison as a table: subject, tested, here, change, what it means."""

from collections.abc import Iterator

from brimline.findings import Level
from brimline.report.look import Look, cells, wrapped
from brimline.report.people import heading
from brimline.report.sink import Row, paint, visible
from brimline.report.words import CLASSES, NOTICE, WHAT_IT_DOES, level_counts, sentence
from brimline.review.values import Comparison, MoveRow

_HEADS = ("subject", "tested", "here", "change", "what it means")
# No column but the last is wider than this; longer cells are wrapped.
_WIDEST = (16, 20, 20, 16)
# The last column takes what is left of the line, and never less than this.
_MEANING = 18
_GAP = 2
# Below this width a table of five columns cannot be read; each move is a short list instead.
_NARROW = 72

# The row of the decision table that the last column states move by move.
_IN_TABLE = ("undeclared",)


def table(comparison: Comparison, look: Look) -> str:
    """The comparison with its heading, every move, and what it comes to."""
    return paint(_rows(comparison, look), look.colour)


def _rows(comparison: Comparison, look: Look) -> Iterator[Row]:
    formula = comparison.reviewed
    yield from heading(formula, look)
    if comparison.against:
        acid = CLASSES.get(comparison.acid_class, "")
        scale = f"read at {comparison.scale} of its batch" if comparison.scale else "the batch could not be matched"
        parts = [f"beside {comparison.against} {comparison.against_title}".rstrip(), scale, *([acid] if acid else [])]
        for line in wrapped("; ".join(parts), look.width - 2):
            yield (("", f"  {line}"),)
    yield ()
    if comparison.moves:
        yield from _moves(comparison.moves, look)
    elif comparison.against:
        yield (("", "No change in anything that is compared."),)
    else:
        yield (("", "There is no tested formula to compare with."),)
    yield ()
    yield from _rest(comparison, look)
    found = level_counts(formula.findings)
    verdict = "Held back" if formula.held_back else "Not held back"
    for text in filter(None, [f"{verdict}{f': {found}' if found else ''}.", WHAT_IT_DOES, NOTICE * formula.held_back]):
        for line in wrapped(text, look.width):
            yield (("", line),)


def _rest(comparison: Comparison, look: Look) -> Iterator[Row]:
    """Findings that no move in the table names, such as a share that fell because something else was added."""
    named = {word for move in comparison.moves for word in move.meaning.replace(";", " ").split()}
    rest = [one for one in comparison.reviewed.findings if one.rule not in named and one.row not in _IN_TABLE]
    if not rest:
        return
    yield (("", "Also found:"),)
    for finding in rest:
        word = finding.level.word
        line = f", line {finding.line}" if finding.line else ""
        says = f"{word} {finding.rule}{'' if finding.certain else ', may be'}{line}: {sentence(finding.says)}"
        first, *more = wrapped(says, look.width - 2)
        yield (("", "  "), (word, word), ("", first.removeprefix(word)))
        yield from ((("", f"  {part}"),) for part in more)
    yield ()


def _moves(moves: tuple[MoveRow, ...], look: Look) -> Iterator[Row]:
    rows = [_cells(move) for move in moves]
    if look.width < _NARROW:
        yield from _stacked(rows, look.width)
        return
    widths = _widths(rows, look.width)
    yield (("faint", _joined(_HEADS, widths)),)
    yield (("faint", _joined(tuple("-" * width for width in widths), widths)),)
    for row in rows:
        yield from _table_row(row, widths)


def _stacked(rows: list[tuple[str, ...]], width: int) -> Iterator[Row]:
    for row in rows:
        for number, (head, cell) in enumerate(zip(_HEADS, row, strict=True)):
            for line in wrapped(cell if not number else f"{head}: {cell}", width - 2 * bool(number)):
                yield (("" if number else "strong", "  " * bool(number) + line),)


def _cells(move: MoveRow) -> tuple[str, ...]:
    lines = [f"line {move.line}"] if move.line else []
    tested = [f"line {move.tested_line}"] if move.tested_line else []
    undeclared = [] if move.declared else ["not listed under changes"]
    return (
        visible(move.subject),
        ", ".join([visible(move.tested) or "none", *tested]),
        ", ".join([visible(move.here) or "none", *lines]),
        visible(move.change),
        "; ".join([visible(move.meaning), *undeclared]),
    )


def _widths(rows: list[tuple[str, ...]], width: int) -> tuple[int, ...]:
    """Each column as wide as its widest cell needs, up to its limit; narrower in turn if the last one is squeezed."""
    most = [min(limit, max(cells(row[n]) for row in (_HEADS, *rows))) for n, limit in enumerate(_WIDEST)]
    while width - sum(most) - _GAP * len(most) < _MEANING:
        most[most.index(max(most))] -= 1
    return (*most, width - sum(most) - _GAP * len(most))


def _table_row(row: tuple[str, ...], widths: tuple[int, ...]) -> Iterator[Row]:
    parts = [wrapped(cell, width) for cell, width in zip(row, widths, strict=True)]
    said = row[-1].removeprefix("may be ")
    style = next((level.word for level in Level if said.startswith(level.word)), "")
    for number in range(max(len(part) for part in parts)):
        texts = tuple(part[number] if number < len(part) else "" for part in parts)
        line = _joined(texts[:-1], widths[:-1]) + " " * _GAP
        last = texts[-1]
        if style and not number and style in last:
            before, _, after = last.partition(style)
            yield (("", line + before), (style, style), ("", after))
        else:
            yield (("", line + last),)


def _joined(texts: tuple[str, ...], widths: tuple[int, ...]) -> str:
    padded = [text + " " * max(width - cells(text), 0) for text, width in zip(texts, widths, strict=True)]
    return (" " * _GAP).join(padded)
