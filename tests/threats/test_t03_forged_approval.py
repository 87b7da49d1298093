"""T3: a request calls a formula tested, reviewed or sealed that nobody has tested, reviewed or sealed."""

import json
from pathlib import Path

from repositories import SMALL, room, said, starter

from brimline.document import read
from brimline.document.meaning import fingerprint

NEW = "tested/kv-103.formula"


def seal(text: str) -> str:
    document = read("x", text.encode("utf-8")).document
    assert document is not None
    entry = {"fingerprint": fingerprint(document), "sealed": "2026-01-01", "evidence": {}}
    return json.dumps({"version": 1, document.code: entry})


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


def test_one_flipped_digit_breaks_the_seal(tmp_path: Path) -> None:
    text = starter("tested/kv-103")[NEW]
    made = room(tmp_path, {**SMALL, "register.json": seal(text)})
    made.branch("request")
    other = text.replace("10 min", "11 min", 1)
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
