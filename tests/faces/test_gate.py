"""`brimline gate` as a person or a workflow runs it: exit statuses, forms, paths from any working folder."""

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from repositories import LESS_SUGAR, SMALL, Room, room

ADAPTED = "adapted/kv-201.formula"
SCHEMA = Path(__file__).parents[2] / "schema" / "findings.schema.json"
DAY = ("--on", "2026-11-27")


@pytest.fixture
def made(tmp_path: Path) -> Room:
    """A collection in `formulas/`, with a branch that cuts the sugar of an adaptation."""
    one = room(tmp_path / "a room", {f"formulas/{path}": text for path, text in SMALL.items()})
    one.branch("request")
    one.commit({f"formulas/{ADAPTED}": SMALL[ADAPTED].replace(*LESS_SUGAR)})
    return one


def test_what_is_new_is_shown_and_the_end_is_1(run, made: Room) -> None:
    ran = run("gate", made.path / "formulas", "--base", "main", *DAY)
    assert (ran.status, ran.err) == (1, "")
    assert "KV-201" in ran.out
    assert "sugar/cut" in ran.out
    assert "Improperly preserved food can cause serious illness" in ran.out
    assert "cannot make an untested formula" in ran.out
    assert max(map(len, ran.out.splitlines())) <= 80


def test_nothing_new_ends_with_0(run, made: Room) -> None:
    ran = run("gate", made.path, "--base", "request", *DAY)
    assert ran.status == 0
    assert "Nothing new holds the request back" in ran.out
    assert "KV-201" not in ran.out


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ((), "gate needs --base"),
        (("--base", "nowhere"), "there is no commit `nowhere`"),
        (("--base", "main", "--head", "nowhere"), "there is no commit `nowhere`"),
        (("--base", "main", "--on", "soon"), "--on cannot be soon"),
        (("--base", "-x"), "--base"),
    ],
)
def test_what_cannot_be_compared_ends_with_2_and_words(run, made: Room, words: tuple[str, ...], says: str) -> None:
    ran = run("gate", made.path, *words)
    assert (ran.status, ran.out) == (2, "")
    assert says in ran.err
    assert "Traceback" not in ran.err


def test_settings_of_the_base_that_cannot_be_used_end_with_2(run, tmp_path: Path) -> None:
    made = room(tmp_path, {**SMALL, "collection.yaml": "hold-back: [\n"})
    for form in ("text", "lines", "json"):
        ran = run("gate", made.path, "--base", "main", "--as", form)
        assert ran.status == 2
        assert "collection.yaml" in ran.out + ran.err


@pytest.mark.parametrize("here", [".", "formulas", "formulas/adapted"])
@pytest.mark.parametrize("head", [(), ("--head", "HEAD")])
def test_lines_name_files_as_they_can_be_opened(
    run, made: Room, monkeypatch: pytest.MonkeyPatch, here: str, head: tuple[str, ...]
) -> None:
    monkeypatch.chdir(made.path / here)
    ran = run("gate", "--base", "main", *head, "--as", "lines", *DAY)
    assert ran.status == 1
    for line in ran.out.splitlines():
        path = line.split(":")[0]
        assert Path(path).resolve() == (made.path / "formulas" / ADAPTED).resolve()


def test_json_fits_the_published_shape(run, made: Room) -> None:
    validator = Draft202012Validator(json.loads(SCHEMA.read_text(encoding="utf-8")))
    made.write({"formulas/variances.yaml": "[]\n", "formulas/tested/kv-101.formula": None})
    made.git("mv", "formulas/tested/kv-119.formula", "formulas/tested/plums.formula")
    for head in ((), ("--head", "HEAD")):
        ran = run("gate", made.path, "--base", "main", *head, "--as", "json", *DAY)
        printed = json.loads(ran.out)
        validator.validate(printed)
        assert printed["base"] == made.git("rev-parse", "main")
        assert printed["head"] == (made.git("rev-parse", "HEAD") if head else "")
        assert printed["held_back"] == sum(one["held_back"] for one in (*printed["files"], *printed["formulas"]))
        prints = [found["fingerprint"] for one in printed["formulas"] for found in one["findings"]]
        assert len(set(prints)) == len(prints) > 0
    working = json.loads(run("gate", made.path, "--base", "main", "--as", "json", *DAY).out)
    assert working["removed"] == ["formulas/tested/kv-101.formula"] or working["removed"] == ["tested/kv-101.formula"]
    assert [one["to"].rpartition("/")[2] for one in working["renamed"]] == ["plums.formula"]


def test_the_same_answer_twice(run, made: Room) -> None:
    once, again = (run("gate", made.path, "--base", "main", "--as", "json", *DAY) for _ in range(2))
    assert once == again


def test_a_program_of_its_own(start, made: Room) -> None:
    ran = start("gate", made.path, "--base", "main", "--as", "lines", *DAY)
    assert ran.status == 1
    assert "untested sugar/cut" in ran.out
