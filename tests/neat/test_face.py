"""`brimline neaten` as its users run it."""

import errno
import io
import os
import stat
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from msgspec import Struct

from brimline.faces import replacing
from brimline.faces.cli import main

NEAT = "formula KV-1 Plum jam\nproduct   jam\nstanding  draft\n\npack\n  fill       hot\n"
UNTIDY = "formula  KV-1 Plum jam\r\nproduct jam\r\nstanding draft\r\npack\r\n fill hot"


class Ran(Struct, frozen=True):
    status: int
    out: str
    err: str


@pytest.fixture
def neaten(monkeypatch: pytest.MonkeyPatch) -> Callable[..., Ran]:
    def call(*words: object, data: bytes | None = None) -> Ran:
        out, err = (io.TextIOWrapper(io.BytesIO(), encoding="ascii", newline="\r\n") for _ in "12")
        monkeypatch.setattr(sys, "stdout", out)
        monkeypatch.setattr(sys, "stderr", err)
        if data is not None:
            monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(data)))
        status = main(["neaten", *(str(word) for word in words)])
        for stream in (out, err):
            stream.flush()
        said, remarked = out.buffer.getvalue(), err.buffer.getvalue()
        return Ran(status, said.decode("utf-8", "surrogateescape"), remarked.decode("ascii").replace("\r\n", "\n"))

    return call


@pytest.fixture
def untidy(tmp_path: Path) -> Path:
    file = tmp_path / "kv-1.formula"
    file.write_bytes(UNTIDY.encode())
    return file


def left_behind(folder: Path) -> list[str]:
    return sorted(one.name for one in folder.iterdir() if one.name != "kv-1.formula")


def test_a_file_is_put_into_its_layout(neaten, untidy: Path) -> None:
    ran = neaten(untidy)
    assert ran.status == 0
    assert untidy.read_bytes() == NEAT.encode()
    assert "kv-1.formula neatened: 4 lines, blank lines, line ends, the end of the last line." in ran.out
    assert ran.err == "1 formula: 1 neatened, 0 neat already.\n"
    assert left_behind(untidy.parent) == []


def test_a_neat_file_is_not_written_at_all(neaten, untidy: Path) -> None:
    untidy.write_bytes(NEAT.encode())
    os.utime(untidy, (1, 1))
    before = untidy.stat()
    ran = neaten(untidy)
    after = untidy.stat()
    assert (ran.status, ran.out, ran.err) == (0, "", "1 formula: 0 neatened, 1 neat already.\n")
    assert (after.st_mtime_ns, after.st_ino) == (before.st_mtime_ns, before.st_ino)


def test_only_say_changes_nothing_and_ends_with_1(neaten, untidy: Path) -> None:
    ran = neaten("--only-say", untidy)
    assert ran.status == 1
    assert untidy.read_bytes() == UNTIDY.encode()
    lines = [line.rpartition("kv-1.formula")[2] for line in ran.out.splitlines()]
    assert lines == [
        *(f":{number}: not neat" for number in (1, 2, 3, 5)),
        ": blank lines, line ends, the end of the last line not neat",
    ]
    assert ran.err == "1 formula: 1 not neat, 0 neat.\n"
    untidy.write_bytes(NEAT.encode())
    assert neaten("--only-say", untidy).status == 0


def test_folders_and_files_together(neaten, untidy: Path) -> None:
    folder = untidy.parent / "more formulas"
    folder.mkdir()
    for name in ("kv-2.formula", "kv-3.formula", "notes.txt"):
        (folder / name).write_bytes(UNTIDY.encode())
    ran = neaten(untidy, folder)
    assert (ran.status, ran.err) == (0, "3 formulas: 3 neatened, 0 neat already.\n")
    assert (folder / "kv-3.formula").read_bytes() == NEAT.encode()
    assert (folder / "notes.txt").read_bytes() == UNTIDY.encode()


def test_what_a_collection_sets_aside_is_neatened_too(neaten, untidy: Path) -> None:
    (untidy.parent / "collection.yaml").write_text("name: Valley\nset-aside: [practice]\n", "utf-8")
    (untidy.parent / "practice").mkdir()
    (untidy.parent / "practice" / "kv-2.formula").write_bytes(UNTIDY.encode())
    assert neaten(untidy.parent).err == "2 formulas: 2 neatened, 0 neat already.\n"


def test_what_cannot_be_neatened_ends_with_2_and_does_not_stop_the_rest(neaten, untidy: Path) -> None:
    (untidy.parent / "a.formula").write_bytes(b"formula KV-2 Caf\xe9\n")
    ran = neaten(untidy.parent, untidy.parent / "gone.formula")
    assert ran.status == 2
    assert untidy.read_bytes() == NEAT.encode()
    assert (untidy.parent / "a.formula").read_bytes() == b"formula KV-2 Caf\xe9\n"
    assert "a.formula. Some bytes in it are not UTF-8" in ran.err
    assert "gone.formula is not there" in ran.err
    assert "1 neatened, 0 neat already, 2 could not be neatened." in ran.err


def test_lines_that_cannot_be_read_are_named(neaten, untidy: Path) -> None:
    untidy.write_bytes((NEAT + "  lid\n   headspace 1/4\n").encode())
    ran = neaten(untidy)
    assert ran.status == 0
    assert untidy.read_bytes().endswith(b"  lid\n   headspace 1/4\n")
    assert "lines 7, 8 cannot be read and stay as written" in ran.err


def test_a_formula_through_a_pipe(neaten) -> None:
    ran = neaten("-", data=UNTIDY.replace("Plum", "Plüm").encode())
    assert (ran.status, ran.out, ran.err) == (0, NEAT.replace("Plum", "Plüm"), "")
    assert neaten("--only-say", "-", data=UNTIDY.encode()).status == 1
    assert neaten("--only-say", "-", data=NEAT.encode()).status == 0


@pytest.mark.parametrize("data", [b"", b"\xff\xfe\0", b"formula KV-1 Caf\xe9\r\n", b"nothing of the kind\r\n"])
def test_what_cannot_be_neatened_goes_through_the_pipe_as_it_came(neaten, data: bytes) -> None:
    ran = neaten("-", data=data)
    assert (ran.status, ran.out.encode("utf-8", "surrogateescape")) == (2, data)
    assert ran.err.startswith("Not neatened: <stdin>. ")


def test_a_pipe_goes_with_nothing_else(neaten, untidy: Path) -> None:
    ran = neaten("-", untidy, data=b"")
    assert (ran.status, ran.out) == (2, "")
    assert untidy.read_bytes() == UNTIDY.encode()


def test_permissions_are_kept(neaten, untidy: Path) -> None:
    untidy.chmod(0o640)
    kept = stat.S_IMODE(untidy.stat().st_mode)
    assert neaten(untidy).status == 0
    assert stat.S_IMODE(untidy.stat().st_mode) == kept


def test_a_write_protected_file_stays(neaten, untidy: Path) -> None:
    untidy.chmod(0o444)
    ran = neaten(untidy)
    untidy.chmod(0o644)
    assert ran.status == 2
    assert "It is write-protected." in ran.err
    assert untidy.read_bytes() == UNTIDY.encode()
    assert left_behind(untidy.parent) == []


def failing(number: int, windows: int | None = None) -> Callable[..., None]:
    def fail(*_: object, **__: object) -> None:
        error = OSError(number, os.strerror(number))
        if windows is not None:
            error.winerror = windows
        raise error

    return fail


@pytest.mark.parametrize(
    ("owner", "step", "fault", "says"),
    [
        (Path, "replace", failing(errno.EACCES, 5), "Another program holds it open."),
        (Path, "replace", failing(errno.EACCES, 32), "Another program holds it open."),
        (Path, "replace", failing(errno.EIO), "It could not be written: "),
        (os, "fsync", failing(errno.ENOSPC), "It could not be written: "),
        (replacing.tempfile, "mkstemp", failing(errno.EACCES), "You may not write in its folder."),
        (replacing.tempfile, "mkstemp", failing(errno.EROFS), "It could not be written: "),
    ],
    ids=["open on Windows", "shared on Windows", "a broken disk", "a full disk", "a closed folder", "a read-only disk"],
)
def test_nothing_is_lost_when_writing_fails(
    neaten,
    untidy: Path,
    monkeypatch: pytest.MonkeyPatch,
    owner: object,
    step: str,
    fault: Callable[..., None],
    says: str,
) -> None:
    monkeypatch.setattr(owner, step, fault)
    ran = neaten(untidy)
    monkeypatch.undo()
    assert (ran.status, ran.out) == (2, "")
    assert says in ran.err
    assert untidy.read_bytes() == UNTIDY.encode()
    assert left_behind(untidy.parent) == []


def test_what_an_editor_saved_meanwhile_is_not_overwritten(
    neaten, untidy: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    flush = os.fsync

    def saved_meanwhile(handle: int) -> None:
        flush(handle)
        untidy.write_bytes(b"formula KV-1 Damson jam\n")

    monkeypatch.setattr(os, "fsync", saved_meanwhile)
    ran = neaten(untidy)
    assert ran.status == 2
    assert "Another program changed it meanwhile." in ran.err
    assert untidy.read_bytes() == b"formula KV-1 Damson jam\n"
    assert left_behind(untidy.parent) == []


def test_stopping_by_hand_leaves_nothing_behind(neaten, untidy: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def stopped(_: int) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", stopped)
    assert neaten(untidy).status == 2
    assert untidy.read_bytes() == UNTIDY.encode()
    assert left_behind(untidy.parent) == []
