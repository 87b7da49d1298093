"""Every formula of this tree neatens to the same document, and the second time to the same bytes."""

from pathlib import Path

import pytest
from neat.strategies import bare

from brimline.document import read
from brimline.document.neat import neaten
from brimline.document.printer import printed

TOP = Path(__file__).parents[2]
SHIPPED = sorted(
    path
    for folder in ("formulas", "tests/published", "tests/cases", "tests/format")
    for path in (TOP / folder).rglob("*.formula")
)


def test_there_are_formulas_to_try() -> None:
    assert len(SHIPPED) > 100


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.relative_to(TOP).as_posix())
def test_a_formula_says_the_same_when_neat(path: Path) -> None:
    data = path.read_bytes()
    made = neaten("a.formula", data)
    if not made.refusal:
        before, after = read("a.formula", data), read("a.formula", made.after)
        assert bare(after.document) == bare(before.document)
        assert [text for _, text in after.document.comments] == [text for _, text in before.document.comments]
        assert after.document is not None
        assert len(after.findings) == len(before.findings)
        assert b"".join(made.after.split()) == b"".join(data.removeprefix(b"\xef\xbb\xbf").split())
        assert neaten("a.formula", made.after).after == made.after
    assert not made.refusal or path.parent.parent.name == "format"


@pytest.mark.parametrize("path", [path for path in SHIPPED if "published" in path.parts], ids=lambda path: path.stem)
def test_a_published_formula_can_be_printed(path: Path) -> None:
    document = read("a.formula", path.read_bytes()).document
    assert document is not None
    text = printed(document)
    assert bare(read("a.formula", text.encode()).document) == bare(document)


def test_the_sample_of_the_format_is_neat() -> None:
    data = (TOP / "tests" / "format" / "samples" / "gooseberry.formula").read_bytes()
    assert neaten("a.formula", data).is_neat
