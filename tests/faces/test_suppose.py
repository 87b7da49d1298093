"""`brimline suppose` as the person at the desk runs it."""

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

DAY = ("--on", "2026-07-01")
SCHEMA = Path(__file__).resolve().parents[2] / "schema" / "answer.schema.json"
FINDINGS = Path(__file__).resolve().parents[2] / "schema" / "findings.schema.json"


def flat(text: str) -> str:
    return " ".join(text.split())


@pytest.fixture
def tested(collection: Path) -> Path:
    return collection / "kv-101.formula"


def test_an_answer_has_its_parts_in_order(run, tested: Path) -> None:
    ran = run("suppose", tested, "no", "lemon", *DAY)
    assert (ran.status, ran.err) == (1, "")
    text = flat(ran.out)
    parts = [
        "KV-101",
        "untested",
        "no lemon",
        "Nobody has tested this jam",
        "Instead:",
        "Source:",
        "botulism",
        "Demonstration",
    ]
    places = [text.find(part) for part in parts]
    assert places == sorted(places)
    assert -1 not in places
    assert max(map(len, ran.out.splitlines())) <= 80


def test_the_words_may_be_one_argument_or_several(run, tested: Path) -> None:
    one = run("suppose", tested, "half the sugar, pint jars", *DAY)
    several = run("suppose", tested, "half", "the", "sugar,", "pint", "jars", *DAY)
    assert one == several


def test_what_is_not_held_back_ends_with_0(run, tested: Path) -> None:
    assert run("suppose", tested, "4 oz jars", *DAY).status == 0
    assert run("suppose", tested, "may I sell it?", *DAY).status == 0
    assert run("suppose", tested, "double", *DAY).status == 0


def test_a_code_is_looked_up_around_the_working_folder(run, tested: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    inside = tested.parent / "sub"
    inside.mkdir()
    monkeypatch.chdir(inside)
    for code in ("KV-101", "kv-101"):
        ran = run("suppose", code, "half the sugar", *DAY)
        assert (ran.status, ran.err) == (1, "")
        assert "3 1/2 cups" in flat(ran.out)


def test_a_code_is_looked_up_in_the_folder_of_formulas(run, tested: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    tested.parent.rename(tested.parent.parent / "formulas")
    monkeypatch.chdir(tested.parent.parent)
    assert "3 1/2 cups" in flat(run("suppose", "KV-101", "half the sugar", *DAY).out)


def test_a_code_is_looked_up_in_the_formulas_shipped(run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert "Red chile salsa" in run("suppose", "KV-128", "no vinegar", *DAY).out


def test_a_code_that_is_not_there_is_answered_with_the_nearest(
    run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    ran = run("suppose", "KV-1001", "no vinegar")
    assert (ran.status, ran.out) == (2, "")
    assert "the nearest are KV-101" in ran.err


def test_the_formula_alone_lists_what_can_be_asked(run, tested: Path) -> None:
    ran = run("suppose", tested)
    assert ran.status == 0
    for part in ("Gooseberry jam", "half the sugar", "grandmother's recipe", "Several at once"):
        assert part in ran.out


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("gone.formula", "double"), "neither the code of a formula nor a file"),
        (("half", "the", "sugar"), "Write for instance: brimline suppose KV-101"),
        ((), "needs FORMULA"),
    ],
)
def test_what_cannot_be_run_ends_with_2(run, tmp_path: Path, monkeypatch, words: tuple[str, ...], told: str) -> None:
    monkeypatch.chdir(tmp_path)
    ran = run("suppose", *words)
    assert (ran.status, ran.out) == (2, "")
    assert told in ran.err


def test_words_that_are_not_understood_end_with_2(run, tested: Path) -> None:
    ran = run("suppose", tested, "frobnicate it")
    assert (ran.status, ran.out) == (2, "")
    assert "What can be asked" in ran.err


def test_a_folder_of_several_is_too_much(run, adapted: Path, collection: Path) -> None:
    ran = run("suppose", collection, "double")
    assert (ran.status, ran.out) == (2, "")
    assert "one formula" in ran.err
    assert adapted.exists()


@pytest.mark.parametrize("standing", ["draft", "retired"])
def test_a_draft_or_retired_formula_is_nothing_to_depart_from(run, tested: Path, standing: str) -> None:
    text = tested.read_text("utf-8").replace("standing  tested", f"standing  {standing}")
    tested.write_text(
        text.replace("finish ", "retired   2026-01-15, superseded\nfinish ", standing == "retired"), "utf-8"
    )
    ran = run("suppose", tested, "double")
    assert (ran.status, ran.out) == (2, "")
    assert standing in ran.err


def test_an_adaptation_can_be_asked_about_and_is_judged_to_its_root(run, adapted: Path) -> None:
    ran = run("suppose", adapted, "double", *DAY)
    assert ran.status == 1
    assert "as it stands" in flat(ran.out)


@pytest.mark.parametrize(
    "words", ["half the sugar", "4 oz jars", "may I sell it", "no lemon and double", "5,200 ft", "no onions"]
)
def test_json_is_of_the_published_shape(run, tested: Path, words: str) -> None:
    ran = run("suppose", tested, words, "--as", "json", *DAY)
    read = json.loads(ran.out)
    assert ran.out.isascii()
    schema = json.loads(SCHEMA.read_text("utf-8"))
    Draft202012Validator.check_schema(schema)
    Draft202012Validator(schema).validate(read)
    formula = {"$ref": "#/$defs/formula", **json.loads(FINDINGS.read_text("utf-8"))}
    formula.pop("oneOf")
    for one in read["answers"]:
        if one["review"] is not None:
            Draft202012Validator(formula).validate(one["review"])
    assert ran.status == int(read["held_back"])


def test_nothing_in_a_title_reaches_the_terminal_as_it_stands(run, tested: Path) -> None:
    tested.write_text(tested.read_text("utf-8").replace("Gooseberry jam", "::error:: Gooseberry\tjam"), "utf-8")
    ran = run("suppose", tested, "double", *DAY)
    assert not any(line.lstrip().startswith("::") for line in ran.out.splitlines())


def test_colour_is_only_added(run, tested: Path) -> None:
    plain = run("suppose", tested, "no lemon", "--color", "never", *DAY).out
    import re

    painted = run("suppose", tested, "no lemon", "--color", "always", *DAY).out
    assert painted != plain
    assert re.sub(r"\x1b\[[0-9;]*m", "", painted) == plain


def test_the_sample_of_the_readme_is_what_is_printed(run, monkeypatch: pytest.MonkeyPatch) -> None:
    root = SCHEMA.parents[1]
    sample = (root / "README.md").read_text("utf-8").partition("$ brimline suppose KV-114 no lemon\n")[2]
    shown = flat(sample.partition("Several changes")[0])
    monkeypatch.chdir(root)
    assert shown in flat(run("suppose", "KV-114", "no", "lemon", *DAY).out)
