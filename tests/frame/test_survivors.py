"""The reasons of mutants that nothing notices can be read, stand once each, and speak of files that are there."""

from pathlib import Path

from ruamel.yaml import YAML


def test_every_reason_stands_once_and_names_a_file(checkout: Path) -> None:
    # The library refuses a key that stands twice.
    known = YAML(typ="safe").load((checkout / "ci" / "mutation" / "survivors.yaml").read_text(encoding="utf-8"))
    assert len(known) > 10
    assert [name for name in known if not (checkout / name.split(" ", 1)[0]).is_file()] == []
    assert [name for name, reason in known.items() if " -> " not in name or len(reason.split()) < 5] == []
