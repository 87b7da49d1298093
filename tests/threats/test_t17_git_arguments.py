"""T17: the name of a revision or a path that git would take for an option or an order."""

import os
import subprocess
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from repositories import Room, room

from brimline.faces.cli import main
from brimline.gate import Trouble, git

NAMES = (
    "--output=x",
    "--output=../x",
    "-x",
    "-",
    "--",
    "--upload-pack=touch x",
    "--end-of-options",
    "-c core.pager=x",
    "@{u}",
    "@{-1}",
    "",
    " ",
    "main --output=x",
    "main\n--output=x",
    "main\x00x",
    "main;touch x",
    "$(touch x)",
    "`touch x`",
    "|touch x",
    "main:collection.yaml",
    ":/x",
    "^main",
    "main..request",
    "main^@",
    "main^!",
    "x" * 5000,
    "\udcff",
    "../../x",
)


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Room:
    return room(tmp_path_factory.mktemp("room"))


def files(folder: Path) -> set[Path]:
    return set(folder.rglob("*"))


@pytest.mark.parametrize("side", ["base", "head"])
@pytest.mark.parametrize("name", NAMES, ids=ascii)
def test_an_odd_name_is_refused_in_words_and_does_nothing(made: Room, name: str, side: str) -> None:
    before = files(made.path)
    if name == "" and side == "head":
        return  # no head is the working tree
    with pytest.raises(Trouble) as trouble:
        made.gate(**{"base": "main", "head": "main", side: name})
    assert trouble.value.do
    assert files(made.path) == before


@pytest.mark.parametrize("name", ["--output=x", "-x", "@{u}"])
def test_the_command_line_refuses_them_too(made: Room, name: str, capsys: pytest.CaptureFixture[str]) -> None:
    before = files(made.path)
    for words in ([f"--base={name}"], ["--base=main", f"--head={name}"]):
        assert main(["gate", str(made.path), *words]) == 2
        said = capsys.readouterr()
        assert said.out == ""
        assert "brimline: " in said.err
        assert "Traceback" not in said.err
    assert files(made.path) == before


@settings(max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.text(max_size=20))
def test_any_name_is_a_commit_or_refused(made: Room, name: str) -> None:
    repository = git.opened(made.path)
    try:
        found = repository.commit(name)
    except Trouble as trouble:
        found = trouble.do and made.git("rev-parse", "main")
    assert found in made.git("rev-list", "--all").split()


def test_only_names_that_were_checked_and_hashes_reach_git(made: Room, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every call: a list, a full path, no shell, a closed environment, names behind `--end-of-options`, paths behind `--`."""
    calls: list[tuple[Sequence[str], dict[str, Any]]] = []
    popen = subprocess.Popen

    class Seen(popen):  # type: ignore[type-arg, misc, valid-type]
        def __init__(self, words: Sequence[str], **options: Any) -> None:
            calls.append((words, options))
            super().__init__(words, **options)

    monkeypatch.setattr(subprocess, "Popen", Seen)
    monkeypatch.setenv("GIT_DIR", "/nowhere")
    monkeypatch.setenv("GIT_CONFIG_COUNT", "1")
    made_by_hand = "m-a.i/n"
    with pytest.raises(Trouble):
        made.gate(made_by_hand, folder="adapted")
    made.gate("main", "main", "adapted")
    assert len(calls) > 6
    for words, options in calls:
        if "-c" in words and "user.name=A tester" in words:
            continue
        assert isinstance(words, list)
        assert Path(words[0]).is_absolute()
        assert not options.get("shell")
        env = options["env"]
        assert "GIT_DIR" not in env
        assert "GIT_CONFIG_COUNT" not in env
        assert (env["GIT_CONFIG_NOSYSTEM"], env["GIT_CONFIG_GLOBAL"]) == ("1", os.devnull)
        assert (env["GIT_OPTIONAL_LOCKS"], env["GIT_TERMINAL_PROMPT"]) == ("0", "0")
        assert "core.fsmonitor=false" in words
        assert f"core.hooksPath={os.devnull}" in words
        for given_ in (f"{made_by_hand}^{{commit}}", "main^{commit}"):
            if given_ in words:
                assert words[words.index(given_) - 1] == "--end-of-options"
        if "ls-tree" in words:
            after = words[words.index("ls-tree") + 1 : words.index("--")]
            assert [len(one) for one in after if not one.startswith("-")] == [40]


def test_a_branch_that_is_called_like_an_option(made: Room) -> None:
    made.git("update-ref", "refs/heads/--output=y", "main")
    with pytest.raises(Trouble, match="cannot be the name"):
        made.gate("--output=y")
    assert made.gate("refs/heads/--output=y").held_back == 0
