"""T20: a package that changes under us. Every one is pinned by version and hash, wheels only."""

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


@pytest.mark.parametrize("lock", sorted(path.name for path in (ROOT / "ci" / "locks").glob("*.txt")))
def test_every_package_has_an_exact_version_and_a_hash(lock: str) -> None:
    text = re.sub(r"\s*\\\n\s*", " ", (ROOT / "ci" / "locks" / lock).read_text(encoding="utf-8"))
    rows = [row for row in text.splitlines() if row and not row.startswith("#")]
    assert len(rows) > 5
    assert [row[:40] for row in rows if not re.match(r"[a-z0-9-]+==\S+ .*--hash=sha256:[0-9a-f]{64}", row)] == []


def test_what_makes_the_environments_takes_nothing_else() -> None:
    text = (ROOT / "ci" / "_environment.py").read_text(encoding="utf-8")
    assert '"--require-hashes", "--only-binary", ":all:"' in text


def test_the_example_pipelines_install_by_the_same_lock() -> None:
    for name in ("github-workflow.yml", "gitlab-pipeline.yml"):
        text = (ROOT / "ci" / "adopt" / name).read_text(encoding="utf-8")
        assert "--require-hashes" in text
        assert "--only-binary" in text
