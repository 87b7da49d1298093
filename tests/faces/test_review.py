"""`brimline review` as its users run it."""

import json
from pathlib import Path

import pytest

from brimline.findings import Level
from brimline.report.words import NOTICE, WHAT_IT_DOES

DAY = ("--on", "2026-07-01")


def flat(text: str) -> str:
    return " ".join(text.split())


def test_a_clean_collection_ends_with_0_and_says_what_was_done(run, collection: Path) -> None:
    ran = run("review", collection, *DAY)
    assert (ran.status, ran.err) == (0, "")
    assert "1 formula of Kestrel Valley reviewed, none held back." in flat(ran.out)
    assert WHAT_IT_DOES in flat(ran.out)
    assert "Demonstration. Not tested." in ran.out
    assert NOTICE not in flat(ran.out)


def test_an_adaptation_without_its_acid_is_held_back_with_arithmetic_and_sources(run, adapted: Path) -> None:
    ran = run("review", adapted, *DAY)
    assert ran.status == 1
    text = flat(ran.out)
    for part in ("KV-201", "departs from KV-101, read at 1.00 of its batch", "acid/dropped", "Instead:", "Source:"):
        assert part in text
    assert NOTICE in text
    assert "brimline why acid/dropped" in text
    assert 'brimline compare "' in text


def test_lines_can_be_opened_from_where_one_stands(run, adapted: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for folder, path in ((adapted.parents[2], "my formulas/adapted/kv-201.formula"), (adapted.parent, None)):
        monkeypatch.chdir(folder)
        ran = run("review", path or adapted.name, "--as", "lines", *DAY)
        assert ran.status == 1
        for line in ran.out.splitlines():
            named = line.split(":")[0]
            assert (folder / named).samefile(adapted)
            assert path or named == adapted.name


def test_json_is_one_text_with_the_counts(run, adapted: Path) -> None:
    ran = run("review", adapted, "--as", "json", *DAY)
    read = json.loads(ran.out)
    assert ran.status == 1
    assert (read["held_back"], read["formulas"][0]["code"]) == (1, "KV-201")
    assert sum(read["counts"][level.word] for level in Level if level.holds_back) >= 1
    assert ran.out.isascii()


@pytest.mark.parametrize("form", ["text", "lines", "json"])
def test_a_missing_path_ends_with_2_whatever_the_form(run, tmp_path: Path, form: str) -> None:
    ran = run("review", tmp_path / "gone.formula", "--as", form)
    assert ran.status == 2
    assert "is not there" in flat(ran.out + ran.err)
    assert ("gone.formula" in ran.out) is (form == "json")


def test_a_missing_path_beside_good_ones_never_passes_for_a_clean_run(run, collection: Path) -> None:
    ran = run("review", collection, collection / "gone.formula", *DAY)
    assert ran.status == 2
    assert "Not looked at:" in ran.out
    assert "1 formula of Kestrel Valley reviewed" in flat(ran.out)


def test_faulty_settings_end_with_2(run, collection: Path) -> None:
    (collection / "collection.yaml").write_text("nmae: Valley\n", "utf-8")
    ran = run("review", collection, *DAY)
    assert ran.status == 2
    assert "write `name`" in flat(ran.out)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("review",), "needs PATH"),
        (("review", "x", "--as", "xml"), "text, lines, json"),
        (("review", "x", "--sa", "json"), "did you mean --as?"),
        (("review", "x", "--jobs", "many"), "from 1 to 64"),
        (("review", "x", "--jobs", "٣"), "from 1 to 64"),
        (("review", "x", "--on", "tomorrow"), "2027-01-31"),
        (("review", "x", "--beside", "y"), "from a pipe"),
        (("review", "x", "--as"), "--as"),
        (("reveiw", "x"), "did you mean review?"),
        (("--verson",), "did you mean --version?"),
        (("compare", "x", "y"), "one PATH"),
        (("completion", "tcsh"), "bash, zsh, fish, powershell"),
    ],
)
def test_a_slip_is_answered_with_what_to_write_and_2(run, words: tuple[str, ...], says: str) -> None:
    ran = run(*words)
    assert (ran.status, ran.out) == (2, "")
    assert says in flat(ran.err)
    assert "Traceback" not in ran.err


def test_options_may_stand_before_after_or_between_paths(run, adapted: Path, collection: Path) -> None:
    tested = collection / "kv-101.formula"
    several = [
        run("review", "--as", "lines", adapted, tested, *DAY),
        run("review", adapted, "--as=lines", tested, *DAY),
        run("review", *DAY, "--as", "lines", "--", adapted, tested),
    ]
    assert len({(ran.status, ran.out) for ran in several}) == 1


def test_a_name_that_starts_with_a_dash_can_be_given(run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "--help").write_text("", "utf-8")
    monkeypatch.chdir(tmp_path)
    ran = run("review", "--as", "lines", "--", "--help")
    assert ran.status == 1
    assert ran.out.startswith("./--help:1:1: unreadable writing/file: ")


def test_colour_is_kept_from_pipes_unless_it_is_asked_for(run, adapted: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert "\x1b" not in run("review", adapted, *DAY).out
    assert "\x1b[" in run("review", adapted, "--color", "always", *DAY).out
    monkeypatch.setenv("NO_COLOR", "1")
    assert "\x1b[" in run("review", adapted, "--color", "always", *DAY).out


@pytest.mark.parametrize("columns", ["50", "80", "200"])
def test_the_report_fits_the_width_asked_for(run, adapted: Path, monkeypatch: pytest.MonkeyPatch, columns: str) -> None:
    monkeypatch.setenv("COLUMNS", columns)
    lines = [line for line in run("review", adapted, *DAY).out.splitlines() if "brimline compare" not in line]
    assert max(map(len, lines)) <= min(int(columns), 100)


def test_a_fault_of_our_own_is_told_in_words(run, collection: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    import brimline.faces.many

    def broken(*_: object, **__: object) -> None:
        raise ZeroDivisionError("a \x1b[31m quantity")

    monkeypatch.setattr(brimline.faces.many, "review", broken)
    ran = run("review", collection)
    assert (ran.status, ran.out) == (2, "")
    assert "ZeroDivisionError" in ran.err
    assert "nothing was judged" in ran.err
    assert "Traceback" not in ran.err
    assert "\x1b" not in ran.err
    monkeypatch.setenv("BRIMLINE_TRACE", "1")
    assert "Traceback" in run("review", collection).err


def test_ctrl_c_ends_with_words(run, collection: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    import brimline.faces.many

    def stopped(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(brimline.faces.many, "review", stopped)
    ran = run("review", collection)
    assert ran.status == 2
    assert "stopped" in ran.err


class TestAsAProgram:
    """What only a process of its own shows: statuses, streams, encodings, pipes."""

    def test_statuses_streams_and_a_path_with_a_blank(self, start, collection: Path, adapted: Path) -> None:
        clean = start("review", collection / "kv-101.formula", *DAY)
        assert (clean.status, clean.err) == (0, "")
        held = start("review", adapted, *DAY, PYTHONIOENCODING="cp1252")
        assert (held.status, held.err) == (1, "")
        assert "KV-201" in held.out
        gone = start("review", collection / "gone.formula")
        assert (gone.status, gone.out) == (2, "")

    def test_letters_that_the_console_lacks_are_no_fault(self, start, collection: Path) -> None:
        (collection / "kv-101.formula").write_text("formula KV-101 Kweepeer 果 ⅓\n", "utf-8")
        ran = start("review", collection, PYTHONIOENCODING="cp1252")
        assert (ran.status, ran.err) == (1, "")
        assert "KV-101" in ran.out
        assert "\\u" in ran.out

    def test_a_formula_through_a_pipe(self, start, collection: Path, adapted: Path) -> None:
        ran = start("review", "-", "--beside", collection, "--as", "lines", *DAY, data=adapted.read_bytes())
        assert ran.status == 1
        assert ran.out.startswith("<stdin>:")

    def test_a_reader_who_goes_away_is_no_fault(self, adapted: Path) -> None:
        import os
        import subprocess
        import sys

        command = [sys.executable, "-m", "brimline", "review", str(adapted), *DAY]
        path = str(Path(__file__).resolve().parents[2] / "linter")
        with subprocess.Popen(
            command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, env={"PYTHONPATH": path, **os.environ}
        ) as started:
            assert started.stdout is not None
            assert started.stderr is not None
            started.stdout.close()
            said = started.stderr.read()
        assert said == b""
        assert started.returncode == 1

    def test_several_processes_say_exactly_what_one_says(self, start, tmp_path: Path) -> None:
        for number in range(120):
            text = f"formula KV-{number % 110} Jam {number}\nproduct jam\nstanding tested\n"
            (tmp_path / f"{number:03}.formula").write_text(text, "utf-8")
        one = start("review", tmp_path, "--as", "json", *DAY)
        two = start("review", tmp_path, "--as", "json", "--jobs", "2", *DAY)
        assert (two.status, two.out, two.err) == (one.status, one.out, "")
        assert len(json.loads(two.out)["formulas"]) == 120

    def test_nothing_in_the_working_folder_is_run(self, start, collection: Path, monkeypatch) -> None:
        for name in ("lark.py", "ruamel.py", "sitecustomize.py", "conftest.py", "json.py", "brimline.py"):
            (collection / name).write_text("raise SystemExit(99)\n", "utf-8")
        monkeypatch.chdir(collection)
        assert start("review", ".", *DAY, PYTHONSAFEPATH="1").status == 0
