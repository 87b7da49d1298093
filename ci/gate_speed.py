"""The speed of the gate on a large collection: one and five hundred changed formulas beside a full review.

python3 ci/gate_speed.py                  10,000 formulas, 1 and 500 of them changed
python3 ci/gate_speed.py --files 2000     a smaller collection

It builds a repository in a temporary folder from the shipped formulas, with codes, titles and amounts of their own, and
changes formulas on a branch by a fixed seed. Every time is that of a fresh process from start to end. Times of a shared
machine move by a third from run to run; the ratios are what can be compared. It judges nothing and needs git.
"""

import argparse
import os
import re
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from random import Random

if __name__ == "__main__":
    import _environment

    _environment.enter("try", "msgspec", "lark")

from bench import START, many_files, processor

SEED = 20270131
DAY = "2026-01-15"
_AMOUNT = re.compile(rb"(?m)^(  (?:sweetener|acid|fruit|liquid|juice|vegetable) +)(\d+)( )")


def git(folder: Path, *words: str) -> None:
    """Run git in the repository that is being built, whatever the settings of the person."""
    named = (
        "-c",
        "user.name=Speed",
        "-c",
        "user.email=speed@example.org",
        "-c",
        "core.autocrlf=false",
        "-c",
        "gc.auto=0",
    )
    env = {**os.environ, "GIT_CONFIG_NOSYSTEM": "1", "GIT_CONFIG_GLOBAL": os.devnull}
    subprocess.run(["git", *named, "-C", str(folder), *words], check=True, env=env, capture_output=True)  # noqa: S607 - found by PATH, as a developer has it


def change(folder: Path, files: list[Path], count: int) -> None:
    """A branch from `main` on which so many formulas have another amount."""
    git(folder, "checkout", "-q", "-f", "-B", f"change-{count}", "main")
    random = Random(SEED + count)  # noqa: S311 - not for secrets
    for file in random.sample(files, count):
        data = file.read_bytes()
        found = list(_AMOUNT.finditer(data))
        one = random.choice(found) if found else None
        if one is not None:
            file.write_bytes(data[: one.start(2)] + str(int(one[2]) + 1).encode() + data[one.end(2) :])
    git(folder, "commit", "-q", "-a", "-m", f"{count} changed")


def run(folder: Path, *words: str) -> tuple[float, float, int]:
    """Seconds waited, seconds of processor time, and how many lines a fresh process of the program printed."""
    before, began = processor(), time.perf_counter()
    done = subprocess.run([sys.executable, "-I", "-c", START, *words], cwd=folder, capture_output=True, check=False)
    seconds = time.perf_counter() - began
    if done.returncode not in (0, 1):
        raise RuntimeError(done.stderr.decode("utf-8", "replace"))
    return seconds, processor() - before, done.stdout.count(b"\n")


def main(arguments: list[str] | None = None) -> int:
    """Build the repository, measure, print the table."""
    parser = argparse.ArgumentParser(description="Measure the speed of the gate.")
    parser.add_argument("--files", type=int, default=10_000, help="formulas of the collection")
    parser.add_argument("--changed", type=int, nargs="+", default=[1, 500], help="how many of them change")
    parser.add_argument("--rounds", type=int, default=3, help="runs of each gate; the shortest counts")
    chosen = parser.parse_args(arguments)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        git(folder, "init", "-q", "-b", "main")
        many_files(folder, chosen.files)
        files = sorted(folder.rglob("*.formula"))
        git(folder, "add", "-A")
        git(folder, "commit", "-q", "-m", "all")
        print(f"{len(files):,} formulas, {sum(file.stat().st_size for file in files) / 1e6:.0f} MB, seed {SEED}")
        full, busy, _ = run(folder, "review", "--as", "lines", "--on", DAY, ".")
        print(f"{'full review':<34}{full:8.2f} s   {busy:8.2f} s of processor")
        for count in chosen.changed:
            change(folder, files, count)
            for end in (["--head", "HEAD"], []):
                what = f"gate, {count:,} changed, {'commits' if end else 'working tree'}"
                several = [
                    run(folder, "gate", "--base", "main", *end, "--as", "lines", "--on", DAY)
                    for _ in range(chosen.rounds)
                ]
                waited, busy, said = min(several)
                print(
                    f"{what:<34}{waited:8.2f} s   {busy:8.2f} s of processor   1/{full / waited:.0f} of full, {said:,} findings"
                )
    return 0


if __name__ == "__main__":
    sys.exit(main())
