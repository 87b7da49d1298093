"""T5: giant files and very many of them, in the objects and on disk; T6: very deep folders."""

import time
from pathlib import Path

import pytest
from repositories import SMALL, Room, room, said

from brimline.gate import Trouble, git, snapshot
from brimline.gate.values import DEEPEST

BIG = "adapted/big.formula"


@pytest.fixture
def made(tmp_path: Path) -> Room:
    one = room(tmp_path)
    one.branch("request")
    return one


def test_a_large_formula_is_refused_by_its_size(made: Room) -> None:
    made.commit({BIG: b"x" * (3 * 1024 * 1024)})
    for head in ("HEAD", ""):
        answer = made.gate(head=head)
        assert said(answer) == [(BIG, "unreadable", "writing/size")]
        assert "3,145,728 bytes" in answer.formulas[0].findings[0].says


def test_a_sparse_file_of_two_gigabytes_is_not_read(made: Room) -> None:
    with (made.path / BIG).open("wb") as file:
        file.truncate(2 * 1024**3)
    began = time.monotonic()
    assert said(made.gate(head="")) == [(BIG, "unreadable", "writing/size")]
    # Reading it would take far longer than this, and more memory than there is.
    assert time.monotonic() - began < 20


def test_a_million_lines(made: Room) -> None:
    made.commit({BIG: b"\n" * 1_000_000, "adapted/lines.formula": b"#\n" * 6000})
    assert {(path, rule) for path, _, rule in said(made.gate())} == {
        (BIG, "writing/size"),
        ("adapted/lines.formula", "writing/size"),
    }


@pytest.mark.parametrize("head", ["HEAD", ""])
def test_too_many_files(made: Room, monkeypatch: pytest.MonkeyPatch, head: str) -> None:
    monkeypatch.setattr(snapshot, "MOST_FILES", len(SMALL))
    made.commit({f"adapted/n{number}.formula": "formula A-1 x\n" for number in range(9)})
    with pytest.raises(Trouble, match="more than") as trouble:
        made.gate(head=head)
    assert "smaller folder" in trouble.value.do


@pytest.mark.parametrize(("limit", "words"), [("MOST_LISTED", "more files"), ("MOST_READ", "come to more")])
def test_too_much_in_all(made: Room, monkeypatch: pytest.MonkeyPatch, limit: str, words: str) -> None:
    monkeypatch.setattr(git, limit, 100)
    with pytest.raises(Trouble, match=words):
        made.gate()


def test_large_settings_of_the_base_stop_the_run(tmp_path: Path) -> None:
    made = room(tmp_path, {**SMALL, "collection.yaml": b"#" * (9 * 1024 * 1024)})
    answer = made.gate()
    assert [(one.path, one.reason) for one in answer.refusals] == [("collection.yaml", "is larger than 8 MiB")]


@pytest.mark.parametrize("depth", [DEEPEST + 2, 400])
def test_deep_folders(made: Room, depth: int) -> None:
    folder = "/".join("d" * 1 for _ in range(depth))
    blob = made.git("hash-object", "-w", "--stdin", given=b"formula A-1 x\n")
    made.git("update-index", "--add", "--cacheinfo", f"100644,{blob},{folder}/a.formula")
    made.git("commit", "-q", "-m", "deep")
    found = said(made.gate())
    assert [(level, rule) for _, level, rule in found] == [("unreadable", "gate/path")]


def test_deep_folders_on_disk(made: Room) -> None:
    folder = made.path.joinpath(*["d"] * (DEEPEST + 2))
    folder.mkdir(parents=True)
    (folder / "a.formula").write_text("formula A-1 x\n", "utf-8")
    assert [rule for _, _, rule in said(made.gate(head=""))] == ["gate/path"]
