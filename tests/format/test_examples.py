"""The written examples of what is found before any rule is asked: the bad one gives its finding, the good one does not.

The examples of the rules themselves are cut from the cases of `tests/cases`, which `test_cases.py` reviews.
"""

from datetime import date
from pathlib import Path

import pytest
from repositories import SMALL
from ruamel.yaml import YAML

from brimline.document import read
from brimline.document.meaning import Seal, fingerprint
from brimline.findings import Finding
from brimline.gate import Leaf, Snapshot, gate
from brimline.gate.snapshot import passes_for
from brimline.review.engine import review
from brimline.shelf import Settings, load_shelf, shelf_of
from brimline.shelf.register import write_register

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


def recorded(texts: dict[str, str], name: str, data: bytes) -> set[str]:
    """The rules of what a review finds in the collection's own files."""
    done = review(shelf_of(texts, TODAY, records={name: data}))
    assert done.refusals == ()
    return {one.rule for record in done.records for one in record.findings}


def register(code: str) -> bytes:
    """A register of all known formulas, and of one under a code that may be that of another."""
    seals = {}
    for text in KNOWN.values():
        document = read("a.formula", text.encode()).document
        assert document is not None
        seals[document.code] = Seal(document.code, fingerprint(document), "2026-01-01")
    return write_register({**seals, code: Seal(code, fingerprint(document), "2026-01-01")}.values())


def variance(line: str) -> tuple[dict[str, str], bytes]:
    """An adaptation closed with wax, which is unsafe, and a variance for it on the letter of a process authority."""
    text = SAMPLE.partition("\nevidence\n")[0].replace("standing  tested", "standing  adapted\nadapts    KV-101")
    text = text.replace("formula KV-101 ", "formula T-1 Waxed ").replace("lid        two-piece", "lid        wax")
    document = read("a.formula", text.encode()).document
    assert document is not None
    keys = (
        f"rule: jar/lid\n  formula: T-1\n  fingerprint: {fingerprint(document)}\n  reason: an example\n  role: curator"
    )
    return {**KNOWN, "a.formula": text}, f"- {keys}\n  {line}\n  evidence: {{letter: letter 14}}\n".encode()


def found(kind: str, section: str, text: str, folder: Path) -> set[str]:
    """What is found when an example is read as what it says it is."""
    if kind == "adaptation":
        adapted = SAMPLE.partition("\nevidence\n")[0].replace("standing  tested", f"standing  adapted\n{text}")
        code = next(line.split()[1] for line in SAMPLE.splitlines() if line.startswith("formula "))
        return rules({**KNOWN, "a.formula": adapted.replace(f"formula {code}", "formula T-1")})
    if kind == "sealed":
        return recorded(KNOWN, "register.json", register(text))
    if kind == "variance":
        texts, data = variance(text)
        return recorded(texts, "variances.yaml", data)
    if kind == "retired":
        stub = f"formula T-1 Old jam\nstanding  retired\nretired   2026-01-15, superseded\n{text}\n"
        return rules({**KNOWN, "a.formula": stub})
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


def requested(deeds: list[str]) -> set[str]:
    """The rules of what the gate finds in a request that does such deeds to the small collection."""
    base = Snapshot(
        {path: Leaf(text.encode("utf-8")) for path, text in SMALL.items() if path.endswith(".formula")},
        {name: Leaf(b"") for name in ("collection.yaml", "variances.yaml")}
        | {"register.json": Leaf(write_register([]))},
    )
    head = Snapshot(dict(base.formulas), dict(base.records), {}, {}, {})
    for deed in deeds:
        what, _, path = deed.rpartition(" ") if deed.startswith(("adds another", "changes")) else deed.partition(" ")
        if what == "changes" and path in base.records:
            head.records[path] = Leaf(b"# otherwise\n")
        elif what == "changes":
            old = base.formulas[path].data or b""
            head.formulas[path] = Leaf(old.replace(b"sugar, granulated", b"sugar, white"))
        elif path.startswith("a link "):
            name, _, target = path.removeprefix("a link ").partition(", which leads to ")
            head.links[name] = target
        elif what == "adds another repository":
            head.submodules[path] = "0123456789ab"
        elif passes_for(path):
            head.odd[path] = "is taken for another one on some computers"
        else:
            old = base.formulas["adapted/kv-201.formula"].data or b""
            head.formulas[path] = Leaf(old.replace(b"KV-201", b"KV-202"))
    return {one.rule for file in gate(base, head, base, TODAY).all for one in file.findings}


def reviewed(folder: Path) -> list[Finding]:
    """All findings and refusals of a folder."""
    done = review(load_shelf([str(folder)], TODAY))
    return [*done.refusals, *(one for formula in done.formulas for one in formula.findings)]


@pytest.mark.parametrize("rule", EXAMPLES)
def test_the_bad_example_is_found_and_the_good_one_is_not(rule: str, tmp_path: Path) -> None:
    one = EXAMPLES[rule]
    for side in ("bad", "good"):
        (tmp_path / side).mkdir()
        kind, text = one.get("as", "line"), one[side]["text"]
        is_request = kind == "request"
        seen = requested(text.splitlines()) if is_request else found(kind, one.get("in", ""), text, tmp_path / side)
        hit = rule in seen
        assert hit == (side == "bad"), side
        assert one[side]["shows"]
