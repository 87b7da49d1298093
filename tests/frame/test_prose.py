"""Rules that hold for the text of every file of the tree: what nobody outside could use, and what stands unfinished."""

import re
from pathlib import Path

import pytest

# The patterns are written so that none of them is found in this file.
ANYWHERE = {
    "an absolute path of one machine": re.compile(
        r"(?<![\w.])/(?:work|farm|tmp|root|home/\w+|Users/\w+)(?=/)|\b[A-Za-z]:\\Users\\", re.ASCII
    ),
    "the host of a package index": re.compile(
        r"\bpypi[.]org|python[h]osted|test[.]pypi|npm[j]s[.]|deb[.]debian|crates[.]io|anaconda[.]org"
    ),
    "a word from elsewhere": re.compile(r"\bshared[/]|trans[c]ript|seed docu[m]ent", re.IGNORECASE),
}
IN_CODE = {
    "unfinished": re.compile(r"\bTO[D]O\b|\bFIX[M]E\b|\bXX[X]\b|NotImplemented[E]rror"),
    "a test that may not run": re.compile(
        r"\bmark[.](?:skip|skipif|xfail)\b|\bpytest[.](?:skip|xfail|importorskip)\b|\bunittest[.]skip"
    ),
}
PLANTED = {
    "an absolute path of one machine": ["see /" + "work/notes", "'/" + "home/ann/x'", "C:" + "\\Users\\ann"],
    "the host of a package index": ["https://" + "pypi" + ".org/simple"],
    "a word from elsewhere": ["from shared" + "/design.md", "a Trans" + "cript"],
    "unfinished": ["# TO" + "DO: later", "raise NotImplemented" + "Error"],
    "a test that may not run": ["@pytest.mark" + ".skip", "pytest." + "importorskip('x')"],
}
LONGEST = 350
# What stands at the top besides dot-files, no more and no less.
TOP = {
    "README.md",
    "DEVELOPERS.md",
    "LICENSE",
    "pyproject.toml",
    "schema",
    "linter",
    "formulas",
    "tests",
    "ci",
}


@pytest.fixture(scope="module")
def texts(checkout: Path, files: list[str]) -> dict[str, str]:
    return {name: (checkout / name).read_text(encoding="utf-8", errors="replace") for name in files}


def offences(texts: dict[str, str], pattern: re.Pattern[str]) -> list[str]:
    """Each line in which the pattern is found, with its place."""
    return [
        f"{name}:{number}: {line.strip()[:100]}"
        for name, text in texts.items()
        for number, line in enumerate(text.splitlines(), 1)
        if pattern.search(line)
    ]


@pytest.mark.parametrize("what", ANYWHERE)
def test_no_file_holds(what: str, texts: dict[str, str]) -> None:
    assert offences(texts, ANYWHERE[what]) == []


@pytest.mark.parametrize("what", IN_CODE)
def test_no_code_holds(what: str, texts: dict[str, str]) -> None:
    code = {name: text for name, text in texts.items() if name.endswith((".py", ".pyi", ".lark"))}
    assert offences(code, IN_CODE[what]) == []


@pytest.mark.parametrize(("what", "line"), [(what, line) for what, lines in PLANTED.items() for line in lines])
def test_a_planted_line_is_found(what: str, line: str) -> None:
    assert offences({"a": line}, (ANYWHERE | IN_CODE)[what]) == [f"a:1: {line}"]


def test_modules_can_be_read_in_one_sitting(texts: dict[str, str]) -> None:
    written = (name for name in texts if name.startswith(("linter/", "ci/")) and name.endswith(".py"))
    lengths = {name: len(texts[name].splitlines()) for name in written if "/made/" not in name}
    assert {name: length for name, length in lengths.items() if length > LONGEST} == {}


def test_the_top_level_is_as_agreed(files: list[str]) -> None:
    top = {name.partition("/")[0] for name in files}
    assert {name for name in top if not name.startswith(".")} == TOP


def test_lines_end_in_one_way(checkout: Path, files: list[str]) -> None:
    assert [name for name in files if b"\r" in (checkout / name).read_bytes()] == []
