"""The speed of a review, as ratios taken in one run; it judges nothing.

python3 ci/bench.py                 all three measurements
python3 ci/bench.py --files 400     fewer files for the long run
python3 ci/bench.py --profile       where the time of a cold run goes

Times of a shared machine move by a third from run to run; the ratios are what can be compared. It runs in the same
environment as `ci/try.py`, with what users have and nothing more: an optional package of the tests makes the grammar
several times slower to build.
"""

import argparse
import cProfile
import json
import os
import pstats
import re
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from fractions import Fraction
from pathlib import Path
from statistics import median

ROOT = Path(__file__).resolve().parent.parent
sys.path[:0] = [str(ROOT / "linter"), str(ROOT / "ci")]

TESTED = ROOT / "formulas" / "tested"
ADAPTED = ROOT / "formulas" / "adapted"
# The modules are found by path, because `-I` takes no notice of PYTHONPATH.
START = f"import sys; sys.path.insert(0, {str(ROOT / 'linter')!r}); from brimline.faces.start import start; sys.exit(start())"


def timed(command: Sequence[str]) -> float:
    """Seconds of one process from start to end. Raises RuntimeError if it could not run."""
    began = time.perf_counter()
    done = subprocess.run(command, capture_output=True, cwd=ROOT, check=False)
    seconds = time.perf_counter() - began
    if done.returncode not in (0, 1):
        raise RuntimeError(done.stderr.decode("utf-8", "replace"))
    return seconds


def review_command(*arguments: str) -> list[str]:
    """The command line of a review in a fresh, isolated Python."""
    return [sys.executable, "-I", "-c", START, "review", *arguments]


def one_file(rounds: int) -> tuple[float, float]:
    """Median seconds of a bare Python and of a review of one clean file, taken in turns."""
    file = str(min(TESTED.glob("*.formula")))
    bare, ours = [], []
    timed(review_command(file))
    for _ in range(rounds):
        bare.append(timed([sys.executable, "-I", "-c", "pass"]))
        ours.append(timed(review_command(file)))
    return median(bare), median(ours)


def alone(rounds: int) -> float:
    """Median seconds of a review of one file that is in no collection."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "one.formula"
        file.write_bytes(min(TESTED.glob("*.formula")).read_bytes())
        return median(timed(review_command(str(file))) for _ in range(rounds))


def many_files(folder: Path, count: int) -> int:
    """Write a collection of so many formulas made from the shipped ones; how many were written.

    Codes, titles and some amounts differ from copy to copy, so that not every line has been seen before. Adaptations
    keep to the tested formulas of their own copy.
    """
    sources = [(path.stem, path.read_text(encoding="utf-8")) for path in sorted(TESTED.glob("*.formula"))]
    sources += [(path.stem, path.read_text(encoding="utf-8")) for path in sorted(ADAPTED.glob("*.formula"))]
    (folder / "collection.yaml").write_bytes((ROOT / "formulas" / "collection.yaml").read_bytes())
    for number in range(count):
        name, text = sources[number % len(sources)]
        copy = number // len(sources)
        text = _of_lot(text, copy)
        place = folder / f"lot-{copy:03}"
        place.mkdir(exist_ok=True)
        (place / f"{name}.formula").write_text(text, encoding="utf-8", newline="\n")
    return count


def _of_lot(text: str, lot: int) -> str:
    """A formula with the codes, title and, but for the first lot, the batch of its lot: all amounts and the yield."""
    from edit_bench.pantry import scaled
    from edit_bench.sheet import sheet_of, write

    text = re.sub(r"\bKV-(\d+)\b", lambda code: f"KV-{lot + 1}{code[1]}", text)
    text = re.sub(r"^(formula \S+ .*)$", rf"\1, lot {lot}", text, flags=re.MULTILINE)
    return write(scaled(sheet_of(text), Fraction(4 + lot % 12, 4))) if lot else text


def processor() -> float:
    """Seconds of processor time that ended processes have used; 0 where the system does not say."""
    spent = os.times()
    return spent.children_user + spent.children_system


def lines_new(folder: Path) -> float:
    """The share of lines that had not stood in a file before."""
    seen: set[str] = set()
    total = 0
    for path in sorted(folder.rglob("*.formula")):
        rows = path.read_text(encoding="utf-8").splitlines()
        total += len(rows)
        seen.update(rows)
    return len(seen) / total


def yaml_way(sample: int, rounds: int) -> dict[str, float]:
    """Seconds a file of each way to read the same formulas, each round in a process that has seen none of them."""
    from ruamel.yaml import YAML

    from brimline.document import read, to_json

    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        many_files(folder, sample)
        for path in sorted(folder.rglob("*.formula")):
            document = read(path.name, path.read_bytes()).document
            if document is not None:
                with path.with_suffix(".yaml").open("w", encoding="utf-8") as out:
                    YAML().dump(json.loads(json.dumps(to_json(document))), out)
        ways: dict[str, list[float]] = {"yaml": [], "reading": [], "whole": []}
        for _ in range(rounds):
            for way, seconds in ways.items():
                command = [sys.executable, "-I", __file__, "--way", way, "--folder", name]
                done = subprocess.run(command, capture_output=True, check=True, encoding="utf-8")
                seconds.append(float(done.stdout))
    return {way: median(seconds) for way, seconds in ways.items()}


def one_way(way: str, folder: str) -> float:
    """Seconds a file of one way; what is imported and built once is got ready with a formula that is not among them."""
    from datetime import date

    from brimline.document import read
    from brimline.review.engine import review
    from brimline.shelf import load_shelf

    first = min((ROOT / "formulas" / "classroom").glob("*.formula"))
    work: Callable[[], object]
    if way == "yaml":
        from jsonschema import Draft202012Validator
        from ruamel.yaml import YAML

        from brimline.document.shape import schema

        yaml, check = YAML(typ="rt"), Draft202012Validator(schema())
        texts = [path.read_text(encoding="utf-8") for path in sorted(Path(folder).rglob("*.yaml"))]
        list(check.iter_errors(yaml.load(texts[0])))
        work = lambda: [list(check.iter_errors(yaml.load(text))) for text in texts]  # noqa: E731
    elif way == "reading":
        files = [(path.name, path.read_bytes()) for path in sorted(Path(folder).rglob("*.formula"))]
        read(first.name, first.read_bytes())
        work = lambda: [read(path, data) for path, data in files]  # noqa: E731
    else:
        review(load_shelf([str(first)], date(2026, 1, 15)))
        work = lambda: review(load_shelf([folder], date(2026, 1, 15)))  # noqa: E731
    began = time.perf_counter()
    work()
    return (time.perf_counter() - began) / len(list(Path(folder).rglob("*.formula")))


def profile(count: int) -> None:
    """Where the time of a cold review goes, by time spent in the function itself."""
    from datetime import date

    from brimline.review.engine import review
    from brimline.shelf import load_shelf

    with tempfile.TemporaryDirectory() as folder:
        many_files(Path(folder), count)
        spy = cProfile.Profile()
        spy.runcall(lambda: review(load_shelf([folder], date(2026, 1, 15))))
    stats = pstats.Stats(spy)
    for order in ("tottime", "cumulative"):
        stats.sort_stats(order).print_stats(r"brimline|fractions|copy|dataclasses|re/", 30)


def main(arguments: list[str] | None = None) -> int:
    """Take the three measurements and print the table."""
    parser = argparse.ArgumentParser(description="Measure the speed of a review, as ratios in one run.")
    parser.add_argument("--files", type=int, default=2000, help="files of the long run")
    parser.add_argument("--sample", type=int, default=40, help="files of the comparison with YAML")
    parser.add_argument("--rounds", type=int, default=9, help="runs of the short command")
    parser.add_argument("--profile", action="store_true", help="show where the time goes instead")
    parser.add_argument("--way", choices=("yaml", "reading", "whole"), help=argparse.SUPPRESS)
    parser.add_argument("--here", action="store_true", help=argparse.SUPPRESS)
    parser.add_argument("--folder", default="", help=argparse.SUPPRESS)
    chosen = parser.parse_args(arguments)
    if not chosen.way and not chosen.here:
        import _environment

        try:
            python = _environment.prepare("try")
        except _environment.Trouble as trouble:
            print(f"Nothing was measured. {trouble}", file=sys.stderr)
            return 2
        again = [str(python), "-I", __file__, "--here", *(sys.argv[1:] if arguments is None else arguments)]
        return subprocess.run(again, check=False).returncode
    if chosen.way:
        print(one_way(chosen.way, chosen.folder))
        return 0
    if chosen.profile:
        profile(chosen.files)
        return 0
    bare, ours = one_file(chosen.rounds)
    rows = [
        ("bare `python -c pass`", f"{bare * 1000:.0f} ms", "1.0"),
        ("review of one file in its collection", f"{ours * 1000:.0f} ms", f"{ours / bare:.1f} x bare"),
    ]
    by_itself = alone(chosen.rounds)
    rows.append(("review of one file by itself", f"{by_itself * 1000:.0f} ms", f"{by_itself / bare:.1f} x bare"))
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        count = many_files(folder, chosen.files)
        new = lines_new(folder)
        before = processor()
        one = timed(review_command("--as", "lines", name))
        busy = processor() - before
        two = timed(review_command("--as", "lines", "--jobs", "2", name))
    rows.append((f"{count} files cold, one process", f"{count / one:.0f} files/s", f"{new:.0%} of lines new"))
    if busy:
        rows.append(("  by processor time", f"{count / busy:.0f} files/s", f"{one / busy:.2f} x waited"))
    rows.append((f"{count} files cold, two processes", f"{count / two:.0f} files/s", f"{one / two:.2f} x one process"))
    ways = yaml_way(chosen.sample, 3)
    peer, reading, whole = ways["yaml"], ways["reading"], ways["whole"]
    rows.append(("YAML round-trip and jsonschema", f"{peer * 1000:.1f} ms a file", "1.0"))
    rows.append(("our reading and shape", f"{reading * 1000:.2f} ms a file", f"{peer / reading:.1f} x as fast"))
    rows.append(("our whole review", f"{whole * 1000:.2f} ms a file", f"{peer / whole:.1f} x as fast"))
    for what, figure, ratio in rows:
        print(f"{what:<40} {figure:>18}   {ratio}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
