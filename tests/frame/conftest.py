"""What the tests of the frame look at: the files of the tree, and a copy of them elsewhere."""

import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

CHECKOUT = Path(__file__).resolve().parents[2]
LEFT_BEHIND = {
    ".git",
    ".venv",
    ".venvs",
    "__pycache__",
    ".mypy_cache",
    ".ruff_cache",
    ".pytest_cache",
    ".hypothesis",
    "build",
    "dist",
}


@pytest.fixture(scope="session")
def checkout() -> Path:
    return CHECKOUT


@pytest.fixture(scope="session")
def files() -> list[str]:
    """The files of the project, as paths from its top with forward slashes: what git would add, where git can say."""
    if (CHECKOUT / ".git").exists() and shutil.which("git"):
        listing = subprocess.run(
            ["git", "ls-files", "--cached", "--others", "--exclude-standard", "-z"],
            cwd=CHECKOUT,
            capture_output=True,
            check=False,
        )
        if listing.returncode == 0:
            names = {os.fsdecode(name) for name in listing.stdout.split(b"\0") if name}
            return sorted(name for name in names if (CHECKOUT / name).is_file())
    paths = (path.relative_to(CHECKOUT) for path in CHECKOUT.rglob("*") if path.is_file())
    return sorted(path.as_posix() for path in paths if not LEFT_BEHIND.intersection(path.parts))


@pytest.fixture(scope="session")
def copy(files: list[str], tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The project's files and nothing else, in a folder with blanks in its path."""
    top = tmp_path_factory.mktemp("a clean copy") / "of the project"
    for name in files:
        (top / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(CHECKOUT / name, top / name)
    return top


@pytest.fixture(scope="session")
def run() -> Callable[..., subprocess.CompletedProcess[str]]:
    """Runs this Python with arguments in a folder, finding the package in `package` or nowhere."""

    def run(*arguments: str, folder: Path, package: Path | None = None) -> subprocess.CompletedProcess[str]:
        variables = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
        if package is not None:
            variables["PYTHONPATH"] = str(package)
        return subprocess.run(
            [sys.executable, *arguments],
            cwd=folder,
            env=variables | {"PYTHONIOENCODING": "utf-8"},
            capture_output=True,
            encoding="utf-8",
            check=False,
        )

    return run
