"""What the gate prints: new findings first, hostile names made visible, sentences that count right."""

import json
import re
import unicodedata

import pytest

from brimline.gate import Gated
from brimline.report.gate import gate_text
from brimline.report.gate_data import gate_data
from brimline.report.look import Look

_COLOUR = re.compile("\x1b\\[[0-9;]*m")


def words(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("colour", [False, True])
def test_hostile_names_and_words(hostile_review, hostile: str, colour: bool) -> None:
    formulas = hostile_review(hostile).formulas
    answer = Gated(
        formulas=formulas,
        files=formulas,
        changed=(hostile,),
        removed=(hostile,),
        renamed=((hostile, hostile),),
        aside=(hostile,),
        notes=(hostile,),
        notices=(hostile,),
    )
    printed = gate_text(answer, hostile, hostile, Look(colour=colour, written=lambda *_: hostile))
    bare = _COLOUR.sub("", printed) if colour else printed
    unseen = {"Cc", "Cf", "Cs", "Zl", "Zp"}
    assert not [letter for letter in bare.replace("\n", "") if unicodedata.category(letter) in unseen]
    assert not [line for line in bare.split("\n") if line.lstrip().startswith("::")]
    data = gate_data(answer, "brimline", "", {"base": "0" * 40, "head": ""}, ("0" * 40,))
    assert data.isascii()
    json.loads(data)


def test_the_gravest_comes_first_and_every_new_finding_is_shown(finding, reviewed) -> None:
    from brimline.findings import Level

    noise = [
        reviewed(finding(level=Level.FORM, says=f"Noise {number}."), path=f"a/{number}.formula", code=f"A-{number}")
        for number in range(2000)
    ]
    grave = reviewed(finding(level=Level.UNSAFE, says="The acid is left out."), path="z/z.formula", code="Z-1")
    answer = Gated(formulas=(*noise, grave))
    printed = gate_text(answer, "main", "the request", Look())
    assert printed.index("The acid is left out.") < printed.index("Noise 0.")
    data = json.loads(gate_data(answer, "brimline", "", {"base": "0" * 40, "head": ""}, ()))
    assert len(data["formulas"]) == 2001


@pytest.mark.parametrize(
    ("answer", "says"),
    [
        (Gated(), "Compared main with base: no formula changes. Nothing new holds the request back."),
        (Gated(changed=("a",)), "1 formula changed."),
        (
            Gated(changed=("a", "b"), dependents=("c",)),
            "2 formulas changed; 1 formula that departs from them looked at",
        ),
        (Gated(changed=("a",), known=1, mended=2), "1 finding stood there before. 2 findings of before are gone."),
        (Gated(removed=tuple("abcdefg")), "Removed: a, b, c, d, e and 2 more."),
        (Gated(renamed=(("a", "b"),)), "Renamed: a to b."),
        (Gated(aside=("a",)), "Set aside by the collection and not reviewed: a."),
        (Gated(notes=("This clone is shallow.",)), "This clone is shallow."),
    ],
)
def test_sentences(answer: Gated, says: str) -> None:
    assert says in words(gate_text(answer, "base", "main", Look()))
