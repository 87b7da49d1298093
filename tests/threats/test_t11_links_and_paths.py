"""T11: links and paths that lead out of the collection, in the objects and on disk."""

import os
import sys
from pathlib import Path

import pytest
from repositories import SMALL, Room, room, said

SECRET = "formula S-1 A secret\nproduct jam\nstanding draft\nmake\n  - The word is xyzzy.\n"


@pytest.fixture
def made(tmp_path: Path) -> Room:
    (tmp_path / "secret.formula").write_text(SECRET, "utf-8")
    (tmp_path / "outside").mkdir()
    (tmp_path / "outside" / "s.formula").write_text(SECRET, "utf-8")
    one = room(tmp_path / "room")
    one.branch("request")
    return one


def link(made: Room, path: str, target: bytes) -> None:
    """A link in the objects, whatever the system thinks of links."""
    blob = made.git("hash-object", "-w", "--stdin", given=target)
    made.git("update-index", "--add", "--cacheinfo", f"120000,{blob},{path}")
    made.git("commit", "-q", "-m", "a link")


@pytest.mark.parametrize(
    "target", [b"../../secret.formula", b"/etc/passwd", b"C:\\secret", b"\\\\host\\share", b"x\n\x1b[2J"]
)
def test_a_link_that_is_called_a_formula(made: Room, target: bytes) -> None:
    link(made, "adapted/l.formula", target)
    answer = made.gate()
    assert said(answer) == [("adapted/l.formula", "unreadable", "writing/file")]
    assert "links are not followed" in answer.formulas[0].findings[0].says
    assert "xyzzy" not in repr(answer)


def test_a_link_to_a_folder(made: Room) -> None:
    link(made, "more", b"../outside")
    assert said(made.gate()) == [("more", "form", "gate/link")]


def test_a_tested_formula_replaced_by_a_link(made: Room) -> None:
    link(made, "tested/kv-102.formula", b"kv-101.formula")
    found = said(made.gate())
    assert ("tested/kv-102.formula", "unreadable", "writing/file") in found
    assert any(path == "adapted/kv-201.formula" for path, _, _ in found)


if sys.platform != "win32":  # links need rights there

    def test_links_on_disk(made: Room) -> None:
        (made.path / "adapted" / "l.formula").symlink_to(made.path.parent / "secret.formula")
        (made.path / "more").symlink_to(made.path.parent / "outside")
        (made.path / "loop").symlink_to(made.path)
        (made.path / "dangling.formula").symlink_to("nowhere")
        answer = made.gate(head="")
        assert said(answer) == [
            ("adapted/l.formula", "unreadable", "writing/file"),
            ("dangling.formula", "unreadable", "writing/file"),
            ("loop", "form", "gate/link"),
            ("more", "form", "gate/link"),
        ]
        assert "xyzzy" not in repr(answer)


if sys.platform != "win32":  # pipes have no place in folders there

    def test_a_pipe_on_disk_is_not_waited_for(made: Room) -> None:
        os.mkfifo(made.path / "adapted" / "p.formula")
        assert said(made.gate(head="")) == [("adapted/p.formula", "unreadable", "writing/file")]


@pytest.mark.parametrize("part", ["..", "."])
def test_a_path_that_leads_out_of_its_folder(made: Room, part: str) -> None:
    blob = made.git("hash-object", "-w", "--stdin", given=SMALL["adapted/kv-201.formula"].encode())
    inner = made.git("mktree", given=f"100644 blob {blob}\tx.formula\n".encode())
    # mktree takes any name, as a hostile writer of objects would.
    outer = made.git("mktree", given=f"040000 tree {inner}\t{part}\n".encode())
    commit = made.git("commit-tree", outer, "-p", "main", "-m", "odd")
    answer = made.gate(head=commit)
    assert (f"{part}/x.formula", "unreadable", "gate/path") in said(answer)
    assert answer.changed == ()


@pytest.mark.parametrize("name", ["a\\b.formula", "c:x.formula", "aux.formula", "\x1b[2J.formula", "::error.formula"])
def test_names_of_other_systems_are_only_names(made: Room, name: str) -> None:
    blob = made.git(
        "hash-object", "-w", "--stdin", given=SMALL["adapted/kv-201.formula"].replace("201", "299").encode()
    )
    made.git("update-index", "--add", "-z", "--index-info", given=f"100644 {blob}\t{name}\0".encode())
    made.git("commit", "-q", "-m", "a name")
    assert (name, "form", "writing/name") in said(made.gate())


def test_the_folder_given_stays_in_its_repository(made: Room) -> None:
    from brimline.gate import Trouble

    with pytest.raises(Trouble, match="in no git repository"):
        made.gate(folder="..")
