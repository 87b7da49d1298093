"""What depends on what: generations, publications named in evidence and comments, tables, figures, rules."""

import json

from small_formulas import formula, on_shelf

from brimline.report.look import Look
from brimline.report.traced import trace_data, trace_text
from brimline.review.tracing import Traced, bag, trace_figure, trace_formula, trace_source

NAMED = "  source     {text}\n"
GUIDE = "USDA Complete Guide to Home Canning, Guide 7, p. 7-7, jam without added pectin"


def ties(traced: Traced) -> list[tuple[str, int]]:
    return [(one.code, one.generation) for one in traced.formulas]


def test_adaptations_are_followed_to_the_last_generation() -> None:
    shelf = on_shelf(
        formula("KV-1"),
        formula("KV-2", adapts="KV-1"),
        formula("KV-3", adapts="KV-2"),
        formula("KV-4", adapts="KV-3"),
        formula("KV-9"),
    )
    traced = trace_formula(shelf, shelf.formulas[0])
    assert ties(traced) == [("KV-2", 1), ("KV-3", 2), ("KV-4", 3)]
    assert all(one.line == 4 for one in traced.formulas)


def test_a_ring_of_adaptations_is_walked_once() -> None:
    shelf = on_shelf(formula("KV-1", adapts="KV-3"), formula("KV-2", adapts="KV-1"), formula("KV-3", adapts="KV-2"))
    assert ties(trace_formula(shelf, shelf.formulas[0])) == [("KV-2", 1), ("KV-3", 2)]


def test_a_formula_that_was_retired_in_favour_of_it_is_told() -> None:
    old = formula("KV-1", standing="retired", headers="retired 2026-05-01, new guidance\nsuccessor KV-2\n")
    traced = trace_formula(on_shelf(old, formula("KV-2")), on_shelf(old, formula("KV-2")).formulas[1])
    assert [(one.code, one.tie) for one in traced.formulas] == [("KV-1", "was retired in its favour")]


def test_a_source_is_found_by_title_edition_and_page_and_its_adaptations_with_it() -> None:
    shelf = on_shelf(
        formula("KV-1", evidence=NAMED.format(text="Valley tested formulas, 3rd edition, p. 41")),
        formula("KV-2", evidence=NAMED.format(text="Valley tested formulas, 2nd edition, p. 41")),
        formula("KV-3", adapts="KV-1"),
        "# Proportions follow: Valley tested formulas, 3rd edition, p. 12\n" + formula("KV-4"),
    )
    assert {code for code, _ in ties(trace_source(shelf, "valley tested formulas"))} == {"KV-1", "KV-2", "KV-3", "KV-4"}
    assert ties(trace_source(shelf, "Valley 3rd edition p. 41")) == [("KV-1", 0), ("KV-3", 1)]
    assert ties(trace_source(shelf, "Valley 3rd edition p. 12")) == [("KV-4", 0)]
    assert trace_source(shelf, "Valley 3rd edition p. 12").formulas[0].line == 1
    # A page is a whole word: page 4 is not page 41.
    assert ties(trace_source(shelf, "Valley 3rd edition p. 4")) == []


def test_words_are_compared_whole_and_without_points() -> None:
    assert bag("Guide 7, p. 7-8.") == {"guide", "7", "p", "7-8"}


def test_a_process_table_leads_to_the_formulas_whose_times_are_compared_with_it() -> None:
    shelf = on_shelf(
        formula("KV-1", evidence=NAMED.format(text=GUIDE)), formula("KV-2"), formula("KV-3", adapts="KV-1")
    )
    traced = trace_figure(shelf, "jam_no_pectin")
    assert traced is not None
    assert ties(traced) == [("KV-1", 0), ("KV-3", 1)]
    assert "compared with" in traced.formulas[0].tie
    assert "p. 7-7" in traced.figures[0].source.section


def test_a_figure_leads_to_the_rules_of_its_rows_and_to_findings_that_cite_it() -> None:
    cut = formula("KV-2", adapts="KV-1").replace("acid       2 tbsp ", "acid       1 tsp  ")
    traced = trace_figure(on_shelf(formula("KV-1"), cut), "vinegar_strength")
    assert traced is not None
    # Rows acid-cut and vinegar-weak name it as their basis (decision table).
    rows = {row for one in traced.rules for row in one.rows}
    assert {"acid-cut", "vinegar-weak"} <= rows
    assert [one.code for one in traced.formulas] == ["KV-2"]
    assert "acid/" in traced.formulas[0].tie


def test_a_publication_leads_to_its_figures_and_rules() -> None:
    traced = trace_source(on_shelf(formula("KV-1")), "Complete Guide 2015 Guide 3")
    assert "acid/tomato_acid" in {one.id for one in traced.figures}
    assert any("acid-pressure" in one.rows for one in traced.rules)


def test_what_cannot_be_read_is_said() -> None:
    shelf = on_shelf(formula("KV-1"), "formula \x00")
    traced = trace_source(shelf, "Complete Guide")
    assert traced.unread in ((), ("1.formula",))
    text = trace_text(traced, Look())
    assert ("could not be read" in text) == bool(traced.unread)


def test_json_holds_the_same_formulas() -> None:
    shelf = on_shelf(formula("KV-1"), formula("KV-2", adapts="KV-1"))
    data = json.loads(trace_data(trace_formula(shelf, shelf.formulas[0]), "tool"))
    assert [(one["code"], one["generation"]) for one in data["formulas"]] == [("KV-2", 1)]


def test_the_command_knows_codes_figures_and_words(run) -> None:
    status, out, _ = run("trace", "kv-102", "--on", "2026-11-27")
    assert (status, "KV-201" in out, "KV-301" in out) == (0, True, True)
    status, out, _ = run("trace", "tomato_acid", "--on", "2026-11-27")
    assert (status, "acid/per-jar" in out) == (0, True)
    status, out, _ = run("trace", "Preserving", "Food", "Safely", "--in", "formulas", "--on", "2026-11-27")
    assert (status, "KV-201" in out) == (0, True)


def test_what_nobody_names_is_refused_rather_than_called_free(run) -> None:
    status, out, err = run("trace", "tomato_acdi", "--on", "2026-11-27")
    assert (status, out) == (2, "")
    assert "did you mean tomato_acid?" in err


def test_the_formulas_shipped_do_not_answer_for_a_collection_that_is_not_there(run, tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    for words in (("trace", "Complete Guide"), ("due",)):
        status, out, err = run(*words)
        assert (status, out) == (2, "")
        assert "there is no collection around here" in err
