"""T13: a title, an item or the name of a file steers the terminal: forged lines, window titles, the clipboard, links."""

import json
import unicodedata

import pytest
from hostile_run import FORMS, PLACES, SEEN, run

STEERING = (
    "\x1b[2K\x1b[1A0 held back",
    "\x1b]0;all well\x07",
    "\x1b]52;c;QUJD\x07",
    "\x1b]8;;https://example.invalid\x1b\\press\x1b]8;;\x1b\\",
    "plum\rnone held back",
    "\x9b31mred\x85next",
    "plum\u202eMAJ\u2066\u200b\u200d\ufeff",
    "bell\x07\x08\x7f\x0b\x0c\x00",
)
UNSEEN = {"Cc", "Cf", "Cs", "Zl", "Zp", "Cn"}


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("form", SEEN)
def test_nothing_that_does_not_print_is_printed(form: str, place: str) -> None:
    for text in STEERING:
        printed = FORMS[form](run(text, place))
        assert printed.strip()
        left = printed.replace("\r\n", "").replace("\n", "")
        assert not [letter for letter in left if unicodedata.category(letter) in UNSEEN]


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("form", [form for form in FORMS if form not in SEEN])
def test_forms_in_json_hold_only_escapes(form: str, place: str) -> None:
    for text in STEERING:
        printed = FORMS[form](run(text, place))
        assert all(" " <= letter <= "~" for letter in printed.replace("\n", ""))


def test_json_keeps_the_title_as_it_was_written() -> None:
    read = json.loads(FORMS["json"](run("\x1b[31mplum", "path")))
    assert read["formulas"][0]["path"] == "\x1b[31mplum"


@pytest.mark.parametrize("form", ["text", "lines"])
def test_the_harm_is_shown(form: str) -> None:
    assert "<U+001B>" in FORMS[form](run("\x1b[31m.formula", "path"))
