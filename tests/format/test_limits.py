"""Each limit, and each thing that is no formula, is answered with one finding, quickly."""

import os
import sys
import time
from pathlib import Path

import pytest

from brimline.document import load, read
from brimline.findings import Finding, Level

HEAD = b"formula KV-1 A\nstanding draft\n"


def only(data: bytes) -> tuple[str, int, str]:
    (finding,) = read("x.formula", data).findings
    assert finding.level is Level.UNREADABLE
    return finding.rule, finding.line, finding.says


@pytest.mark.parametrize(
    ("data", "rule", "line", "words"),
    [
        (b"", "writing/file", 1, "is empty"),
        (b"\xef\xbb\xbf", "writing/file", 1, "is empty"),
        (b" \n\n\t\n", "writing/file", 1, "nothing but blank lines"),
        (b"formula\0KV-1", "writing/file", 1, "null bytes"),
        ("formula KV-1 A".encode("utf-16"), "writing/file", 1, "UTF-16"),
        (HEAD + b"#" * 256 * 1024, "writing/size", 1, "262,174 bytes; a formula has at most 262,144"),
        (HEAD + b"#\n" * 4999, "writing/size", 1, "5,001 lines; a formula has at most 5,000"),
        (HEAD + b"# " + b"x" * 1999, "writing/size", 3, "2,001 characters; a line has at most 2,000"),
        (HEAD + b"take\n  spice some caf\xe9\n", "writing/characters", 4, "not UTF-8"),
    ],
)
def test_one_finding_for_what_cannot_be_read(data: bytes, rule: str, line: int, words: str) -> None:
    found_rule, found_line, says = only(data)
    assert (rule, line) == (found_rule, found_line)
    assert words in says


@pytest.mark.parametrize("data", [HEAD + b"#\n" * 4998, HEAD + b"# " + b"x" * 1998, HEAD + b"\n" * 4998])
def test_at_the_limit_nothing_is_said(data: bytes) -> None:
    assert read("x", data).findings == ()


@pytest.mark.parametrize(
    "number",
    [
        *("1e100000000", "9**9**9**9", "9" * 1900, "0." + "1" * 1900, "1" * 400 + "/" + "3" * 400, "1/0", "7/3/2"),
        *("0x10", "1_000", "+1", "-1", "1e3", "100000", "1.23456", ".5", "1.", "3/7", "4/4", "17/16", "1,5", "1 1 1/2"),
        *("²", "1½½", "½1", "½/2", "NaN", "inf"),
    ],
)
def test_a_number_that_is_none_ends_in_one_finding_at_once(number: str) -> None:
    began = time.process_time()
    (finding,) = read("x", HEAD + f"take\n  fruit {number} cup plums\n".encode()).findings
    assert finding.line == 4
    assert time.process_time() - began < 60


@pytest.mark.parametrize("body", ["(" * 1900, "fruit " + "1 cup + " * 230, "fruit 1 cup x" + ", x" * 600, "or " * 600])
def test_long_and_deep_lines_end_quickly(body: str) -> None:
    began = time.process_time()
    read("x", HEAD + b"take\n" + f"  {body}\n".encode() * 100)
    assert time.process_time() - began < 60


def test_a_file_is_loaded_as_it_is(tmp_path: Path) -> None:
    path = tmp_path / "a b.formula"
    path.write_bytes(HEAD)
    assert load(path) == HEAD


def refused(path: Path) -> str:
    answer = load(path, "x.formula")
    assert isinstance(answer, Finding)
    assert (answer.level, answer.at.path) == (Level.UNREADABLE, "x.formula")
    return f"{answer.rule}: {answer.says}"


def test_folders_and_missing_files_are_refused(tmp_path: Path) -> None:
    assert refused(tmp_path) == "writing/file: x.formula is a folder."
    assert refused(tmp_path / "none") == "writing/file: There is no file x.formula."
    assert refused(tmp_path / "nul\0name").startswith("writing/file: x.formula cannot be read")


def test_a_huge_sparse_file_is_refused_by_its_size(tmp_path: Path) -> None:
    path = tmp_path / "huge"
    with path.open("wb") as file:
        file.truncate(2 * 1024**3)
    began = time.process_time()
    assert refused(path) == "writing/size: x.formula has 2,147,483,648 bytes; a formula has at most 262,144."
    assert time.process_time() - began < 60


def test_links_and_pipes_are_refused(tmp_path: Path) -> None:
    (tmp_path / "secret").write_bytes(HEAD)
    link, broken, loop, pipe = (tmp_path / name for name in ("link", "broken", "loop", "pipe"))
    expected = {}
    if sys.platform != "win32":  # there, making a link needs a privilege, and a file is never a pipe
        link.symlink_to(tmp_path / "secret")
        broken.symlink_to(tmp_path / "none")
        loop.symlink_to(loop)
        os.mkfifo(pipe)
        expected = {
            link: "writing/file: x.formula is a link; links are not followed.",
            broken: "writing/file: x.formula is a link to nothing; links are not followed.",
            loop: "writing/file: x.formula is a link to nothing; links are not followed.",
            pipe: "writing/file: x.formula is not a plain file.",
        }
    assert expected == {path: refused(path) for path in expected}


def test_a_file_that_may_not_be_read_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "closed"
    path.write_bytes(HEAD)

    def closed(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", closed)
    assert refused(path) == "writing/file: x.formula cannot be read: Permission denied."


def test_a_file_that_grows_while_it_is_read_is_cut_off(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "growing"
    path.write_bytes(HEAD)
    small = path.lstat()
    path.write_bytes(b"x" * (256 * 1024 + 5))
    monkeypatch.setattr(Path, "lstat", lambda _: small)
    assert refused(path) == "writing/size: x.formula has 262,145 bytes; a formula has at most 262,144."
