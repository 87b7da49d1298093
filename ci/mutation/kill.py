"""Judges one mutant by what runs the changed lines; stops at the first slip.

python ci/mutation/kill.py WHAT       run in a copy of the project; 1 if something notices, else the tests' own status

WHAT is a JSON file: `module` that was changed, `items` by name (null for every item), `tests` files or folders.
"""

import json
import subprocess
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))
from items import ROOT, items, rows_of


def main(what: str) -> int:
    """0 if nothing notices the mutant, 1 or 2 if something does."""
    asked = json.loads(Path(what).read_text(encoding="utf-8"))
    if asked["items"] != [] and _noticed(asked["module"], asked["items"]):
        return 1
    tests = [name for name in asked["tests"] if (ROOT / name).exists()]
    if not tests:
        return 0
    command = [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", *tests]
    return subprocess.run(command, cwd=ROOT, check=False, stdout=subprocess.DEVNULL).returncode


def _noticed(module: str, names: list[str] | None) -> bool:
    rows = rows_of(module)
    wanted = None if names is None else set(names)
    chosen = [(name, notices) for name, notices in items() if wanted is None or name in wanted]
    # The sort keeps the order otherwise, so a run is the same each time; what speaks of the module's rows comes first.
    chosen.sort(key=lambda one: (one[0].startswith("list "), rows.isdisjoint(one[0].replace("/", " ").split())))
    return any(notices() for _, notices in chosen)


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
