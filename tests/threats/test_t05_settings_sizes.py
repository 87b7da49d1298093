"""T5: the files of a collection are read with a limit, and a giant one is refused without being taken in."""

import time
from datetime import date
from pathlib import Path

import pytest

from brimline.shelf import RECORDS, load_shelf
from brimline.shelf.strict import LARGEST


@pytest.mark.parametrize("name", RECORDS)
def test_a_sparse_file_of_two_gibibytes_is_refused(tmp_path: Path, name: str) -> None:
    (tmp_path / "collection.yaml").write_bytes(b"")
    (tmp_path / "kv-101.formula").write_text("formula KV-101 Plum jam\n", "utf-8")
    with (tmp_path / name).open("wb") as stream:
        stream.truncate(2 * 1024**3)
    started = time.monotonic()
    shelf = load_shelf([str(tmp_path)], date(2026, 7, 1))
    assert [(one.path, one.reason) for one in shelf.refusals] == [(name, "is larger than 8 MiB")]
    # Generous: reading two gibibytes would take longer, reading eight megabytes takes none of it.
    assert time.monotonic() - started < 20
    assert (tmp_path / name).stat().st_size > LARGEST
