"""What has to be reviewed, as a table, as CSV (RFC 4180) and as a calendar (RFC 5545)."""

from collections.abc import Iterable, Iterator
from datetime import UTC, date, datetime, timedelta

from brimline.report.escaping import cell
from brimline.report.look import Look, cells, wrapped
from brimline.report.sink import Row, paint, visible
from brimline.report.words import counted
from brimline.review.due import Due

_HEAD = ("due", "state", "days left", "days over", "code", "title", "standing", "file", "from", "office")
_OCTETS = 75
# The name space of the UIDs below: made once with uuid4, never to change, or every entry would be a new one.
_SPACE = "6f0c8f5e-6f2b-4a0d-9a55-2b7f6d7a3c11"


def due_text(several: tuple[Due, ...], look: Look, before: date | None) -> str:
    """The list for people: overdue first, formulas without any date last."""
    return paint(_rows(several, look, before), look.colour)


def _rows(several: tuple[Due, ...], look: Look, before: date | None) -> Iterator[Row]:
    counts = {state: sum(one.state == state for one in several) for state in ("overdue", "due", "no date")}
    until = f" before {before.isoformat()}" if before else ""
    yield (
        (
            "strong",
            f"To be reviewed{until}: {counted(counts['overdue'] + counts['due'], 'formula')}, {counts['overdue']:,} overdue",
        ),
    )
    for state in ("overdue", "due", "no date"):
        some = [one for one in several if one.state == state]
        if not some:
            continue
        yield ()
        for one in some:
            yield from _one(one, look)
    offices = dict.fromkeys(one.office for one in several if one.office)
    if offices:
        yield ()
        for line in wrapped(f"Looked after by: {'; '.join(offices)}.", look.width):
            yield (("", line),)


def _one(one: Due, look: Look) -> Iterator[Row]:
    day = one.by.isoformat() if one.by else "no date"
    left = f"  {day.ljust(10)}  {one.state.ljust(7)}  "
    text = f"{one.code or '(no code)'}  {one.title}; {one.basis} ({look.from_here(one.path)})"
    style = "untested" if one.state == "overdue" else ""
    for number, line in enumerate(wrapped(text, look.width - cells(left))):
        yield ((style, " " * cells(left) if number else left), ("", line))


def due_csv(several: Iterable[Due]) -> str:
    """One row a formula, comma-separated, every cell quoted, lines ended by CR LF."""
    rows: list[tuple[str, ...]] = [_HEAD]
    for one in several:
        day = one.by.isoformat() if one.by else ""
        left = "" if one.days is None or one.days < 0 else str(one.days)
        over = "" if one.days is None or one.days >= 0 else str(-one.days)
        rows.append((day, one.state, left, over, one.code, one.title, one.standing, one.path, one.basis, one.office))
    return "".join(",".join(cell(text) for text in row) + "\r\n" for row in rows)


def calendar(several: Iterable[Due], on: date) -> str:
    """One all-day entry a formula with a date; empty if there is none, because a calendar may not be empty.

    The same formulas on the same day give the same bytes. An entry keeps its UID as long as the formula keeps its code,
    so that a calendar read again moves it and does not double it.
    """
    dated = [one for one in several if one.by is not None]
    if not dated:
        return ""
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Brimline//review dates//EN", "CALSCALE:GREGORIAN"]
    for one in dated:
        lines.extend(_event(one, on))
    lines.append("END:VCALENDAR")
    return "".join(f"{folded(line)}\r\n" for line in lines)


def _event(one: Due, on: date) -> Iterator[str]:
    from uuid import UUID, uuid5

    assert one.by is not None, "entries are made for dates"  # noqa: S101
    key = uuid5(UUID(_SPACE), f"{one.collection}/{one.code or one.path}".encode("utf-8", "replace").decode("utf-8"))
    stamp = datetime(on.year, on.month, on.day, tzinfo=UTC)
    name = " ".join(filter(None, [one.code, one.title])) or one.path
    says = f"{one.basis}. File: {one.path}." + (f" Looked after by: {one.office}." if one.office else "")
    yield "BEGIN:VEVENT"
    yield f"UID:{key}"
    yield f"DTSTAMP:{stamp:%Y%m%dT%H%M%SZ}"
    yield f"DTSTART;VALUE=DATE:{_day(one.by)}"
    if one.by < date.max:
        yield f"DTEND;VALUE=DATE:{_day(one.by + timedelta(days=1))}"
    yield f"SUMMARY:{escaped(f'Review {name}')}"
    yield f"DESCRIPTION:{escaped(says)}"
    yield "TRANSP:TRANSPARENT"
    yield "END:VEVENT"


def _day(day: date) -> str:
    return f"{day.year:04d}{day.month:02d}{day.day:02d}"


def escaped(text: str) -> str:
    """A text value: backslash, semicolon and comma escaped, what does not print made visible (RFC 5545, 3.3.11)."""
    plain = visible(text)
    for sign in ("\\", ";", ","):
        plain = plain.replace(sign, f"\\{sign}")
    return plain


def folded(line: str) -> str:
    """A content line in pieces of at most 75 octets, each after the first begun by a blank (RFC 5545, 3.1).

    A letter of several octets is never cut in two.
    """
    pieces, piece, room = [], "", _OCTETS
    for letter in line:
        size = len(letter.encode("utf-8"))
        if size > room:
            pieces.append(piece)
            piece, room = "", _OCTETS - 1
        piece, room = piece + letter, room - size
    return "\r\n ".join([*pieces, piece])
