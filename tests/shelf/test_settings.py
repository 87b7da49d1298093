"""What a collection says about itself; the quick reader and the YAML library never differ."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brimline.shelf.settings import Refused, elaborate_keys, flat_keys, read_keys, read_settings, settings

PLAIN = """\
# The Kestrel Valley collection.
name: Kestrel Valley Preserving Program
notice: Demonstration. Not tested. Do not preserve from this.

altitude: 5,200 ft
hold-back: [quality, form]
office: formula curator, preserving educator
review-interval: 36 months
oldest-source-year: 1988
set-aside: [classroom, old/class-2]
"""


def test_the_usual_file_is_read_without_the_library() -> None:
    found = settings(flat_keys(PLAIN) or {})
    assert found.name == "Kestrel Valley Preserving Program"
    assert found.notice == "Demonstration. Not tested. Do not preserve from this."
    assert found.altitude_ft == 5200
    assert found.hold_back == ("quality", "form")
    assert found.office == "formula curator, preserving educator"
    assert (found.review_months, found.oldest_source_year) == (36, 1988)
    assert found.set_aside == ("classroom", "old/class-2")


@pytest.mark.parametrize(
    "keys",
    [
        {"set-aside": ["../x"]},
        {"set-aside": ["/etc"]},
        {"set-aside": ["."]},
        {"set-aside": [""]},
        {"set-aside": ["C:/x"]},
        {"set-aside": {"a": 1}},
        {"review-interval": "soon"},
        {"oldest-source-year": "old"},
        {"oldest-source-year": 12},
        {"altitude": 5200},
    ],
)
def test_a_figure_that_cannot_be_read_is_refused(keys: dict[str, object]) -> None:
    with pytest.raises(Refused):
        settings(keys)


def test_one_folder_can_be_set_aside_without_a_list() -> None:
    assert settings(read_keys("set-aside: classroom\n")).set_aside == ("classroom",)


def test_years_are_turned_into_months() -> None:
    assert settings({"review-interval": "3 years"}).review_months == 36


def test_a_more_elaborate_file_says_the_same_through_the_library() -> None:
    text = 'name: "Kestrel Valley Preserving Program"\nnotice: >\n  Demonstration. Not tested.\n  Do not preserve from this.\n'
    assert flat_keys(text) is None
    found = settings(read_keys(text))
    assert found.name == "Kestrel Valley Preserving Program"
    assert found.notice == "Demonstration. Not tested. Do not preserve from this."


def test_metres_are_turned_into_feet_exactly() -> None:
    # 1 ft = 0.3048 m exactly, so 1524 m are 5000 ft.
    assert settings({"altitude": "1524 m"}).altitude_ft == Fraction(5000)


@pytest.mark.parametrize("text", ["", "\n\n", "# only a remark\n", "# windows\r\nname: Valley\r\n"])
def test_files_with_little_in_them_are_fine(text: str) -> None:
    assert settings(read_keys(text)).hold_back == ()


@pytest.mark.parametrize("key", ["nmae", "Name", "hold_back", "altitudes"])
def test_an_unknown_key_is_answered_with_the_nearest(key: str) -> None:
    with pytest.raises(Refused, match=r"write `(name|hold-back|altitude)`"):
        settings({key: "x"})


@pytest.mark.parametrize("level", ["unsafe", "untested", "none", "safe"])
def test_only_the_lighter_levels_can_be_added(level: str) -> None:
    with pytest.raises(Refused, match="hold"):
        settings({"hold-back": [level]})


def test_a_file_that_is_too_large_or_not_text_is_refused() -> None:
    for data, word in ((b"#" * (8 * 1024 * 1024 + 1), "8 MiB"), (b"name: \xff\n", "UTF-8")):
        with pytest.raises(Refused, match=word):
            read_settings(data)


def test_a_bomb_of_aliases_is_refused_before_it_is_built() -> None:
    lines = ["a: &a [x, x]"] + [f"{b}: &{b} [*{a}, *{a}]" for a, b in zip("abcdefgh", "bcdefghi", strict=True)]
    with pytest.raises(Refused, match="anchor"):
        read_keys("\n".join(lines))


_VALUES = st.one_of(
    st.text(alphabet="abcNO yestrufl019.,:#[]{}-?!&*'\"%@`|>~\t\n", max_size=20),
    st.sampled_from(
        [
            "yes",
            "No",
            "null",
            "12:30",
            "36 months",
            "1988",
            "010",
            "1e5",
            "0x1F",
            "2026-01-01",
            "a: b",
            "a #b",
            "5,200 ft",
            "[a, on]",
        ]
    ),
)


@given(st.lists(st.tuples(st.sampled_from(["name", "notice", "hold-back", "oldest-source-year"]), _VALUES), max_size=4))
def test_what_the_quick_reader_takes_the_library_reads_alike(lines: list[tuple[str, str]]) -> None:
    text = "".join(f"{key}: {value}\n" for key, value in lines)
    quick = flat_keys(text)
    if quick is not None:
        assert quick == elaborate_keys(text)
