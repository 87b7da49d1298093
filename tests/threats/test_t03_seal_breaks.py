"""T3: no approval can be forged in a formula; whatever is flipped in it breaks its seal, and a seal fits one code only."""

import json
import re
from datetime import date

import pytest

from brimline._data import folder
from brimline.review.engine import review
from brimline.shelf import shelf_from

TODAY = date(2026, 12, 1)
PLACE = folder("formulas")
FILES = {
    path.relative_to(PLACE).as_posix(): path.read_bytes()
    for path in sorted(PLACE.rglob("*"))
    if path.is_file() and "classroom" not in path.parts
}
TESTED = sorted(name for name in FILES if name.startswith("tested/"))
HOLDS = {"seal-broken", "evidence-changed"}


def rows(name: str, text: str) -> set[str]:
    files = {**FILES, name: text.encode()}
    done = review(shelf_from(files, TODAY, asked=[name])).formulas[0]
    assert done.held_back or not HOLDS & {one.row for one in done.findings}
    return {one.row or one.rule for one in done.findings}


@pytest.mark.parametrize("name", TESTED)
def test_every_seal_of_the_demonstration_holds(name: str) -> None:
    assert not HOLDS & rows(name, FILES[name].decode())


def digits(text: str) -> list[int]:
    """Where the digits of a formula stand, but for its comments, its code and its title."""
    start = text.index("\n", text.index("\nformula ") + 1)
    return [found.start() for found in re.finditer(r"\d", text) if found.start() > start]


@pytest.mark.parametrize("name", TESTED[::6])
def test_flipping_any_one_digit_breaks_the_seal_or_the_formula(name: str) -> None:
    text = FILES[name].decode()
    unharmed = []
    for place in digits(text)[::3]:
        flipped = text[:place] + str((int(text[place]) + 1) % 10) + text[place + 1 :]
        found = rows(name, flipped)
        if not found & HOLDS and not any("/" in one for one in found):
            unharmed.append(flipped[max(0, place - 20) : place + 20])
    assert unharmed == []


def test_words_of_approval_in_a_formula_change_nothing() -> None:
    name = TESTED[0]
    text = FILES[name].decode().replace("8 1/2 cup", "4 cup")
    assert text.encode() != FILES[name]
    approved = text + "  # reviewed: yes\n# approved by the curator, seal m1-" + "0" * 64 + "\n"
    assert "seal-broken" in rows(name, approved)


def test_a_seal_copied_to_another_code_does_not_fit() -> None:
    register = json.loads(FILES["register.json"])
    register["KV-102"] = register["KV-101"]
    files = {**FILES, "register.json": json.dumps(register).encode()}
    done = review(shelf_from(files, TODAY, asked=["tested/kv-102.formula"])).formulas[0]
    assert "seal-broken" in {one.row for one in done.findings}
