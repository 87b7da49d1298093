"""The flow goes one way: a floor imports only from itself and from floors below it, and no modules import in a ring."""

import ast
import sys
import tomllib
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest
from packaging.requirements import Requirement

FLOORS = (
    "findings",
    "text",
    "tree",
    "document",
    "figures",
    "batch",
    "shelf",
    "moves",
    "rules",
    "review",
    "gate",
    "report",
    "faces",
)
# Below every floor: the package itself, the finder of the data folders, what the maker writes.
BELOW = {"", "_data", "_patterns", "_remember", "_speech", "made"}
# A rule judges values it is handed; it loads nothing, so that it can be read and tried by itself.
SEEN_BY_RULES = (
    "_patterns",
    "_remember",
    "_speech",
    "made",
    "findings",
    "document",
    "figures.values",
    "batch",
    "moves",
    "rules",
)


def modules(package: Path) -> dict[str, str]:
    """Each module's name below the package ("" is the package itself) with its source."""
    found = {}
    for path in sorted(package.rglob("*.py")):
        parts = path.relative_to(package).with_suffix("").parts
        found[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = path.read_text(encoding="utf-8")
    return found


def imported(name: str, source: str, is_package: bool) -> Iterator[str]:
    """Every dotted name a module imports, inside functions too; a `from` import gives one for each thing it takes."""
    here = ["brimline", *name.split(".")] if name else ["brimline"]
    for node in ast.walk(ast.parse(source)):
        match node:
            case ast.Import():
                yield from (alias.name for alias in node.names)
            case ast.ImportFrom():
                above = here[: len(here) - node.level + is_package] if node.level else []
                start = ".".join([*above, *([node.module] if node.module else [])])
                yield from (f"{start}.{alias.name}" for alias in node.names)
            case ast.Call(func=ast.Name(id="import_module") | ast.Attribute(attr="import_module"), args=[first, *_]):
                if isinstance(first, ast.Constant) and isinstance(first.value, str):
                    yield first.value


def edges(sources: Mapping[str, str]) -> dict[str, set[str]]:
    """For each module the modules of ours it imports; taking a thing out of a module counts as importing that module."""
    packages = {name.rpartition(".")[0] for name in sources}
    graph: dict[str, set[str]] = {}
    for name, source in sources.items():
        graph[name] = set()
        for dotted in imported(name, source, name in packages):
            head, _, rest = dotted.partition(".")
            if head == "brimline":
                graph[name].add(rest if rest in sources else rest.rpartition(".")[0])
    return graph


def floor(module: str) -> str:
    return module.partition(".")[0]


def upward(sources: Mapping[str, str]) -> list[str]:
    """The imports that go up, in words."""
    faults = []
    for name, targets in edges(sources).items():
        if name == "__main__":
            continue
        for target in sorted(targets):
            low, high = floor(target), floor(name)
            if low in BELOW or low == high:
                continue
            if high in BELOW or low not in FLOORS or FLOORS.index(low) > FLOORS.index(high):
                faults.append(f"{name or 'brimline'} imports {target}")
    return faults


def rings(sources: Mapping[str, str]) -> list[str]:
    """One ring of imports for each module that can reach itself."""
    graph = edges(sources)
    found = []
    for start in graph:
        seen: set[str] = set()
        todo = [(target, [start, target]) for target in graph[start]]
        while todo:
            at, way = todo.pop()
            if at == start:
                found.append(" > ".join(way))
                break
            if at not in seen:
                seen.add(at)
                todo.extend((target, [*way, target]) for target in graph.get(at, ()))
    return found


@pytest.fixture(scope="module")
def sources(checkout: Path) -> dict[str, str]:
    return modules(checkout / "linter" / "brimline")


def test_every_module_stands_on_a_floor(sources: dict[str, str]) -> None:
    assert [name for name in sources if floor(name) not in {*FLOORS, *BELOW, "__main__"}] == []


def test_imports_only_go_down(sources: dict[str, str]) -> None:
    assert upward(sources) == []


def test_no_imports_in_a_ring(sources: dict[str, str]) -> None:
    assert rings(sources) == []


def test_rules_see_values_only(sources: dict[str, str]) -> None:
    graph = edges(sources)
    assert [
        f"{name} imports {target}"
        for name in sources
        if floor(name) == "rules"
        for target in sorted(graph[name])
        if not any(f"{target}.".startswith(f"{seen}.") for seen in SEEN_BY_RULES)
    ] == []


def test_no_library_beyond_the_declared_ones(checkout: Path, sources: dict[str, str]) -> None:
    project = tomllib.loads((checkout / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    declared = {Requirement(entry).name.partition(".")[0] for entry in project["dependencies"]}
    known = {"brimline", *declared, *sys.stdlib_module_names}
    assert [
        f"{name} imports {dotted}"
        for name, source in sources.items()
        for dotted in imported(name, source, is_package=False)
        if dotted and not dotted.startswith(".") and dotted.partition(".")[0] not in known
    ] == []


@pytest.mark.parametrize(
    "source",
    [
        "import brimline.review",
        "from brimline import review",
        "from brimline.review import judge",
        "from brimline.review.engine import judge",
        "from .review import judge",
        "from . import review",
        "def late():\n    from brimline import review\n    return review",
        "import importlib\nimportlib.import_module('brimline.review')",
    ],
)
def test_an_import_that_goes_up_is_seen(source: str) -> None:
    tree = {"": "", "text": source, "review": "", "review.engine": ""}
    assert len(upward(tree)) == 1
    assert upward({"": "", "text": "", "review": source.replace("review", "text")}) == []


def test_a_ring_is_seen() -> None:
    assert rings({"": "", "tree": "", "tree.rows": "from . import lines", "tree.lines": "from .rows import row"}) == [
        "tree.rows > tree.lines > tree.rows",
        "tree.lines > tree.rows > tree.lines",
    ]
