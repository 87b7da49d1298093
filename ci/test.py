"""Run every check of the project in an environment of its own: layout, lint, types, tests.

python3 ci/test.py                 all of it
python3 ci/test.py ARGUMENT...     the same, with these arguments for pytest
"""

import sys

if sys.version_info < (3, 11):
    sys.exit(f"Brimline needs Python 3.11 or newer; this is Python {sys.version.split()[0]}.")

import time
from pathlib import Path

import _environment


def main(arguments: list[str]) -> int:
    """Run all checks, even after one has failed, and print which passed; 0 if all did."""
    try:
        python = _environment.prepare("test")
    except _environment.Trouble as trouble:
        print(f"The checks could not start. {trouble}", file=sys.stderr)
        return 1
    rows: list[tuple[str, int, float]] = []
    for name, command in checks(python.parents[1] / "kept", arguments).items():
        print(f"\n> {name}", flush=True)
        began = time.monotonic()
        code = _environment.run([python, "-m", *command])
        rows.append((name, code, time.monotonic() - began))
    print()
    for name, code, seconds in rows:
        print(f"{'passed' if code == 0 else 'FAILED':<7} {seconds:6.1f} s  {name}")
    return int(any(code for _, code, _ in rows))


def checks(kept: Path, arguments: list[str]) -> dict[str, list[str]]:
    """The checks in their order: what each is for, and the module that does it with its arguments.

    What the tools remember between runs goes into the folder `kept`, so that the checkout need not be writable.
    """
    cache = ["-o", f"cache_dir={kept / 'pytest'}"]
    ruff = ["--cache-dir", str(kept / "ruff"), "."]
    return {
        "layout of the code (ruff format)": ["ruff", "format", "--check", *ruff],
        "lint (ruff)": ["ruff", "check", *ruff],
        "types (mypy)": ["mypy", "--strict", "--cache-dir", str(kept / "mypy"), "--no-error-summary"],
        # A process for each core, which then take over what the slower ones have left.
        "tests (pytest)": ["pytest", "-q", "-n", "auto", "--dist", "worksteal", *cache, *arguments],
    }


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
