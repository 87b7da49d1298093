"""Writes everything in linter/brimline/made/ from the tables and definitions people edit.

Every module of ci/making/ has a function `make(root)`, which returns what it would write: the text of each file by its
path in the project. Without arguments the files are written; with --check nothing is, and the ones that are stale are
named.
"""

import argparse
import importlib
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent


def made(root: Path) -> dict[str, bytes]:
    """What all makers would write, by path; two makers writing one file is a mistake.

    Raises ValueError for a file that two makers claim.
    """
    files: dict[str, bytes] = {}
    for path in sorted((root / "ci" / "making").glob("*.py")):
        if path.name.startswith("_"):
            continue
        for name, content in importlib.import_module(f"making.{path.stem}").make(root).items():
            if name in files:
                raise ValueError(f"{name} is written by two makers, {path.name} among them")
            files[name] = content
    return files


def stale(root: Path, files: dict[str, bytes]) -> list[str]:
    """The files that are missing or hold something else."""
    return [name for name, content in files.items() if not _holds(root / name, content)]


def _holds(path: Path, content: bytes) -> bool:
    return path.is_file() and path.read_bytes().replace(b"\r\n", b"\n") == content


def main(arguments: list[str] | None = None) -> int:
    """Make, or say what is stale; 1 if something is."""
    parser = argparse.ArgumentParser(description="Compile the tables into linter/brimline/made/.")
    parser.add_argument("--check", action="store_true", help="write nothing; name the files that are stale")
    chosen = parser.parse_args(arguments)
    sys.path[:0] = [str(ROOT / "ci"), str(ROOT / "linter")]
    files = made(ROOT)
    old = stale(ROOT, files)
    for name in old:
        if chosen.check:
            print(f"stale: {name}")
            continue
        path = ROOT / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(files[name])
        print(f"written: {name}")
    if not old:
        print(f"{len(files)} files up to date")
    elif chosen.check:
        print("Run ci/make.py without --check to write them.")
    return 1 if old and chosen.check else 0


if __name__ == "__main__":
    sys.path.insert(0, str(ROOT / "ci"))
    import _environment

    _environment.enter("test", "pint", "fastjsonschema", "msgspec", "ruamel.yaml")
    sys.exit(main())
