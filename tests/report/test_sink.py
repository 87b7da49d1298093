"""Nothing that an author writes steers the terminal, the log or the eye of the reader."""

import re
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimline.report.sink import CODES, paint, plain, visible

ANY_TEXT = st.text(alphabet=st.characters(codec=None), max_size=60)


@given(ANY_TEXT)
def test_what_is_shown_always_prints_and_showing_it_again_changes_nothing(text: str) -> None:
    shown = visible(text)
    assert shown.isprintable()
    assert visible(shown) == shown


@given(ANY_TEXT)
def test_a_row_is_one_line_without_control_characters(text: str) -> None:
    printed = paint([plain(text, text)])
    assert printed.endswith("\n")
    assert not any(unicodedata.category(letter) in {"Cc", "Cf", "Cs", "Zl", "Zp"} for letter in printed[:-1])


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("\x1b[0m", "<U+001B>[0m"),
        ("a\u202eb", "a<U+202E>b"),
        ("odd\udcff", "odd<byte FF>"),
        ("line\nend", "line<U+000A>end"),
        ("\U000e0041", "<U+E0041>"),
        ("quince, süß, ½", "quince, süß, ½"),
    ],
)
def test_what_cannot_be_seen_is_called_by_its_number(text: str, shown: str) -> None:
    assert visible(text) == shown


@pytest.mark.parametrize("colour", [False, True])
@pytest.mark.parametrize("text", ["::error::x", "   ::stop-commands::x", "##[error]x", "a ##[group]"])
def test_a_log_is_given_no_orders(text: str, colour: bool) -> None:
    printed = re.sub("\x1b\\[[0-9;]*m", "", paint([plain(text)], colour))
    assert not printed.lstrip().startswith("::")
    assert "##[" not in printed


def test_colour_is_only_written_when_asked_for_and_ends_with_its_piece() -> None:
    row = (("unsafe", "unsafe"), ("", " acid/cut"))
    assert paint([row]) == "unsafe acid/cut\n"
    assert re.fullmatch("\x1b\\[[0-9;]+munsafe\x1b\\[0m acid/cut\n", paint([row], colour=True))


def _luminance(code: int) -> float:
    """Relative luminance (WCAG 2.1) of a colour of the usual 256-colour table: a 6 x 6 x 6 cube, then 24 greys."""
    steps = (0, 95, 135, 175, 215, 255)
    cube = code - 16
    rgb = (
        (8 + 10 * (code - 232),) * 3 if code >= 232 else tuple(steps[n] for n in (cube // 36, cube // 6 % 6, cube % 6))
    )
    linear = [c / 12.92 if (c := part / 255) <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for part in rgb]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize("style", [style for style, code in CODES.items() if "38;5;" in code])
def test_every_colour_can_be_read_on_white_and_on_black(style: str) -> None:
    light = _luminance(int(CODES[style].rpartition(";")[2]))
    assert 1.05 / (light + 0.05) > 4
    assert (light + 0.05) / 0.05 > 4
