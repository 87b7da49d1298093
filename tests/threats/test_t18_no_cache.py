"""T18: a cache or an archive that somebody else has filled. There is none: nothing is kept between two runs."""

import ast
import hashlib
import sys
from pathlib import Path
from subprocess import run

ROOT = Path(__file__).resolve().parents[2]
# What would load a program from data, or unpack what was packed by a stranger.
LOADING = {
    "pickle",
    "marshal",
    "shelve",
    "dbm",
    "zipfile",
    "tarfile",
    "gzip",
    "bz2",
    "lzma",
    "zlib",
    "sqlite3",
    "runpy",
}


def test_nothing_is_loaded_that_could_be_a_program_or_an_archive() -> None:
    found = []
    for path in sorted((ROOT / "linter").rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            names = [one.name for one in node.names] if isinstance(node, ast.Import) else []
            names += [node.module or ""] if isinstance(node, ast.ImportFrom) else []
            found += [f"{path.name}: {name}" for name in names if name.partition(".")[0] in LOADING]
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in ("eval", "exec"):
                found.append(f"{path.name}: {node.func.id}")
    assert found == []


def test_a_review_leaves_nothing_behind(tmp_path: Path) -> None:
    place = tmp_path / "formulas"
    place.mkdir()
    for path in (*(ROOT / "formulas").glob("*.*"), *(ROOT / "formulas" / "tested").glob("kv-10*.formula")):
        (place / path.name).write_bytes(path.read_bytes())

    def state() -> dict[str, str]:
        files = [path for path in sorted(tmp_path.rglob("*")) if path.is_file()]
        return {path.name: hashlib.sha256(path.read_bytes()).hexdigest() for path in files}

    before = state()
    for _ in range(2):
        code = (
            "import sys; sys.path.insert(0, sys.argv.pop(1)); from brimline.faces.start import start; sys.exit(start())"
        )
        done = run([sys.executable, "-I", "-c", code, ROOT / "linter", "review", place], cwd=tmp_path, check=False)
        assert done.returncode in (0, 1)
    assert state() == before
