"""The written examples of what is found before any rule is asked: the bad one gives its finding, the good one does not.

The examples of the rules themselves are cut from the cases of `tests/cases`, which `test_cases.py` reviews.
"""

from datetime import date
from pathlib import Path

import pytest
from ruamel.yaml import YAML

from brimline.document import read
from brimline.findings import Finding
from brimline.review.engine import review
from brimline.shelf import Settings, load_shelf, shelf_of

HERE = Path(__file__).parent
EXAMPLES = YAML(typ="safe", pure=True).load((HERE / "examples.yaml").read_text(encoding="utf-8"))
FORMULAS = HERE.parents[1] / "formulas" / "tested"
TODAY = date(2026, 1, 15)
SAMPLE = next(path.read_text(encoding="utf-8") for path in sorted(FORMULAS.glob("*.formula")))
KNOWN = {path.name: path.read_text(encoding="utf-8") for path in sorted(FORMULAS.glob("*.formula"))}


def rules(texts: dict[str, str]) -> set[str]:
    """The rules of all findings of a review of these formulas."""
    shelf = shelf_of(texts, TODAY, Settings(), [])
    return {one.rule for formula in review(shelf).formulas for one in formula.findings}


def found(kind: str, section: str, text: str, folder: Path) -> set[str]:
    """What is found when an example is read as what it says it is."""
    if kind == "adaptation":
        adapted = SAMPLE.partition("\nevidence\n")[0].replace("standing  tested", f"standing  adapted\n{text}")
        code = next(line.split()[1] for line in SAMPLE.splitlines() if line.startswith("formula "))
        return rules({**KNOWN, "a.formula": adapted.replace(f"formula {code}", "formula T-1")})
    if kind == "codes":
        titles = text.splitlines()
        first = next(line for line in SAMPLE.splitlines() if line.startswith("formula "))
        return rules({f"{number}.formula": SAMPLE.replace(first, title) for number, title in enumerate(titles)})
    if kind == "lines":
        count = int(text.split(maxsplit=1)[0].replace(",", ""))
        whole = SAMPLE + "# \n" * (count - len(SAMPLE.splitlines()))
        return {one.rule for one in read("a.formula", whole.encode("utf-8")).findings}
    if kind == "file":
        content = "" if text == "an empty file" else SAMPLE
        return {one.rule for one in read("a.formula", content.encode("utf-8")).findings}
    if kind == "name":
        (folder / text).write_text(SAMPLE, encoding="utf-8")
        return {one.rule for one in reviewed(folder)}
    lines: list[str] = []
    for line in SAMPLE.splitlines():
        if section != "pack" or line.split()[:1] != text.split()[:1]:
            lines.append(line)
        if line == section:
            lines.extend(f"  {one}" for one in text.splitlines())
    return {one.rule for one in read("a.formula", "\n".join(lines).encode("utf-8")).findings}


def reviewed(folder: Path) -> list[Finding]:
    """All findings and refusals of a folder."""
    done = review(load_shelf([str(folder)], TODAY))
    return [*done.refusals, *(one for formula in done.formulas for one in formula.findings)]


@pytest.mark.parametrize("rule", EXAMPLES)
def test_the_bad_example_is_found_and_the_good_one_is_not(rule: str, tmp_path: Path) -> None:
    one = EXAMPLES[rule]
    for side in ("bad", "good"):
        (tmp_path / side).mkdir()
        hit = rule in found(one.get("as", "line"), one.get("in", ""), one[side]["text"], tmp_path / side)
        assert hit == (side == "bad"), side
        assert one[side]["shows"]
