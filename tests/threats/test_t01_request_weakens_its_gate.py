"""T1: a request weakens the gate it has to pass: its settings, a variance, the register, a list of its own."""

from pathlib import Path

import pytest
from repositories import LESS_SUGAR, SETTINGS, SMALL, room, rules, said

ADAPTED = "adapted/kv-201.formula"
BAD = SMALL[ADAPTED].replace(*LESS_SUGAR)
CUT = (ADAPTED, "untested", "sugar/cut/sugar-cut-gelled")
VARIANCE = """- rule: sugar/cut
  formula: KV-201
  fingerprint: m1-0000000000000000000000000000000000000000000000000000000000000000
  reason: it set well
  role: a volunteer
  until: 2027-01-01
  evidence:
    letter: a letter, kept somewhere
"""


@pytest.mark.parametrize(
    ("name", "content", "rule"),
    [
        ("variances.yaml", VARIANCE, "gate/variances"),
        ("variances.yaml", "not even a list", "gate/variances"),
        ("register.json", '{"version": 1}', "gate/register"),
        ("collection.yaml", f"{SETTINGS}hold-back: [form]\n", "gate/settings"),
        ("collection.yaml", None, "gate/settings"),
        ("collection.yaml", b"\xff\x00 nonsense", "gate/settings"),
        ("adapted/collection.yaml", "name: my own\nset-aside: .\n", "gate/settings"),
    ],
)
@pytest.mark.parametrize("head", ["HEAD", ""])
def test_a_request_that_only_touches_the_rules_fails(
    tmp_path: Path, name: str, content: str | bytes | None, rule: str, head: str
) -> None:
    made = room(tmp_path)
    made.branch("request")
    made.commit({name: content})
    answer = made.gate(head=head)
    assert said(answer) == [(name, "untested", rule)]
    assert answer.held_back == 1
    assert answer.refusals == ()


@pytest.mark.parametrize(
    ("name", "content"),
    [
        ("collection.yaml", "name: A program\nset-aside: adapted\n"),
        ("adapted/collection.yaml", "name: mine\n"),
        ("variances.yaml", VARIANCE),
        ("adapted/variances.yaml", VARIANCE),
    ],
)
def test_rules_that_a_request_brings_do_not_help_it(tmp_path: Path, name: str, content: str) -> None:
    made = room(tmp_path)
    made.branch("request")
    made.commit({name: content, ADAPTED: BAD})
    assert CUT in said(made.gate())


def test_rules_in_two_steps_do_not_help_either(tmp_path: Path) -> None:
    made = room(tmp_path)
    made.branch("request")
    made.commit({"collection.yaml": "name: A program\nset-aside: adapted\n"})
    made.commit({ADAPTED: BAD})
    made.commit({"collection.yaml": SETTINGS})
    answer = made.gate()
    assert CUT in said(answer)
    assert "gate/settings" not in rules(answer)


def test_stricter_settings_of_the_base_hold(tmp_path: Path) -> None:
    made = room(tmp_path, {**SMALL, "collection.yaml": f"{SETTINGS}hold-back: [form]\n"})
    made.branch("request")
    spice = "  sweetener  2 cup                honey, light"
    made.commit(
        {ADAPTED: SMALL[ADAPTED].replace("changes\n  sweetener  half the sugar as honey, for a honey class\n\n", "")}
    )
    answer = made.gate()
    assert spice in SMALL[ADAPTED]
    assert "evidence/undeclared" in rules(answer)
    assert answer.held_back == 1


def test_a_link_in_place_of_the_settings_is_a_change_and_is_not_followed(tmp_path: Path) -> None:
    made = room(tmp_path)
    made.branch("request")
    blob = made.git("hash-object", "-w", "--stdin", given=b"../elsewhere.yaml")
    made.git("update-index", "--cacheinfo", f"120000,{blob},collection.yaml")
    made.git("commit", "-q", "-m", "a link")
    assert "gate/settings" in rules(made.gate())


@pytest.mark.parametrize(
    "name",
    [
        "Collection.yaml",
        "COLLECTION.YAML",
        "collection.yaml.",
        "collection.yaml ",
        "collection.yaml::$DATA",
        "collec\u200ction.yaml",
        "Variances.yaml",
        "adapted/Collection.yaml",
        "\uff43ollection.yaml",
    ],
)
def test_a_file_that_another_computer_takes_for_the_settings(tmp_path: Path, name: str) -> None:
    made = room(tmp_path)
    made.branch("request")
    blob = made.git("hash-object", "-w", "--stdin", given=b"set-aside: adapted\n")
    made.git("update-index", "--add", "-z", "--index-info", given=f"100644 {blob}\t{name}\0".encode())
    made.git("commit", "-q", "-m", "a twin")
    assert said(made.gate()) == [(name, "unreadable", "gate/path")]
