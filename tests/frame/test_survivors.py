"""The reasons of mutants that nothing notices can be read, stand once each, and speak of lines that are there."""

from pathlib import Path

from ruamel.yaml import YAML


def test_every_reason_stands_once_and_names_a_line(checkout: Path) -> None:
    # The library refuses a key that stands twice.
    known = YAML(typ="safe").load((checkout / "ci" / "mutation" / "survivors.yaml").read_text(encoding="utf-8"))
    assert len(known) > 10
    assert [name for name in known if not (checkout / name.split(" ", 1)[0]).is_file()] == []
    assert [name for name, reason in known.items() if " -> " not in name or len(reason.split()) < 5] == []
    # One whose line has gone or was changed since would excuse what nobody has judged.
    gone = []
    for name in known:
        file, _, old = name.split(" ", 2)
        lines = (line.strip() for line in (checkout / file).read_text(encoding="utf-8").splitlines())
        if not any(old.startswith(f"{line} -> ") for line in lines):
            gone.append(name)
    assert gone == []
