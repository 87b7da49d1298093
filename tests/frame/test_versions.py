"""The oldest Python, the dependencies and the locks say the same everywhere."""

import re
import tomllib
from pathlib import Path
from typing import Any

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

OLDEST = (3, 11)


@pytest.fixture(scope="module")
def project(checkout: Path) -> dict[str, Any]:
    return tomllib.loads((checkout / "pyproject.toml").read_text(encoding="utf-8"))


def locked(checkout: Path, kind: str) -> dict[str, Requirement]:
    """What a lock pins, by name."""
    pins = {}
    for entry in entries(checkout / "ci" / "locks" / f"{kind}.txt"):
        requirement = Requirement(entry.partition(" --hash")[0])
        pins[canonicalize_name(requirement.name)] = requirement
    return pins


def entries(lock: Path) -> list[str]:
    """The entries of a lock, each on one line, without its comments."""
    text = re.sub(r"\s*\\\n\s*", " ", lock.read_text(encoding="utf-8"))
    return [line for line in text.splitlines() if line and not line.startswith("#")]


def group(project: dict[str, Any], name: str) -> list[Requirement]:
    found: list[Requirement] = []
    for entry in project["dependency-groups"][name]:
        found.extend(group(project, entry["include-group"]) if isinstance(entry, dict) else [Requirement(entry)])
    return found


def test_one_oldest_python(checkout: Path, project: dict[str, Any]) -> None:
    dotted = ".".join(map(str, OLDEST))
    assert project["project"]["requires-python"] == f">={dotted}"
    assert project["tool"]["mypy"]["python_version"] == dotted
    assert project["tool"]["ruff"]["target-version"] == "py" + dotted.replace(".", "")
    prefix = "Programming Language :: Python :: 3."
    minors = [entry.removeprefix(prefix) for entry in project["project"]["classifiers"] if entry.startswith(prefix)]
    assert [int(minor) for minor in minors] == list(range(OLDEST[1], OLDEST[1] + len(minors)))
    for kind in ("run", "test"):
        assert f"for Python {dotted} to 3.{minors[-1]}" in (checkout / f"ci/locks/{kind}.txt").read_text("utf-8")
    for script in ("try", "test"):
        text = (checkout / f"ci/{script}.py").read_text(encoding="utf-8")
        assert f"sys.version_info < {OLDEST}" in text
        assert f"Python {dotted} or newer" in text


def test_every_dependency_has_a_lowest_and_a_highest_version(project: dict[str, Any]) -> None:
    wanted = [*map(Requirement, project["project"]["dependencies"]), *group(project, "test")]
    assert [str(one) for one in wanted if {mark.operator for mark in one.specifier} != {">=", "<"}] == []


def test_the_locks_pin_what_the_project_asks_for(checkout: Path, project: dict[str, Any]) -> None:
    run, test = locked(checkout, "run"), locked(checkout, "test")
    declared = list(map(Requirement, project["project"]["dependencies"]))
    for pins, wanted in ((run, declared), (test, [*declared, *group(project, "test")])):
        for requirement in wanted:
            version = next(iter(pins[canonicalize_name(requirement.name)].specifier)).version
            assert version in requirement.specifier, requirement
    assert {name: str(pin.specifier) for name, pin in run.items()} == {name: str(test[name].specifier) for name in run}


@pytest.mark.parametrize("kind", ["run", "test"])
def test_a_lock_holds_exact_versions_and_hashes_and_nothing_else(checkout: Path, kind: str) -> None:
    form = re.compile(r"[a-z0-9-]+==[0-9.]+(?:post[0-9]+)?( ; [^#\\]+?)?( --hash=sha256:[0-9a-f]{64})+")
    assert [entry for entry in entries(checkout / f"ci/locks/{kind}.txt") if not form.fullmatch(entry)] == []
