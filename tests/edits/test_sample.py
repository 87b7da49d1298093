"""The benchmark itself, on a sample with every row present."""

from pathlib import Path

from edit_bench import table
from edit_bench.cases import Case, cases, pool
from edit_bench.score import Score, score, scores

CHECKOUT = Path(__file__).resolve().parents[2]


def test_the_wanted_figures_are_reached_on_a_sample() -> None:
    done = list(scores(cases(pool(CHECKOUT), 400, 1)))
    wrong = "\n\n".join(table.shown(one) for one in done if table.is_miss(one))
    assert table.reached(done), wrong


def _score(level: str, *, found: bool = True, alarm: bool = False, unsure: bool = False) -> Score:
    case = Case(1, "x", "x", level, frozenset({"x"}), (), None, unsure, "a", {"a": ""})
    return Score(case, found, found, alarm, False, False, (), False, ())


def test_one_missed_unsafe_edit_is_one_too_many() -> None:
    good = [_score("unsafe") for _ in range(999)]
    assert table.reached(good)
    assert not table.reached([*good, _score("unsafe", found=False)])


def test_of_untested_edits_one_in_two_hundred_may_be_missed() -> None:
    missed = _score("untested", found=False)
    assert table.reached([_score("untested")] * 199 + [missed])
    assert not table.reached([_score("untested")] * 198 + [missed] * 2)


def test_of_harmless_edits_one_in_two_hundred_may_be_held_back() -> None:
    alarm = _score("silent", alarm=True)
    assert table.reached([_score("silent")] * 199 + [alarm])
    assert not table.reached([_score("silent")] * 198 + [alarm] * 2)
    assert table.reached([_score("silent")] * 9 + [_score("silent", alarm=True, unsure=True)])


def test_a_plain_copy_is_silent_and_one_without_acid_is_not() -> None:
    tested = next(one for one in pool(CHECKOUT) if one.sheet.code == "KV-128")
    adapted = tested.text.replace("formula KV-128", "formula ED-1").replace(
        "standing  tested", "standing  adapted\nadapts KV-128"
    )
    adapted = adapted[: adapted.index("evidence")] + "evidence\n  source Class notes\n  review-by 2028-06-30\n"
    sour = "  acid       1 cup                vinegar, cider, 5 %\n"
    assert sour in adapted
    for text, level in ((adapted, "silent"), (adapted.replace(sour, ""), "unsafe")):
        case = Case(1, "x", "x", level, frozenset(), (), None, False, "a", {"t": tested.text, "a": text})
        done = score(case)
        assert done.found, done.said
        assert not done.alarm, done.said
