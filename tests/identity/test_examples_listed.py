"""Every worked example of the standards has a test that computes it, named in `worked_examples.csv`."""

import csv
import re
from collections import Counter
from pathlib import Path

TESTS = Path(__file__).resolve().parents[1]
# How many examples each set has, as handed over with the standards.
SETS = {"jam": 7, "jelly": 7, "butter": 6, "marm": 5, "juice": 5, "ph": 5, "acid": 5, "codex": 6, "eu": 7, "uk": 6,
        "unit": 8, "round": 5}  # fmt: skip


def rows() -> list[dict[str, str]]:
    with (Path(__file__).parent / "worked_examples.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_every_example_is_listed() -> None:
    named = {row["example"] for row in rows()}
    assert named == {f"{name}{number}" for name, count in SETS.items() for number in range(1, count + 1)}
    twice = [key for key, count in Counter((row["example"], row["test"]) for row in rows()).items() if count > 1]
    assert twice == []


def test_every_test_that_is_named_exists() -> None:
    for row in rows():
        text = (TESTS / row["file"]).read_text(encoding="utf-8")
        assert re.search(rf"^def {row['test']}\(", text, re.MULTILINE), row
