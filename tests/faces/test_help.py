"""Help, version, reasons, completion: what is printed about the program itself."""

import re
from pathlib import Path

import pytest

from brimline.faces.commands import NAMES, commands
from brimline.faces.completion import SHELLS
from brimline.faces.scripts import script


def test_the_overview_lists_every_command_once_with_what_it_does(run) -> None:
    ran = run("--help")
    assert ran.status == 0
    for command in commands():
        assert len(re.findall(rf"(?m)^  {command.name}  +\S", ran.out)) == 1
        assert command.does.split()[-1] in ran.out
    assert run().status == 2


@pytest.mark.parametrize("name", NAMES)
def test_the_help_of_a_command_has_one_line_of_use_its_options_and_one_example(run, name: str) -> None:
    ran = run(name, "--help")
    command = next(one for one in commands() if one.name == name)
    assert ran.status == 0
    assert max(map(len, ran.out.splitlines())) <= 90
    assert ran.out.count("Example:") == 1
    assert ran.out.rstrip().splitlines()[-1].strip() == command.example
    assert command.example.startswith(f"brimline {name}")
    for option in command.options:
        assert f"  {option.name} {option.value}" in ran.out
        assert all(choice in ran.out for choice in option.choices)


def test_the_version_is_one_line_with_the_python(run) -> None:
    ran = run("--version")
    assert ran.status == 0
    assert re.fullmatch(r"brimline \d+\.\d+\.\d+\S*(, figures of [^,]+)?, Python \d+\.\d+\.\d+\S*\n", ran.out)


def test_every_rule_is_listed_and_has_a_page(run) -> None:
    from brimline.faces.why import all_reasons
    from brimline.rules import registered

    listed = run("why").out
    names = [reason.name for reason in all_reasons()]
    assert len(set(names)) == len(names)
    assert {rule.name for rule in registered()} <= set(names)
    for name in names:
        assert re.search(rf"(?m)^  {name} ", listed)
        page = run("why", name)
        assert page.status == 0
        assert page.out.startswith(f"{name}\n")


def test_a_rule_that_is_not_there_is_answered_with_the_nearest(run) -> None:
    ran = run("why", "writing/unti")
    assert (ran.status, ran.out) == (2, "")
    assert "did you mean writing/unit?" in ran.err


@pytest.mark.parametrize("shell", SHELLS)
def test_a_completion_script_knows_every_command_option_and_choice(run, shell: str) -> None:
    ran = run("completion", shell)
    assert ran.status == 0
    for command in commands():
        assert command.name in ran.out
        for option in command.options:
            bare = option.name.lstrip("-")
            assert re.search(rf"(--|-l ){bare}\b", ran.out)
            assert all(choice in ran.out for choice in option.choices)
    assert ran.out == script(shell, commands())


@pytest.mark.parametrize("shell", SHELLS)
def test_quotes_and_brackets_in_a_script_are_closed(shell: str) -> None:
    text = script(shell, commands())
    assert text.count('"') % 2 == 0
    assert text.count("{") == text.count("}")
    assert text.count("'") % 2 == 0


def test_a_clean_review_loads_nothing_heavy(collection: Path) -> None:
    code = (
        "import sys; from brimline.faces.cli import main; "
        f"status = main(['review', {str(collection)!r}, '--on', '2026-07-01']); "
        "print(status, sorted({'ruamel', 'jsonschema', 'pint', 'asyncio', 'multiprocessing', 'concurrent'} "
        "& {name.partition('.')[0] for name in sys.modules}), file=sys.stderr)"
    )
    import os
    import subprocess
    import sys

    linter = str(Path(__file__).resolve().parents[2] / "linter")
    ran = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        check=True,
        timeout=60,
        text=True,
        encoding="utf-8",
        env={"PYTHONPATH": linter, **os.environ},
    )
    assert ran.stderr == "0 []\n"
