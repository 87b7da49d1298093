"""What is due: dates, the interval of the collection, the order, CSV that no spreadsheet obeys, a calendar by RFC 5545."""

import csv
import io
import os
import re
import subprocess
import sys
from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from small_formulas import TODAY, formula, on_shelf

from brimline.report.due import calendar, due_csv, due_text, escaped, folded
from brimline.report.escaping import cell
from brimline.report.look import Look
from brimline.review.due import Due, due, later
from brimline.shelf import Settings

STATED = "  tested     2025-06-14, a test kitchen\n  review-by  {day}\n"


def stated(code: str, day: str, **more: str) -> str:
    return formula(code, evidence=STATED.format(day=day), **more)


def codes(found: tuple[Due, ...]) -> list[str]:
    return [one.code for one in found]


def one_due(**changes: object) -> Due:
    usual: dict[str, object] = {
        "path": "kv-101.formula",
        "code": "KV-101",
        "title": "Gooseberry jam",
        "standing": "tested",
        "by": date(2027, 3, 1),
        "state": "due",
        "days": 28,
        "basis": "review-by",
        "office": "curator",
        "collection": "Kestrel Valley",
    }
    return Due(**{**usual, **changes})  # type: ignore[arg-type]


def test_overdue_comes_first_then_by_date_and_the_day_itself_is_not_before_it() -> None:
    shelf = on_shelf(stated("KV-3", "2027-05-01"), stated("KV-1", "2027-01-31"), stated("KV-2", "2027-02-01"))
    found = due(shelf, None)
    assert [(one.code, one.state) for one in found] == [("KV-1", "overdue"), ("KV-2", "due"), ("KV-3", "due")]
    assert codes(due(shelf, date(2027, 5, 1))) == ["KV-1", "KV-2"]
    assert codes(due(shelf, date(2027, 5, 2))) == ["KV-1", "KV-2", "KV-3"]


def test_retired_formulas_and_drafts_are_left_out() -> None:
    shelf = on_shelf(
        stated("KV-1", "2026-01-31", standing="retired", headers="retired 2026-05-01, new guidance\n"),
        stated("KV-2", "2026-01-31", standing="draft"),
        stated("KV-3", "2026-01-31"),
    )
    assert codes(due(shelf, None)) == ["KV-3"]


def test_without_a_date_the_interval_of_the_collection_counts_from_the_latest_evidence() -> None:
    text = formula("KV-1", evidence="  tested     2024-02-29, a test kitchen\n  reading    pH 3.1 on 2024-01-10\n")
    (found,) = due(on_shelf(text, settings=Settings(review_months=36)), None)
    assert found.by == date(2027, 2, 28)
    assert "36 months" in found.basis
    (bare,) = due(on_shelf(text), None)
    assert (bare.by, bare.state) == (None, "no date")


def test_a_stated_date_outranks_the_interval() -> None:
    (found,) = due(on_shelf(stated("KV-1", "2030-01-01"), settings=Settings(review_months=1)), None)
    assert found.by == date(2030, 1, 1)


def test_an_adaptation_without_a_date_is_due_with_what_it_adapts() -> None:
    shelf = on_shelf(stated("KV-1", "2027-04-01"), formula("KV-2", adapts="KV-1"), formula("KV-3", adapts="KV-2"))
    assert {one.code: one.by for one in due(shelf, None)} == dict.fromkeys(("KV-1", "KV-2", "KV-3"), date(2027, 4, 1))
    assert "KV-1" in due(shelf, None)[2].basis


def test_a_ring_of_adaptations_has_no_date() -> None:
    shelf = on_shelf(formula("KV-1", adapts="KV-2"), formula("KV-2", adapts="KV-1"))
    assert [one.by for one in due(shelf, None)] == [None, None]


def test_the_end_of_a_month_is_kept_within_it() -> None:
    assert later(date(2026, 1, 31), 1) == date(2026, 2, 28)
    assert later(date(2027, 12, 31), 2) == date(2028, 2, 29)
    assert later(date(2026, 6, 15), 12) == date(2027, 6, 15)


def test_the_table_names_each_formula_with_its_date() -> None:
    shelf = on_shelf(stated("KV-1", "2027-01-31"), formula("KV-2"))
    text = due_text(due(shelf, None), Look(), None)
    assert "1 overdue" in text
    assert re.search(r"2027-01-31 +overdue +KV-1", text)
    assert re.search(r"no date +no date +KV-2", text)


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t=", "\r="])
def test_no_cell_is_a_formula_of_a_spreadsheet(start: str) -> None:
    text = due_csv([one_due(title=f"{start}HYPERLINK(1)", office=f"{start}1")])
    for row in csv.reader(io.StringIO(text, newline="")):
        for value in row:
            assert not value.startswith(("=", "+", "-", "@", "\t", "\r"))


@given(st.text(max_size=40))
def test_a_cell_reads_back_as_one_cell(text: str) -> None:
    rows = list(csv.reader(io.StringIO(f"{cell(text)},{cell('x')}\r\n", newline="")))
    assert len(rows) == 1
    assert rows[0][1:] == ["x"]
    assert not rows[0][0].startswith(("=", "+", "-", "@", "\t", "\r"))


def test_a_csv_has_one_head_and_one_row_a_formula() -> None:
    shelf = on_shelf(stated("KV-1", "2027-01-31"), stated("KV-2", "2027-03-31"))
    rows = list(csv.DictReader(io.StringIO(due_csv(due(shelf, None)), newline="")))
    assert [(row["due"], row["state"], row["code"]) for row in rows] == [
        ("2027-01-31", "overdue", "KV-1"),
        ("2027-03-31", "due", "KV-2"),
    ]
    assert (rows[0]["days over"], rows[1]["days left"]) == ("1", "58")


# RFC 5545, 3.1: contentline = name *(";" param ) ":" value CRLF, restated for what a calendar of ours may hold.
NAME = r"[A-Za-z0-9-]+"
PARAM = rf'{NAME}=(?:"[^"\x00-\x08\x0a-\x1f\x7f]*"|[^";:,\x00-\x08\x0a-\x1f\x7f]*)'
LINE = re.compile(rf"({NAME})((?:;{PARAM})*):([^\x00-\x08\x0a-\x1f\x7f]*)")
# 3.3.11: TSAFE-CHAR or an escaped backslash, semicolon, comma, n.
TEXT = re.compile(r"(?:[^\\;,]|\\[\\;,nN])*")


def unfolded(text: str) -> list[tuple[str, str, str]]:
    """The content lines of a calendar, each as name, parameters, value."""
    assert text.endswith("\r\n")
    assert "\n" not in text.replace("\r\n", "")
    assert all(len(line.encode("utf-8")) <= 75 for line in text.split("\r\n"))
    out = []
    for line in re.sub("\r\n[ \t]", "", text).removesuffix("\r\n").split("\r\n"):
        found = LINE.fullmatch(line)
        assert found, line
        out.append((found[1], found[2], found[3]))
    return out


def events(text: str) -> list[dict[str, str]]:
    """The events of a calendar, checked against 3.4, 3.6 and 3.6.1 of the RFC."""
    lines = unfolded(text)
    assert lines[0] == ("BEGIN", "", "VCALENDAR")
    assert lines[-1] == ("END", "", "VCALENDAR")
    head = [name for name, _, _ in lines[1 : lines.index(("BEGIN", "", "VEVENT"))]]
    assert head.count("VERSION") == head.count("PRODID") == 1
    found: list[dict[str, str]] = []
    inside = False
    for name, params, value in lines[1:-1]:
        if (name, value) == ("BEGIN", "VEVENT"):
            assert not inside
            inside = True
            found.append({})
        elif (name, value) == ("END", "VEVENT"):
            inside = False
        elif inside:
            assert name not in found[-1], f"{name} twice"
            found[-1][name] = value
            if name in ("DTSTART", "DTEND"):
                assert params == ";VALUE=DATE"
                assert re.fullmatch(r"\d{8}", value)
            if name in ("SUMMARY", "DESCRIPTION"):
                assert TEXT.fullmatch(value), value
    for one in found:
        assert {"UID", "DTSTAMP", "DTSTART"} <= set(one)
        assert re.fullmatch(r"\d{8}T\d{6}Z", one["DTSTAMP"])
    assert found, "a calendar holds at least one component (3.4)"
    return found


def plain(value: str) -> str:
    return re.sub(r"\\([\\;,])", r"\1", value)


def test_the_calendar_follows_the_rfc_and_has_an_all_day_entry_for_each_date() -> None:
    shelf = on_shelf(stated("KV-1", "2027-01-31"), stated("KV-2", "2027-02-28"), formula("KV-3"))
    text = calendar(due(shelf, None), TODAY)
    found = events(text)
    assert [(one["DTSTART"], one["DTEND"]) for one in found] == [("20270131", "20270201"), ("20270228", "20270301")]
    assert {one["DTSTAMP"] for one in found} == {f"{TODAY:%Y%m%d}T000000Z"}
    assert text == calendar(due(shelf, None), TODAY)


def test_an_entry_keeps_its_uid_when_date_title_and_place_change_and_others_have_their_own() -> None:
    first, second, other, elsewhere = (
        events(calendar([one], TODAY))[0]["UID"]
        for one in (
            one_due(),
            one_due(by=date(2030, 1, 1), title="Another title", path="moved/kv-101.formula"),
            one_due(code="KV-102"),
            one_due(collection="Another valley"),
        )
    )
    assert first == second
    assert len({first, other, elsewhere}) == 3


def test_a_calendar_without_any_date_is_nothing_at_all() -> None:
    assert calendar([one_due(by=None)], TODAY) == ""


@given(st.text(max_size=120), st.dates(date(1900, 1, 1), date(9999, 12, 31)))
def test_any_title_stays_one_line_of_its_entry(title: str, day: date) -> None:
    (found,) = events(calendar([one_due(title=title, office=title, by=day)], TODAY))
    assert found["DTSTART"] == day.isoformat().replace("-", "")
    if title.isprintable():
        assert plain(found["SUMMARY"]).split() == f"Review KV-101 {title}".split()
    if day < date.max:
        assert found["DTEND"] == (day + timedelta(days=1)).isoformat().replace("-", "")


@given(st.text(st.characters(blacklist_categories=["Cs", "Cc"]), max_size=400))
def test_folding_is_undone_by_unfolding_and_cuts_no_letter(text: str) -> None:
    whole = folded(text)
    assert whole.replace("\r\n ", "") == text
    assert all(len(piece.encode("utf-8")) <= 75 for piece in whole.split("\r\n"))


def test_a_text_value_is_escaped() -> None:
    assert escaped("a;b,c\\d") == "a\\;b\\,c\\\\d"


def test_the_command_prints_each_form(run) -> None:
    for form, start in (("text", "To be reviewed"), ("csv", '"due"'), ("calendar", "BEGIN:VCALENDAR\r\n")):
        status, out, _ = run("due", "formulas", "--on", "2026-11-27", "--before", "2028-06-01", "--as", form)
        assert (status, out.startswith(start)) == (0, True)
    status, out, _ = run("due", "formulas", "--on", "2028-06-01", "--before", "2028-06-01")
    assert status == 1
    assert "overdue" in out
    status, out, err = run("due", "formulas", "--before", "tomorrow")
    assert (status, out) == (2, "")
    assert "2027-01-31" in err
    assert run("due", "nowhere")[0] == 2


def test_a_calendar_and_a_csv_are_the_same_bytes_whatever_the_console_speaks(tmp_path: Path) -> None:
    (tmp_path / "a.formula").write_text(stated("KV-1", "2027-01-31", title="Quince \u0142 jam"), encoding="utf-8")
    linter = Path(__file__).resolve().parents[2] / "linter"
    for form in ("csv", "calendar"):
        out = []
        for encoding in ("cp1252", "utf-8"):
            words = ["due", str(tmp_path), "--as", form, "--on", "2027-01-01"]
            done = subprocess.run(
                [sys.executable, "-m", "brimline", *words],
                capture_output=True,
                check=True,
                timeout=60,
                env={**os.environ, "PYTHONPATH": str(linter), "PYTHONIOENCODING": encoding},
            )
            out.append(done.stdout)
        assert out[0] == out[1]
        assert "Quince \u0142 jam".encode() in out[0]
        assert out[0].count(b"\r\n") == out[0].count(b"\n")
