"""A few batches weighed end to end, against arithmetic that can be followed by hand."""

import json
from pathlib import Path

import pytest

FRUIT = "fruit      5 1/2 cup   strawberries, crushed"
PECTIN = "pectin     1 box of 1 3/4 oz   pectin, regular powdered"
SUGAR = "sweetener  1400 g      sugar, granulated"
LEMON = "acid       2 tbsp      lemon juice, bottled"


def flat(text: str) -> str:
    return " ".join(text.split())


def test_masses_by_weight_are_exact_and_cups_are_intervals(weigh) -> None:
    found = weigh("fruit  1 kg  strawberries, crushed", SUGAR, PECTIN)
    assert found.total.exact
    # 1 3/4 oz is 49.61 g (avoirdupois ounce of 28.3495 g).
    assert float(found.total.low) == pytest.approx(2449.61, abs=0.01)
    cups = weigh(FRUIT, SUGAR).total
    assert cups.low < cups.high


def test_soluble_solids_follow_the_standard_of_identity(weigh) -> None:
    # Strawberry: factor 12.5 in 21 CFR 150.140, so 8 % (read); 1 kg of it and 1 kg of sugar hold 1,080 g.
    found = weigh("fruit  1 kg  strawberries, crushed", "sweetener  1 kg  sugar, granulated")
    assert found.solids.exact
    assert found.solids.low == 1080
    assert found.sugar.low == 1000
    assert found.sugar_share is not None
    assert found.sugar_share.low == found.sugar_share.high == pytest.approx(0.5)
    # Of the 2 kg some is seed and skin, so the liquid part holds a little more than 54 %.
    assert found.solids_share is not None
    assert 0.54 < found.solids_share.low < 0.56


def test_one_cup_weight_on_two_lines_is_one_unknown(weigh) -> None:
    once = weigh("fruit  1 kg  strawberries, crushed", "sweetener  5 cup  sugar, granulated")
    twice = weigh(
        "fruit  1 kg  strawberries, crushed",
        "sweetener  2 cup  sugar, granulated",
        "sweetener  3 cup  sugar, granulated",
    )
    assert (once.total, once.solids_share, once.sugar_share) == (twice.total, twice.solids_share, twice.sugar_share)


def test_no_batch_fills_more_than_all_that_is_in_the_pot(weigh) -> None:
    # An extraction table prints 7-8 half-pints of blackberry jelly from 4 cups of juice and 3 to 4 of sugar; with
    # nothing boiled off they fill 6.3 by the middle weights. The ceiling takes the heaviest cups.
    found = weigh(
        "juice  4 cup  blackberry juice", "sweetener  4 cup  sugar, granulated",
        kind="jelly", finish="gel point", jars="7 to 8 half-pint",
    )  # fmt: skip
    assert found.fill is not None
    assert found.fill.most is not None
    assert found.fill.beyond
    assert 6.3 <= found.fill.most <= 6.3 * 1.05
    assert not weigh(FRUIT, PECTIN, SUGAR).fill.beyond


def test_added_acid_is_counted_in_ml_grams_and_as_citric_acid(weigh) -> None:
    (acid,) = weigh(FRUIT, LEMON, PECTIN, SUGAR).acids
    assert float(acid.ml.low) == pytest.approx(29.57, abs=0.01)  # two tablespoons
    # 4.5 g in 100 g (21 CFR 146.114); 244 g a cup (SR28).
    assert acid.citric.low <= 244 / 8 * 0.045 <= acid.citric.high
    (vinegar,) = weigh("vegetable 1 kg onion, chopped", "acid 500 g white vinegar, 5 %", kind="pickle").acids
    # 25 g of acetic acid count as 25 / 0.938 g of citric acid.
    assert float(vinegar.citric.low) == pytest.approx(25 / 0.938, rel=0.001)


def test_acid_of_unstated_strength_has_no_figure(weigh) -> None:
    (vinegar,) = weigh("vegetable 1 kg onion, chopped", "acid 2 cup vinegar, home-made", kind="pickle").acids
    assert (vinegar.citric, vinegar.unknown) == (None, "its strength is not stated")


@pytest.mark.parametrize(
    ("take", "kind", "word", "why"),
    [
        ((FRUIT, PECTIN, SUGAR), "jam", "sets", "sour fruit"),
        ((FRUIT, LEMON, PECTIN, SUGAR), "jam", "doubtful", "bottled"),
        (("fruit 1 kg strawberries, crushed", "vegetable 200 g onion, chopped", SUGAR), "jam", "protects", "onion"),
        (("vegetable 1 kg onion, chopped", "acid 2 cup white vinegar, 5 %"), "relish", "protects", "a relish always"),
    ],
)
def test_the_acid_class_and_why(weigh, take: tuple[str, ...], kind: str, word: str, why: str) -> None:
    found = weigh(*take, kind=kind)
    assert found.acid_class == word
    assert why in found.acid_why


def test_gelled_and_pectin(weigh) -> None:
    assert (weigh(FRUIT, PECTIN, SUGAR).gelled, weigh(FRUIT, PECTIN, SUGAR).pectin) == (True, "pectin-powder")
    assert not weigh(FRUIT, "pectin 1 box of 1 3/4 oz low-sugar pectin", SUGAR).gelled


@pytest.mark.parametrize(
    ("jar", "at", "takes", "minutes"),
    [
        ("half-pint", 1000, "half-pint", 5),
        ("half-pint", 1001, "half-pint", 10),
        ("pint", 4200, "pint", 10),
        ("12 oz", 4200, "pint", 10),
        ("quart", 4200, "", None),
        ("pint", 6001, "pint", None),
    ],
)
def test_a_jar_takes_its_own_time_or_that_of_the_next_larger(weigh, jar, at, takes, minutes) -> None:
    (found,) = weigh(FRUIT, PECTIN, SUGAR, at=at, jar=jar).minutes
    assert (found.takes, found.minutes) == (takes, minutes)
    assert found.says == ("" if minutes else "no tested time")


def test_a_line_without_a_figure_is_said(weigh) -> None:
    found = weigh(FRUIT, SUGAR, "liquid some water")
    assert found.unweighed == ("water",)
    assert (found.solids_share, found.fill.most) == (None, None)


def test_the_gel_point_has_the_published_table_first(weigh) -> None:
    gel = weigh("juice 4 cup grape juice", SUGAR, kind="jelly", finish="gel point", at=4000).gel
    assert gel.used
    assert gel.published.low == gel.published.high == 212
    assert gel.model == pytest.approx(212.7, abs=0.05)  # computed elsewhere with a reference library
    high = weigh(FRUIT, SUGAR, at=12_000).gel
    assert (high.published, high.model, high.used) == (None, None, False)


def test_the_screen(run, formulas: Path) -> None:
    status, out, err = run("weigh", formulas / "tested" / "kv-101.formula", "--at", "4,200 ft")
    assert (status, err) == (0, "")
    assert max(map(len, out.splitlines())) <= 80
    for part in ("KV-101", "half-pint at 4,200 ft, boiling-water: 10 min", "211 to 212 F as published", "botulism",
                 "Not tested"):  # fmt: skip
        assert part in flat(out)


def test_no_screen_gives_a_verdict_or_a_ph(run, formulas: Path) -> None:
    for file in sorted(formulas.glob("*/*.formula"))[::5]:
        status, out, _ = run("weigh", file)
        assert status == 0
        # The title is the author's.
        words = flat(out.partition("\n")[2]).lower().split()
        assert not {"safe", "safe.", "safe,", "safely", "ph", "ph,"} & set(words)


def test_json_says_the_same(run, formulas: Path) -> None:
    file = formulas / "tested" / "kv-101.formula"
    status, out, _ = run("weigh", file, "--as", "json", "--at", "1280 m", "--jar", "quart")
    read = json.loads(out)
    assert (status, read["report"], read["code"], read["pectin"]) == (0, "weighing", "KV-101", "pectin-powder")
    assert read["altitude_ft"] == pytest.approx(1280 / 0.3048, abs=0.1)
    assert [one["says"] for one in read["minutes"]] == ["no tested time"]
    assert read["lines"][0]["g"]["low"] < read["lines"][0]["g"]["high"]


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--at", "high up"), "4,200 ft or 1280 m"),
        (("--at", "4200"), "4,200 ft or 1280 m"),
        (("--jar", "pnit"), "did you mean pint?"),
        (("--jar", "3 kg"), "pint"),
    ],
)
def test_what_cannot_be_meant_is_refused(run, formulas: Path, words: tuple[str, ...], says: str) -> None:
    status, out, err = run("weigh", formulas / "tested" / "kv-101.formula", *words)
    assert (status, out) == (2, "")
    assert says in flat(err)


def test_one_formula_at_a_time(run, formulas: Path, tmp_path: Path) -> None:
    assert "one formula" in flat(run("weigh", formulas / "tested")[2])
    assert run("weigh", tmp_path / "none.formula")[0] == 2


def test_what_could_not_be_read_is_said_first(run, tmp_path: Path) -> None:
    file = tmp_path / "xx-1.formula"
    head = "formula XX-1 Something\nproduct   jam\nstanding  draft\n\ntake\n"
    file.write_text(f"{head}  fruit  1 kg  strawberries, crushed\n  fruit  2 cupz  plums\n", "utf-8")
    status, out, _ = run("weigh", file)
    assert status == 0
    assert "1 thing in it could not be read" in flat(out)
    file.write_text(f"{head}  fruit  2 cupz  plums\n", "utf-8")
    status, out, err = run("weigh", file)
    assert (status, out) == (2, "")
    assert "nothing to weigh" in flat(err)
