"""The tree works as it stands: in another place, with blanks in its path, without git, nothing installed."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

Run = Callable[..., CompletedProcess[str]]

LOADED = """
import json, runpy, sys
sys.argv[0] = "brimline"
try:
    runpy.run_module("brimline", run_name="__main__")
except SystemExit as end:
    code = end.code
print(json.dumps([code, sorted({name.partition(".")[0] for name in sys.modules})]))
"""


def test_tests_run_in_a_copy(copy: Path, run: Run) -> None:
    tests = ["tests/frame/test_floors.py", "tests/frame/test_prose.py"]
    done = run("-m", "pytest", "-q", "-p", "no:cacheprovider", *tests, folder=copy)
    assert done.returncode == 0, done.stdout + done.stderr


def test_the_command_runs_in_a_copy(copy: Path, run: Run, tmp_path: Path) -> None:
    done = run("-m", "brimline", "review", str(copy / "formulas"), folder=tmp_path, package=copy / "linter")
    assert done.returncode == 0, done.stdout + done.stderr


def test_a_clean_review_loads_nothing_it_does_not_need(copy: Path, run: Run) -> None:
    """Units are compiled, settings are small, a fault-free file needs no explanation: none of their libraries."""
    done = run("-c", LOADED, "review", "formulas", folder=copy, package=copy / "linter")
    assert done.returncode == 0, done.stderr
    code, loaded = json.loads(done.stdout.splitlines()[-1])
    assert code == 0
    assert "brimline" in loaded
    assert {"pint", "ruamel", "jsonschema", "hypothesis", "pytest"}.intersection(loaded) == set()
