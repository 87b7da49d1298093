"""The gate in the forms for programs and pages: what is new and no more, and a pass that says so."""

import json
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from repositories import LESS_SUGAR, SMALL, Room, room

from brimline.faces.cli import main
from brimline.faces.forms import FORMS

ADAPTED = "adapted/kv-201.formula"
FORMS_TO_FILE = [form for form in FORMS if form not in {"text", "lines"}]


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Room:
    one = room(tmp_path_factory.mktemp("rooms") / "a room")
    one.branch("request")
    one.branch("quiet")
    one.git("checkout", "--quiet", "request")
    one.commit({ADAPTED: SMALL[ADAPTED].replace(*LESS_SUGAR)})
    return one


def printed(made: Room, head: str, form: str, target: Path) -> tuple[int, str]:
    asked = ["gate", str(made.path), "--base", "main", "--head", head, "--as", form, "--to", str(target)]
    return main(asked), target.read_text(encoding="utf-8")


@pytest.mark.parametrize("form", FORMS_TO_FILE)
def test_what_is_new_is_in_every_form(made: Room, tmp_path: Path, form: str) -> None:
    status, text = printed(made, "request", form, tmp_path / "report")
    assert status == 1
    assert "sugar/cut" in text
    assert ADAPTED in text


@pytest.mark.parametrize("form", FORMS_TO_FILE)
def test_nothing_new_is_a_pass_in_every_form(made: Room, tmp_path: Path, form: str) -> None:
    status, text = printed(made, "quiet", form, tmp_path / "report")
    assert status == 0
    assert "sugar/cut" not in text or form == "sarif"
    if form == "sarif":
        assert json.loads(text)["runs"][0]["results"] == []
    if form == "junit":
        assert (ET.fromstring(text).get("failures"), ET.fromstring(text).get("errors")) == ("0", "0")
    if form == "code-quality":
        assert json.loads(text) == []
    if form in {"markdown", "html"}:
        assert "Nothing new is held back" in text or "nothing new is held back" in text
        assert "Compared with main" in text
