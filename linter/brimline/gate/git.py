"""The one place that runs git: reads commits, trees and blobs by their hashes, and can do nothing else.

Every call is a list of arguments without a shell. A name given by a person becomes a hash first, behind
`--end-of-options`, and only hashes are used from there. Hooks, helpers, pagers, prompts, downloads and the settings of
the system and of the person are switched off; nothing is ever written.
"""

import os
import re
import sys
from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import IO, TYPE_CHECKING

from msgspec import Struct

from brimline.gate.values import Trouble

if TYPE_CHECKING:
    import subprocess

LONGEST_NAME = 400
# What a tree may list in all, in bytes: some 500,000 files.
MOST_LISTED = 64 * 1024 * 1024
# What the formulas of a run may come to in all.
MOST_READ = 512 * 1024 * 1024
MOST_BASES = 8

_HASH = re.compile(r"[0-9a-f]{40}(?:[0-9a-f]{24})?", re.ASCII)
_NOT_IN_A_NAME = re.compile(r"[\x00-\x20\x7f]")
_CONFIG = (
    "safe.bareRepository=explicit",
    "core.fsmonitor=false",
    f"core.hooksPath={os.devnull}",
    "core.pager=",
    "core.askPass=",
    "protocol.allow=never",
    "gc.auto=0",
    "maintenance.auto=false",
)
_SHALLOW = (
    "This is a shallow clone: the history that both sides share is not in it. Fetch all of it, as with "
    "`git fetch --unshallow`, or `fetch-depth: 0` where a workflow checks out."
)


class Entry(Struct, frozen=True):
    """One entry of a tree: its path as bytes from the top of the repository, its mode, hash and size in bytes."""

    path: bytes
    mode: str
    hash: str
    size: int


class Repository(Struct, frozen=True):
    """A repository that a folder lies in.

    `top` is the uppermost folder of the working tree; `inside` leads from there to the folder, as bytes with a slash at
    the end, empty for the top itself. `shallow` tells that history was cut off. `program` is where git is, `trusted` the
    folders that the person has told git to trust although they belong to somebody else.
    """

    folder: Path
    top: Path
    inside: bytes
    shallow: bool
    program: str
    trusted: tuple[str, ...] = ()

    def commit(self, name: str) -> str:
        """The hash of the commit that a name stands for: a branch, a tag, a hash. Raises Trouble."""
        if not name or name.startswith("-") or len(name) > LONGEST_NAME or _NOT_IN_A_NAME.search(name):
            raise Trouble(f"`{name[:80]}` cannot be the name of a revision", "Name a branch, a tag or a commit.")
        done = self._run("rev-parse", "--verify", "--quiet", "--end-of-options", f"{name}^{{commit}}")
        words = done.out.decode("ascii", "replace").split()
        if done.status or not words or not _HASH.fullmatch(words[-1]):
            raise Trouble(
                f"there is no commit `{name}` in this repository",
                _SHALLOW if self.shallow else "Check the name, or fetch the branch first.",
            )
        return words[-1]

    def merge_bases(self, base: str, head: str) -> tuple[str, ...]:
        """The commits that two commits, given by hash, have last in common, sorted; several where branches crossed."""
        done = self._run("merge-base", "--all", base, head)
        found = sorted(word for word in done.out.decode("ascii", "replace").split() if _HASH.fullmatch(word))
        if done.status not in (0, 1):
            raise self._fault(done)
        if not found:
            do = _SHALLOW if self.shallow else "Name the branch that the request goes into."
            raise Trouble("the two revisions have no commit in common", do)
        if len(found) > MOST_BASES:
            raise Trouble(
                f"the two revisions have {len(found)} last commits in common; {MOST_BASES} are compared at most",
                "Merge the branch that the request goes into, and try again.",
            )
        return tuple(found)

    def tree(self, commit: str, paths: Sequence[bytes] = (), deep: bool = True) -> tuple[Entry, ...]:
        """The entries of a commit under some paths, everything if none; `deep` enters folders. Raises Trouble."""
        options = ["-r"] if deep else []
        arguments = ["ls-tree", *options, "-z", "-l", "--full-tree", commit, "--"]
        with self._started([*arguments, *(os.fsdecode(one) for one in paths)]) as process:
            out = _stream(process.stdout)
            listed = out.read(MOST_LISTED + 1)
            if len(listed) > MOST_LISTED:
                process.kill()
                raise Trouble("the folder holds more files than can be looked at", "Name a smaller folder.")
            if process.wait():
                raise self._unread(commit)
        return tuple(_entry(line) for line in listed.split(b"\0") if line)

    def blobs(self, hashes: Iterable[str]) -> Iterator[tuple[str, bytes]]:
        """The contents of blobs by hash, each once, in the order given. Raises Trouble for one that is not there."""
        import tempfile

        wanted = list(dict.fromkeys(hashes))
        if not wanted:
            return
        # A file, so that neither side ever waits for the other to read.
        with tempfile.TemporaryFile() as asked:
            asked.write("".join(f"{one}\n" for one in wanted).encode("ascii"))
            asked.seek(0)
            with self._started(["cat-file", "--batch"], asked) as process:
                out = _stream(process.stdout)
                total = 0
                for one in wanted:
                    size = _size(out.readline(), one)
                    total += max(size, 0)
                    if size < 0:
                        process.kill()
                        raise self._unread(one)
                    if total > MOST_READ:
                        process.kill()
                        raise Trouble("the formulas come to more than can be looked at", "Name a smaller folder.")
                    data = out.read(size)
                    out.read(1)
                    yield one, data

    def _unread(self, what: str) -> Trouble:
        return Trouble(
            f"git has not all of what {what[:12]} is made of",
            _SHALLOW if self.shallow else "The clone is partial or damaged; clone the whole repository.",
        )

    def _started(self, arguments: Sequence[str], given: IO[bytes] | None = None) -> "subprocess.Popen[bytes]":
        return _start(self.program, self.folder, arguments, given, self.trusted)

    def _run(self, *arguments: str) -> "Done":
        return _run(self.program, self.folder, arguments, self.trusted)

    def _fault(self, done: "Done") -> Trouble:
        return Trouble(f"git stopped: {done.said}", "Mend the repository, or clone it again.")


class Done(Struct, frozen=True):
    """What a call came to: exit status, output, the first line of what git said about it."""

    status: int
    out: bytes
    said: str


def opened(folder: Path) -> Repository:
    """The repository a folder lies in. Raises Trouble if git or the repository is not there."""
    program = _program(os.environ)
    if not program:
        raise Trouble("git was not found on this computer", "Install git, or use `review`, which needs none.")
    if not folder.is_dir():
        raise Trouble(f"{folder.as_posix()} is not a folder", "Name the folder of a collection.")
    folder = Path(os.path.realpath(folder))
    top = next((one for one in (folder, *folder.parents) if os.path.lexists(one / ".git")), None)
    if top is None:
        raise Trouble(f"{folder.as_posix()} is in no git repository", "Name the folder of a collection in a clone.")
    trusted: tuple[str, ...] = ()
    asked = _run(program, folder, _ABOUT)
    if asked.status and "dubious ownership" in asked.said:
        trusted = _trusted(program, folder)
        asked = _run(program, folder, _ABOUT, trusted) if trusted else asked
    if asked.status:
        raise _not_opened(asked.said)
    bare, shallow, inside, found, *_ = [*asked.out.split(b"\n"), b"", b"", b"", b""]
    # A request can add files that make one of its folders look like a repository; what is in that is not history.
    if bare != b"false" or not _is_same(Path(os.fsdecode(found)), top):
        raise Trouble(
            f"git takes {folder.as_posix()} or a folder around it for a repository of its own",
            "Name the folder of a collection in an ordinary clone.",
        )
    return Repository(folder, top, inside, shallow == b"true", program, trusted)


_ABOUT = ("rev-parse", "--is-bare-repository", "--is-shallow-repository", "--show-prefix", "--show-toplevel")


def _is_same(one: Path, other: Path) -> bool:
    try:
        return one.samefile(other)
    except OSError:
        return False


def _trusted(program: str, folder: Path) -> tuple[str, ...]:
    """The folders that the person's own settings of git name as to be trusted; nothing else is read from them."""
    names = ("GIT_CONFIG_GLOBAL",) if "GIT_CONFIG_GLOBAL" in os.environ else ()
    given = {**environment(os.environ), **{name: os.environ[name] for name in names}}
    if not names:
        del given["GIT_CONFIG_GLOBAL"]
    done = _run(program, folder, ["config", "--global", "-z", "--get-all", "safe.directory"], (), given)
    return tuple(os.fsdecode(one) for one in done.out.split(b"\0") if one) if not done.status else ()


def environment(given: Mapping[str, str]) -> dict[str, str]:
    """The environment git is run with: nothing that steers it is taken over from the person's own."""
    kept = {name: value for name, value in given.items() if not name.upper().startswith("GIT_")}
    return {
        **kept,
        "GIT_CONFIG_NOSYSTEM": "1",
        "GIT_CONFIG_GLOBAL": os.devnull,
        "GIT_ATTR_NOSYSTEM": "1",
        "GIT_OPTIONAL_LOCKS": "0",
        "GIT_TERMINAL_PROMPT": "0",
        "GIT_NO_LAZY_FETCH": "1",
        "GIT_ALLOW_PROTOCOL": "none",
        "GIT_NO_REPLACE_OBJECTS": "1",
        "GIT_LITERAL_PATHSPECS": "1",
        "GIT_PAGER": "",
        "LC_ALL": "C",
        "LANGUAGE": "C",
    }


def _program(given: Mapping[str, str]) -> str:
    """Where git is, by the folders of PATH; never the working folder, in which a request could have put a program."""
    name = "git.exe" if sys.platform == "win32" else "git"
    for folder in os.get_exec_path(given):
        file = Path(folder, name)
        if file.is_absolute() and file.is_file() and os.access(file, os.X_OK):
            return str(file)
    return ""


def _start(
    program: str, folder: Path, arguments: Sequence[str], given: IO[bytes] | None, trusted: Sequence[str]
) -> "subprocess.Popen[bytes]":
    import subprocess

    return subprocess.Popen(  # noqa: S603 - a list of arguments, a full path, no shell
        _command(program, folder, arguments, trusted),
        stdin=subprocess.DEVNULL if given is None else given,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        env=environment(os.environ),
    )


def _command(program: str, folder: Path, arguments: Sequence[str], trusted: Sequence[str]) -> list[str]:
    settings = (*_CONFIG, *(f"safe.directory={one}" for one in trusted))
    options = [part for one in settings for part in ("-c", one)]
    return [program, "--no-pager", "--no-replace-objects", *options, "-C", str(folder), *arguments]


def _run(
    program: str,
    folder: Path,
    arguments: Sequence[str],
    trusted: Sequence[str] = (),
    given: Mapping[str, str] | None = None,
) -> Done:
    """A call whose answer is short."""
    import subprocess
    import tempfile

    with tempfile.TemporaryFile() as complaints:
        done = subprocess.run(  # noqa: S603 - a list of arguments, a full path, no shell
            _command(program, folder, arguments, trusted),
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=complaints,
            env=environment(os.environ) if given is None else given,
            check=False,
        )
        complaints.seek(0)
        said = complaints.read(2000).decode("utf-8", "replace").strip().partition("\n")[0]
    return Done(done.returncode, done.stdout, said)


def _not_opened(said: str) -> Trouble:
    if "dubious ownership" in said:
        return Trouble(
            "git does not open a repository that belongs to another user of this computer",
            "Run this as the user who made the clone, or tell git to trust it: git config --global --add safe.directory "
            "with the folder.",
        )
    return Trouble(f"git stopped: {said or 'without a word'}", "Mend the repository, or clone it again.")


def _stream(stream: IO[bytes] | None) -> IO[bytes]:
    if stream is None:
        raise Trouble("git gave no answer", "Try again.")
    return stream


def _entry(line: bytes) -> Entry:
    head, _, path = line.partition(b"\t")
    mode, _, name, size = head.decode("ascii").split()
    return Entry(path, mode, name, int(size) if size.isdigit() else 0)


def _size(line: bytes, name: str) -> int:
    """The size in the answer to one question of `cat-file --batch`; -1 if there is no such blob."""
    words = line.decode("ascii", "replace").split()
    return int(words[2]) if len(words) == 3 and words[:2] == [name, "blob"] and words[2].isdigit() else -1
