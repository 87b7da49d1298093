"""Which published table a source names, and where a formula's own times are below it."""

from fractions import Fraction

import pytest
from msgspec.structs import replace
from rule_cases import CASES

from brimline.document import read
from brimline.document.values import Document
from brimline.moves.case import against, readings
from brimline.moves.published import _pages, has_times, shortfalls, tables
from brimline.moves.times import gaps

Changes = tuple[tuple[str, str], ...]


def formula(name: str, *changes: tuple[str, str]) -> Document:
    """A tested formula with some words exchanged."""
    text = (CASES / "tested" / f"{name}.formula").read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    document = read("t.formula", text.encode()).document
    assert document is not None
    return document


@pytest.mark.parametrize(
    ("text", "pages"),
    [
        ("Guide 3 p. 3-21, chile salsa", {(3, 21)}),
        ("Guide 3 pp. 3-5 and 3-9", {(3, 5), (3, 9)}),
        ("Guide 3 pp. 3-21 to 3-26", {(3, 21), (3, 22), (3, 23), (3, 24), (3, 25), (3, 26)}),
        ("Guide 6 p. 6-28", {(6, 28)}),
        ("report KV-T-116", set()),
        ("AIB 539, rev. 2015", set()),
    ],
)
def test_pages(text: str, pages: set[tuple[int, int]]) -> None:
    assert _pages(text) == pages


def test_a_page_names_its_table() -> None:
    (table,) = tables(formula("tf-canned"))
    assert "peach" in table.product


def test_a_spread_without_a_page_takes_the_tables_of_its_kind() -> None:
    assert {table.kind for table in tables(formula("tf-pres"))} == {"preserves"}
    assert (
        tables(
            formula(
                "tf-pres", ("USDA Home and Garden Bulletin 56 (1982 reprint), strawberry preserves", "a cook's notes")
            )
        )
        == ()
    )
    assert tables(formula("tf-pres", ("product   preserves", "product   chutney"))) == ()


PAGE_SOURCE = "USDA Complete Guide to Home Canning (AIB 539, rev. 2015), Guide 3 p. 3-21, chile salsa"
REPORT = "report KV-T-116"


@pytest.mark.parametrize(
    ("changes", "named"),
    [
        ((), True),
        # A page is a page of the Guide, and only a source is held against it.
        (((PAGE_SOURCE, "an extension leaflet, p. 3-21, chile salsa"),), False),
        (((PAGE_SOURCE, "a leaflet"), (REPORT, "report after Guide 3 p. 3-21, chile salsa")), False),
        (((PAGE_SOURCE, "a leaflet\n  reading    4.1 pH, after Guide 3 p. 3-21, chile salsa"),), False),
        (((PAGE_SOURCE, "USDA Complete Guide to Home Canning, Guide 3, chile salsa"),), False),
        (((PAGE_SOURCE, f"a leaflet\n  source     {PAGE_SOURCE}"),), True),
    ],
)
def test_a_table_is_named_by_a_page_of_a_source(changes: Changes, named: bool) -> None:
    assert bool(tables(formula("tf-salsa", *changes))) is named


def test_what_is_below_a_table_is_there_and_no_edge_was_moved() -> None:
    found = shortfalls(formula("tf-salsa", (SALSA, "pint: 14 min to 1000 ft, 19 min to 6000 ft, 24 min above")))
    assert [(gap.missing, gap.edge, gap.borrowed, gap.unit) for gap in found] == [(False, False, False, "ft")] * 3


def short(name: str, *changes: tuple[str, str]) -> list[tuple[str, int, int | None, int, int]]:
    """Jar, from, to, published and own minutes of every stretch that is short."""
    return [
        (
            gap.jar,
            int(gap.low_ft),
            None if gap.high_ft is None else int(gap.high_ft),
            int(gap.tested or 0),
            int(gap.here or 0),
        )
        for gap in shortfalls(formula(name, *changes))
    ]


# The Complete Guide has chile salsa in pints 15 min to 1000 ft, 20 to 6000 and 25 above; peaches packed hot in pints
# 20 to 1000 ft, 25 to 3000, 30 to 6000 and 35 above, in quarts 5 more.
SALSA = "pint: 15 min to 1000 ft, 20 min to 6000 ft, 25 min above"


@pytest.mark.parametrize(
    ("own", "wanted"),
    [
        (SALSA, []),
        ("pint: 30 min above", []),
        ("pint: 15 min to 1000 ft, 20 min to 6000 ft", []),
        ("pint: 14 min to 1000 ft, 20 min to 6000 ft, 25 min above", [("pint", 0, 1000, 15, 14)]),
        ("pint: 15 min to 1000 ft, 19 min to 6000 ft, 25 min above", [("pint", 1000, 6000, 20, 19)]),
        ("pint: 15 min to 1000 ft, 20 min to 6000 ft, 24 min above", [("pint", 6000, None, 25, 24)]),
        # Short only in the upper part of its band.
        ("pint: 15 min to 3000 ft, 20 min to 6000 ft, 25 min above", [("pint", 0, 3000, 20, 15)]),
        ("pint: 20 min above", [("pint", 0, None, 25, 20)]),
        (
            "pint: 14 min to 1000 ft, 19 min to 6000 ft, 24 min above",
            [("pint", 0, 1000, 15, 14), ("pint", 1000, 6000, 20, 19), ("pint", 6000, None, 25, 24)],
        ),
    ],
)
def test_times_below_the_published_ones(own: str, wanted: list[tuple[str, int, int | None, int, int]]) -> None:
    assert short("tf-salsa", (SALSA, own)) == wanted


def test_each_jar_is_held_against_its_own_row() -> None:
    quart = "quart: 25 min to 1000 ft, 30 min to 3000 ft, 35 min to 6000 ft, 40 min above"
    assert short("tf-canned", (quart, quart.replace("25 min", "20 min"))) == [("quart", 0, 1000, 25, 20)]
    assert short("tf-canned", ("process boiling-water", "process pressure")) == []


def test_a_fill_has_times_where_the_table_lists_it_for_every_jar() -> None:
    hot = formula("tf-canned")
    assert has_times(hot, hot)
    assert has_times(formula("tf-canned", ("fill       hot", "fill       raw")), hot)
    assert not has_times(
        formula(
            "tf-canned", ("jar        pint, quart", "jar        pint, half-gallon"), ("quart: 25", "half-gallon: 25")
        ),
        hot,
    )
    assert not has_times(replace(hot, process=()), hot)


# Peaches packed raw take five minutes more than packed hot: pints 25 to 1000 ft, quarts 30.
def test_a_raw_pack_is_held_against_the_raw_row() -> None:
    found = shortfalls(formula("tf-canned", ("fill       hot", "fill       raw")), formula("tf-canned"))
    assert {(gap.jar, gap.tested, gap.here) for gap in found if gap.low_ft == 0} == {
        ("pint", Fraction(25), Fraction(20)),
        ("quart", Fraction(30), Fraction(25)),
    }


RAW = ("fill       hot", "fill       raw")
NONE = ("  fill       hot\n", "")


# Raw is five minutes longer in the table, so the times for hot are short for it, and hot ones are there for hot.
@pytest.mark.parametrize(
    ("first", "change", "has", "short"),
    [
        ((), (), False, False),
        ((RAW,), (RAW,), False, False),
        ((), (RAW,), True, True),
        ((RAW,), (), True, False),
        ((NONE,), (NONE,), False, False),
        ((NONE,), (RAW,), True, True),
        ((RAW,), (NONE,), True, False),
    ],
)
def test_another_fill_is_held_against_its_own_times(first: Changes, change: Changes, has: bool, short: bool) -> None:
    (case,), _ = against(formula("tf-canned", *first), formula("tf-canned", *change))
    assert (case.fill_times, bool(case.fill_short)) == (has, short)


def test_the_parts_of_measured_mixtures_are_compared_as_far_as_both_have_them() -> None:
    mixed = formula("tf-pepjelly")
    parts = [
        "    from vegetable 5 cup          bell pepper, yellow, chopped\n",
        "    from vegetable 1/2 cup        serrano pepper, chopped\n",
        "    from acid 1 1/2 cup           vinegar, white, 5 %\n",
    ]
    plain = formula("tf-pepjelly", *((part, "") for part in parts))
    assert [
        [len(one.mixtures) for one in against(was, now)[0]]
        for was, now in ((mixed, mixed), (mixed, plain), (plain, mixed))
    ] == [[1], [0], [0]]


def test_every_reading_of_an_alternative() -> None:
    lemon = (
        "  acid       2 tbsp               lemon juice\n",
        "  acid       2 tbsp               lemon juice\n    or acid 2 tbsp lime juice\n",
    )
    assert [
        {one.name for one in some.items} & {"lemon juice", "lime juice"} for some in readings(formula("tf-jam", lemon))
    ] == [{"lemon juice"}, {"lime juice"}]
    assert len(list(readings(formula("tf-jam")))) == 1


def test_times_are_compared_within_a_method_and_steam_is_as_water() -> None:
    """Fourteen minutes for fifteen: short in water and in steam, and nothing to compare in a pressure canner."""

    def by(method: str, times: str) -> Document:
        return formula("tf-salsa", ("process boiling-water", f"process {method}"), (SALSA, times))

    less = SALSA.replace("15 min", "14 min")
    found = [
        [(gap.tested, gap.here) for gap in gaps(by(was, SALSA), by(now, less))]
        for was, now in (
            ("boiling-water", "boiling-water"),
            ("boiling-water", "steam"),
            ("steam", "boiling-water"),
            ("boiling-water", "pressure"),
            ("pressure", "boiling-water"),
        )
    ]
    assert found == [[(15, 14)], [(15, 14)], [(15, 14)], [], []]
