"""The gate on real repositories: whatever shape history has, only what the request brings holds it back."""

import os
import sys
from pathlib import Path

import pytest
from repositories import LESS_SUGAR, SMALL, Room, room, rules, said, starter

from brimline.gate import Trouble, revisions

ADAPTED = "adapted/kv-201.formula"
TESTED = "tested/kv-102.formula"
CUT = (ADAPTED, "untested", "sugar/cut/sugar-cut-gelled")
UNCUT_SUGAR = ("  sweetener  4 cup ", "  sweetener  3 cup ")


@pytest.fixture
def made(tmp_path: Path) -> Room:
    """A repository with the small collection on `main` and a branch `request` checked out."""
    one = room(tmp_path / "a room")
    one.branch("request")
    return one


def cut(text: str) -> str:
    changed = text.replace(*LESS_SUGAR)
    assert changed != text
    return changed


@pytest.mark.parametrize("head", ["HEAD", ""])
def test_a_cut_in_an_adaptation_is_new(made: Room, head: str) -> None:
    made.write({ADAPTED: cut(SMALL[ADAPTED])})
    if head:
        made.commit()
    answer = made.gate(head=head)
    assert CUT in said(answer)
    assert answer.held_back == 1
    assert answer.changed == (ADAPTED,)


def test_without_a_change_nothing_is_new(made: Room) -> None:
    answer = made.gate()
    assert (said(answer), answer.held_back, answer.changed, answer.known) == ([], 0, (), 0)


def test_layout_comments_and_line_ends_are_no_news(made: Room) -> None:
    text = SMALL[ADAPTED]
    made.commit(
        {ADAPTED: "# a remark\n" + text.replace("make\n", "\n\nmake\n"), TESTED: SMALL[TESTED].replace("\n", "\r\n")}
    )
    answer = made.gate()
    assert said(answer) == []
    assert answer.changed == (ADAPTED,)


def test_what_stood_there_before_does_not_hold_back(tmp_path: Path) -> None:
    made = room(tmp_path, {**SMALL, ADAPTED: cut(SMALL[ADAPTED])})
    made.branch("request")
    made.commit({ADAPTED: cut(SMALL[ADAPTED]).replace("Sort and wash", "Sort, rinse and wash")})
    answer = made.gate()
    assert (said(answer), answer.held_back) == ([], 0)
    assert answer.known == 2


def test_a_known_finding_with_other_figures_holds_back(tmp_path: Path) -> None:
    made = room(tmp_path, {**SMALL, ADAPTED: cut(SMALL[ADAPTED])})
    made.branch("request")
    made.commit({ADAPTED: cut(SMALL[ADAPTED]).replace("1 cup                sugar", "1/2 cup              sugar")})
    answer = made.gate()
    assert CUT in said(answer)
    assert any("with other figures" in finding.says for one in answer.formulas for finding in one.findings)


def test_what_is_mended_is_counted(tmp_path: Path) -> None:
    made = room(tmp_path, {**SMALL, ADAPTED: cut(SMALL[ADAPTED])})
    made.branch("request")
    made.commit({ADAPTED: SMALL[ADAPTED]})
    answer = made.gate()
    assert (said(answer), answer.mended) == ([], 2)


def test_a_draft_that_is_called_adapted_brings_its_findings(tmp_path: Path) -> None:
    draft = cut(SMALL[ADAPTED]).replace("standing  adapted\nadapts    KV-102", "standing  draft")
    made = room(tmp_path, {**SMALL, ADAPTED: draft})
    made.branch("request")
    made.commit({ADAPTED: cut(SMALL[ADAPTED])})
    assert CUT in said(made.gate())


def test_a_formula_moved_out_of_the_lessons_brings_its_findings(tmp_path: Path) -> None:
    lesson = starter("classroom/kv-301")
    made = room(tmp_path, {**SMALL, **lesson})
    made.branch("request")
    made.git("mv", "classroom/kv-301.formula", "adapted/kv-301.formula")
    made.commit()
    answer = made.gate()
    assert ("adapted/kv-301.formula", "untested", "sugar/cut/sugar-cut-gelled") in said(answer)
    assert answer.renamed == (("classroom/kv-301.formula", "adapted/kv-301.formula"),)


def test_a_changed_lesson_is_named_and_not_reviewed(tmp_path: Path) -> None:
    lesson = starter("classroom/kv-301")
    made = room(tmp_path, {**SMALL, **lesson})
    made.branch("request")
    made.commit({"classroom/kv-301.formula": lesson["classroom/kv-301.formula"].replace("2 cup", "1 cup")})
    answer = made.gate()
    assert (said(answer), answer.aside) == ([], ("classroom/kv-301.formula",))


# Tested formulas


def test_a_changed_tested_formula_is_a_finding_and_its_adaptations_are_measured_both_ways(made: Room) -> None:
    made.commit({TESTED: SMALL[TESTED].replace(*UNCUT_SUGAR)})
    answer = made.gate()
    assert (TESTED, "untested", "gate/tested") in said(answer)
    # Beside the changed tested formula two cups of honey are too many; beside the one that was tested they are not.
    assert (ADAPTED, "untested", "sugar/honey/honey-over-half") in said(answer)
    assert answer.dependents == (ADAPTED,)


def test_both_changed_alike_is_measured_by_what_was_tested(made: Room) -> None:
    made.commit({TESTED: SMALL[TESTED].replace(*UNCUT_SUGAR), ADAPTED: SMALL[ADAPTED].replace("2 cup  ", "1 1/2 cup")})
    answer = made.gate()
    assert {TESTED, ADAPTED} == {path for path, _, _ in said(answer)}
    assert CUT in said(answer)
    assert (ADAPTED, "untested", "gate/together") in said(answer)
    found = [one for formula in answer.formulas for one in formula.findings if one.rule == "sugar/cut"]
    assert any("as it was before this change" in one.says for one in found)


def test_a_tested_formula_that_only_looks_different_is_no_finding(made: Room) -> None:
    made.commit({TESTED: "# words\n" + SMALL[TESTED].replace("  fruit      4 cup  ", "  fruit   4 cups ")})
    assert said(made.gate()) == []


def test_a_removed_tested_formula_is_a_finding_and_leaves_its_adaptation_without_evidence(made: Room) -> None:
    made.commit({TESTED: None})
    answer = made.gate()
    assert (TESTED, "untested", "gate/tested") in said(answer)
    assert (ADAPTED, "unreadable", "evidence/tested/tested-missing") in said(answer)
    assert answer.removed == (TESTED,)


def test_a_removed_adaptation_is_told_and_does_not_hold_back(made: Room) -> None:
    made.commit({ADAPTED: None})
    answer = made.gate()
    assert (said(answer), answer.removed) == ([], (ADAPTED,))


def test_a_new_formula_called_tested_is_a_finding(made: Room) -> None:
    made.commit(starter("tested/kv-103"))
    assert said(made.gate()) == [("tested/kv-103.formula", "untested", "gate/tested")]


def test_a_tested_formula_made_adapted_or_retired_is_a_finding(made: Room) -> None:
    made.commit({TESTED: SMALL[TESTED].replace("standing  tested", "standing  draft")})
    answer = made.gate()
    assert (TESTED, "untested", "gate/tested") in said(answer)
    assert ADAPTED in {path for path, _, _ in said(answer)}


# Names and places


def test_a_renamed_formula_keeps_what_was_known(tmp_path: Path) -> None:
    made = room(tmp_path, {**SMALL, ADAPTED: cut(SMALL[ADAPTED])})
    made.branch("request")
    made.git("mv", ADAPTED, "adapted/honey.formula")
    made.git("mv", TESTED, "tested/other.formula")
    made.commit()
    answer = made.gate()
    assert said(answer) == []
    assert answer.renamed == ((ADAPTED, "adapted/honey.formula"), (TESTED, "tested/other.formula"))
    assert (answer.changed, answer.removed) == ((), ())


def test_two_formulas_that_change_places_are_no_news(made: Room) -> None:
    made.commit({ADAPTED: SMALL[TESTED], TESTED: SMALL[ADAPTED]})
    assert said(made.gate()) == []


def test_a_second_formula_of_the_same_code_is_new_for_both(made: Room) -> None:
    made.commit({"adapted/copy.formula": SMALL[ADAPTED]})
    assert [(path, rule) for path, _, rule in said(made.gate())] == [
        ("adapted/copy.formula", "writing/code"),
        (ADAPTED, "writing/code"),
    ]


def test_a_name_that_differs_only_in_capitals_is_new(made: Room) -> None:
    blob = made.git("hash-object", "-w", "--stdin", given=SMALL[ADAPTED].replace("KV-201", "KV-299").encode())
    made.git("update-index", "--add", "--cacheinfo", f"100644,{blob},adapted/KV-201.formula")
    made.git("commit", "-q", "-m", "twins")
    assert ("writing/name",) in {(rule,) for _, _, rule in said(made.gate())}


@pytest.mark.parametrize("folder", [".", "formulas", "formulas/adapted"])
def test_the_collection_may_lie_in_a_folder(tmp_path: Path, folder: str) -> None:
    files = {f"formulas/{path}": text for path, text in SMALL.items()} | {"docs/notes.txt": "notes"}
    made = room(tmp_path, files)
    made.branch("request")
    made.commit({f"formulas/{ADAPTED}": cut(SMALL[ADAPTED]), "docs/notes.txt": "other notes"})
    answer = made.gate(folder=folder)
    path = f"formulas/{ADAPTED}" if folder == "." else ADAPTED
    assert {one for one, _, rule in said(answer) if rule.startswith("sugar/cut")} == {path}


def test_a_folder_named_by_mistake_does_not_pass_for_a_request_without_changes(tmp_path: Path) -> None:
    made = room(tmp_path, {f"formulas/{path}": text for path, text in SMALL.items()} | {"docs/notes.txt": "notes"})
    for head in ("HEAD", ""):
        (refusal,) = made.gate(folder="docs", head=head).refusals
        assert (refusal.path, refusal.reason) == ("docs", "holds no formula on either side")


def test_formulas_of_two_collections_do_not_meet(tmp_path: Path) -> None:
    files = {f"{name}/{path}": text for name in ("east", "west") for path, text in SMALL.items()}
    made = room(tmp_path, files)
    made.branch("request")
    made.commit({f"west/{TESTED}": SMALL[TESTED].replace(*UNCUT_SUGAR)})
    assert {path.partition("/")[0] for path, _, _ in said(made.gate())} == {"west"}


if sys.platform == "linux":  # other systems refuse such names on disk

    def test_paths_that_are_not_utf_8(made: Room) -> None:
        name = os.fsdecode(b"adapted/k\xff.formula")
        made.commit({name: cut(SMALL[ADAPTED]).replace("KV-201", "KV-299")})
        for head in ("HEAD", ""):
            found = said(made.gate(head=head))
            assert (name, "form", "writing/name") in found
            assert (name, "untested", "sugar/cut/sugar-cut-gelled") in found


def test_a_path_that_is_not_utf_8_in_the_objects_alone(made: Room) -> None:
    blob = made.git("hash-object", "-w", "--stdin", given=SMALL[ADAPTED].replace("KV-201", "KV-299").encode())
    tree = made.git("mktree", "-z", given=f"100644 blob {blob}\tk".encode() + b"\xff.formula\0")
    commit = made.git("commit-tree", tree, "-p", "main", "-m", "odd")
    assert ("k\udcff.formula", "form", "writing/name") in said(made.gate(head=commit))


def test_a_submodule_is_named_and_not_entered(made: Room, tmp_path: Path) -> None:
    other = room(tmp_path / "other")
    made.git("submodule", "add", "-q", str(other.path), "guest")
    made.commit()
    for head in ("HEAD", ""):
        answer = made.gate(head=head)
        assert said(answer) == [("guest", "untested", "gate/submodule")]
        assert answer.changed == ()
    made.git("branch", "-f", "main")
    assert said(made.gate()) == []


def test_a_repository_inside_that_is_not_recorded_is_not_entered(made: Room) -> None:
    room(made.path / "inside")
    assert said(made.gate(head="")) == [("inside", "untested", "gate/submodule")]


# History


def test_what_the_base_did_meanwhile_is_not_blamed_on_the_request(made: Room) -> None:
    made.commit({ADAPTED: SMALL[ADAPTED].replace("Sort and wash", "Sort, rinse and wash")})
    made.git("checkout", "-q", "main")
    made.commit({"tested/kv-101.formula": None, TESTED: SMALL[TESTED].replace(*UNCUT_SUGAR)})
    made.git("checkout", "-q", "request")
    assert said(made.gate()) == []


def test_a_merge_of_the_base_brings_nothing_new(made: Room) -> None:
    made.commit({ADAPTED: cut(SMALL[ADAPTED])})
    made.git("checkout", "-q", "main")
    made.commit({"tested/kv-101.formula": SMALL["tested/kv-101.formula"].replace("8 1/2 cup", "7 cup")})
    made.git("checkout", "-q", "request")
    made.git("merge", "-q", "--no-edit", "main")
    answer = made.gate()
    assert answer.changed == (ADAPTED,)
    assert {path for path, _, _ in said(answer)} == {ADAPTED}


def test_the_merge_commit_that_a_forge_makes(made: Room) -> None:
    made.commit({ADAPTED: cut(SMALL[ADAPTED])})
    made.git("checkout", "-q", "--detach", "main")
    made.git("merge", "-q", "--no-ff", "--no-edit", "request")
    assert CUT in said(made.gate())


def test_a_rebased_branch(made: Room) -> None:
    made.commit({ADAPTED: cut(SMALL[ADAPTED])})
    made.git("checkout", "-q", "main")
    made.commit({"tested/kv-101.formula": None})
    made.git("checkout", "-q", "request")
    made.git("rebase", "-q", "main")
    answer = made.gate()
    assert {path for path, _, _ in said(answer)} == {ADAPTED}


@pytest.mark.parametrize("base", ["main", "refs/heads/main", "HEAD~1", "v1"])
def test_a_detached_head_and_every_way_to_name_the_base(made: Room, base: str) -> None:
    made.git("tag", "-a", "-m", "one", "v1", "main")
    commit = made.commit({ADAPTED: cut(SMALL[ADAPTED])})
    made.git("checkout", "-q", "--detach", commit)
    assert CUT in said(made.gate(base, ""))
    assert CUT in said(made.gate(base, commit))


def test_a_fork(made: Room, tmp_path: Path) -> None:
    fork = Room(tmp_path / "fork")
    made.git("clone", "-q", str(made.path), str(fork.path))
    fork.git("checkout", "-q", "-b", "mine", "origin/main")
    fork.commit({ADAPTED: cut(SMALL[ADAPTED])})
    made.git("fetch", "-q", str(fork.path), "mine:refs/requests/1")
    assert CUT in said(made.gate(head="refs/requests/1"))


def test_branches_that_crossed_have_two_commits_in_common(made: Room) -> None:
    first = made.commit({"tested/kv-101.formula": SMALL["tested/kv-101.formula"] + "# one\n"})
    made.git("checkout", "-q", "main")
    second = made.commit(
        {"tested/kv-119.formula": SMALL["tested/kv-119.formula"] + "# two\n", ADAPTED: cut(SMALL[ADAPTED])}
    )
    made.git("merge", "-q", "--no-edit", first)
    made.git("checkout", "-q", "request")
    made.git("merge", "-q", "--no-edit", second)
    assert len(revisions(made.path, "main", "request").bases) == 2
    answer = made.gate()
    # One of the two does not have the cut, so that it may have come in on this side.
    assert CUT in said(answer)
    assert any("crossed" in note for note in answer.notes)


def shallow(made: Room, path: Path, depth: int) -> Room:
    made.git("clone", "-q", f"--depth={depth}", "--no-single-branch", made.path.as_uri(), str(path))
    return Room(path)


def test_a_shallow_clone_without_the_history_in_common_says_what_to_fetch(made: Room, tmp_path: Path) -> None:
    made.commit({ADAPTED: cut(SMALL[ADAPTED])})
    made.git("checkout", "-q", "main")
    made.commit({"tested/kv-101.formula": None})
    clone = shallow(made, tmp_path / "shallow", 1)
    with pytest.raises(Trouble, match="no commit in common") as trouble:
        clone.gate("origin/main", "origin/request")
    assert "shallow" in trouble.value.do
    assert "--unshallow" in trouble.value.do
    with pytest.raises(Trouble, match="no commit") as trouble:
        clone.gate("HEAD~5")
    assert "shallow" in trouble.value.do


def test_a_shallow_clone_that_holds_enough_is_used_and_said(made: Room, tmp_path: Path) -> None:
    made.git("checkout", "-q", "-B", "main", made.commit(words="older"))
    made.branch("newer")
    made.commit({ADAPTED: cut(SMALL[ADAPTED])})
    clone = shallow(made, tmp_path / "shallow", 2)
    answer = clone.gate("origin/main", "origin/newer")
    assert CUT in said(answer)
    assert any("shallow" in note for note in answer.notes)


def test_a_clone_without_blobs_fetches_nothing(made: Room, tmp_path: Path) -> None:
    made.commit({ADAPTED: cut(SMALL[ADAPTED])})
    made.git("config", "uploadpack.allowFilter", "true")
    clone = Room(tmp_path / "partial")
    made.git("clone", "-q", "--filter=blob:none", "--no-checkout", made.path.as_uri(), str(clone.path))
    with pytest.raises(Trouble, match="git has not all") as trouble:
        clone.gate("origin/main", "origin/request")
    assert "partial" in trouble.value.do


def test_a_bare_repository_is_refused(made: Room, tmp_path: Path) -> None:
    bare = Room(tmp_path / "bare.git")
    made.git("clone", "-q", "--bare", str(made.path), str(bare.path))
    with pytest.raises(Trouble, match="repository"):
        bare.gate("main", "request")


def test_a_second_working_tree(made: Room, tmp_path: Path) -> None:
    made.commit({ADAPTED: cut(SMALL[ADAPTED])})
    made.git("worktree", "add", "-q", "--detach", str(tmp_path / "second"), "request")
    assert CUT in said(Room(tmp_path / "second").gate(head=""))


if hasattr(os, "geteuid") and os.geteuid() == 0:  # only root can give files away

    def test_a_clone_of_another_user(made: Room, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
        os.chown(made.path, 12345, 12345)
        os.chown(made.path / ".git", 12345, 12345)
        monkeypatch.setenv("GIT_CONFIG_GLOBAL", str(tmp_path / "settings"))
        with pytest.raises(Trouble, match="another user") as trouble:
            made.gate()
        assert "safe.directory" in trouble.value.do
        (tmp_path / "settings").write_text(f"[safe]\n\tdirectory = {made.path}\n", "utf-8")
        assert said(made.gate()) == []


def test_unrelated_histories(made: Room) -> None:
    made.git("checkout", "-q", "--orphan", "alone")
    made.commit(words="a root of its own")
    with pytest.raises(Trouble, match="no commit in common"):
        made.gate()


def test_no_repository_and_no_commit(tmp_path: Path) -> None:
    with pytest.raises(Trouble, match="no git repository"):
        Room(tmp_path).gate()
    Room(tmp_path).git("init", "-q")
    with pytest.raises(Trouble, match="no commit"):
        Room(tmp_path).gate("HEAD")
    with pytest.raises(Trouble, match="is not a folder"):
        Room(tmp_path).gate(folder="nowhere")


def test_a_first_request_brings_a_whole_collection(tmp_path: Path) -> None:
    made = room(tmp_path, {"README": "nothing yet"})
    made.branch("request")
    made.commit(SMALL)
    answer = made.gate()
    assert rules(answer) == {"gate/settings", "gate/together", "gate/tested"}
    assert len(answer.changed) == len(SMALL) - 1


def test_settings_are_those_of_the_tip_and_formulas_those_in_common(made: Room) -> None:
    made.commit({ADAPTED: cut(SMALL[ADAPTED])})
    made.git("checkout", "-q", "main")
    made.commit({"collection.yaml": "name: A program\nset-aside: adapted\n"})
    made.git("checkout", "-q", "request")
    answer = made.gate()
    assert (said(answer), answer.aside) == ([], (ADAPTED,))


def test_settings_of_the_base_that_cannot_be_read_stop_the_run(tmp_path: Path) -> None:
    made = room(tmp_path, {**SMALL, "collection.yaml": "hold-back: [\n"})
    answer = made.gate(head="")
    assert [one.path for one in answer.refusals] == ["collection.yaml"]
