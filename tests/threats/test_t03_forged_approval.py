"""T3: a request calls a formula tested, reviewed or sealed that nobody has tested, reviewed or sealed."""

from pathlib import Path

import pytest
from repositories import SMALL, room, said, starter

from brimline.document import read
from brimline.document.meaning import Seal, evidence_rows, fingerprint
from brimline.shelf.register import write_register

NEW = "tested/kv-103.formula"


def seal(text: str) -> bytes:
    """A register that vouches for a formula as it is written here."""
    document = read("x", text.encode("utf-8")).document
    assert document is not None
    printed = fingerprint(document)
    evidence = tuple((row, printed) for row in evidence_rows(document))
    return write_register([Seal(document.code, printed, "2026-01-01", evidence)])


def test_a_formula_called_tested_by_the_request_alone(tmp_path: Path) -> None:
    made = room(tmp_path)
    made.branch("request")
    made.commit(starter("tested/kv-103"))
    assert (NEW, "untested", "gate/tested") in said(made.gate())


def test_a_seal_that_comes_with_the_request_is_worth_nothing(tmp_path: Path) -> None:
    made = room(tmp_path)
    made.branch("request")
    made.commit({**starter("tested/kv-103"), "register.json": seal(starter("tested/kv-103")[NEW])})
    found = said(made.gate())
    assert (NEW, "untested", "gate/tested") in found
    assert ("register.json", "untested", "gate/register") in found


def test_a_seal_of_the_base_stands(tmp_path: Path) -> None:
    made = room(tmp_path, {**SMALL, "register.json": seal(starter("tested/kv-103")[NEW])})
    made.branch("request")
    made.commit(starter("tested/kv-103"))
    assert (NEW, "untested", "gate/tested") not in said(made.gate())


@pytest.mark.parametrize(
    ("old", "new"),
    [("10 min", "11 min"), ("report KV-T-003", "report KV-T-004"), ("review-by  2028", "review-by  2029")],
)
def test_one_flipped_digit_breaks_the_seal(tmp_path: Path, old: str, new: str) -> None:
    text = starter("tested/kv-103")[NEW]
    made = room(tmp_path, {**SMALL, "register.json": seal(text)})
    made.branch("request")
    other = text.replace(old, new, 1)
    assert other != text
    made.commit({NEW: other})
    assert (NEW, "untested", "gate/tested") in said(made.gate())


def test_an_adaptation_promoted_to_tested(tmp_path: Path) -> None:
    made = room(tmp_path)
    made.branch("request")
    path = "adapted/kv-201.formula"
    text = SMALL[path].replace("standing  adapted\nadapts    KV-102", "standing  tested")
    made.commit({path: text.partition("changes\n")[0] + "evidence\n" + text.partition("evidence\n")[2]})
    assert (path, "untested", "gate/tested") in said(made.gate())
