"""Real repositories for tests: a small collection, commits, branches, whatever a request can bring."""

import os
import subprocess
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from brimline.gate import Gated, gated, revisions
from brimline.review.fingerprint import fingerprint

DAY = date(2026, 11, 27)
FORMULAS = Path(__file__).resolve().parents[1] / "formulas"
NAMES = ("tested/kv-101", "tested/kv-102", "tested/kv-119", "adapted/kv-201")
LESS_SUGAR = ("  sweetener  2 cup                sugar", "  sweetener  1 cup                sugar")
SETTINGS = "name: A program\nset-aside: classroom\n"


def starter(*names: str) -> dict[str, str]:
    """Formulas of the demonstration collection by path."""
    return {
        f"{name}.formula": (FORMULAS / f"{name}.formula").read_bytes().decode("utf-8").replace("\r\n", "\n")
        for name in names
    }


SMALL = {**starter(*NAMES), "collection.yaml": SETTINGS}


@dataclass(frozen=True)
class Room:
    """A repository in a folder of its own, untouched by the settings of whoever runs the tests."""

    path: Path

    def git(self, *words: str, given: bytes = b"", check: bool = True) -> str:
        """Run git and return what it says; the last blank line end is cut off."""
        env = {name: value for name, value in os.environ.items() if not name.startswith("GIT_")}
        moment = "2026-01-01T00:00:00+00:00"
        env |= {
            "GIT_CONFIG_NOSYSTEM": "1",
            "GIT_CONFIG_GLOBAL": os.devnull,
            "GIT_AUTHOR_DATE": moment,
            "GIT_COMMITTER_DATE": moment,
        }
        identity = ("-c", "user.name=A tester", "-c", "user.email=tester@example.org", "-c", "core.autocrlf=false")
        done = subprocess.run(
            ["git", *identity, "-c", "protocol.file.allow=always", "-C", str(self.path), *words],
            input=given,
            capture_output=True,
            check=False,
            env=env,
        )
        if check and done.returncode:
            raise AssertionError(f"git {words}: {done.stderr.decode('utf-8', 'replace')}")
        return done.stdout.decode("utf-8", "surrogateescape").removesuffix("\n")

    def write(self, files: Mapping[str, str | bytes | None]) -> None:
        """Write files by path, remove those that are None."""
        for name, content in files.items():
            file = self.path / name
            if content is None:
                file.unlink()
                continue
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))

    def commit(self, files: Mapping[str, str | bytes | None] | None = None, words: str = "x") -> str:
        """Write files and commit everything; returns the hash."""
        self.write(files or {})
        self.git("add", "-A")
        self.git("commit", "-q", "--allow-empty", "-m", words)
        return self.git("rev-parse", "HEAD")

    def branch(self, name: str, at: str = "HEAD") -> None:
        """Start a branch and go there."""
        self.git("checkout", "-q", "-b", name, at)

    def gate(self, base: str = "main", head: str = "HEAD", folder: str = ".", everything: bool = False) -> Gated:
        """The gate's answer; an empty `head` is the working tree."""
        return gated(revisions(self.path / folder, base, head), DAY, everything=everything)


def room(path: Path, files: Mapping[str, str | bytes | None] | None = None) -> Room:
    """A repository with one commit on `main`: the small collection, or the files given."""
    path.mkdir(parents=True, exist_ok=True)
    made = Room(path)
    made.git("init", "-q", "-b", "main")
    made.commit(SMALL if files is None else files)
    return made


def said(answer: Gated) -> list[tuple[str, str, str]]:
    """Path, level and rule (with its row) of every new finding, sorted; there must have been an answer."""
    assert answer.refusals == ()
    return sorted(
        (one.path, finding.level.word, "/".join(filter(None, [finding.rule, finding.row])))
        for one in answer.all
        for finding in one.findings
    )


def prints(answer: Gated) -> list[tuple[str, str, bool]]:
    """Path, fingerprint and whether the file holds back, for every new finding, sorted."""
    return sorted(
        (one.path, fingerprint(one.code, found), one.held_back) for one in answer.all for found in one.findings
    )


def rules(answer: Gated) -> set[str]:
    """The rules of all new findings."""
    return {finding.rule for one in answer.all for finding in one.findings}
