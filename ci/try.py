"""Show the main job on a machine with nothing but Python: review the collection, then one formula that is held back.

python3 ci/try.py               the trial
python3 ci/try.py ARGUMENT...   brimline with these arguments, in the trial's environment
"""

import sys

if sys.version_info < (3, 11):
    sys.exit(f"Brimline needs Python 3.11 or newer; this is Python {sys.version.split()[0]}.")

from pathlib import Path

import _environment

CLASSROOM = "formulas/classroom"


def main(arguments: list[str]) -> int:
    """Run the trial, or brimline with the arguments given; the exit code."""
    try:
        python = _environment.prepare("try")
    except _environment.Trouble as trouble:
        print(f"The trial could not start. {trouble}", file=sys.stderr)
        return 1
    if arguments:
        return _environment.run([python, "-m", "brimline", *arguments], Path.cwd())
    return trial(python)


def trial(python: Path) -> int:
    """Review the collection, in which nothing is held back, and one formula that is wrong on purpose."""
    lessons = sorted((_environment.CHECKOUT / CLASSROOM).glob("*.formula"))
    if not lessons:
        print(f"The trial could not start. There is no formula in {CLASSROOM}.", file=sys.stderr)
        return 1
    lesson = f"{CLASSROOM}/{lessons[0].name}"
    held_nothing_back = review(python, "formulas") == 0
    held_back = review(python, lesson) == 1
    print()
    if held_nothing_back and held_back:
        print(f"Shown: the collection, with nothing held back, and {lesson}, wrong on purpose and held back.")
        return 0
    if not held_nothing_back:
        print("The trial failed: the review of formulas should have held nothing back, and did not end that way.")
    if not held_back:
        print(f"The trial failed: the review of {lesson} should have held it back, and did not end that way.")
    return 1


def review(python: Path, path: str) -> int:
    """Print the command and run it; its exit code: 0 nothing held back, 1 something held back, 2 could not run."""
    print(f"\n> brimline review {path}\n")
    return _environment.run([python, "-m", "brimline", "review", path])


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
