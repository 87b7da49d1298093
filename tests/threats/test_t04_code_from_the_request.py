"""T4: a request brings code, hoping that the gate runs it: modules, start-up files, hooks, filters, programs."""

import os
import stat
import subprocess
import sys
from pathlib import Path

import pytest
from repositories import LESS_SUGAR, SMALL, Room, room

LINTER = Path(__file__).resolve().parents[2] / "linter"
START = f"import sys; sys.path.insert(0, {str(LINTER)!r}); from brimline.faces.cli import main; sys.exit(main())"
TRAP = "open({mark!r}, 'a').write(__name__)\n"
MODULES = (
    "lark.py",
    "msgspec.py",
    "jsonschema.py",
    "ruamel.py",
    "brimline.py",
    "subprocess.py",
    "tempfile.py",
    "json.py",
    "sitecustomize.py",
    "usercustomize.py",
    "conftest.py",
    "setup.py",
    "x.pth",
)


@pytest.fixture
def trapped(tmp_path: Path) -> tuple[Room, Path]:
    """A request with a trap in every file that something might run, and the file that a sprung trap leaves."""
    mark = tmp_path / "sprung"
    made = room(tmp_path / "room")
    made.branch("request")
    files = {name: TRAP.format(mark=str(mark)) for name in MODULES}
    made.commit({**files, "adapted/kv-201.formula": SMALL["adapted/kv-201.formula"].replace(*LESS_SUGAR)})
    return made, mark


def program(file: Path, mark: Path) -> str:
    """A program that leaves the mark."""
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(f"#!{sys.executable} -I\nopen({str(mark)!r}, 'a').write('run')\n", "utf-8")
    file.chmod(file.stat().st_mode | stat.S_IXUSR)
    return str(file)


def started(made: Room, *words: str, **environment: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [sys.executable, "-I", "-c", START, "gate", "--base", "main", *words],
        cwd=made.path,
        capture_output=True,
        check=False,
        env={**os.environ, **environment},
    )


@pytest.mark.parametrize("words", [(), ("--head", "HEAD"), ("--as", "json"), ("--as", "lines")])
def test_nothing_of_the_request_is_imported(trapped: tuple[Room, Path], words: tuple[str, ...]) -> None:
    made, mark = trapped
    done = started(made, *words)
    assert done.returncode == 1, done.stderr
    assert b"sugar/cut" in done.stdout
    assert not mark.exists()


if sys.platform != "win32":  # the traps are programs of another system

    def test_no_hook_helper_filter_or_monitor_is_run(trapped: tuple[Room, Path]) -> None:
        made, mark = trapped
        trap = program(made.path / "trap", mark)
        for name in ("post-checkout", "pre-commit", "post-index-change", "fsmonitor-watchman"):
            program(made.path / ".git" / "hooks" / name, mark)
        for key in (
            "core.fsmonitor",
            "core.pager",
            "core.askPass",
            "core.sshCommand",
            "core.editor",
            "diff.external",
            "diff.trap.textconv",
            "diff.trap.command",
            "filter.trap.smudge",
            "filter.trap.clean",
            "gpg.program",
            "credential.helper",
            "alias.rev-parse",
        ):
            made.git("config", key, f"!{trap}" if key.startswith("alias") else trap)
        made.write({".gitattributes": "*.formula diff=trap filter=trap\n"})
        for head in ((), ("--head", "HEAD")):
            done = started(made, *head, GIT_EXTERNAL_DIFF=trap, GIT_PAGER=trap, GIT_ASKPASS=trap, GIT_SSH_COMMAND=trap)
            assert done.returncode == 1, done.stderr
        assert not mark.exists()


if sys.platform != "win32":  # the trap is a program of another system

    def test_a_program_called_git_in_the_request_is_not_run(trapped: tuple[Room, Path]) -> None:
        made, mark = trapped
        program(made.path / "git", mark)
        path = os.pathsep.join(["", ".", os.environ["PATH"]])
        assert started(made, PATH=path).returncode == 1
        assert not mark.exists()
        only = started(made, PATH=".")
        assert only.returncode == 2
        assert b"git was not found" in only.stderr
        assert not mark.exists()


if sys.platform != "win32":  # the trap is a program of another system

    def test_a_folder_dressed_as_a_repository_is_not_taken_for_one(trapped: tuple[Room, Path]) -> None:
        made, mark = trapped
        trap = program(made.path / "trap", mark)
        for config in ("bare = true", f"bare = false\n\tworktree = {made.path}/adapted"):
            made.write(
                {
                    "adapted/HEAD": "ref: refs/heads/main\n",
                    "adapted/objects/x": "",
                    "adapted/refs/x": "",
                    "adapted/config": f"[core]\n\trepositoryformatversion = 0\n\tfsmonitor = {trap}\n\t{config}\n",
                }
            )
            done = started(made, "adapted")
            # Either the true repository is found in spite of it, or nothing is judged at all.
            assert done.returncode == 2 or b"sugar/cut" in done.stdout
            assert not mark.exists()
