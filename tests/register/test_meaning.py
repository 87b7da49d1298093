"""The fingerprint of a formula: what changes it, what does not, and that its canonical form is that of RFC 8785."""

from hashlib import sha256
from typing import Any

import pytest
import rfc8785
from hypothesis import given
from hypothesis import strategies as st

from brimline.document.meaning import canonical, evidence_rows, fingerprint, meaning

from .conftest import SALSA, parsed

PRINT = fingerprint(parsed(SALSA))

SAME = {
    "layout": ("  vegetable  5 lb                 tomatoes", "\n   vegetable 5 lb tomatoes"),
    "line ends": ("\n", "\r\n"),
    "a comment": ("yield     6 to 8 pint", "yield     6 to 8 pint  # measured twice"),
    "the title": ("Chile salsa", "Salsa of green chiles"),
    "a note": ("5 %\n", "5 %\n    note     keeps the colour\n"),
    # 1 US cup = 16 US tablespoons = 8 US fluid ounces, 1 lb = 16 oz, 1 tbsp = 3 tsp: exact by definition (NIST HB 44).
    "tablespoons for a cup": ("1 cup                vinegar", "16 tbsp              vinegar"),
    "fluid ounces for a cup": ("1 cup                vinegar", "8 fl oz              vinegar"),
    "a sum for a cup": ("1 cup                vinegar", "3/4 cup + 4 tbsp     vinegar"),
    "ounces for pounds": ("1 lb                 onion", "16 oz                onion"),
    "a decimal for a fraction": ("headspace  1/2 in", "headspace  0.5 in"),
    "metric name of a jar": ("jar        pint", "jar        500 ml"),
    "order of lines": (
        "  acid       1 cup                vinegar, white, 5 %\n  salt       3 tsp                salt, canning\n",
        "  salt       3 tsp                salt, canning\n  acid       1 cup                vinegar, white, 5 %\n",
    ),
    "capitals": ("salt, canning", "Salt, canning"),
    "evidence": ("pH 3.9", "pH 3.8"),
}

OTHER = {
    "an amount": ("1 cup                vinegar", "3/4 cup              vinegar"),
    "an amount by a hair": ("1 lb                 onion", "1.0001 lb            onion"),
    "millilitres that are not quite a cup": ("1 cup                vinegar", "237 ml               vinegar"),
    "an ingredient": ("onion, yellow", "garlic"),
    "a form": ("tomatoes, peeled, cored, chopped", "tomatoes, cored, chopped"),
    "a strength": ("vinegar, white, 5 %", "vinegar, white, 4 %"),
    "an option": ("  acid       1 cup", "  optional acid 1 cup"),
    "a line more": ("  salt       3 tsp", "  vegetable  1 cup                corn\n  salt       3 tsp"),
    "a jar": ("jar        pint", "jar        half-pint, pint"),
    "a headspace": ("headspace  1/2 in", "headspace  1/4 in"),
    "a time": ("15 min to 1000 ft", "10 min to 1000 ft"),
    "an altitude": ("15 min to 1000 ft", "15 min to 2000 ft"),
    "a method": ("process boiling-water", "process steam"),
    "a preparation": ("prepare    clean", "prepare    sterile"),
    "a fill": ("fill       hot", "fill       raw"),
    "a lid": ("lid        two-piece", "lid        wax"),
    "a finish": ("finish    simmer 10 min", "finish    simmer 5 min"),
    "a step": ("starting the time when the water boils", "starting the time at once"),
    "a stated life": ("sealed     12 months", "sealed     24 months"),
    "the product": ("product   salsa", "product   relish"),
}


@pytest.mark.parametrize("change", SAME.values(), ids=SAME.keys())
def test_what_means_the_same_has_the_same_fingerprint(change: tuple[str, str]) -> None:
    changed = SALSA.replace(*change)
    assert changed != SALSA
    assert fingerprint(parsed(changed)) == PRINT


@pytest.mark.parametrize("change", OTHER.values(), ids=OTHER.keys())
def test_what_means_something_else_has_another(change: tuple[str, str]) -> None:
    changed = SALSA.replace(*change)
    assert changed != SALSA
    assert fingerprint(parsed(changed)) != PRINT


def test_the_fingerprint_is_the_hash_of_the_canonical_form_that_the_reference_writes() -> None:
    # rfc8785 is another's implementation of RFC 8785.
    assert f"m1-{sha256(rfc8785.dumps(meaning(parsed(SALSA)))).hexdigest()}" == PRINT


VALUES: st.SearchStrategy[Any] = st.recursive(
    st.text(),
    lambda inner: (
        st.lists(inner, max_size=4) | st.dictionaries(st.from_regex(r"[a-z_]{1,8}", fullmatch=True), inner, max_size=4)
    ),
    max_leaves=12,
)


@given(VALUES)
def test_the_canonical_form_is_that_of_the_reference(value: Any) -> None:
    assert canonical(value) == rfc8785.dumps(value)


def test_evidence_is_one_text_a_row_whatever_its_blanks() -> None:
    wide = SALSA.replace("2025-06-14, Kestrel", "2025-06-14,    Kestrel").replace("reading    pH", "reading  pH")
    assert evidence_rows(parsed(wide)) == evidence_rows(parsed(SALSA))
    assert evidence_rows(parsed(SALSA))[1] == "reading pH 3.9 on 2025-06-14, finished, 3 batches, meter"
