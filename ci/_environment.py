"""Makes the Python environments of the scripts beside it: hash-pinned, remade when anything they rest on changes.

An environment lives in `.venvs/` of the checkout, or in the user's cache folder where the checkout cannot be written.
It is complete when it holds a stamp that says for which lock and which Python it was made; a complete one is used
without asking the network anything.
"""

import hashlib
import importlib.util
import os
import subprocess
import sys
import tempfile
from collections.abc import Mapping, Sequence
from pathlib import Path

CHECKOUT = Path(__file__).resolve().parents[1]
STAMP = "complete.txt"

# What pip says when it cannot reach the network; its last line only says that no version was found.
UNREACHABLE = (
    "failed to establish a new connection",
    "name resolution",
    "getaddrinfo failed",
    "nodename nor servname",
    "network is unreachable",
    "connection refused",
    "timed out",
    "connection broken",
    "cannot connect to proxy",
    "max retries exceeded",
)


class Trouble(Exception):
    """Why no environment could be made, in words for the person who started the script."""


def prepare(kind: str, checkout: Path = CHECKOUT) -> Path:
    """The Python of the environment `kind` ("try" or "test"), made first if it is missing, half-made or outdated.

    Raises Trouble if it cannot be made.
    """
    lock = checkout / "ci" / "locks" / {"try": "run.txt"}.get(kind, f"{kind}.txt")
    wanted = stamp(lock)
    place = home(checkout) / f"{kind}-{sys.version_info.major}.{sys.version_info.minor}"
    python = interpreter(place)
    if python.is_file() and said(place / STAMP) == wanted:
        return python
    print(f"Making the environment {place} (only the first time; about a minute) ...", flush=True)
    create(place)
    install(python, lock)
    (place / STAMP).write_text(wanted, encoding="utf-8")
    return python


def stamp(lock: Path) -> str:
    """What an environment rests on: the lock's hash and the Python, one a line."""
    # Line endings differ between checkouts of the same lock, so they do not count.
    digest = hashlib.sha256(lock.read_bytes().replace(b"\r\n", b"\n")).hexdigest()
    return f"lock {digest}\npython {sys.version} at {sys.base_prefix}\n"


def said(file: Path) -> str:
    """The text of a file, or nothing where there is none to read."""
    try:
        return file.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        return ""


def home(checkout: Path) -> Path:
    """The folder that holds this checkout's environments: the first of three that can be written.

    Inside the checkout; in the user's cache folder; in the folder for temporary files.
    """
    name = hashlib.sha256(os.fsencode(checkout)).hexdigest()[:12]
    for folder in (
        checkout / ".venvs",
        cache_folder() / "brimline" / name,
        Path(tempfile.gettempdir()) / f"brimline-{name}",
    ):
        try:
            folder.mkdir(parents=True, exist_ok=True)
            with tempfile.TemporaryFile(dir=folder):
                return folder
        except OSError:
            continue
    raise Trouble(f"Neither {checkout} nor your cache folder nor the temporary folder can be written.")


def cache_folder() -> Path:
    """The folder in which this system keeps what can be made again for this user."""
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or Path.home() / "AppData" / "Local")
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Caches"
    return Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache")


def interpreter(place: Path) -> Path:
    """Where the environment in `place` has its Python."""
    return place / "Scripts" / "python.exe" if os.name == "nt" else place / "bin" / "python"


def create(place: Path) -> None:
    """Lay an empty environment in `place`, over whatever was left there.

    Raises Trouble if this Python came without the parts needed, or the folder cannot be cleared.
    """
    try:
        import ensurepip  # noqa: F401  # Some systems ship venv without it, and venv then fails half-way.
        import venv
    except ImportError as missing:
        raise Trouble(
            f"This Python ({sys.executable}) came without its {missing.name} module, which makes environments. "
            "On Debian and Ubuntu the package python3-venv holds it; elsewhere install Python 3.11 or newer "
            "from its own installer."
        ) from missing
    try:
        (place / STAMP).unlink(missing_ok=True)
        venv.EnvBuilder(clear=True, with_pip=True, symlinks=os.name != "nt").create(place)
    except (OSError, ValueError, subprocess.SubprocessError) as failure:
        raise Trouble(
            f"The environment could not be made: {failure}. Close whatever uses {place}, delete it, and try again."
        ) from failure


def install(python: Path, lock: Path) -> None:
    """Install exactly the wheels of the lock, each checked against its hash.

    Raises Trouble, saying what stood in the way.
    """
    done = subprocess.run(
        [
            *(python, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--no-input"),
            *("--require-hashes", "--only-binary", ":all:", "--requirement", lock),
        ],
        # A personal setting for installing elsewhere would make pip refuse to install here.
        env=surroundings({"PIP_USER": "0"}),
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        encoding="utf-8",
        errors="replace",
        check=False,
    )
    if done.returncode:
        raise Trouble(explain(done.stdout, lock.name))


def explain(printed: str, lock: str) -> str:
    """Why pip failed, from what it printed: in plain words where the cause is known, with its own words below."""
    lower = printed.lower()
    if "do not match the hashes" in lower:
        cause = f"A downloaded package is not the one that {lock} names by its hash. Nothing of it was used."
    elif "certificate" in lower:
        cause = "The package index answered with a certificate that this machine does not trust."
    elif any(phrase in lower for phrase in UNREACHABLE):
        cause = "The package index could not be reached. The first run needs the network; later runs do not."
    elif "no space left" in lower:
        cause = "The disk is full."
    elif "no matching distribution" in lower:
        cause = f"There is no ready-made package in {lock} for this Python ({sys.version.split()[0]}) on this machine."
    else:
        cause = "The packages could not be installed."
    lines = [line.rstrip()[:240] for line in printed.splitlines() if line.strip()]
    first = next((number for number, line in enumerate(lines) if line.startswith("ERROR")), -4)
    return "\n".join([cause, *(f"  pip: {line}" for line in lines[first:][:6])])


def surroundings(more: Mapping[str, str] | None = None) -> dict[str, str]:
    """The variables for a process in an environment: this checkout's package first, nobody else's libraries."""
    inherited = {name: value for name, value in os.environ.items() if name not in {"PYTHONHOME", "PYTHONPATH"}}
    return {**inherited, "PYTHONPATH": str(CHECKOUT / "linter"), **(more or {})}


def run(command: Sequence[str | Path], folder: Path = CHECKOUT) -> int:
    """Run a command in a folder, its output going where ours goes; its exit code."""
    sys.stdout.flush()
    return subprocess.run(list(command), cwd=folder, env=surroundings(), check=False).returncode


def enter(kind: str, *needed: str) -> None:
    """Go on in the environment `kind`, made first if it has to be, where this Python lacks a library the script needs.

    Called before the script imports it; does not come back where it had to go elsewhere, or could not.
    """
    if all(importlib.util.find_spec(name) for name in needed):
        return
    try:
        python = prepare(kind)
    except Trouble as trouble:
        print(f"Nothing was done. {trouble}", file=sys.stderr)
        sys.exit(2)
    sys.exit(run([python, *sys.argv], Path.cwd()))
