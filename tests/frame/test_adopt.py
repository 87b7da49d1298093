"""The examples a collection can adopt: each fits the schema of its host, asks for no more than it needs, and runs."""

import os
import re
import shlex
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from brimline.faces.commands import command
from brimline.faces.declare import parse

ADOPT = ("ci", "adopt")
# By the names the schemas have in the package that carries them.
SCHEMAS = {
    "github-workflow.yml": "vendor.github-workflows",
    "gitlab-pipeline.yml": "vendor.gitlab-ci",
    "issue-form.yml": "vendor.github-issue-forms",
}


def plain() -> dict[str, str]:
    """The variables without those by which a hook that runs these tests would lead git to its own repository."""
    return {name: value for name, value in os.environ.items() if not name.startswith("GIT_")}


def read(path: Path) -> Any:
    return YAML(typ="safe", pure=True).load(path.read_text(encoding="utf-8"))


def checker(schema: str, file: Path) -> subprocess.CompletedProcess[str]:
    asked = [sys.executable, "-m", "check_jsonschema", "--builtin-schema", schema, str(file)]
    return subprocess.run(asked, capture_output=True, check=False, text=True, encoding="utf-8", timeout=120)


@pytest.mark.parametrize("name", SCHEMAS)
def test_each_example_fits_the_schema_of_its_host(checkout: Path, tmp_path: Path, name: str) -> None:
    file = checkout.joinpath(*ADOPT, name)
    checked = checker(SCHEMAS[name], file)
    assert checked.returncode == 0, checked.stdout + checked.stderr
    broken = tmp_path / name
    text = file.read_text(encoding="utf-8")
    broken.write_text(re.sub(r"(?m)^(jobs|body|  script):", r"\1s:", text), encoding="utf-8")
    assert checker(SCHEMAS[name], broken).returncode == 1


def test_every_job_of_the_workflow_says_how_long_it_may_take(checkout: Path) -> None:
    checked = checker("custom.github-workflows-require-timeout", checkout.joinpath(*ADOPT, "github-workflow.yml"))
    assert checked.returncode == 0, checked.stdout + checked.stderr


@pytest.fixture
def workflow(checkout: Path) -> Any:
    return read(checkout.joinpath(*ADOPT, "github-workflow.yml"))


def scripts(checkout: Path) -> Iterator[tuple[str, str]]:
    jobs = read(checkout.joinpath(*ADOPT, "github-workflow.yml"))["jobs"]
    for job in jobs.values():
        yield from (("github", step["run"]) for step in job["steps"])
    yield from (
        ("gitlab", line) for line in read(checkout.joinpath(*ADOPT, "gitlab-pipeline.yml"))["formulas"]["script"]
    )


def test_a_request_may_read_and_nothing_else(workflow: Any) -> None:
    assert workflow["permissions"] == {}
    assert set(workflow["on"]) == {"pull_request", "push"}
    request, collection = workflow["jobs"]["request"], workflow["jobs"]["collection"]
    assert request["permissions"] == {"contents": "read"}
    assert collection["permissions"] == {"contents": "read", "security-events": "write"}
    assert collection["if"] == "github.event_name == 'push'"


def test_no_secret_is_in_any_example(checkout: Path) -> None:
    for name in SCHEMAS:
        text = checkout.joinpath(*ADOPT, name).read_text(encoding="utf-8")
        assert not re.search(r"secrets\s*[.\[]|pull_request_target|workflow_run|id_tokens|_authToken", text)
    request = read(checkout.joinpath(*ADOPT, "github-workflow.yml"))["jobs"]["request"]
    assert "token" not in str(request)


def test_actions_are_pinned_by_the_full_hash_of_a_commit(workflow: Any) -> None:
    used = [step["uses"] for job in workflow["jobs"].values() for step in job["steps"] if "uses" in step]
    assert all(re.fullmatch(r"[\w./-]+@[0-9a-f]{40}", each) for each in used)
    assert not any(job["runs-on"].endswith("-latest") for job in workflow["jobs"].values())


def test_no_text_of_a_request_is_written_into_a_script(checkout: Path) -> None:
    for _, script in scripts(checkout):
        assert "${{" not in script
        # Every value that a stranger can choose stands in quotes.
        bare = re.sub(r'"[^"]*"', "", script)
        assert not re.search(r"\$(?:BASE|FROM|COMMIT|REF|ADDRESS|COLLECTION|LOCK|CI_\w+)", bare), script


def test_no_module_of_a_request_is_run(checkout: Path) -> None:
    # With -m alone Python looks for modules in the working folder first, and that is the checkout.
    for _, script in scripts(checkout):
        assert not re.search(r"python3?\"? -m", script)
        for install in re.findall(r"pip install.*", script):
            assert {"--require-hashes", "--only-binary"} <= set(install.split())


def test_the_request_does_not_choose_what_is_installed(checkout: Path) -> None:
    for host in ("github", "gitlab"):
        whole = "\n".join(script for name, script in scripts(checkout) if name == host)
        before, _, after = whole.partition("pip install")
        assert 'git show "refs/remotes/origin/base:$LOCK"' in before
        assert "lock.txt" in after.split("\n")[0]


def test_the_commands_in_the_examples_can_be_run(checkout: Path) -> None:
    found = 0
    for _, script in scripts(checkout):
        for line in script.splitlines():
            match = re.search(r'bin/brimline" ((?:gate|review) .*?)(?: >>? | \|\| |$)', line)
            if match:
                name, *words = shlex.split(match[1])
                parse(command(name), words)
                found += 1
    assert found == 3
    (chosen,) = [script for host, script in scripts(checkout) if host == "gitlab"]
    for name, rest in re.findall(r"set -- (gate|review) (.*)", chosen):
        for form in re.findall(r'"\$@" (--as .*?)(?: > | \|\||$)', chosen, re.MULTILINE):
            parse(command(name), [*shlex.split(rest), *shlex.split(form)])


def test_the_form_asks_for_every_fact_a_comparison_needs(checkout: Path) -> None:
    body = read(checkout.joinpath(*ADOPT, "issue-form.yml"))["body"]
    needed = {one["id"] for one in body if one.get("validations", {}).get("required")}
    assert {"source", "changes", "take", "make", "jar", "process"} <= needed
    said = " ".join(str(body[0]["attributes"]["value"]).split())
    for part in ("cannot make an untested formula safe", "botulism", "refrigerate or freeze"):
        assert part in said


# The runner of commit hooks, run for real on the manifest at the top of the checkout.
class TestHooks:
    @pytest.fixture
    def repository(self, checkout: Path, tmp_path: Path) -> Path:
        """A repository with two formulas of the demonstration and the hooks of the manifest.

        The hooks' own language would make an environment from the network; here they are told to use this one.
        """
        place = tmp_path / "my repository"
        for name in ("tested/kv-102.formula", "classroom/kv-301.formula"):
            target = place / "formulas" / name.replace("classroom", "adapted")
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes((checkout / "formulas" / name).read_bytes())
        (place / "formulas" / "collection.yaml").write_text("name: Kestrel Valley\n", encoding="utf-8")
        hooks = read(checkout / ".pre-commit-hooks.yaml")
        for hook in hooks:
            program, rest = hook["entry"].split(" ", 1)
            assert program == "brimline"
            hook["entry"] = f'"{Path(sys.executable).as_posix()}" -m brimline {rest}'
            hook["language"] = "system"
        with (place / ".pre-commit-config.yaml").open("w", encoding="utf-8") as file:
            YAML().dump({"repos": [{"repo": "local", "hooks": hooks}]}, file)
        subprocess.run(["git", "init", "--quiet", "."], cwd=place, check=True, env=plain())
        subprocess.run(["git", "add", "."], cwd=place, check=True, env=plain())
        return place

    @pytest.fixture
    def hook(self, repository: Path, checkout: Path, tmp_path: Path) -> Any:
        def call(name: str, *files: str) -> subprocess.CompletedProcess[str]:
            chosen = ["--files", *files] if files else ["--all-files"]
            return subprocess.run(
                [sys.executable, "-m", "pre_commit", "run", name, *chosen, "--color", "never"],
                cwd=repository,
                env={
                    **plain(),
                    "PYTHONPATH": str(checkout / "linter"),
                    "PRE_COMMIT_HOME": str(tmp_path / "kept"),
                },
                capture_output=True,
                check=False,
                text=True,
                encoding="utf-8",
                timeout=120,
            )

        return call

    def test_the_runner_accepts_the_manifest(self, checkout: Path, tmp_path: Path) -> None:
        asked = [sys.executable, "-m", "pre_commit", "validate-manifest", str(checkout / ".pre-commit-hooks.yaml")]
        around = {**plain(), "PRE_COMMIT_HOME": str(tmp_path)}
        ran = subprocess.run(asked, capture_output=True, check=False, text=True, env=around, timeout=120)
        assert ran.returncode == 0, ran.stdout

    def test_a_tested_formula_passes_and_an_adaptation_is_held_back(self, hook: Any) -> None:
        good = hook("brimline-review", "formulas/tested/kv-102.formula")
        assert good.returncode == 0, good.stdout + good.stderr
        bad = hook("brimline-review", "formulas/adapted/kv-301.formula")
        assert bad.returncode == 1, bad.stdout + bad.stderr
        assert "sugar/cut" in bad.stdout

    def test_the_whole_collection_is_reviewed_whatever_changes(self, hook: Any, checkout: Path) -> None:
        manifest = {one["id"]: one for one in read(checkout / ".pre-commit-hooks.yaml")}
        # Without it the runner would add the names of the files that changed, in several calls.
        assert manifest["brimline-review-collection"]["pass_filenames"] is False
        whole = hook("brimline-review-collection", "formulas/tested/kv-102.formula")
        assert whole.returncode == 1
        assert "KV-301" in whole.stdout

    def test_neatening_leaves_a_neat_formula_alone(self, hook: Any, repository: Path) -> None:
        assert hook("brimline-neaten", "formulas/tested/kv-102.formula").returncode == 0
        untidy = repository / "formulas" / "tested" / "kv-102.formula"
        text = untidy.read_text(encoding="utf-8")
        untidy.write_text(text.replace("take\n", "take   \n"), encoding="utf-8")
        subprocess.run(["git", "add", "."], cwd=repository, check=True, env=plain())
        ran = hook("brimline-neaten", "formulas/tested/kv-102.formula")
        assert ran.returncode == 1
        assert untidy.read_text(encoding="utf-8") == text

    def test_other_files_concern_no_hook(self, hook: Any) -> None:
        assert "no files to check" in hook("brimline-review", "README.md").stdout
