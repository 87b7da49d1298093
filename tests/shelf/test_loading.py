"""From paths to a shelf: what is reviewed, what is only known, and what cannot be looked at."""

import os
import pickle
import socket
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from brimline.findings import Level
from brimline.shelf import STDIN_PATH, Shelf, load_shelf, shelf_of

TODAY = date(2026, 7, 1)
Write = Callable[..., Path]


@pytest.fixture
def write(tmp_path: Path) -> Write:
    def put(name: str, text: str = "formula KV-101 Gooseberry jam\n") -> Path:
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", newline="")
        return path

    return put


def reviewed(shelf: Shelf) -> list[str]:
    return [book.path for book in shelf.formulas]


def test_a_folder_gives_every_formula_under_it_in_order_of_path(write: Write, tmp_path: Path) -> None:
    for name in ("b.formula", "a/z.formula", "a/B.FORMULA", "a/readme.txt", "c.formula.bak"):
        write(name)
    assert reviewed(load_shelf([str(tmp_path)], TODAY)) == ["a/B.FORMULA", "a/z.formula", "b.formula"]


def test_hidden_folders_and_files_are_left_alone(write: Write, tmp_path: Path) -> None:
    write("kept.formula")
    write(".git/old.formula")
    write("._kept.formula")
    assert reviewed(load_shelf([str(tmp_path)], TODAY)) == ["kept.formula"]


def test_one_file_of_a_collection_knows_the_others_but_reviews_only_itself(write: Write, tmp_path: Path) -> None:
    write("collection.yaml", "name: Valley\n")
    write("tested/kv-101.formula", "formula KV-101 Gooseberry jam\n")
    asked = write("adapted/kv-201.formula", "formula KV-201 Less sugar\nadapts KV-101\n")
    shelf = load_shelf([str(asked)], TODAY)
    assert reviewed(shelf) == ["adapted/kv-201.formula"]
    assert [book.path for book in shelf.by_code("KV-101", shelf.formulas[0])] == ["tested/kv-101.formula"]
    assert shelf.codes(shelf.formulas[0]) == ("KV-101", "KV-201")
    assert shelf.base == tmp_path


def test_the_nearest_collection_counts_and_codes_do_not_leak_between_collections(write: Write, tmp_path: Path) -> None:
    write("collection.yaml", "name: Outer\n")
    write("kv-101.formula", "formula KV-101 One\n")
    write("class/collection.yaml", "name: Inner\n")
    write("class/kv-101.formula", "formula KV-101 Other\n")
    inner = write("class/kv-301.formula", "formula KV-301 Third\n")
    shelf = load_shelf([str(inner)], TODAY)
    assert [book.path for book in shelf.by_code("KV-101", shelf.formulas[0])] == ["kv-101.formula"]
    assert shelf.base == tmp_path / "class"
    both = load_shelf([str(tmp_path)], TODAY)
    assert both.names() == ("Outer", "Inner")
    assert all(both.findings(book) == () for book in both.formulas)
    outer = next(book for book in both.formulas if book.path == "kv-101.formula")
    assert both.by_code("KV-101", outer) == (outer,)


def test_paths_in_no_collection_are_one_of_their_own(write: Write, tmp_path: Path) -> None:
    first = write("x/kv-101.formula")
    second = write("y/kv-201.formula", "formula KV-201 Other\n")
    write("y/kv-301.formula", "formula KV-301 Not named\n")
    shelf = load_shelf([str(first), str(second)], TODAY)
    assert reviewed(shelf) == ["x/kv-101.formula", "y/kv-201.formula"]
    assert len(shelf.by_code("KV-101", shelf.formulas[1])) == 1
    assert shelf.by_code("KV-301", shelf.formulas[1]) == ()
    assert (shelf.base, shelf.names(), shelf.known) == (tmp_path, (), ())


class TestSetAside:
    """Folders that a collection sets aside, such as lessons that are wrong on purpose."""

    @pytest.fixture
    def lessons(self, write: Write, tmp_path: Path) -> Path:
        write("collection.yaml", "set-aside: classroom\n")
        write("kv-101.formula")
        write("classroom/kv-301.formula", "formula KV-301 Wrong\n")
        write("classroom/deep/kv-302.formula", "formula KV-302 Wrong too\n")
        return tmp_path

    def test_they_are_left_out_of_the_whole_and_that_is_told(self, lessons: Path) -> None:
        shelf = load_shelf([str(lessons)], TODAY)
        assert reviewed(shelf) == ["kv-101.formula"]
        (notice,) = shelf.notices()
        assert "2 formulas" in notice
        assert "classroom" in notice
        assert len(shelf.by_code("KV-301", shelf.formulas[0])) == 1

    def test_they_are_reviewed_when_they_are_named(self, lessons: Path) -> None:
        assert len(reviewed(load_shelf([str(lessons / "classroom")], TODAY))) == 2
        one = load_shelf([str(lessons), str(lessons / "classroom" / "kv-301.formula")], TODAY)
        assert reviewed(one) == ["classroom/kv-301.formula", "kv-101.formula"]
        assert one.left_out == ("classroom/deep/kv-302.formula",)
        assert reviewed(load_shelf([str(lessons / "classroom" / "deep")], TODAY)) == ["classroom/deep/kv-302.formula"]

    def test_a_collection_of_nothing_else_does_not_pass_for_clean(self, lessons: Path) -> None:
        (lessons / "kv-101.formula").unlink()
        shelf = load_shelf([str(lessons)], TODAY)
        assert shelf.formulas == ()
        assert "only formulas set aside" in shelf.refusals[0].reason


def test_a_path_given_twice_is_reviewed_once(write: Write, tmp_path: Path) -> None:
    file = write("kv-101.formula")
    assert reviewed(load_shelf([str(file), str(tmp_path), str(tmp_path / "." / "kv-101.formula")], TODAY)) == [
        "kv-101.formula"
    ]


def test_stars_are_filled_in_where_the_shell_did_not(write: Write, tmp_path: Path) -> None:
    write("a.formula")
    write("b.formula", "formula KV-102 Other\n")
    assert reviewed(load_shelf([str(tmp_path / "*.formula")], TODAY)) == ["a.formula", "b.formula"]


def test_two_formulas_with_one_code_are_unreadable_both(write: Write, tmp_path: Path) -> None:
    write("collection.yaml", "")
    write("one.formula", "# first\nformula KV-101 One\n")
    write("two.formula", "formula KV-101 Two\n")
    write("three.formula", "formula KV-103 Three\n")
    shelf = load_shelf([str(tmp_path)], TODAY)
    found = {book.path: shelf.findings(book) for book in shelf.formulas}
    assert found["three.formula"] == ()
    for path, other, line in (("one.formula", "two.formula", 2), ("two.formula", "one.formula", 1)):
        (finding,) = found[path]
        assert (finding.level, finding.rule, finding.line) == (Level.UNREADABLE, "writing/code", line)
        assert "KV-101" in finding.says
        assert other in finding.says


def test_a_twin_that_is_only_known_is_seen_too(write: Write) -> None:
    write("collection.yaml", "")
    write("one.formula")
    asked = write("two.formula")
    shelf = load_shelf([str(asked)], TODAY)
    assert [finding.rule for finding in shelf.findings(shelf.formulas[0])] == ["writing/code"]


@pytest.mark.parametrize(
    ("name", "reason"), [("nothere.formula", "is not there"), ("empty", "holds no formula"), ("no/such", "not there")]
)
def test_a_path_that_leads_nowhere_is_refused_in_words(tmp_path: Path, name: str, reason: str) -> None:
    (tmp_path / "empty").mkdir()
    shelf = load_shelf([str(tmp_path / name)], TODAY)
    assert shelf.formulas == ()
    (refusal,) = shelf.refusals
    assert reason in refusal.reason
    assert refusal.do


def test_the_files_that_can_be_read_are_reviewed_beside_one_that_cannot(write: Write, tmp_path: Path) -> None:
    file = write("kv-101.formula")
    shelf = load_shelf([str(file), str(tmp_path / "gone.formula")], TODAY)
    assert reviewed(shelf) == ["kv-101.formula"]
    assert len(shelf.refusals) == 1


@pytest.mark.parametrize(
    ("settings", "words"),
    [
        ("nmae: Valley\n", "`name`"),
        ("hold-back: [qualty]\n", "`quality`"),
        ("name: [a, b]\n", "text"),
        ("altitude: high\n", "5200 ft"),
        ("- a\n", "keys"),
        ("name: *x\n", "alias"),
        ("name: [\n", "YAML"),
        ("a: &x [1]\n", "anchor"),
        ("name: !!python/name:os.system x\n", "tag"),
        ("name: {a: {b: {c: {d: {e: f}}}}}\n", "deep"),
        ("name: one\nname: two\n", "YAML"),
    ],
)
def test_settings_that_cannot_be_used_are_refused(write: Write, tmp_path: Path, settings: str, words: str) -> None:
    write("collection.yaml", settings)
    write("kv-101.formula")
    (refusal,) = load_shelf([str(tmp_path)], TODAY).refusals
    assert refusal.path == "collection.yaml"
    assert words in refusal.reason


def test_too_many_files_stop_the_walk_and_say_so(write: Write, tmp_path: Path) -> None:
    for number in range(5):
        write(f"{number}.formula", f"formula KV-{number} Jam\n")
    shelf = load_shelf([str(tmp_path)], TODAY, most=4)
    assert len(shelf.formulas) == 4
    assert "more than 4" in shelf.refusals[0].reason


def test_a_formula_from_a_pipe_stands_in_for_its_own_file(write: Write, tmp_path: Path) -> None:
    write("collection.yaml", "")
    write("kv-101.formula")
    write("kv-102.formula", "formula KV-102 Other\n")
    shelf = load_shelf(["-"], TODAY, stdin=b"formula KV-101 Edited\n", beside=str(tmp_path))
    assert reviewed(shelf) == [STDIN_PATH]
    assert shelf.findings(shelf.formulas[0]) == ()
    assert [book.path for book in shelf.by_code("KV-102", shelf.formulas[0])] == ["kv-102.formula"]
    assert [book.path for book in shelf.by_code("KV-101", shelf.formulas[0])] == [STDIN_PATH]


def test_a_formula_from_a_pipe_finds_the_collection_of_the_working_folder(
    write: Write, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write("collection.yaml", "name: Valley\n")
    write("sub/kv-102.formula", "formula KV-102 Other\n")
    monkeypatch.chdir(tmp_path / "sub")
    shelf = load_shelf(["-"], TODAY, stdin=b"formula KV-101 Piped\n")
    assert shelf.names() == ("Valley",)
    assert len(shelf.by_code("KV-102", shelf.formulas[0])) == 1


def test_a_pipe_beside_no_collection_is_refused(tmp_path: Path) -> None:
    shelf = load_shelf(["-"], TODAY, stdin=b"formula KV-101 Piped\n", beside=str(tmp_path))
    assert [refusal.reason for refusal in shelf.refusals] == ["belongs to no collection"]


def test_lines_can_be_shown_as_written_and_missing_ones_are_empty(write: Write, tmp_path: Path) -> None:
    write("kv-101.formula", "formula KV-101 Jam\r\n  take\r\n")
    shelf = load_shelf([str(tmp_path)], TODAY)
    assert shelf.written("kv-101.formula", 2) == "  take"
    assert [shelf.written(path, line) for path, line in (("kv-101.formula", 0), ("kv-101.formula", 99), ("x", 1))] == [
        "",
        "",
        "",
    ]


def test_a_shelf_travels_to_another_process_and_can_be_shared_out(write: Write, tmp_path: Path) -> None:
    write("collection.yaml", "name: Valley\n")
    write("kv-101.formula")
    write("kv-102.formula", "formula KV-102 Other\n")
    shelf = pickle.loads(pickle.dumps(load_shelf([str(tmp_path)], TODAY)))
    part = shelf.only(shelf.formulas[:1])
    assert reviewed(part) == ["kv-101.formula"]
    assert [book.path for book in part.known] == ["kv-102.formula"]
    assert len(part.by_code("KV-102", part.formulas[0])) == 1
    assert part.names() == ("Valley",)
    assert part.formulas[0].read.text is not None


def test_a_shelf_can_be_made_of_texts() -> None:
    shelf = shelf_of({"b.formula": "formula KV-2 Two\n", "a.formula": "formula KV-1 One\n"}, TODAY, known=["a.formula"])
    assert reviewed(shelf) == ["b.formula"]
    (tested,) = shelf.by_code("KV-1", shelf.formulas[0])
    assert tested.read.text is not None
    assert (shelf.today, shelf.settings(tested).hold_back) == (TODAY, ())


def linked(link: Path, target: Path) -> bool:
    """Make a link; Windows allows it only to some, and then there is nothing to be followed."""
    try:
        link.symlink_to(target, target_is_directory=target.is_dir())
    except OSError:
        return False
    return True


def test_a_link_in_a_folder_is_named_and_not_followed(write: Write, tmp_path: Path) -> None:
    secret = write("outside/secret.txt", "formula KV-666 Secret\n")
    (tmp_path / "in").mkdir()
    made = linked(tmp_path / "in" / "kv-101.formula", secret)
    shelf = load_shelf([str(tmp_path / "in")], TODAY)
    assert len(shelf.formulas) == made
    for book in shelf.formulas:
        (finding,) = book.read.findings
        assert (finding.level, finding.rule) == (Level.UNREADABLE, "writing/file")
        assert "link" in finding.says
        assert (book.code, book.data, book.read.document, book.read.text) == ("", None, None, None)


def test_a_link_given_by_name_is_refused_whether_it_leads_anywhere_or_not(write: Write, tmp_path: Path) -> None:
    linked(tmp_path / "whole.formula", write("secret.txt"))
    linked(tmp_path / "broken.formula", tmp_path / "nowhere")
    shelf = load_shelf([str(tmp_path / "whole.formula"), str(tmp_path / "broken.formula")], TODAY)
    assert shelf.formulas == ()
    assert len(shelf.refusals) == 2


def test_a_ring_of_links_ends(tmp_path: Path, write: Write) -> None:
    write("a/kv-101.formula")
    linked(tmp_path / "a" / "again", tmp_path)
    assert reviewed(load_shelf([str(tmp_path)], TODAY)) == ["a/kv-101.formula"]


def test_a_socket_named_like_a_formula_is_not_opened(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    family = getattr(socket, "AF_UNIX", None)
    if family is None:
        (tmp_path / "pipe.formula").mkdir()
    else:
        with socket.socket(family, socket.SOCK_STREAM) as made:
            made.bind("pipe.formula")
    shelf = load_shelf([str(tmp_path)], TODAY)
    assert all(book.read.document is None for book in shelf.formulas)
    assert bool(shelf.formulas) is (family is not None)


def test_a_very_large_file_is_not_read_whole_and_its_size_is_told(tmp_path: Path) -> None:
    file = tmp_path / "huge.formula"
    with file.open("wb") as stream:
        stream.truncate(2 * 1024**3 if os.name == "posix" else 1024**2)
    shelf = load_shelf([str(file)], TODAY)
    (finding,) = shelf.formulas[0].read.findings
    assert finding.rule == "writing/size"
    assert f"{file.stat().st_size:,}" in finding.says


def test_a_folder_that_may_not_be_opened_is_refused(
    tmp_path: Path, write: Write, monkeypatch: pytest.MonkeyPatch
) -> None:
    write("open/kv-101.formula")
    write("shut/kv-102.formula")
    real = os.scandir

    def scandir(path: Path) -> object:
        if Path(path).name == "shut":
            raise PermissionError(13, "Permission denied", str(path))
        return real(path)

    monkeypatch.setattr(os, "scandir", scandir)
    shelf = load_shelf([str(tmp_path)], TODAY)
    assert reviewed(shelf) == ["open/kv-101.formula"]
    assert [(Path(one.path).name, one.reason) for one in shelf.refusals] == [("shut", "may not be read by you")]


def test_a_file_that_goes_away_between_looking_and_reading_is_a_finding(write: Write, tmp_path: Path) -> None:
    file = write("kv-101.formula", "formula KV-101 Jam\n" + "# long\n" * 10)
    shelf = load_shelf([str(tmp_path)], TODAY)
    shelf.formulas[0].data = None
    file.unlink()
    assert [finding.rule for finding in shelf.formulas[0].read.findings] == ["writing/file"]
