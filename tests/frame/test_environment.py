"""The two scripts a newcomer runs: they make their own Python, and say in plain words why they cannot."""

import importlib.util
import runpy
import sys
from pathlib import Path
from types import ModuleType

import pytest


@pytest.fixture
def environment(checkout: Path) -> ModuleType:
    spec = importlib.util.spec_from_file_location("_environment", checkout / "ci" / "_environment.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture
def elsewhere(tmp_path: Path) -> Path:
    """A checkout that needs no packages, in a folder with blanks in its path."""
    top = tmp_path / "my own checkout"
    (top / "ci" / "locks").mkdir(parents=True)
    (top / "ci" / "locks" / "run.txt").write_text("# nothing\n", encoding="utf-8")
    return top


@pytest.mark.parametrize("script", ["try", "test"])
def test_an_older_python_is_told_so(checkout: Path, script: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "version_info", (3, 10, 13, "final", 0))
    with pytest.raises(SystemExit, match=r"needs Python 3\.11 or newer"):
        runpy.run_path(str(checkout / "ci" / f"{script}.py"))


def test_a_half_made_environment_is_made_again_and_a_complete_one_is_used_as_it_is(
    environment: ModuleType, elsewhere: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    place = elsewhere / ".venvs" / f"try-{sys.version_info.major}.{sys.version_info.minor}"
    left = place / "half" / "made.txt"
    left.parent.mkdir(parents=True)
    left.touch()
    python = environment.prepare("try", elsewhere)
    assert python.is_file()
    assert place in python.parents
    assert not left.exists()
    assert "only the first time" in capsys.readouterr().out
    (place / "kept.txt").touch()
    assert environment.prepare("try", elsewhere) == python
    assert (place / "kept.txt").exists()
    assert capsys.readouterr().out == ""


def test_an_environment_rests_on_its_lock_and_not_on_line_endings(environment: ModuleType, tmp_path: Path) -> None:
    stamps = []
    for name, content in {"unix": b"a==1\n", "windows": b"a==1\r\n", "newer": b"a==2\n"}.items():
        (tmp_path / name).write_bytes(content)
        stamps.append(environment.stamp(tmp_path / name))
    assert stamps[0] == stamps[1] != stamps[2]


def test_a_checkout_that_cannot_be_written_gets_its_environment_in_the_cache(
    environment: ModuleType, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # A file in the place of the folder stops writing for everybody, the administrator too.
    (tmp_path / ".venvs").touch()
    monkeypatch.setattr(environment, "cache_folder", lambda: tmp_path / "cache")
    assert tmp_path / "cache" / "brimline" in environment.home(tmp_path).parents


def test_a_python_without_its_own_parts_is_told_where_to_get_them(
    environment: ModuleType, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "ensurepip", None)
    with pytest.raises(environment.Trouble, match="python3-venv"):
        environment.create(tmp_path / "place")


@pytest.mark.parametrize(
    ("printed", "cause"),
    [
        (
            "WARNING: Retrying after connection broken by: [Errno -3] Temporary failure in name resolution\nERROR: No matching distribution found for lark==1.3.1",
            "could not be reached",
        ),
        ("ERROR: THESE PACKAGES DO NOT MATCH THE HASHES FROM THE REQUIREMENTS FILE.", "by its hash"),
        ("SSLError(SSLCertVerificationError(1, 'certificate verify failed'))", "does not trust"),
        ("ERROR: Could not install packages due to an OSError: [Errno 28] No space left on device", "disk is full"),
        ("ERROR: No matching distribution found for lark==1.3.1", "no ready-made package"),
        ("ERROR: something new", "could not be installed"),
    ],
)
def test_a_failed_installation_is_explained(environment: ModuleType, printed: str, cause: str) -> None:
    first, *rest = environment.explain(printed, "run.txt").splitlines()
    assert cause in first
    assert rest == [f"  pip: {printed.splitlines()[-1]}"]
