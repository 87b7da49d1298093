"""The maker compiles the tables to what is shipped, and refuses a figure that does not say where it is from."""

import sys
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType

import pytest

CHECKOUT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def making() -> Iterator[dict[str, ModuleType]]:
    """The modules of the maker; the path to them is taken away again."""
    before = list(sys.path)
    sys.path.insert(0, str(CHECKOUT / "ci"))
    try:
        import make
        from making import _tables, decisions, examples, figures, pages, published

        yield {
            "make": make,
            "tables": _tables,
            "decisions": decisions,
            "examples": examples,
            "figures": figures,
            "pages": pages,
            "published": published,
        }
    finally:
        sys.path[:] = before


def test_what_is_shipped_is_what_the_tables_say(making: dict[str, ModuleType]) -> None:
    files: dict[str, bytes] = {}
    for name in ("decisions", "examples", "figures", "pages", "published"):
        files |= making[name].make(CHECKOUT)
    assert len(files) > 12
    assert making["make"].stale(CHECKOUT, files) == []


def test_no_page_stands_for_a_group_that_is_gone(making: dict[str, ModuleType]) -> None:
    written = {Path(name).name for name in making["pages"].make(CHECKOUT)}
    assert {path.name for path in (CHECKOUT / "schema" / "rules").iterdir()} == written


def test_a_changed_or_missing_file_is_stale(making: dict[str, ModuleType], tmp_path: Path) -> None:
    (tmp_path / "same").write_bytes(b"a\r\nb\n")
    (tmp_path / "changed").write_bytes(b"x\n")
    files = {"same": b"a\nb\n", "changed": b"y\n", "missing": b""}
    assert making["make"].stale(tmp_path, files) == ["changed", "missing"]


@pytest.mark.parametrize("source", [None, "", "read", "SR28 09316", "seen SR28", "read NO-SUCH-SOURCE"])
def test_a_figure_without_a_source_is_refused(making: dict[str, ModuleType], source: str | None) -> None:
    tables = making["tables"]
    with pytest.raises(tables.TableError, match="strawberry"):
        tables.Sources({"SR28"}).split(source, "berries.yaml: strawberry")


def test_a_weight_without_a_source_is_refused(making: dict[str, ModuleType]) -> None:
    tables, figures = making["tables"], making["figures"]
    with pytest.raises(tables.TableError, match="a cup"):
        figures._weights(
            {"weights": [{"per": "cup", "as": "sliced", "g": 166}]}, tables.Sources({"SR28"}), "strawberry"
        )


@pytest.mark.parametrize(
    "written",
    [
        None,
        {},
        {"in": "guide", "at": "p. 1"},
        {"in": "guide", "at": "p. 1", "how": "heard"},
        {"in": "other", "at": "p. 1", "how": "read"},
    ],
)
def test_a_published_figure_without_a_source_is_refused(making: dict[str, ModuleType], written: object) -> None:
    with pytest.raises(making["tables"].TableError, match="fig_acid"):
        making["published"].cited(written, {"guide": "The Guide"}, "acid.yaml: fig_acid")


@pytest.mark.parametrize("written", ["5 to 1000, 10 to 500", "5 above, 10 to 1000", "5 to 1000, 10 to 1000"])
def test_bands_that_do_not_rise_are_refused(making: dict[str, ModuleType], written: str) -> None:
    with pytest.raises(making["tables"].TableError, match="rise"):
        making["published"].bands(written, "process_times.yaml: jam")


@pytest.mark.parametrize(
    ("written", "number"),
    [
        ("2 tbsp", ["2", "2", "tbsp"]),
        ("1/2 tsp", ["1/2", "1/2", "tsp"]),
        ("1 1/3 tbsp", ["4/3", "4/3", "tbsp"]),
        ("3/4 to 1 cup", ["3/4", "1", "cup"]),
        ("3 to 4 weeks", ["3", "4", "week"]),
        ("0.85 aw", ["17/20", "17/20", "aw"]),
        ("1/4", ["1/4", "1/4", ""]),
    ],
)
def test_numbers_are_read_exactly(making: dict[str, ModuleType], written: str, number: list[str]) -> None:
    assert making["published"].number("x", written, "here") == ["x", *number]


@pytest.mark.parametrize("written", ["two tbsp", "about 2 tbsp", "", "1.2.3 cup"])
def test_what_is_no_number_is_refused(making: dict[str, ModuleType], written: str) -> None:
    with pytest.raises(ValueError, match=r"here|empty"):
        making["published"].number("x", written, "here")


def test_a_row_without_advice_or_with_an_unknown_basis_is_refused(making: dict[str, ModuleType]) -> None:
    tables, decisions = making["tables"], making["decisions"]
    figures = {"alone": {}, "processes": {}, "figures": {}}
    raw = {"edit": "x", "levels": "unsafe", "harm": "illness", "basis": ["judgement"]}
    with pytest.raises(tables.TableError, match="advice"):
        decisions.row("x", raw, {"why": "because"}, figures)
    with pytest.raises(tables.TableError, match="0 figures"):
        decisions.row("x", {**raw, "basis": ["nothing"]}, {"why": "because", "instead": ["keep it"]}, figures)


def test_one_name_for_two_entries_is_refused(making: dict[str, ModuleType]) -> None:
    tables, figures = making["tables"], making["figures"]
    lists = {"stop": [], "medium": []}
    raws = {"red plum": {"names": []}, "plum": {"names": ["plum, red"]}}
    with pytest.raises(tables.TableError, match="two things"):
        figures.names(raws, {}, lists)
    with pytest.raises(tables.TableError, match="no entry"):
        figures.names({"plum": {}}, {"pruneau": {"could-be": ["prune"]}}, lists)
