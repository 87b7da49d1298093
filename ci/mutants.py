"""Whether the tests notice when a rule or a comparison is changed: mutants of `rules/` and `moves/`, a seeded sample.

python ci/mutants.py                       400 mutants, seed 1
python ci/mutants.py --count 40 --seed 7   fewer, others
python ci/mutants.py --jobs 4              more at once

It says what to install if cosmic-ray is not there.

The mutants are cosmic-ray's; each is tried in a copy of the project, never in the project itself. Changed annotations
are left out: they change no behaviour. Survivors are printed with what was changed; those with a reason in
ci/mutation/survivors.yaml are counted apart. A test that runs no line of the changed statement is not asked, for it
could notice nothing: which lines each runs is found out first. The likeliest 300 are asked, then, for what they leave,
as many more as 90 s hold: what is told is the least share that the tests notice. It takes half an hour on two quiet
cores and is no part of the checks.
"""

import argparse
import ast
import importlib.util
import sys
import tempfile
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from queue import Queue
from random import Random

sys.path.insert(0, str(Path(__file__).resolve().parent / "mutation"))
from covered import cover
from judge import Judge, Mutant, copied

ROOT = Path(__file__).resolve().parent.parent
CODE = ("linter/brimline/rules", "linter/brimline/moves")
KNOWN = ROOT / "ci" / "mutation" / "survivors.yaml"
WANTED = 0.90
LIKELY = 300  # tests of the first round
MORE = 90.0  # seconds that the tests of the second round take with nothing changed


def sample(count: int, seed: int) -> list[Mutant]:
    """So many mutants, the same for the same seed and code."""
    found = [one for folder in CODE for path in sorted((ROOT / folder).glob("*.py")) for one in _of(path)]
    Random(seed).shuffle(found)  # noqa: S311 - seeded on purpose
    chosen: list[Mutant] = []
    for place in found:
        mutant = _made(*place)
        if mutant is not None:
            chosen.append(mutant)
        if len(chosen) == count:
            break
    return chosen


def _of(path: Path) -> Iterator[tuple[Path, str, int]]:
    """Every place of a file that an operator could change, without annotations."""
    from cosmic_ray import plugins
    from cosmic_ray.ast import ast_nodes, get_ast_from_path

    tree = get_ast_from_path(path)
    spared = _annotations(path.read_text(encoding="utf-8"))
    for name in sorted(plugins.operator_names()):
        operator = plugins.get_operator(name)
        if operator.arguments() or name.endswith("NoOp"):
            continue
        places = (place for node in ast_nodes(tree) for place in operator().mutation_positions(node))
        for number, (start, _) in enumerate(places):
            if not any(first <= start < last for first, last in spared):
                yield path, name, number


def _annotations(text: str) -> list[tuple[tuple[int, int], tuple[int, int]]]:
    """Where annotations and imports stand: (line, column) of their start and end."""
    out = []
    for node in ast.walk(ast.parse(text)):
        found = [getattr(node, name, None) for name in ("annotation", "returns")]
        if isinstance(node, ast.Assign) and isinstance(node.value, ast.Subscript):
            found.append(node.value)  # an alias of a type
        for one in found:
            if isinstance(one, ast.expr):
                out.append(((one.lineno, one.col_offset), (one.end_lineno or 0, one.end_col_offset or 0)))
    return out


def _made(path: Path, operator: str, occurrence: int) -> Mutant | None:
    """The mutant of a place, or None where the operator makes nothing new of it."""
    from cosmic_ray import plugins
    from cosmic_ray.mutating import mutate_code

    before = path.read_text(encoding="utf-8")
    code = mutate_code(before, plugins.get_operator(operator)(), occurrence)
    if code is None or code == before:
        return None
    pairs = zip(before.splitlines(), code.splitlines(), strict=False)
    line, was, now = next(((n, old, new) for n, (old, new) in enumerate(pairs, 1) if old != new), (0, "", ""))
    return Mutant(path.relative_to(ROOT).as_posix(), operator, occurrence, line, was.strip(), now.strip(), code)


def judged(mutants: Sequence[Mutant], jobs: int) -> list[bool]:
    """For each mutant whether it was noticed; an end of the program if something fails without one."""
    with tempfile.TemporaryDirectory() as folder:
        copies = [copied(Path(folder) / str(number)) for number in range(jobs)]
        covered = cover(copies[0], jobs)
        print("Which lines each test runs is known; now the mutants.", file=sys.stderr)
        every = [Judge(copy, covered) for copy in copies]
        with ThreadPoolExecutor(jobs) as pool:
            calm = list(pool.map(lambda part: every[part].calm(mutants[0].file, part, jobs), range(jobs)))
        if not all(calm):
            raise SystemExit("A test fails here with nothing changed, so what it notices means nothing.")
        judges: Queue[Judge] = Queue()
        for judge in every:
            judges.put(judge)

        def asked(which: Sequence[Mutant], seconds: float) -> list[bool]:
            def one(mutant: Mutant) -> bool:
                judge = judges.get()
                try:
                    return judge.noticed(mutant, LIKELY, seconds)
                finally:
                    judges.put(judge)

            out = []
            with ThreadPoolExecutor(jobs) as pool:
                for number, (mutant, noticed) in enumerate(zip(which, pool.map(one, which), strict=True), 1):
                    out.append(noticed)
                    if not noticed:
                        print(f"\nnot noticed: {mutant.file}:{mutant.line}: {mutant.now}", file=sys.stderr)
                    if sys.stderr.isatty() or number % 20 == 0:
                        print(f"\r{number} of {len(which)}, {out.count(False)} not noticed", end="", file=sys.stderr)
            print(file=sys.stderr)
            return out

        # Nearly all are noticed by the likeliest tests or by none, and asking all of every test would take hours; what
        # is not asked could only raise the share. One with a reason would be asked in vain.
        likely = asked(mutants, 0)
        spared = reasons()
        again = [mutant for mutant, yes in zip(mutants, likely, strict=True) if not yes and mutant.name not in spared]
        print(
            f"{likely.count(True) / len(mutants):.1%} noticed by the likeliest {LIKELY} tests;"
            f" now {len(again)} others by what more {MORE:.0f} s hold.",
            file=sys.stderr,
        )
        later = {mutant for mutant, yes in zip(again, asked(again, MORE), strict=True) if yes}
        for judge in every:
            judge.close()
        return [yes or mutant in later for mutant, yes in zip(mutants, likely, strict=True)]


def reasons() -> dict[str, str]:
    """Why known survivors survive, by name."""
    from ruamel.yaml import YAML

    return dict(YAML(typ="safe").load(KNOWN) or {}) if KNOWN.is_file() else {}


def main(arguments: list[str] | None = None) -> int:
    """Try the mutants and print those that nothing noticed; 1 if fewer than wanted were noticed."""
    parser = argparse.ArgumentParser(description="Try mutants of rules/ and moves/ against the tests.")
    parser.add_argument("--count", type=int, default=400, help="mutants to try")
    parser.add_argument("--seed", type=int, default=1, help="which ones")
    parser.add_argument("--jobs", type=int, default=2, help="how many at once")
    chosen = parser.parse_args(arguments)
    if importlib.util.find_spec("cosmic_ray") is None:
        print(
            "Nothing was tried: cosmic-ray is not installed here. It is not among the hash-pinned packages, because one"
        )
        print("package that it needs comes as source only. Make an environment for it and start this there:")
        print("  python3 -m venv .venvs/mutants")
        print(
            "  .venvs/mutants/bin/python -m pip install --upgrade pip     (on Windows .venvs\\mutants\\Scripts\\python)"
        )
        print("  .venvs/mutants/bin/python -m pip install --group mutants .")
        print("  .venvs/mutants/bin/python ci/mutants.py")
        return 2
    mutants = sample(chosen.count, chosen.seed)
    noticed = judged(mutants, chosen.jobs)
    known = reasons()
    left = [one for one, yes in zip(mutants, noticed, strict=True) if not yes]
    for one in left:
        print(f"{one.file}:{one.line}: {one.operator}\n  - {one.was}\n  + {one.now}")
        if one.name in known:
            print(f"  known: {known[one.name]}")
    share = noticed.count(True) / len(mutants)
    unexplained = [one for one in left if one.name not in known]
    print(
        f"{len(mutants)} mutants, seed {chosen.seed}: {share:.1%} noticed, {len(left)} not, {len(unexplained)} of them without a reason."
    )
    return 0 if share >= WANTED and not unexplained else 1


if __name__ == "__main__":
    sys.exit(main())
