"""Ingredients of a collection's own: what may be added, and that nothing published is ever touched."""

import json
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from brimline import figures
from brimline.batch.add import add_up
from brimline.batch.own import own_match
from brimline.review.weighing import weighing
from brimline.shelf import shelf_from
from brimline.shelf.own import own_ingredients
from brimline.shelf.settings import read_settings
from brimline.shelf.strict import Refused

from .conftest import SALSA, Reviewing, parsed, rows

# An invented berry, so that the published table cannot have it.
BERRY = {
    "name": "valleyberry",
    "also": ["kestrelberry"],
    "role": "fruit",
    "class": "high-acid",
    "ph": "2.9 to 3.3",
    "weights": {"cup": "140 to 150 g"},
    "solids": "8 %",
    "source": "read Valley leaflet 12, p. 3",
}


def settings(**changes: object) -> bytes:
    # JSON is YAML too.
    entry = {key: value for key, value in {**BERRY, **changes}.items() if value is not None}
    return json.dumps({"ingredients": [entry]}).encode()


def test_an_ingredient_is_known_in_its_collection_and_in_no_other(reviewing: Reviewing) -> None:
    text = SALSA.replace(
        "  salt       3 tsp", "  fruit      1 cup                kestrelberries, crushed\n  salt       3 tsp"
    )
    assert "unknown-ingredient" in rows(reviewing(text))
    assert "unknown-ingredient" not in rows(reviewing(text, collection_yaml=settings()))


def test_its_weight_and_class_are_those_stated() -> None:
    (own,) = read_settings(settings()).own
    match = own_match("valleyberries", ("crushed",), (own,))
    assert match is not None
    assert match.entry is not None
    assert (match.entry.safety, match.entry.sort, match.entry.solids) == ("high-acid", "fruit", 8)
    bounds = figures.weigh(match.entry, (), "cup")
    assert bounds is not None
    assert (bounds.low, bounds.high) == (140, 150)


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"name": "lemon juice"}, "published table has"),
        ({"name": "onions"}, "published table has"),
        ({"also": ["bottled lemon juice"]}, "published table has"),
        ({"also": ["Yellow Onion"]}, "published table has"),
        ({"also": ["valleyberry"]}, "twice"),
        ({"role": "acid"}, "may add"),
        ({"role": "sweetener"}, "may add"),
        ({"role": "thickener"}, "may add"),
        ({"role": "vegetable", "class": "high-acid"}, "can be"),
        ({"role": "spice", "class": "high-acid"}, "can be"),
        ({"ph": None}, "without a measured"),
        ({"ph": "4.0 to 4.6"}, "without a measured"),
        ({"ph": "3.3 to 2.9"}, "upside down"),
        ({"ph": "sour"}, "cannot be read"),
        ({"source": None}, "leaves out `source`"),
        ({"source": "a leaflet"}, "no source"),
        ({"source": "read"}, "no source"),
        ({"weights": {"cup": "145"}}, "cannot be read"),
        ({"weights": {"cup": "0 g"}}, "measure and grams"),
        ({"weights": {"c": "145 g"}}, "measure and grams"),
        ({"tags": ["bottled"]}, "unknown key"),
        ({"name": "berry 2"}, "without figures"),
    ],
)
def test_an_ingredient_that_could_loosen_anything_is_refused(changes: dict[str, object], words: str) -> None:
    with pytest.raises(Refused, match=words):
        read_settings(settings(**changes))


NAMES = sorted(figures.entries())


@given(st.sampled_from(NAMES), st.sampled_from(NAMES))
def test_no_published_name_can_be_taken(one: str, other: str) -> None:
    for name in (one, other):
        with pytest.raises(Refused):
            own_ingredients([{**BERRY, "name": name, "also": []}])


@given(st.sampled_from(NAMES))
def test_no_published_ingredient_ever_means_one_of_a_collection(name: str) -> None:
    (own,) = own_ingredients([BERRY])
    text = SALSA.replace("tomatoes, peeled, cored, chopped", f"{name}, valleyberry")
    document = parsed(text)
    plain = [item.entry and item.entry.name for item in add_up(document).items]
    with_own = [item.entry and item.entry.name for item in add_up(replace(document, own=(own,))).items]
    assert [b for a, b in zip(plain, with_own, strict=True) if a is not None and a != b] == []


def test_a_batch_with_one_twice_is_weighed_and_names_its_source_once() -> None:
    text = SALSA.replace(
        "  salt       3 tsp",
        "  fruit      1 cup                valleyberries, crushed\n  fruit      2 cup                kestrelberries, whole\n  salt       3 tsp",
    )
    shelf = shelf_from({"x.formula": text.encode(), "collection.yaml": settings()}, date(2026, 7, 1))
    weighed = weighing(shelf.formulas[0])
    assert weighed is not None
    assert [one.title for one in weighed.sources if one.id == "own"] == [
        "Valley leaflet 12, p. 3, as the collection states it"
    ]
