"""The sentences that are read out: their figures are published ones, and the maker refuses any other."""

import re
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML
from suppose.desk import ROOT

from brimline.figures.calls import spoken

sys.path.insert(0, str(ROOT / "ci"))

from making._tables import TableError
from making.calls import entry, make
from making.published import compiled

TABLE = YAML(typ="safe", pure=True).load((ROOT / "linter/brimline/figures/tables/calls.yaml").read_text("utf-8"))
PARTS = [(part, key) for part in ("rows", "topics", "talks") for key in TABLE[part]]
FIGURES = compiled(ROOT)
PUBLICATIONS = {"extension": "Extension advice"}


def built(**raw: Any) -> dict[str, Any]:
    return entry(raw, FIGURES, PUBLICATIONS, "calls.yaml: a test")


def sentences(raw: dict[str, Any]) -> Iterator[str]:
    yield from (str(text) for key, text in raw.items() if key not in ("source", "further", "cites", "figures"))


@pytest.mark.parametrize(("part", "key"), PARTS)
def test_a_sentence_is_whole_and_has_a_source(part: str, key: str) -> None:
    found = spoken(part, key)
    assert found is not None
    assert found.sources or key in ("no-change", "optional-dropped", "sugar-in-range", "acid-tested-alternative")
    for name, text in found.says.items():
        if name != "instead":
            assert text[0].isupper()
            assert text.endswith(".")
            assert len(re.findall(r"[.!?](?=\s+[A-Z]|\s*$)", text)) == 1
        assert not re.search(r"\b(yes|safe|safely)\b", text, re.IGNORECASE)


@pytest.mark.parametrize(("part", "key"), PARTS)
def test_no_figure_is_written_into_a_sentence(part: str, key: str) -> None:
    assert [text for text in sentences(TABLE[part][key]) if re.search(r"\d", re.sub(r"\{[^}]*\}", "", text))] == []


def test_figures_are_spoken_with_their_units() -> None:
    """USDA Complete Guide, Guide 7, p. 7-13: 2 tablespoons of bottled lemon juice a quart, 4 to 6 cups at a time; read."""
    made = built(says="{remake_powdered | per quart jelly: bottled lemon} and {remake_powdered | max}")
    assert made["says"]["says"] == "2 tablespoons and 4 to 6 cups"
    assert made["sources"][0][:1] == ["remake_powdered"]


@pytest.mark.parametrize(
    ("raw", "fault"),
    [
        ({"says": "Wait 12 hours."}, "outside a slot"),
        ({"says": "Wait {nobody | hours}."}, "no figure"),
        ({"says": "Wait {unsealed_jar | weeks}."}, "has no figure 'weeks'"),
        ({"says": "Wait {hours}."}, "no figure 'hours'"),
        ({"says": "Wait.", "cites": ["nobody"]}, "is no figure"),
        ({"says": "Wait.", "source": {"in": "nobody", "at": "p. 1", "how": "read"}}, "unknown publication"),
        ({"says": "Wait.", "source": {"in": "extension", "at": "p. 1"}}, "no source"),
    ],
)
def test_the_maker_refuses_what_has_no_source(raw: dict[str, Any], fault: str) -> None:
    with pytest.raises(TableError, match=re.escape(fault)):
        built(**raw)


def test_what_is_compiled_is_what_the_tables_say() -> None:
    for name, content in make(ROOT).items():
        assert Path(ROOT / name).read_bytes() == content
